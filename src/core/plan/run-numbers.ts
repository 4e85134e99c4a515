/** From a recipe and a kitchen to the numbers a batch is run by, and whether it may be begun at all. */
import type { Kitchen } from '../kitchen.ts';
import type { Recipe } from '../recipe/recipe.ts';
import type { RunNumbers } from './numbers.ts';
import type { PastStep } from './past-steps.ts';
import { partsOf } from './plan.ts';

const NOTHING: ReadonlySet<keyof Kitchen> = new Set();

/**
 * All numbers of one batch; with the person's earlier batches, its steps take what they used to take.
 * RangeError when a value is outside what a model covers: recipes and kitchens are checked when they are
 * read, so that is a fault of the program. A plan that says no (see `planOf`) has numbers too.
 */
export const runNumbers = (recipe: Recipe, kitchen: Kitchen, past: readonly PastStep[] = []): RunNumbers =>
  partsOf(recipe, kitchen, NOTHING, past).numbers;
