import { describe, expect, it } from 'vitest';
import { askWords } from '../../../src/core/words/asks.ts';
import { stoveAdvice } from '../../../src/core/words/estimate-advice.ts';
import type { Telling } from '../../../src/core/words/telling.ts';
import { estimateSentences, numberRows, rowWords } from '../../../src/core/words/estimate.ts';
import { planOf } from '../../../src/core/plan/plan.ts';
import { climbMs } from '../../../src/core/estimate/gauge-points.ts';
import { waterLeft } from '../../../src/core/estimate/water.ts';
import { known, shippedRecipes } from '../../help/plan-kit.ts';
import { estimateAt } from '../../../src/core/estimate/estimate.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { Drive } from '../../help/batch-drive.ts';
import { sampleHeader } from '../../help/batch-kit.ts';

const telling: Telling = {
  units: { mass: 'kg', volume: 'L', pressure: 'psi', temperature: 'C', length: 'cm' },
  clock: () => '23:42',
};
const holding = () => new Drive(sampleHeader({ soak: false })).toAsk('climbing').wait(8 * MINUTE);

describe('what goes before every other advice', () => {
  it('a cooker that is dry by the estimate: heat off', () => {
    const drive = holding();
    expect(stoveAdvice(drive.batch, telling) ?? '').not.toContain('dry');
    drive.wait(12 * HOUR);
    expect(stoveAdvice(drive.batch, telling)).toContain('heat off now');
  });

  it('a thermometer far under the estimate is believed, not the estimate', () => {
    const drive = holding()
      .answer('at')
      .wait(40 * MINUTE);
    const measured = (celsius: number) => drive.tries({ type: 'measured', of: 'centre', celsius }, 0);
    expect(measured(20)).toBeNull();
    expect(stoveAdvice(drive.batch, telling)).toContain('Your thermometer says 20');
    drive.wait(31 * MINUTE);
    expect(stoveAdvice(drive.batch, telling) ?? '').not.toContain('thermometer');
  });

  it('a thermometer that agreed is not contradicted by the heat that came after it', () => {
    const drive = holding()
      .answer('at')
      .wait(5 * MINUTE);
    const celsius = Math.round(estimateAt(drive.batch)?.centreC.likely ?? Number.NaN);
    expect(drive.tries({ type: 'measured', of: 'centre', celsius }, 0)).toBeNull();
    for (let minutes = 0; minutes < 29; minutes += 1) {
      drive.wait(MINUTE);
      expect(stoveAdvice(drive.batch, telling) ?? '').not.toContain('thermometer');
    }
  });
});

describe('water on a high flame', () => {
  it('may be gone before the end of a hold that became longer: said in one sentence', () => {
    const drive = holding()
      .answer('at')
      .wait(20 * MINUTE)
      .gap(97 * MINUTE)
      .answer('unknown')
      .answer('at');
    expect(waterLeft(drive.batch)?.litres.low).toBeLessThan(0.1);
    expect(waterLeft(drive.batch)?.litres.likely).toBeGreaterThan(0.5);
    expect(stoveAdvice(drive.batch, telling)).toMatch(/water may be gone already, before the end; [^.]+\.$/);
  });

  it.each(shippedRecipes.map(recipe => [recipe.name, recipe] as const))(
    '%s as planned never says so',
    (_, recipe) => {
      for (const change of [{}, { burner: 'gas', burnerW: 3500 }, { altitudeM: 2000 }] as const) {
        const plan = planOf(recipe, known(change), []);
        const base = sampleHeader();
        const drive = new Drive({ ...base, recipe, kitchen: plan.kitchen, numbers: plan.numbers }).toAsk(
          'climbing',
        );
        drive.wait(climbMs(drive.batch).high).answer('at');
        for (let moves = 0; drive.batch.step === 'hold' && moves < 200; moves += 1) {
          expect(stoveAdvice(drive.batch, telling) ?? '').not.toContain('water may be gone');
          drive.wait(4 * MINUTE);
          if (moves % 5 === 4 && drive.batch.step === 'hold') drive.answer('at');
        }
        expect(drive.batch.step).toBe('heat-off');
      }
    },
  );

  it('reported low is shown as low, not as the litres of the estimate', () => {
    const drive = holding()
      .answer('at')
      .wait(40 * MINUTE);
    const shown = () => {
      const estimate = estimateAt(drive.batch) ?? expect.fail();
      return numberRows(drive.batch, estimate, telling).map(rowWords);
    };
    // Few rows have room at 60x18: the water is among the first three.
    expect(shown().slice(0, 3).join()).toMatch(/water [\d.]+ L/);
    drive.trouble('water-low');
    expect(shown()).toContain('water low (you saw it)');
  });
});

describe('words of the estimate', () => {
  it('say what is left of tough spores in words, with the band, and never as a bare logarithm', () => {
    const drive = holding()
      .answer('at')
      .wait(89 * MINUTE);
    const estimate = estimateAt(drive.batch) ?? expect.fail();
    const said = (low: number, likely: number, high: number) =>
      estimateSentences(drive.batch, { ...estimate, logs: { low, likely, high } }, telling).at(-1);
    expect(said(0.1, 2, 14)).toBe(
      'Of tough spores, which die more slowly below 121 °C, one in 100 may be left so far; at worst most, at best fewer than one in a million.',
    );
  });
});

describe('a real weight', () => {
  const header = sampleHeader({ soak: false });
  const { numbers } = header;
  const words = (share: number) => {
    const drive = new Drive({ ...header, numbers: { ...numbers, potTakesKg: numbers.dryKg } }).toAsk(
      'dry-weight',
    );
    drive.answer('weighed', drive.batch.dryKg * share);
    return askWords(drive.batch, drive.batch.ask, telling);
  };
  it('changes water and portions in proportion (dry-matter balance)', () => {
    expect(words(1)).not.toContain('take');
    expect(words(0.5)).toContain(`take ${Number((numbers.simmerWaterL / 2).toFixed(2))} L`);
    expect(words(1.5)).toContain('fill 3 bags, not 2. The pot takes them in 2 parts.');
  });
});
