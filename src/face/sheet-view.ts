/** What the plan sheet shows at one moment: the plan of the values on it, and its clock times. */
import { nightOf } from '../core/plan/quiet.ts';
import type { PastStep } from '../core/plan/past-steps.ts';
import { type Plan, planOf } from '../core/plan/plan.ts';
import {
  backFrom,
  forwardFrom,
  freeStart,
  type Timeline,
  type TimelineQuestion,
} from '../core/plan/timeline.ts';
import { kitchenWith, recipeWith, type WhatIf } from '../core/plan/what-if.ts';
import type { KnownKitchen } from '../core/kitchen.ts';
import type { Recipe } from '../core/recipe/recipe.ts';
import type { Weight } from '../core/plan/warning.ts';
import { MINUTE, type WallTime } from '../core/time.ts';
import { nightWords } from '../core/words/plan-night.ts';
import { type WarningWords, warningWords } from '../core/words/plan-warnings.ts';
import { minuteOfDay, whenText } from './format.ts';

/** From when, or until when, the times are laid out; null is "from now". */
export type Aim =
  | { readonly by: 'start'; readonly at: WallTime }
  | { readonly by: 'ready'; readonly at: WallTime }
  | null;

export interface SheetView {
  /** A start that would leave the nights free, when this one does not and there is one. */
  readonly better: WallTime | null;
  readonly recipe: Recipe;
  readonly known: KnownKitchen;
  readonly whatIf: WhatIf;
  readonly plan: Plan;
  readonly timeline: Timeline;
  readonly now: WallTime;
  readonly aim: Aim;
}

export interface SheetInput {
  readonly base: Recipe;
  readonly known: KnownKitchen;
  readonly past: readonly PastStep[];
  readonly whatIf: WhatIf;
  readonly aim: Aim;
  readonly now: WallTime;
}

/** Everything on the sheet from what can be moved on it. */
export function sheetView({ base, known, past, whatIf, aim, now }: SheetInput): SheetView {
  const recipe = recipeWith(base, whatIf);
  const shown = kitchenWith(known, whatIf);
  const plan = planOf(recipe, shown, past);
  const timeline = timesOf(plan, aim, now);
  const better = timeline.nightMs < MINUTE ? null : freeStart(timeline.startsAt, questionOf(plan));
  return { recipe, known: shown, whatIf, plan, timeline, better, now, aim };
}

export const questionOf = (plan: Plan): TimelineQuestion => ({
  walk: plan.walk,
  night: nightOf(plan.kitchen),
  local: minuteOfDay,
});

/** The clock times of a plan by its aim. */
export function timesOf(plan: Plan, aim: Aim, now: WallTime): Timeline {
  const question = questionOf(plan);
  const minute = Math.ceil(now / MINUTE) * MINUTE;
  if (aim?.by === 'ready') return backFrom(aim.at, question, now);
  return forwardFrom(aim === null ? minute : aim.at, question);
}

const HALF_HOUR = 30 * MINUTE;

/** The next or last full half hour. */
export const halfHour = (wall: WallTime, by: 1 | -1): WallTime =>
  (by > 0 ? Math.floor(wall / HALF_HOUR) + 1 : Math.ceil(wall / HALF_HOUR) - 1) * HALF_HOUR;

/** Every warning in words, the night's among them after the weightier ones. */
export function warningsIn({ plan, timeline, better, now }: SheetView): readonly SheetWarning[] {
  const said = plan.warnings.map(one => ({
    ...warningWords(one, plan.kitchen.units, plan.recipe.containers.kind),
    code: one.code as string,
    weight: one.weight,
  }));
  const night = nightWords({
    nightMs: timeline.nightMs,
    better: better === null ? null : whenText(better, now),
  });
  if (night === null) return said;
  const notes = said.findIndex(({ weight }) => weight === 'note');
  const at = notes < 0 ? said.length : notes;
  return [...said.slice(0, at), { ...night, code: 'at-night', weight: 'watch' }, ...said.slice(at)];
}

/**
 * What has to be read before a batch begins, as one text that changes when it does; empty when there is
 * nothing. What is assumed counts by its values, so that another altitude is read again. Work at night is left
 * out: who begins knows what time it is.
 */
export const worthReading = ({ plan: { warnings } }: SheetView): string =>
  warnings
    .filter(({ weight }) => weight !== 'note')
    .map(({ code, values }) => (code === 'vessel-assumed' ? Object.values(values).join(' ') : code))
    .join();

export interface SheetWarning extends WarningWords {
  readonly code: string;
  readonly weight: Weight;
}
