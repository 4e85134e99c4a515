/** What tests of the plan share: shipped recipes, kitchens, times in a zone without clock changes. */
import { readFileSync, readdirSync } from 'node:fs';
import fc from 'fast-check';
import { DEFAULT_KITCHEN, type Kitchen, type KnownKitchen } from '../../src/core/kitchen.ts';
import { parseRecipe } from '../../src/core/recipe/parse.ts';
import type { Recipe } from '../../src/core/recipe/recipe.ts';
import { sampleRecipe } from './batch-kit.ts';

const folder = new URL('../../recipes/', import.meta.url);

export function readRecipe(text: string, name: string): Recipe {
  const parsed = parseRecipe(text, name);
  if (!parsed.ok) throw new Error(parsed.problems.map(({ says }) => says).join('\n'));
  return parsed.recipe;
}

/** Every recipe that comes with the program. */
export const shippedRecipes: readonly Recipe[] = readdirSync(folder)
  .filter(name => name.endsWith('.yaml'))
  .map(name => readRecipe(readFileSync(new URL(name, folder), 'utf8'), name));

export const shipped = (start: string): Recipe => {
  const found = shippedRecipes.find(({ name }) => name.startsWith(start));
  if (!found) throw new Error(`no shipped recipe ${start}`);
  return found;
};

/** A kitchen in which everything was said. */
export const known = (change: Partial<Kitchen> = {}): KnownKitchen => ({
  kitchen: { ...DEFAULT_KITCHEN, ...change },
  assumed: new Set(),
});

/** Minute of the day in UTC, as if the kitchen lay in Greenwich in winter. */
export const utcMinute = (wall: number): number => Math.floor(wall / 60_000) % 1440;

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Recipes that a kitchen can do: bags of sizes that go with their fill, or jars. */
export const anyRecipe: fc.Arbitrary<Recipe> = fc
  .record({
    jars: fc.boolean(),
    soak: fc.boolean(),
    count: fc.integer({ min: 1, max: 12 }),
    thicknessM: between(0.05, 0.09),
    holdMin: fc.integer({ min: 60, max: 150 }),
    touching: fc.boolean(),
    seal: fc.constantFrom('before' as const, 'after' as const),
  })
  .map(({ jars, soak, count, thicknessM, holdMin, touching, seal }) => {
    const base = sampleRecipe({ jars, soak, seal, loads: [count] });
    const size = base.containers.size;
    return {
      ...base,
      holdS: holdMin * 60,
      containers: {
        ...base.containers,
        touching: touching && count < 4,
        size: size.shape === 'brick' ? { ...size, thicknessM } : size,
      },
    };
  });

export { between };
