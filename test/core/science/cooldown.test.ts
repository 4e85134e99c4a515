import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as cooldown from '../../../src/core/science/cooldown.ts';
import { isNoAnswer } from '../../../src/core/science/limits.ts';
import { boilingC, chamberC, gaugeKPaFor } from '../../../src/core/science/steam.ts';
import { kPaToPsi, psiToKPa } from '../../../src/core/science/units.ts';
import { number, reference } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

const capacityKJK = cooldown.heatCapacityKJK({ potKg: 5.5, waterKg: 2.5, loadKg: 4.4 });
const tauS = cooldown.timeConstantS(capacityKJK, 3.5);
const startC = chamberC({ gaugeKPa: psiToKPa(15), atmosphereKPa: 101.325 });
const newton = { startC, ambientC: 22, tauS, law: 'newton' } as const;
const natural = { ...newton, law: 'natural' } as const;

function seconds(answer: number | cooldown.CoolingFit | { readonly kind: string }): number {
  if (typeof answer === 'number') return answer;
  throw new Error(`expected a number, got ${JSON.stringify(answer)}`);
}

describe('cool-down', () => {
  it('worked example of the science notes, f: 29.14 kJ/K, tau 138.76 min, zero gauge at 33.06 min (COMPUTED)', () => {
    near('cool-down examples', capacityKJK, 29.14, 'capacity');
    near('cool-down examples', tauS / 60, 138.76, 'tau');
    near('cool-down examples', seconds(cooldown.coolingS(newton, 99.974)) / 60, 33.06, 'zero, Newton');
    near('cool-down examples', seconds(cooldown.coolingS(natural, 99.974)) / 60, 34.07, 'zero, natural');
    near('cool-down examples', seconds(cooldown.coolingS(newton, 30)) / 60, 349, '30 C, Newton');
    near('cool-down examples', seconds(cooldown.coolingS(natural, 30)) / 60, 486, '30 C, natural');
  });

  it('two readings: 15 then 10 psi after 10 min give tau 166.8 min, zero at 39.76 min (COMPUTED)', () => {
    const secondC = chamberC({ gaugeKPa: psiToKPa(10), atmosphereKPa: 101.325 });
    const fit = cooldown.fitCooling({ firstC: startC, secondC, secondsApart: 600, ambientC: 22 });
    if (isNoAnswer(fit)) throw new Error(fit.reason);
    near('cool-down examples', 60 / fit.newton.tauS, 0.0059935, 'k');
    near('cool-down examples', fit.newton.tauS / 60, 166.8, 'fitted tau');
    near(
      'cool-down examples',
      seconds(cooldown.coolingS(fit.newton, boilingC(101.325))) / 60,
      39.76,
      'fitted zero',
    );
    expect(fit.weak).toBe(false);
    const band = cooldown.fittedCoolingS(fit, boilingC(101.325));
    if (isNoAnswer(band)) throw new Error(band.reason);
    expect(band.low).toBeLessThan(band.likely);
    expect(band.high).toBeGreaterThan(band.likely);
    expect(cooldown.coolingC(fit.natural, 600)).toBeCloseTo(secondC, 9);
  });

  it('agrees with cooldown_reference.csv, both laws (COMPUTED)', () => {
    for (const row of reference('cooldown_reference')) {
      const minutes = number(row, 'time_min');
      for (const cooling of [newton, natural]) {
        const celsius = cooldown.coolingC(cooling, minutes * 60);
        const where = `${cooling.law} ${minutes} min`;
        near('cooldown_reference.csv temperature', celsius, number(row, `T_${cooling.law}_C`), where);
        const psi = kPaToPsi(gaugeKPaFor({ celsius, atmosphereKPa: 101.325 }));
        near('cooldown_reference.csv gauge', psi, number(row, `gauge_psi_${cooling.law}`), where);
      }
    }
  });

  it('the band before any reading holds the published 30 to 45 min of a heavy pot (READ)', () => {
    const band = cooldown.vesselCoolingS({ startC, ambientC: 22, capacityKJK }, boilingC(101.325));
    if (isNoAnswer(band)) throw new Error(band.reason);
    expect(band.low / 60).toBeLessThan(30);
    expect(band.high / 60).toBeGreaterThan(39);
  });

  it('time and temperature are inverse, and cooler takes longer (properties)', () => {
    const law = fc.constantFrom('newton' as const, 'natural' as const);
    const above = fc.double({ min: 0.5, max: 98, noNaN: true });
    fc.assert(
      fc.property(law, above, fc.double({ min: 600, max: 50_000, noNaN: true }), (kind, over, tau) => {
        const cooling = { startC: 121, ambientC: 22, tauS: tau, law: kind };
        const when = seconds(cooldown.coolingS(cooling, 22 + over));
        expect(cooldown.coolingC(cooling, when)).toBeCloseTo(22 + over, 8);
        expect(seconds(cooldown.coolingS(cooling, 22 + over - 0.1))).toBeGreaterThan(when);
      }),
    );
  });

  it('says never, and why, instead of guessing', () => {
    expect(cooldown.coolingS(newton, 22)).toEqual({
      kind: 'no answer',
      reason: 'It never cools to 22 C in a room at 22 C.',
    });
    expect(cooldown.coolingS(newton, 130)).toBe(0);
    const fitted = (secondC: number) =>
      cooldown.fitCooling({ firstC: 120, secondC, secondsApart: 600, ambientC: 22 });
    expect(fitted(120)).toMatchObject({ kind: 'no answer' });
    expect(fitted(20)).toMatchObject({ kind: 'no answer' });
    expect(fitted(118)).toMatchObject({ weak: true });
    expect(() => cooldown.coolingC(newton, -1)).toThrow('Time must be 0 or more s, not -1.');
    expect(() => cooldown.timeConstantS(29, 0)).toThrow(RangeError);
  });
});
