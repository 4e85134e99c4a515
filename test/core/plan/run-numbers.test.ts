import { describe, expect, it } from 'vitest';
import { STEP_IDS } from '../../../src/core/batch/steps.ts';
import { DEFAULT_KITCHEN, type Kitchen } from '../../../src/core/kitchen.ts';
import { gaugeTarget } from '../../../src/core/plan/gauge-target.ts';
import { runNumbers } from '../../../src/core/plan/run-numbers.ts';
import type { Recipe } from '../../../src/core/recipe/recipe.ts';
import { sampleRecipe } from '../../help/batch-kit.ts';
import { number, reference } from '../science/reference.ts';

const PSI_KPA = 6.894757;
const roomy: Kitchen = { ...DEFAULT_KITCHEN, markedMaxKPa: 200, workingKPa: 200 };
const targetKPaFor = (recipe: Recipe, kitchen: Kitchen) => gaugeTarget(recipe, kitchen).targetKPa;
const hot: Recipe = { ...sampleRecipe(), target: { by: 'temperature', celsius: 121.1 } };

describe('gauge target', () => {
  // standard_atmosphere.csv: COMPUTED with the 1976 standard atmosphere and IAPWS-IF97 (python3-iapws 1.5.2).
  it.each(reference('standard_atmosphere').map(row => [number(row, 'altitude_m'), row] as const))(
    'for 121.1 C at %i m agrees with the standard atmosphere and IF97',
    (altitudeM, row) => {
      const kPa = targetKPaFor(hot, { ...roomy, altitudeM });
      expect(Math.abs(kPa - number(row, 'gauge_kPa_for_121_1C'))).toBeLessThan(0.05);
    },
  );

  it('is what the recipe asks for when it asks for pressure, wherever the kitchen is', () => {
    for (const altitudeM of [0, 640, 2000])
      expect(targetKPaFor(sampleRecipe(), { ...roomy, altitudeM })).toBe(103);
  });

  it('never goes above what the vessel is marked for, nor above what its weight holds', () => {
    expect(targetKPaFor(hot, { ...roomy, altitudeM: 2000, markedMaxKPa: 110 })).toBe(110);
    const weight = {
      ...DEFAULT_KITCHEN,
      altitudeM: 2000,
      gauge: 'weight',
      workingKPa: 10 * PSI_KPA,
    } as const;
    expect(targetKPaFor(hot, weight)).toBeCloseTo(68.95, 2);
  });

  it('by a weight short of the target, the chamber stays cooler and says so', () => {
    const weight = { ...DEFAULT_KITCHEN, altitudeM: 0, gauge: 'weight', workingKPa: 10 * PSI_KPA } as const;
    const row = reference('standard_atmosphere').find(each => number(each, 'altitude_m') === 0);
    expect(runNumbers(hot, weight).targetC).toBeCloseTo(number(row ?? {}, 'T_at_10psig_C'), 1);
  });
});

describe('grain', () => {
  // Dry-matter balance: 1000 g at 12 % wet basis become 1692.3 g at 48 % (COMPUTED, science notes h).
  it('dry and hydrated weight keep the dry matter', () => {
    const recipe = sampleRecipe({ loads: [1] });
    const one = { ...recipe, containers: { ...recipe.containers, fillKg: 1.6923 } };
    const numbers = runNumbers(one, DEFAULT_KITCHEN);
    expect(numbers.hydratedKg).toBe(1.6923);
    expect(numbers.dryKg).toBeCloseTo(1, 4);
    expect(numbers.simmerWaterL).toBeCloseTo(2.5, 3);
  });
});

describe('lock', () => {
  it('is never under the published 45 min and 2 min more', () => {
    expect(runNumbers(sampleRecipe({ loads: [1] }), DEFAULT_KITCHEN).pressureLockS).toBeGreaterThanOrEqual(
      47 * 60,
    );
  });

  it('is never shorter than its pressure part, whatever the recipe says about cooling', () => {
    const numbers = runNumbers({ ...sampleRecipe(), coolS: 60 }, DEFAULT_KITCHEN);
    expect(numbers.coolS).toBeGreaterThanOrEqual(numbers.pressureLockS);
  });
});

describe('numbers of a whole batch', () => {
  const kitchens: readonly Kitchen[] = [
    DEFAULT_KITCHEN,
    { ...DEFAULT_KITCHEN, altitudeM: 0, burner: 'induction', burnerW: 1800 },
    { ...DEFAULT_KITCHEN, altitudeM: 2500, stationKPa: 75, minimumWaterL: 3 },
  ];
  const recipes = [
    ['one bag', sampleRecipe({ loads: [1] })],
    ['six bags', sampleRecipe({ loads: [6] })],
    ['eight jars', sampleRecipe({ jars: true, loads: [8] })],
    ['no soak, sealed after', sampleRecipe({ soak: false, seal: 'after', loads: [3] })],
  ] as const;

  it.each(recipes)('are finite, ordered and complete: %s', (_, recipe) => {
    for (const kitchen of kitchens) {
      const numbers = runNumbers(recipe, kitchen);
      expect(numbers.loads.reduce((sum, count) => sum + count, 0)).toBe(recipe.containers.count);
      expect(numbers.cookerWaterL).toBeGreaterThanOrEqual(kitchen.minimumWaterL);
      expect(numbers.mostWaterL).toBeGreaterThanOrEqual(numbers.cookerWaterL);
      expect(numbers.targetC).toBeGreaterThan(numbers.boilC);
      expect(Object.keys(numbers.lengths).sort()).toEqual([...STEP_IDS].sort());
      for (const [step, { lowS, likelyS, highS }] of Object.entries(numbers.lengths)) {
        expect(lowS, step).toBeGreaterThanOrEqual(0);
        expect(likelyS, step).toBeGreaterThanOrEqual(lowS);
        expect(highS, step).toBeGreaterThanOrEqual(likelyS);
        expect(Number.isFinite(highS), step).toBe(true);
      }
    }
  });

  it('a longer hold takes the water for it', () => {
    const recipe = sampleRecipe();
    const longer = runNumbers({ ...recipe, holdS: 5 * 3600 }, DEFAULT_KITCHEN);
    expect(longer.holdS).toBeGreaterThanOrEqual(5 * 3600);
    expect(longer.cookerWaterL).toBeGreaterThan(runNumbers(recipe, DEFAULT_KITCHEN).cookerWaterL);
  });

  it('refuse a kitchen that is nowhere on earth', () => {
    expect(() => runNumbers(sampleRecipe(), { ...DEFAULT_KITCHEN, altitudeM: 50_000 })).toThrow(RangeError);
  });
});
