import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { planOf } from '../../../src/core/plan/plan.ts';
import {
  kitchenWith,
  recipeWith,
  stepWhatIf,
  WHAT_IF_LINES,
  type WhatIf,
  type WhatIfLine,
  whatIfOf,
} from '../../../src/core/plan/what-if.ts';
import type { Recipe } from '../../../src/core/recipe/recipe.ts';
import { recipeToYaml } from '../../../src/core/recipe/write.ts';
import { known, readRecipe, shipped, shippedRecipes } from '../../help/plan-kit.ts';

const kitchen = known();
const press = (base: Recipe, keys: readonly (readonly [WhatIfLine, 1 | -1])[]): WhatIf =>
  keys.reduce((now, [line, by]) => stepWhatIf(now, line, by, base, kitchen), whatIfOf(base));
const anyKeys = fc.array(
  fc.tuple(fc.constantFrom(...WHAT_IF_LINES), fc.constantFrom(1 as const, -1 as const)),
  { maxLength: 12 },
);

describe('what-if', () => {
  it('unchanged is the recipe and the kitchen themselves', () => {
    const rye = shipped('Rye');
    expect(recipeWith(rye, whatIfOf(rye))).toBe(rye);
    expect(kitchenWith(kitchen, whatIfOf(rye))).toBe(kitchen);
  });

  it('equals the plan of the changed recipe written to a file and read again (property)', () => {
    fc.assert(
      fc.property(fc.constantFrom(...shippedRecipes), anyKeys, (base, keys) => {
        const whatIf = press(base, keys);
        const shown = recipeWith(base, whatIf);
        const read = readRecipe(recipeToYaml(shown, METRIC), 'changed.yaml');
        expect(read).toEqual(shown);
        const there = kitchenWith(kitchen, whatIf);
        const { curves: _, ...hold } = planOf(read, there).hold;
        expect(planOf(shown, there).hold).toMatchObject(hold);
        expect(planOf(shown, there).numbers).toEqual(planOf(read, there).numbers);
      }),
      { numRuns: 25 },
    );
  });

  it('an arrow and its opposite from a round value lead back (property)', () => {
    const rye = shipped('Rye');
    fc.assert(
      fc.property(fc.constantFrom('containers' as const, 'fill' as const, 'hold' as const), line => {
        const there = stepWhatIf(whatIfOf(rye), line, 1, rye, kitchen);
        expect(there).not.toEqual(whatIfOf(rye));
        expect(stepWhatIf(there, line, -1, rye, kitchen)).toEqual(whatIfOf(rye));
      }),
    );
  });

  it('moves by what a hand can do: a container, 100 g, 100 m, 5 min; odd values become round ones', () => {
    const rye = shipped('Rye');
    expect(press(rye, [['containers', 1]]).count).toBe(7);
    expect(press(rye, [['fill', 1]]).fillKg).toBe(1.1);
    expect(press(rye, [['altitude', 1]]).altitudeM).toBe(700);
    expect(press(rye, [['altitude', -1]]).altitudeM).toBe(600);
    expect(press(rye, [['hold', -1]]).holdS).toBe(85 * 60);
  });

  it('in American units moves by quarter pounds and 500 ft', () => {
    const rye = shipped('Rye');
    const american = known({
      units: { mass: 'lb', volume: 'qt', pressure: 'psi', temperature: 'F', length: 'in' },
      altitudeM: 0,
    });
    const heavier = stepWhatIf(whatIfOf(rye), 'fill', 1, rye, american);
    expect(heavier.fillKg / 0.45359237).toBeCloseTo(2.25, 5);
    expect(stepWhatIf(whatIfOf(rye), 'altitude', 1, rye, american).altitudeM).toBeCloseTo(152.4, 3);
  });

  it('more grain in the same bag makes it thicker, in the same jar higher, and never breaks its limits', () => {
    const fuller = recipeWith(shipped('Rye'), press(shipped('Rye'), [['fill', 1]]));
    expect(fuller.containers.size).toEqual({
      shape: 'brick',
      lengthM: 0.18,
      widthM: 0.11,
      thicknessM: 0.083,
    });
    expect(fuller.containers.mostKg).toBeGreaterThan(fuller.containers.fillKg);
    expect(fuller.name).toBe('Rye, six 1 kg bags, changed');
    const jar = recipeWith(shipped('Sorghum'), press(shipped('Sorghum'), [['fill', 1]]));
    expect(jar.containers.size).toMatchObject({ shape: 'cylinder', diameterM: 0.09 });
    const least = press(
      shipped('Rye'),
      Array.from({ length: 80 }, () => ['fill', -1] as const),
    );
    expect(recipeWith(shipped('Rye'), least).containers.size).toMatchObject({ shape: 'brick' });
    expect(least.fillKg).toBeGreaterThan(0);
    const none = press(
      shipped('Rye'),
      Array.from({ length: 80 }, () => ['containers', -1] as const),
    );
    expect(none.count).toBe(1);
  });

  it("an altitude shown counts instead of the kitchen's barometer, and is no longer assumed", () => {
    const assumed = { kitchen: known({ stationKPa: 95 }).kitchen, assumed: new Set(['altitudeM' as const]) };
    const there = kitchenWith(assumed, { ...whatIfOf(shipped('Rye')), altitudeM: 2000 });
    expect(there.kitchen).toMatchObject({ altitudeM: 2000, stationKPa: null });
    expect(there.assumed.has('altitudeM')).toBe(false);
  });
});
