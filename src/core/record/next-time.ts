/**
 * What to change next time: at most three changes, each with the cause it answers to, no two of one topic. What
 * the recipe has a number for becomes that number; the rest becomes a line of its note.
 */
import { recipeOf } from '../batch/moves.ts';
import type { ContainerKind, Recipe } from '../recipe/recipe.ts';
import { type Carried, carriedNote, changeWords, readCarried } from '../words/next-time.ts';
import { outcomeOf } from './bags.ts';
import { type Cause, counted } from './cause.ts';
import { causesOf } from './causes.ts';
import type { Looks } from './diary.ts';
import { answersTo, drierLess, fewer, holdLonger } from './next-time-answers.ts';
import type { Draft } from './next-time-draft.ts';
import type { RecordedBatch } from './record.ts';

export interface Change extends Draft {
  readonly kind: ContainerKind;
  /** What in the record speaks for it; null when the outcomes, or the yield, speak for themselves. */
  readonly cause: Cause | null;
  readonly lost: number;
  readonly known: number;
  /** The batch after which the recipe was changed the other way; null for all but a change that turns back. */
  readonly turnsBack: string | null;
}

export const MOST_CHANGES = 3;

/** The look that most of the lost bags had, or null. */
export function commonestLooks({ bags }: RecordedBatch): Looks | null {
  const counts = new Map<Looks, number>();
  for (const bag of bags) {
    if (outcomeOf(bag) === 'lost' && bag.looks) counts.set(bag.looks, (counts.get(bag.looks) ?? 0) + 1);
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}

/** Grain ran short or dried out: not a loss, but the recipe can be made to fit. */
function ofYield(recorded: RecordedBatch, recipe: Recipe): readonly Draft[] {
  const noted = (trouble: 'too-few' | 'too-dry'): boolean =>
    counted(recorded.batch, null, trouble).length > 0;
  return [...(noted('too-few') ? fewer(recorded) : []), ...(noted('too-dry') ? drierLess(recipe) : [])];
}

/** A third of the known bags lost, and at least two: then even an unblemished record asks for something. */
const isBadLoss = (lost: number, known: number): boolean => lost >= 2 && lost * 3 >= known;

/**
 * Causes for the batch as a whole, those of its lost bags first: what befell a bag that is not among them, a torn
 * one for instance, is no answer to their loss.
 */
function causesOfLoss(recorded: RecordedBatch): readonly Cause[] {
  const { batch, bags } = recorded;
  const whole = causesOf(batch, null, commonestLooks(recorded));
  const weights = new Map<Cause['id'], number>();
  for (const bag of bags.filter(each => outcomeOf(each) === 'lost')) {
    for (const { id, weight } of causesOf(batch, bag, bag.looks))
      weights.set(id, Math.max(weight, weights.get(id) ?? 0));
  }
  const ofLost = whole.filter(({ id }) => weights.has(id));
  const others = whole.filter(({ id }) => !weights.has(id));
  return [...ofLost.toSorted((a, b) => (weights.get(b.id) ?? 0) - (weights.get(a.id) ?? 0)), ...others];
}

const AFTER = / \(after (\d{4}[a-z]{1,3})\)$/;

/** The batch whose record changed this recipe last, by the recipe's name; null for a recipe of its own. */
export const changedAfter = ({ name }: Pick<Recipe, 'name'>): string | null => AFTER.exec(name)?.[1] ?? null;

/** Whether the recipe came to its value by a change in the other direction. */
function isTurn({ id }: Draft, before: Recipe, now: Recipe): boolean {
  const dried = Math.sign(now.drying.aboutS - before.drying.aboutS);
  const looked = Math.sign(now.simmer.firstLookS - before.simmer.firstLookS);
  switch (id) {
    case 'dry-shorter':
      return dried > 0;
    case 'dry-longer':
      return dried < 0;
    case 'look-sooner':
      return looked > 0;
    case 'look-later':
      return looked < 0;
    default:
      return false;
  }
}

/**
 * At most three changes for the recipe of this batch, the weightiest first; none when all went well. `before` is
 * the batch whose record changed this recipe last, where it is known.
 */
export function nextTime(recorded: RecordedBatch, before: RecordedBatch | null = null): readonly Change[] {
  const recipe = recipeOf(recorded.batch);
  const outcomes = recorded.bags.map(outcomeOf);
  const lost = outcomes.filter(outcome => outcome === 'lost').length;
  const known = lost + outcomes.filter(outcome => outcome === 'good').length;
  const changes: Change[] = [];
  const add = (drafts: readonly Draft[], cause: Cause | null): void => {
    const free = drafts.find(({ topic }) => changes.every(change => change.topic !== topic));
    if (!free || changes.length >= MOST_CHANGES) return;
    const turnsBack = before && isTurn(free, recipeOf(before.batch), recipe) ? before.id : null;
    changes.push({ ...free, kind: recipe.containers.kind, cause, lost, known, turnsBack });
  };
  const causes = causesOfLoss(recorded);
  const all = causes.map(({ id }) => id);
  for (const cause of causes) add(answersTo(cause, recorded, all), cause);
  if (changes.length === 0 && isBadLoss(lost, known)) add(holdLonger(recipe), null);
  for (const draft of ofYield(recorded, recipe)) add([draft], null);
  return changes;
}

/** Longest note of a recipe, characters (`recipe/schema.ts`). */
const LONGEST_NOTE = 2000;

/** A reminder more in the note, in place of one that says the same, unless there is no room. */
function noted(recipe: Recipe, carried: Carried): Recipe {
  const others = recipe.note.split('\n').filter(line => readCarried(line)?.text !== carried.text);
  const note = [...others, carriedNote(carried)].join('\n').trim();
  return note.length > LONGEST_NOTE ? recipe : { ...recipe, note };
}

/** The recipe with the changes in it, under a name that says so. */
export function improvedRecipe(recorded: RecordedBatch, changes: readonly Change[]): Recipe {
  const recipe = recipeOf(recorded.batch);
  const { units } = recorded.batch.header.kitchen;
  const name = recipe.name.replace(AFTER, '');
  const changed = changes.reduce(
    (before, change) =>
      change.apply
        ? change.apply(before)
        : noted(before, { text: changeWords(change, units), steps: change.remindAt }),
    recipe,
  );
  return { ...changed, name: `${name} (after ${recorded.id})` };
}
