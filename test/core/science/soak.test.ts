import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { moistureByWeighing } from '../../../src/core/science/hydration.ts';
import * as soak from '../../../src/core/science/soak.ts';
import { number, reference, text } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

describe('soak', () => {
  it('Peleg agrees with hydration_peleg.csv (READ ends, COMPUTED between)', () => {
    for (const row of reference('hydration_peleg')) {
      const grain = text(row, 'grain') === 'sorghum' ? 'sorghum' : 'teff';
      const waterC = number(row, 'T_C');
      const perUnit = text(row, 'time_unit') === 'h' ? 1 : 60;
      const where = `${grain} ${waterC} C`;
      const { k1, k2 } = soak.pelegConstants(grain, waterC);
      near('hydration_peleg.csv', k1 * perUnit, number(row, 'k1'), where);
      near('hydration_peleg.csv', k2, number(row, 'k2'), where);
      const storedMoisture = 0.12;
      for (const hours of [2, 12, 24]) {
        const wet = soak.pelegMoisture(grain, { storedMoisture, waterC, seconds: hours * 3600 });
        const gain = (wet / (1 - wet) - 0.12 / 0.88) * 100;
        near('hydration_peleg.csv', gain, number(row, `gain_at_${hours}h_pct_db`), where);
        if (hours === 12)
          near('hydration_peleg.csv', wet * 100, number(row, 'moisture_wb_at_12h_pct'), where);
      }
      const most = soak.pelegCeiling(grain, storedMoisture, waterC) * 100;
      near('hydration_peleg.csv', most, number(row, 'max_moisture_wb_pct'), where);
    }
  });

  it('k1 of sorghum falls with 47.9 kJ/mol between its ends (COMPUTED)', () => {
    expect(soak.pelegActivationKJMol('sorghum')).toBeCloseTo(47.9, 1);
  });

  it('wheat by Becker: D(22 C) 2.34e-8 cm2/s, 29 and 34 % after 6 and 12 h (COMPUTED, science notes h)', () => {
    expect(soak.beckerDiffusivityCm2S(22) * 1e8).toBeCloseTo(2.34, 1);
    for (const [hours, percent] of [
      [6, 29],
      [12, 34],
    ] as const) {
      const wet = soak.beckerMoisture({ storedMoisture: 0.12, waterC: 22, seconds: hours * 3600 });
      if (typeof wet !== 'number') throw new Error(wet.reason);
      near('soak examples', wet * 100, percent, `${hours} h`);
    }
  });

  it('says where its curves end, and borrows only with a mark', () => {
    const day = { storedMoisture: 0.12, waterC: 22, seconds: 86_400 };
    expect(soak.beckerMoisture(day)).toMatchObject({ kind: 'no answer' });
    expect(soak.soakMoisture('rye', { ...day, seconds: 3600 })).toMatchObject({ borrowed: true });
    expect(soak.soakMoisture('wheat', { ...day, seconds: 3600 })).toMatchObject({ borrowed: false });
    expect(soak.soakMoisture('millet', day)).toMatchObject({ borrowed: true });
    expect(soak.soakMoisture('sorghum', { ...day, waterC: 70 })).toMatchObject({ kind: 'no answer' });
    expect(() => soak.pelegConstants('teff', 5)).toThrow('Soak water for teff must be between 20 and 50 C');
  });

  it('longer and warmer soaks are wetter, below the ceiling; a weighing gives the moisture back', () => {
    const hours = fc.double({ min: 0, max: 48, noNaN: true });
    fc.assert(
      fc.property(hours, fc.double({ min: 10, max: 49, noNaN: true }), (h, waterC) => {
        const at = (more: number, warmer: number) =>
          soak.pelegMoisture('sorghum', {
            storedMoisture: 0.12,
            waterC: waterC + warmer,
            seconds: (h + more) * 3600,
          });
        expect(at(0.1, 0)).toBeGreaterThan(at(0, 0));
        expect(at(0.1, 1)).toBeGreaterThan(at(0.1, 0));
        expect(at(0, 0)).toBeLessThan(soak.pelegCeiling('sorghum', 0.12, waterC));
        const drainedKg = (2 * 0.88) / (1 - at(0, 0));
        expect(moistureByWeighing({ storedKg: 2, storedMoisture: 0.12, drainedKg })).toBeCloseTo(
          at(0, 0),
          10,
        );
      }),
    );
  });
});
