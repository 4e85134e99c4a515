/** Time that nobody watched: noted when it is over, or doubted by the person afterwards. */
import { gaugeToldAt, isHeld } from './gauge.ts';
import { note, numbersOf } from './moves.ts';
import type { BatchEvent } from './events.ts';
import type { Away, Batch } from './state.ts';
import { stepRow } from './steps.ts';

/** Time nobody watched: kept out of every watched count until the person answers for it. */
export function gap(batch: Batch, event: Extract<BatchEvent, { type: 'gap' }>): Batch {
  const passed: Batch = { ...batch, now: event.t };
  const noted =
    event.why === 'restart' && stepRow(batch.step).maybePressure
      ? note(passed, 'computer-restarted')
      : passed;
  const claimedMs = (batch.claim?.ms ?? 0) + (event.claimedMs ?? 0);
  const doubtful = claimedMs > 0 && batch.finishedAt === null;
  const claimed: Batch = doubtful ? { ...noted, claim: { ms: claimedMs } } : noted;
  if (claimed.away) return claimed;
  const { step } = batch;
  const seen: Batch = stepRow(step).maybePressure
    ? { ...claimed, unseen: [...claimed.unseen, { from: batch.now, to: event.t, told: null }] }
    : claimed;
  const away = { from: batch.now, to: event.t, why: event.why };
  const vented = batch.ventFrom !== null && batch.now >= batch.ventFrom + numbersOf(batch).ventS * 1000;
  // What was seen of these two is asked, and kept with the answer.
  if (step === 'vent' && !vented) return { ...note(claimed, 'away'), away };
  if (step === 'hold' && isHeld(batch)) return { ...note(claimed, 'away'), away };
  return seen;
}

/** The person says that nobody watched gauge or steam since it was last answered: that time is taken back. */
export function doubt(batch: Batch): Batch {
  // Of steam that nobody watched it is asked whether it blew the whole time.
  if (batch.step === 'vent') {
    return { ...batch, away: { from: batch.ventFrom ?? batch.since, to: batch.now, why: 'said' } };
  }
  // Nothing was credited, so there is nothing to take back, and "it stayed" would speak of no pressure.
  if (!isHeld(batch)) return batch;
  const away: Away = { from: gaugeToldAt(batch), to: batch.now, why: 'said' };
  return { ...batch, away, hold: { ...batch.hold, creditMs: batch.hold.vouchedMs } };
}
