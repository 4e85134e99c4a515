import fc from 'fast-check';
import { expect, it } from 'vitest';
import { DEFAULT_KITCHEN, type Kitchen } from '../../../src/core/kitchen.ts';
import { planOf } from '../../../src/core/plan/plan.ts';
import { backFrom, forwardFrom } from '../../../src/core/plan/timeline.ts';
import { nightOf } from '../../../src/core/plan/quiet.ts';
import { GRAINS, type Recipe } from '../../../src/core/recipe/recipe.ts';
import { planRows } from '../../../src/core/words/plan-rows.ts';
import { warningWords } from '../../../src/core/words/plan-warnings.ts';
import { between, shipped, utcMinute } from '../../help/plan-kit.ts';

// The ranges are those that `kitchen-check.ts` and `recipe/values.ts` let through.
const anyKitchen: fc.Arbitrary<Kitchen> = fc
  .record({
    altitudeM: between(-430, 5000),
    stationKPa: fc.option(between(50, 110)),
    roomC: between(5, 40),
    potL: between(0.5, 200),
    cookerL: between(2, 200),
    cookerInnerDiameterM: between(0.1, 1),
    cookerInnerHeightM: between(0.08, 1.5),
    cookerMassKg: between(0.5, 60),
    workingKPa: between(20, 200),
    markedMaxKPa: between(20, 250),
    gauge: fc.constantFrom('dial' as const, 'weight' as const),
    minimumWaterL: between(0.1, 20),
    burner: fc.constantFrom('gas' as const, 'electric' as const, 'induction' as const),
    burnerW: between(200, 20_000),
    hobLimitKg: fc.option(between(1, 500)),
  })
  .map(change => ({ ...DEFAULT_KITCHEN, ...change }));

const side = between(0.02, 0.6);
const anyRecipe: fc.Arbitrary<Recipe> = fc
  .record({
    grain: fc.constantFrom(...GRAINS),
    count: fc.integer({ min: 1, max: 60 }),
    fillKg: between(0.05, 6),
    size: fc.oneof(
      fc.record({ shape: fc.constant('brick' as const), lengthM: side, widthM: side, thicknessM: side }),
      fc.record({ shape: fc.constant('cylinder' as const), diameterM: side, heightM: side }),
    ),
    touching: fc.boolean(),
    soaked: fc.boolean(),
    ventS: between(60, 2700),
    holdS: between(900, 21_600),
    coolS: between(3600, 172_800),
    storedMoisture: between(0.03, 0.2),
    wantedMoisture: between(0.25, 0.7),
    target: fc.oneof(
      between(34.5, 172).map(gaugeKPa => ({ by: 'pressure' as const, gaugeKPa })),
      between(105, 130).map(celsius => ({ by: 'temperature' as const, celsius })),
    ),
  })
  .map(({ count, fillKg, size, touching, soaked, ...rest }) => {
    const base = shipped('Rye');
    return {
      ...base,
      ...rest,
      soak: soaked ? base.soak : null,
      containers: { ...base.containers, count, fillKg, mostKg: fillKg, size, touching },
    };
  });

it('any recipe in any kitchen gets a plan of numbers that are numbers, with its refusals in words (property)', () => {
  fc.assert(
    fc.property(anyRecipe, anyKitchen, (recipe, kitchen) => {
      const plan = planOf(recipe, { kitchen, assumed: new Set() });
      const question = { walk: plan.walk, night: nightOf(kitchen), local: utcMinute };
      const ready = Date.UTC(2026, 10, 30, 9);
      expect(backFrom(ready, question).readyAt).toBe(ready);
      expect(forwardFrom(ready, question).endsAt).toBeGreaterThan(ready);
      const said = [
        ...planRows(plan).flatMap(({ value, more }) => [value, ...more]),
        ...plan.warnings.flatMap(one => Object.values(warningWords(one, kitchen.units, 'bag'))),
      ].join(' ');
      expect(said).not.toMatch(/NaN|Infinity|undefined/);
      const { curves: _, ...hold } = plan.hold;
      const odd = JSON.stringify([plan.numbers, hold, plan.water, plan.grain, plan.fit], (_key, value) =>
        typeof value === 'number' && !Number.isFinite(value) ? 'odd number' : value,
      );
      expect(odd).not.toContain('odd number');
      expect(plan.numbers.pressureLockS).toBeGreaterThanOrEqual(47 * 60);
      expect(plan.numbers.targetKPa).toBeLessThanOrEqual(kitchen.markedMaxKPa);
      if (plan.verdict === 'go') expect(plan.numbers.targetC).toBeGreaterThanOrEqual(110);
    }),
    { numRuns: 60 },
  );
});
