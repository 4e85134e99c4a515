/** A change for the next batch before it is known why it is proposed. A change only ever goes in one direction. */
import type { StepId } from '../batch/steps.ts';
import type { Recipe } from '../recipe/recipe.ts';

export type ChangeId =
  | 'vent-longer'
  | 'dips-restart'
  | 'hold-longer'
  | 'hold-whole'
  | 'dry-longer'
  | 'dry-shorter'
  | 'dry-whole'
  | 'stir-oftener'
  | 'look-sooner'
  | 'look-later'
  | 'look-oftener'
  | 'soak-longer'
  | 'simmer-gently'
  | 'cool-longer'
  | 'stay-shut'
  | 'fill-less'
  | 'fewer'
  | 'watch-gauge'
  | 'more-water'
  | 'leave-valve'
  | 'spare-heat'
  | 'flame-off'
  | 'flame-needle';

/** What a change is about. One record never proposes two changes of one topic, so none speaks against another. */
export type Topic =
  | 'vent'
  | 'dips'
  | 'hold'
  | 'kernels'
  | 'drying'
  | 'shut'
  | 'portions'
  | 'gauge'
  | 'water'
  | 'valve'
  | 'heat'
  | 'flame'
  | 'needle';

export interface Draft {
  readonly id: ChangeId;
  readonly topic: Topic;
  readonly before: number;
  readonly after: number;
  /** Null when no number of the recipe says it: then it goes into the recipe's note. */
  readonly apply: ((recipe: Recipe) => Recipe) | null;
  /** Steps at which the note brings it back, beside the first; empty for a number. */
  readonly remindAt: readonly StepId[];
}

/** Seconds. */
export const MIN = 60;
export const HOUR_S = 3600;

export type Apply = (recipe: Recipe) => Recipe;
/** Up to `most`, or nothing when it is there already. */
export function more(
  id: ChangeId,
  topic: Topic,
  before: number,
  by: number,
  most: number,
  set: (to: number) => Apply,
) {
  const after = Math.min(most, before + by);
  return after > before ? [{ id, topic, before, after, apply: set(after), remindAt: [] }] : [];
}
/** Down to `least`, or nothing when it is there already. */
export function less(
  id: ChangeId,
  topic: Topic,
  before: number,
  to: number,
  least: number,
  set: (to: number) => Apply,
) {
  const after = Math.max(least, to);
  return after < before ? [{ id, topic, before, after, apply: set(after), remindAt: [] }] : [];
}
/** What no number says: a reminder for those steps. */
export const advice = (
  id: ChangeId,
  topic: Topic,
  remindAt: readonly StepId[],
  before = 0,
  after = 0,
): readonly Draft[] => [{ id, topic, before, after, apply: null, remindAt }];
