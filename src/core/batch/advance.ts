/** What time alone does to a batch. One long step equals any number of short ones. */
import { SECOND, type CoachTime } from '../time.ts';
import { enter, isHeld, numbersOf } from './moves.ts';
import type { Batch } from './state.ts';

/** Time counts towards the hold only here: believed at or above target, and nobody has to be asked first. */
export const isCounting = (batch: Batch): boolean =>
  batch.step === 'hold' && !batch.away && !batch.claim && isHeld(batch);

/** The recipe's minutes and what dips have added to them. */
export const holdMs = (batch: Batch): number => numbersOf(batch).holdS * SECOND + batch.hold.extraMs;
export const holdLeftMs = (batch: Batch): number => Math.max(0, holdMs(batch) - batch.hold.creditMs);
export const ventEnd = (batch: Batch): CoachTime =>
  (batch.ventFrom ?? batch.now) + numbersOf(batch).ventS * SECOND;

/** Moves a batch on to instant `t`, which is not before its own. */
export function advance(batch: Batch, t: CoachTime): Batch {
  const passed = t - batch.now;
  if (passed <= 0) return batch;
  if (!isCounting(batch)) return { ...batch, now: t };
  const left = holdLeftMs(batch);
  if (passed < left) {
    return { ...batch, now: t, hold: { ...batch.hold, creditMs: batch.hold.creditMs + passed } };
  }
  const doneAt = batch.now + left;
  const held = { ...batch, now: doneAt, hold: { ...batch.hold, creditMs: holdMs(batch) } };
  return { ...enter(held, 'heat-off', doneAt), now: t };
}
