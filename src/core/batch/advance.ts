/** What time alone does to a batch. One long step equals any number of short ones. */
import { SECOND, type CoachTime } from '../time.ts';
import { isGaugeOverdue, isHeld } from './gauge.ts';
import { enter, numbersOf } from './moves.ts';
import type { Batch } from './state.ts';

/** The recipe's minutes and what dips have added to them. */
export const holdMs = (batch: Batch): number => numbersOf(batch).holdS * SECOND + batch.hold.extraMs;
export const holdLeftMs = (batch: Batch): number => Math.max(0, holdMs(batch) - batch.hold.creditMs);

/** Believed at or above target, and nobody has to be asked first what happened meanwhile. */
const isBelieved = (batch: Batch): boolean =>
  batch.step === 'hold' && !batch.away && !batch.claim && isHeld(batch);
/** Time counts towards the hold only here. */
export const isCounting = (batch: Batch): boolean => isBelieved(batch) && holdLeftMs(batch) > 0;
/** Every minute is served, but the last answer at the gauge is too old to end the hold on. */
export const isAwaitingGauge = (batch: Batch): boolean => isBelieved(batch) && holdLeftMs(batch) === 0;

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
  if (isGaugeOverdue(held)) return { ...held, now: t };
  return { ...enter(held, 'heat-off', doneAt), now: t };
}
