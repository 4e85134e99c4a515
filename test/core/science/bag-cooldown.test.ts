import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bagInAirS, bagInPotS } from '../../../src/core/science/bag-cooldown.ts';
import type { Body } from '../../../src/core/science/conduction.ts';
import { type Band, isNoAnswer, type NoAnswer } from '../../../src/core/science/limits.ts';
import { finiteVolume } from '../../help/finite-volume.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

const PLUMP: Body = { shape: 'brick', halfLengthM: 0.09, halfWidthM: 0.055, halfThicknessM: 0.04 };
const LARGE: Body = { shape: 'brick', halfLengthM: 0.1, halfWidthM: 0.065, halfThicknessM: 0.07 };

const hours = (answer: Band | NoAnswer): Band => {
  if (isNoAnswer(answer)) throw new Error(answer.reason);
  return { low: answer.low / 3600, likely: answer.likely / 3600, high: answer.high / 3600 };
};

describe('bag cool-down', () => {
  it('in open air to 30 C: 4.5 to 7 h for 1.1 kg, 7 to 11 h for 2.5 kg (COMPUTED, science notes f)', () => {
    for (const [body, low, high] of [
      [PLUMP, 4.5, 7],
      [LARGE, 7, 11],
    ] as const) {
      const band = hours(bagInAirS({ body, startC: 100, ambientC: 22, targetC: 30 }));
      near('bag in air (science notes f)', band.low, low, 'low');
      near('bag in air (science notes f)', band.high, high, 'high');
      expect(band.likely).toBeGreaterThan(band.low);
      expect(band.likely).toBeLessThan(band.high);
    }
  });

  it('the slow end agrees with finite volumes', () => {
    const band = hours(bagInAirS({ body: PLUMP, startC: 100, ambientC: 22, targetC: 30 }));
    const [celsius = Number.NaN] = finiteVolume(
      {
        half: [0.09, 0.055, 0.04],
        round: false,
        diffusivityM2S: 1.3e-7,
        hOverK: 6 / (1.3e-7 * 700 * 2930),
        startC: 100,
        chamber: [
          [0, 22],
          [1e6, 22],
        ],
      },
      [band.high * 3600],
    );
    near('finite volumes', celsius, 30, 'bag in air');
  });

  it('in the shut pot it takes a night: the bag lags the vessel (plan 8 to 16 h)', () => {
    const bag = { body: PLUMP, startC: 121, ambientC: 22, targetC: 30 };
    const pot = (lossWK: number, law: 'newton' | 'natural') => ({
      startC: 121,
      ambientC: 22,
      tauS: 29_140 / lossWK,
      law,
    });
    const band = hours(
      bagInPotS(bag, { low: pot(5, 'newton'), likely: pot(3.5, 'newton'), high: pot(3, 'natural') }),
    );
    // 349 min is the vessel's own time to 30 C at 3.5 W/K (COMPUTED, science notes f).
    expect(band.likely).toBeGreaterThan(349 / 60);
    expect(band.low).toBeGreaterThan(6);
    expect(band.high).toBeLessThan(18);
    expect(band.likely).toBeGreaterThan(8);
    expect(band.likely).toBeLessThan(16);
  });

  it('thicker bags and warmer rooms take longer (properties)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.03, max: 0.07, noNaN: true }),
        fc.double({ min: 15, max: 25, noNaN: true }),
        (half, room) => {
          const at = (halfThicknessM: number, ambientC: number) =>
            hours(bagInAirS({ body: { ...PLUMP, halfThicknessM }, startC: 100, ambientC, targetC: 30 }))
              .likely;
          expect(at(half * 1.1, room)).toBeGreaterThan(at(half, room));
          expect(at(half, room + 1)).toBeGreaterThan(at(half, room));
        },
      ),
      { numRuns: 10 },
    );
  });

  it('says never when the room is too warm', () => {
    expect(bagInAirS({ body: PLUMP, startC: 100, ambientC: 31, targetC: 30 })).toEqual({
      kind: 'no answer',
      reason: 'It never cools to 30 C in a room at 31 C.',
    });
    expect(bagInAirS({ body: PLUMP, startC: 28, ambientC: 22, targetC: 30 })).toEqual({
      low: 0,
      likely: 0,
      high: 0,
    });
  });
});
