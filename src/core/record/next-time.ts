/**
 * What to change next time: at most three changes of the recipe, each with the cause it answers to. The size
 * of each step is common practice, no source; the vent's ten minutes are science notes k 1 (read).
 */
import { recipeOf } from '../batch/moves.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { outcomeOf } from './bags.ts';
import { type Cause, type CauseId, causesOf } from './causes.ts';
import type { Looks } from './diary.ts';
import type { RecordedBatch } from './record.ts';

export type ChangeId =
  | 'vent-longer'
  | 'dips-restart'
  | 'hold-longer'
  | 'dry-longer'
  | 'dry-shorter'
  | 'look-sooner'
  | 'look-later'
  | 'soak-longer'
  | 'cool-longer'
  | 'fill-less'
  | 'fewer';

export interface Change {
  readonly id: ChangeId;
  /** What in the record speaks for it; null when losses speak for themselves. */
  readonly cause: Cause | null;
  readonly before: number;
  readonly after: number;
  readonly apply: (recipe: Recipe) => Recipe;
}

export const MOST_CHANGES = 3;
const MIN = 60;
const HOUR_S = 3600;

type Proposal = (recipe: Recipe, recorded: RecordedBatch) => Omit<Change, 'cause'> | null;

const change = (
  id: ChangeId,
  before: number,
  after: number,
  apply: (recipe: Recipe) => Recipe,
): Omit<Change, 'cause'> | null => (after === before ? null : { id, before, after, apply });

const ventLonger: Proposal = recipe => {
  const ventS = Math.min(20 * MIN, Math.max(10 * MIN, recipe.ventS + 2 * MIN));
  return change('vent-longer', recipe.ventS, ventS, r => ({ ...r, ventS }));
};

const holdLonger: Proposal = recipe => {
  const holdS = Math.min(4 * HOUR_S, recipe.holdS + 15 * MIN);
  return change('hold-longer', recipe.holdS, holdS, r => ({ ...r, holdS }));
};

const steadierHold: Proposal = (recipe, recorded) =>
  recipe.dips === 'make up'
    ? { id: 'dips-restart', before: 0, after: 1, apply: r => ({ ...r, dips: 'restart' }) }
    : recorded.bags.some(bag => outcomeOf(bag) === 'lost')
      ? holdLonger(recipe, recorded)
      : null;

const dryLonger: Proposal = recipe => {
  const aboutS = Math.min(8 * HOUR_S, recipe.drying.aboutS + 30 * MIN);
  return change('dry-longer', recipe.drying.aboutS, aboutS, r => ({ ...r, drying: { ...r.drying, aboutS } }));
};

const lookSooner: Proposal = recipe => {
  const firstLookS = Math.max(5 * MIN, recipe.simmer.firstLookS - 5 * MIN);
  return change('look-sooner', recipe.simmer.firstLookS, firstLookS, r => ({
    ...r,
    simmer: { ...r.simmer, firstLookS },
  }));
};

const softerCore: Proposal = recipe => {
  if (recipe.soak && recipe.soak.shortestS + 2 * HOUR_S <= recipe.soak.longestS) {
    const shortestS = recipe.soak.shortestS + 2 * HOUR_S;
    return change('soak-longer', recipe.soak.shortestS, shortestS, r =>
      r.soak ? { ...r, soak: { ...r.soak, shortestS } } : r,
    );
  }
  const firstLookS = recipe.simmer.firstLookS + 5 * MIN;
  return change('look-later', recipe.simmer.firstLookS, firstLookS, r => ({
    ...r,
    simmer: { ...r.simmer, firstLookS },
  }));
};

const coolLonger: Proposal = recipe => {
  const coolS = Math.min(14 * HOUR_S, recipe.coolS + HOUR_S);
  return change('cool-longer', recipe.coolS, coolS, r => ({ ...r, coolS }));
};

const fillLess: Proposal = recipe => {
  const { fillKg } = recipe.containers;
  const less = Math.round(fillKg * 0.95 * 100) / 100;
  return change('fill-less', fillKg, less, r => ({ ...r, containers: { ...r.containers, fillKg: less } }));
};

const ANSWERS: Readonly<Record<CauseId, Proposal | null>> = {
  'short-vent': ventLonger,
  dips: steadierHold,
  'short-hold': null,
  unwatched: null,
  'wet-grain': dryLonger,
  overcooked: lookSooner,
  'dry-core': softerCore,
  torn: coolLonger,
  seam: fillLess,
  overfull: fillLess,
  'opened-warm': coolLonger,
  'dirty-needle': null,
};

/** The look that most of the lost bags had, or null. */
export function commonestLooks({ bags }: RecordedBatch): Looks | null {
  const counts = new Map<Looks, number>();
  for (const bag of bags) {
    if (outcomeOf(bag) === 'lost' && bag.looks) counts.set(bag.looks, (counts.get(bag.looks) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}

/** Grain ran short or dried out: not a loss, but the recipe can be made to fit. */
function ofYield({ batch, bags }: RecordedBatch, recipe: Recipe): Omit<Change, 'cause'> | null {
  const noted = (trouble: string): boolean =>
    batch.deviations.some(d => d.trouble === trouble && !d.takenBack);
  if (noted('too-few') && bags.length > 0 && bags.length < recipe.containers.count) {
    const count = bags.length;
    return change('fewer', recipe.containers.count, count, r => ({
      ...r,
      containers: { ...r.containers, count },
    }));
  }
  if (noted('too-dry')) {
    const aboutS = Math.max(15 * MIN, Math.round((recipe.drying.aboutS * 0.75) / MIN) * MIN);
    return change('dry-shorter', recipe.drying.aboutS, aboutS, r => ({
      ...r,
      drying: { ...r.drying, aboutS },
    }));
  }
  return null;
}

/** A third of the known bags lost, and at least two: then even an unblemished record asks for something. */
const isBadLoss = (lost: number, known: number): boolean => lost >= 2 && lost * 3 >= known;

/** At most three changes for the recipe of this batch, the weightiest first; none when all went well. */
export function nextTime(recorded: RecordedBatch): readonly Change[] {
  const recipe = recipeOf(recorded.batch);
  const changes: Change[] = [];
  const add = (proposed: Omit<Change, 'cause'> | null, cause: Cause | null): void => {
    const known = proposed && changes.some(({ id }) => id === proposed.id);
    if (proposed && !known && changes.length < MOST_CHANGES) changes.push({ ...proposed, cause });
  };
  for (const cause of causesOf(recorded.batch, null, commonestLooks(recorded))) {
    add(ANSWERS[cause.id]?.(recipe, recorded) ?? null, cause);
  }
  const outcomes = recorded.bags.map(outcomeOf);
  const lost = outcomes.filter(outcome => outcome === 'lost').length;
  const known = lost + outcomes.filter(outcome => outcome === 'good').length;
  if (changes.length === 0 && isBadLoss(lost, known)) add(holdLonger(recipe, recorded), null);
  add(ofYield(recorded, recipe), null);
  return changes;
}

/** The recipe with the changes in it, under a name that says so. */
export function improvedRecipe(recorded: RecordedBatch, changes: readonly Change[]): Recipe {
  const recipe = recipeOf(recorded.batch);
  const name = / \(after \d{4}[a-z]{1,3}\)$/.test(recipe.name)
    ? recipe.name.replace(/ \(after .*\)$/, '')
    : recipe.name;
  const changed = changes.reduce((before, { apply }) => apply(before), recipe);
  return { ...changed, name: `${name} (after ${recorded.id})` };
}
