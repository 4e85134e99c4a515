import { describe, expect, it } from 'vitest';
import { findSpecies, SPECIES } from '../../../src/core/science/species.ts';
import { number, reference, text } from './reference.ts';

describe('species', () => {
  it('holds species.csv, 13 of them (tags as there)', () => {
    const rows = reference('species');
    expect(SPECIES).toHaveLength(13);
    expect(rows).toHaveLength(13);
    for (const row of rows) {
      const found = SPECIES.find(({ latin }) => latin === text(row, 'species'));
      if (found === undefined) throw new Error(text(row, 'species'));
      expect(found.common).toBe(text(row, 'common_name'));
      expect(found.grains).toBe(text(row, 'grains'));
      expect(found.incubationC).toEqual({
        low: number(row, 'incubation_low_C'),
        likely: number(row, 'incubation_default_C'),
        high: number(row, 'incubation_high_C'),
      });
      expect(found.days.join('-')).toBe(text(row, 'days_on_grain'));
      if (!text(row, 'source').includes('READ')) {
        expect([found.temperatureTag, found.daysTag]).toEqual(['memory', 'memory']);
      }
    }
  });

  it('is found by either name, whatever the case', () => {
    expect(findSpecies(' Oyster')?.latin).toBe('Pleurotus ostreatus');
    expect(findSpecies('lentinula EDODES')?.common).toBe('shiitake');
    expect(findSpecies('pholiota microspora')?.common).toBe('nameko');
    expect(findSpecies('truffle')).toBeUndefined();
  });
});
