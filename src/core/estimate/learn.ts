/** What the person's own earlier batches say about the next: medians, so that one odd evening moves little. */
import type { Batch, Learned } from '../batch/state.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { SECOND } from '../time.ts';

/** One batch is an accident; from two on it is a habit. */
const LEAST_BATCHES = 2;

/** The middle value, or the mean of the two middle ones; null for none. */
export function median(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length / 2;
  const high = sorted[Math.floor(middle)];
  if (high === undefined) return null;
  const low = sorted[Math.ceil(middle) - 1] ?? high;
  return (low + high) / 2;
}

/** From the simmer to the look that found the kernels translucent, s; null when that was never seen. */
export function simmerS(batch: Batch): number | null {
  const done = batch.kernels.find(({ centre, burst }) => centre === 'translucent' && burst !== 'many');
  return done && batch.simmerFrom !== null ? (done.t - batch.simmerFrom) / SECOND : null;
}

/** From spreading to the towel with one or two faint spots, s; null when that was never seen. */
export function dryingS(batch: Batch): number | null {
  const from = batch.times.find(({ step }) => step === 'surface-dry')?.from;
  const done = batch.towels.find(({ seen }) => seen === 'faint');
  return done && from !== undefined ? (done.t - from) / SECOND : null;
}

/** Whether an earlier batch says something about this recipe: the same grain, soaked or not alike, and real. */
const isAlike = ({ header }: Batch, recipe: Recipe): boolean =>
  !header.practice &&
  header.recipe.grain === recipe.grain &&
  (header.recipe.soak === null) === (recipe.soak === null);

/** Medians over earlier batches; null when there are too few of them. */
export function learnFrom(batches: readonly Batch[], recipe: Recipe): Learned | null {
  const alike = batches.filter(batch => isAlike(batch, recipe));
  const of = (read: (batch: Batch) => number | null): number | null => {
    const values = alike.map(read).filter(value => value !== null);
    return values.length >= LEAST_BATCHES ? median(values) : null;
  };
  const learned = { simmerS: of(simmerS), dryingS: of(dryingS), batches: alike.length };
  return learned.simmerS === null && learned.dryingS === null ? null : learned;
}
