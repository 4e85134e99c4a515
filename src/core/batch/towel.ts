/**
 * What a towel that stays dry says. Only the upper layer meets moving air: where nobody stirred, or so soon
 * after spreading, a dry towel shows dry tops over wet grain, and bagging that would be a mistake.
 */
import { SECOND } from '../time.ts';
import { ask, leave, note, numbersOf, recipeOf } from './moves.ts';
import type { Batch } from './state.ts';

/** How long grain like this dries, s: the person's own grain before the recipe's word. */
const usualDryingS = (batch: Batch): number => batch.header.learned?.dryingS ?? recipeOf(batch).drying.aboutS;

/**
 * Whether a towel that stays dry now shows the tops alone. It is believed after a stir, and late enough; when it
 * was dry before and is dry again after a stir, it is believed however early that is. Batches begun before this
 * was asked believe every towel.
 */
function showsTopsOnly(batch: Batch): boolean {
  const { dryTooSoonShare } = numbersOf(batch);
  if (dryTooSoonShare === undefined) return false;
  const dryBefore = batch.towels.findLast(({ t, seen }) => seen === 'dry' && t >= batch.since);
  const stirred = batch.stirredAt !== null && batch.stirredAt >= (dryBefore?.t ?? batch.since);
  const soon = batch.now - batch.since < dryTooSoonShare * usualDryingS(batch) * SECOND;
  return !stirred || (soon && dryBefore === undefined);
}

/** The towel came up dry: dried too far, or a stir wanted now and another towel after it. */
export function towelDry(batch: Batch): Batch {
  const told: Batch = { ...batch, towels: [...batch.towels, { t: batch.now, seen: 'dry' }] };
  if (!showsTopsOnly(batch)) return leave(note(told, 'too-dry'));
  return { ...ask(told, 'drying'), stirAt: batch.now };
}

/** The last towel was dry too soon to be believed, and nobody has stirred since. */
export const isToStirForTowel = (batch: Batch): boolean =>
  batch.step === 'surface-dry' &&
  batch.ask === 'drying' &&
  batch.towels.at(-1)?.seen === 'dry' &&
  (batch.stirredAt ?? Number.NEGATIVE_INFINITY) < batch.askSince;
