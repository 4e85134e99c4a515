import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isNoAnswer } from '../../../src/core/science/limits.ts';
import * as water from '../../../src/core/science/water.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

const rate = (powerW: number, efficiency: number, celsius: number, lossWK = 4.5): number => {
  const answer = water.steamRateGMin({ powerW, efficiency, lossWK, celsius, ambientC: 22 });
  if (typeof answer === 'number') return answer;
  throw new Error(answer.reason);
};

describe('water', () => {
  it('vent: 26.1, 22.6 and 35.3 g/min on electric, gas and induction (COMPUTED, science notes g)', () => {
    near('water examples', rate(1800, 0.74, 100), 26.1, 'electric');
    near('water examples', rate(3000, 0.4, 100), 22.6, 'gas');
    near('water examples', rate(2000, 0.84, 100), 35.3, 'induction');
  });

  it('hold: 650 W give 5.58 g/min, 0.50 kg in 90 and 0.84 kg in 150 min; full on 24 g/min (COMPUTED)', () => {
    near('water examples', rate(650, 1, 121), 5.58, 'gentle');
    near('water examples', (rate(650, 1, 121) * 90) / 1000, 0.5, '90 min');
    near('water examples', (rate(650, 1, 121) * 150) / 1000, 0.84, '150 min');
    near('water examples', rate(1332, 1, 121), 24.2, 'full on');
  });

  it('0.60 kg condense on 4.4 kg of load, 24 g fill 21 L, 3 in of a 30 cm pot are 5.4 L (COMPUTED)', () => {
    near('water examples', water.condensedKg(4.4, 25, 121), 0.6, 'condensed');
    near('water examples', water.steamHeldG(21, 121), 24.2, 'held');
    near('water examples', water.waterForDepthL(0.0762, 0.3), 5.4, 'depth');
  });

  it('loads the use, the reserve and never less than the maker says', () => {
    const plan = {
      ventS: 600,
      holdS: 5400,
      ventGMin: { low: 20, likely: 26, high: 35 },
      holdGMin: { low: 4, likely: 6, high: 25 },
    };
    // By hand: 0.26 + 0.54 + 1.
    expect(water.waterBudget({ ...plan, makersMinimumL: 1 }).loadL).toBeCloseTo(1.8, 12);
    expect(water.waterBudget({ ...plan, makersMinimumL: 3 }).loadL).toBe(3);
    // By hand: 0.35 + 2.25 + 1.
    expect(water.waterBudget({ ...plan, makersMinimumL: 1 }).cautiousL).toBeCloseTo(3.6, 12);
    // By hand: 1.5 kg at 6 g/min last 250 min.
    expect(water.boilDryS(1.5, plan.holdGMin)).toEqual({ low: 3600, likely: 15000, high: 22500 });
  });

  it('more power and better burners make more steam; heating up is quicker (properties)', () => {
    const power = fc.double({ min: 900, max: 4000, noNaN: true });
    fc.assert(
      fc.property(power, fc.constantFrom<water.Burner>('gas', 'electric', 'induction'), (powerW, burner) => {
        const band = water.ventRateGMin({ burner, powerW: powerW + 1500, ambientC: 21, boilsC: 97.8 });
        if (isNoAnswer(band)) throw new Error(band.reason);
        expect(band.low).toBeLessThan(band.likely);
        expect(band.likely).toBeLessThan(band.high);
        const heat = { capacityKJK: 29, fromC: 21, toC: 97.8, efficiency: 0.6, lossWK: 4.5, ambientC: 21 };
        const slow = water.heatUpS({ ...heat, powerW });
        const fast = water.heatUpS({ ...heat, powerW: powerW + 10 });
        if (isNoAnswer(slow) || isNoAnswer(fast)) throw new Error('this burner should reach 97.8 C');
        expect(fast).toBeLessThan(slow);
        // Without losses the time would be C dT / (eta P): a lower bound from the energy balance.
        expect(slow).toBeGreaterThan((29_000 * 76.8) / (powerW * 0.6));
      }),
    );
  });

  it('says when a burner cannot do it', () => {
    const weak = { powerW: 400, efficiency: 0.5, lossWK: 4.5, celsius: 121, ambientC: 22 };
    expect(water.steamRateGMin(weak)).toMatchObject({
      kind: 'no answer',
      reason: '200 W entering the pot do not cover its losses at 121 C: no steam, and it cools.',
    });
    const heat = {
      capacityKJK: 29,
      fromC: 21,
      toC: 121,
      efficiency: 0.5,
      powerW: 400,
      lossWK: 4.5,
      ambientC: 21,
    };
    expect(water.heatUpS(heat)).toMatchObject({ reason: 'This burner heats the pot to 65 C at most.' });
    expect(() => water.steamRateGMin({ ...weak, efficiency: 74 })).toThrow(
      'Efficiency must be between 0 and 1',
    );
  });
});
