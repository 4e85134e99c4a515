import { describe, expect, it } from 'vitest';
import { STEP_IDS } from '../../../src/core/batch/steps.ts';
import { DEFAULT_KITCHEN, type Kitchen } from '../../../src/core/kitchen.ts';
import { containersPerLoad, splitLoads } from '../../../src/core/plan/fit.ts';
import { runNumbers, targetKPaFor } from '../../../src/core/plan/run-numbers.ts';
import { pressureLockS, roomS, zeroGaugeS } from '../../../src/core/plan/shut-time.ts';
import type { Recipe } from '../../../src/core/recipe/recipe.ts';
import { sampleRecipe } from '../../help/batch-kit.ts';
import { number, reference } from '../science/reference.ts';

const PSI_KPA = 6.894757;
const roomy: Kitchen = { ...DEFAULT_KITCHEN, markedMaxKPa: 200, workingKPa: 200 };
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
  // cooldown_reference.csv, COMPUTED: 5.5 kg vessel, 2.5 kg water, 4.4 kg load, 3.5 W/K, 22 C, 15 psig at sea
  // level; natural convection: at boiling point after 34.07 min, at 30 C after 486 min.
  const vessel = {
    kitchen: { ...DEFAULT_KITCHEN, altitudeM: 0, roomC: 22, cookerMassKg: 5.5 },
    atmosphereKPa: 101.325,
    targetKPa: 15 * PSI_KPA,
    waterKg: 2.5,
    loadKg: 4.4,
  };

  it('agrees with the worked cool-down', () => {
    expect(zeroGaugeS(vessel) / 60).toBeCloseTo(34.07, 1);
    expect(Math.abs(roomS(vessel) / 60 - 486)).toBeLessThan(1);
  });

  it('is the slow end of that, and never under the published 45 min and 2 min more', () => {
    expect(pressureLockS(vessel)).toBeGreaterThan(34.07 * 1.4 * 60);
    const small = { ...vessel, waterKg: 1, loadKg: 0.5, kitchen: { ...vessel.kitchen, cookerMassKg: 2 } };
    expect(pressureLockS(small)).toBe(47 * 60);
  });

  it('gets longer with a heavier load, a hotter vessel and a warmer kitchen', () => {
    const least = pressureLockS(vessel);
    expect(pressureLockS({ ...vessel, loadKg: 9 })).toBeGreaterThan(least);
    expect(pressureLockS({ ...vessel, targetKPa: 170 })).toBeGreaterThan(least);
    expect(pressureLockS({ ...vessel, kitchen: { ...vessel.kitchen, roomC: 38 } })).toBeGreaterThan(least);
  });

  it('is never shorter than its pressure part, whatever the recipe says about cooling', () => {
    const numbers = runNumbers({ ...sampleRecipe(), coolS: 60 }, DEFAULT_KITCHEN);
    expect(numbers.coolS).toBe(numbers.pressureLockS);
  });
});

describe('loads', () => {
  it('are even, the fuller ones first, and hold everything', () => {
    expect(splitLoads(6, 6)).toEqual([6]);
    expect(splitLoads(8, 6)).toEqual([4, 4]);
    expect(splitLoads(7, 3)).toEqual([3, 2, 2]);
    expect(splitLoads(2, 0)).toEqual([1, 1]);
  });

  // Circles in a circle: n in a ring, and one in the middle from 7 on, need 1 + 1/sin(pi/n) diameters (geometry).
  it.each([
    [1, 1],
    [2, 1 + 1 / Math.sin(Math.PI / 2)],
    [3, 1 + 1 / Math.sin(Math.PI / 3)],
    [4, 1 + 1 / Math.sin(Math.PI / 4)],
    [5, 1 + 1 / Math.sin(Math.PI / 5)],
    [7, 1 + 1 / Math.sin(Math.PI / 6)],
    [8, 1 + 1 / Math.sin(Math.PI / 7)],
    [9, 1 + 1 / Math.sin(Math.PI / 8)],
  ])('%i jars stand in a cooker %f jar diameters wide, one fewer in a narrower one', (count, ratio) => {
    const { containers } = sampleRecipe({ jars: true });
    const wide = (diameter: number) => ({
      ...DEFAULT_KITCHEN,
      cookerInnerDiameterM: 0.09 * diameter,
      cookerInnerHeightM: 0.22,
    });
    expect(containersPerLoad(containers, wide(ratio * 1.001), 0.02)).toBe(count);
    expect(containersPerLoad(containers, wide(ratio * 0.999), 0.02)).toBeLessThan(count);
  });

  it('hold nothing that does not pass the mouth or the lid', () => {
    const { containers } = sampleRecipe();
    expect(containersPerLoad(containers, { ...DEFAULT_KITCHEN, cookerInnerDiameterM: 0.1 }, 2)).toBe(0);
    expect(containersPerLoad(containers, { ...DEFAULT_KITCHEN, cookerInnerHeightM: 0.08 }, 2)).toBe(0);
  });
});

describe('numbers of a whole batch', () => {
  const kitchens: readonly Kitchen[] = [
    DEFAULT_KITCHEN,
    { ...DEFAULT_KITCHEN, altitudeM: 0, burner: 'induction', burnerW: 1800 },
    { ...DEFAULT_KITCHEN, altitudeM: 2500, stationKPa: 75, minimumWaterL: 3 },
  ];
  const recipes = [
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

  it("take a longer hold over the recipe's own, with the water for it", () => {
    const recipe = sampleRecipe();
    const longer = runNumbers(recipe, DEFAULT_KITCHEN, 4 * 3600);
    expect(longer.holdS).toBe(4 * 3600);
    expect(longer.cookerWaterL).toBeGreaterThan(runNumbers(recipe, DEFAULT_KITCHEN).cookerWaterL);
  });

  it('refuse a kitchen that is nowhere on earth', () => {
    expect(() => runNumbers(sampleRecipe(), { ...DEFAULT_KITCHEN, altitudeM: 50_000 })).toThrow(RangeError);
  });
});
