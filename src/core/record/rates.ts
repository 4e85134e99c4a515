/** Success rates out of the person's own record: what is known, between what and what, and when it is too few. */
import { recipeOf } from '../batch/moves.ts';
import { formatDuration } from '../quantity-format.ts';
import { type Interval, wilson } from '../science/statistics.ts';
import { type Bag, outcomeOf } from './bags.ts';
import type { RecordedBatch } from './record.ts';

export const GROUPINGS = ['grain', 'size', 'hold', 'culture'] as const;
export type Grouping = (typeof GROUPINGS)[number];

export interface Rate {
  readonly name: string;
  /** Bags that became spawn, of those whose outcome is known. */
  readonly good: number;
  readonly known: number;
  /** Null when nothing is known yet. */
  readonly share: number | null;
  readonly interval: Interval | null;
  /** The interval is so wide that the share says little. */
  readonly tooFew: boolean;
}

/** A 95 % interval wider than this says little: with every bag good it takes 8 of them. */
export const TOO_WIDE = 0.4;

export function rateOf(name: string, good: number, known: number): Rate {
  if (known === 0) return { name, good, known, share: null, interval: null, tooFew: true };
  const interval = wilson(good, known);
  return {
    name,
    good,
    known,
    share: good / known,
    interval,
    tooFew: interval.high - interval.low > TOO_WIDE,
  };
}

function rateOfBags(name: string, bags: readonly Bag[]): Rate {
  const outcomes = bags.map(outcomeOf);
  const good = outcomes.filter(outcome => outcome === 'good').length;
  return rateOf(name, good, good + outcomes.filter(outcome => outcome === 'lost').length);
}

const inGrams = (kg: number): string =>
  kg < 1 ? `${Math.round(kg * 1000)} g` : `${Math.round(kg * 100) / 100} kg`;

/** What a bag belongs to under a grouping. Sizes go by what was planned, since every filled weight is its own. */
function nameOf(grouping: Grouping, { batch }: RecordedBatch, bag: Bag): string {
  const recipe = recipeOf(batch);
  switch (grouping) {
    case 'grain':
      return recipe.grain;
    case 'size':
      return `${bag.kind} of ${inGrams(recipe.containers.fillKg)}`;
    case 'hold':
      return formatDuration(Math.round(batch.header.numbers.holdS / 60) * 60);
    case 'culture':
      return bag.culture ? bag.culture.key : `${bag.species || 'no species'}, ${bag.form}`;
  }
}

/** Rates of every group, the best known first. */
export function ratesBy(grouping: Grouping, batches: readonly RecordedBatch[]): readonly Rate[] {
  const groups = new Map<string, Bag[]>();
  for (const recorded of batches) {
    for (const bag of recorded.bags) {
      if (outcomeOf(bag) === 'none') continue;
      const name = nameOf(grouping, recorded, bag);
      const group = groups.get(name);
      if (group) group.push(bag);
      else groups.set(name, [bag]);
    }
  }
  return [...groups]
    .map(([name, bags]) => rateOfBags(name, bags))
    .sort((a, b) => b.known - a.known || a.name.localeCompare(b.name));
}

export const overallRate = (batches: readonly RecordedBatch[]): Rate =>
  rateOfBags(
    'all bags',
    batches.flatMap(({ bags }) => bags),
  );

/** Whether two rates can be told apart: their 95 % intervals do not meet. A careful rule, and easy to explain. */
export function apart(a: Rate, b: Rate): boolean {
  if (!a.interval || !b.interval) return false;
  return a.interval.low > b.interval.high || b.interval.low > a.interval.high;
}
