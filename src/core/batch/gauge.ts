/** What is believed of the gauge in a hold, for how long an answer vouches, and what a dip does. */
import { SECOND, type CoachTime } from '../time.ts';
import { numbersOf, read, recall, recipeOf } from './moves.ts';
import type { DipCost } from './events.ts';
import type { Batch, Dip, GaugeBelief } from './state.ts';

/** A dial cannot be read finer than about a quarter psi: less than that under target is still "at" (common practice, no source). */
export const GAUGE_GRAIN_KPA = 1.7;
/** So far over target that the flame should come down: about one and a half psi (common practice, no source). */
export const ABOVE_KPA = 10;

export function believe(kPa: number, targetKPa: number): 'below' | 'at' | 'above' {
  if (kPa < targetKPa - GAUGE_GRAIN_KPA) return 'below';
  return kPa > targetKPa + ABOVE_KPA ? 'above' : 'at';
}

/** Believed at or above target. */
export const isHeld = ({ hold }: Batch): boolean => hold.belief === 'at' || hold.belief === 'above';

/** When the gauge was answered last in this hold; the answer that began it is the first. */
export function gaugeToldAt(batch: Batch): CoachTime {
  const told = batch.readings.findLast(({ seen }) => seen !== 'unknown');
  return Math.max(batch.since, told?.t ?? batch.since);
}

/** The hold goes on on an answer at the gauge that is too old to vouch for what passed since. */
export function isGaugeOverdue(batch: Batch, at: CoachTime = batch.now): boolean {
  const { gaugeAnswerS } = numbersOf(batch);
  return (
    gaugeAnswerS !== undefined &&
    batch.step === 'hold' &&
    isHeld(batch) &&
    at - gaugeToldAt(batch) > gaugeAnswerS * SECOND
  );
}

/** A dip under the recipe's policy: all minutes again, or only the missing ones. */
export function dip(batch: Batch, belief: GaugeBelief, from: CoachTime = batch.now): Batch {
  const { hold } = batch;
  const restart = recipeOf(batch).dips === 'restart';
  const lostMs = restart ? hold.creditMs : 0;
  const open = openDip(batch);
  const entry: Dip = open
    ? { ...open, lostMs: open.lostMs + lostMs }
    : { load: batch.load, from, to: null, lostMs, addedMs: 0, f0Min: null };
  return {
    ...batch,
    dips: [...batch.dips.filter(other => other !== open), entry],
    hold: {
      ...hold,
      creditMs: restart ? 0 : hold.creditMs,
      vouchedMs: restart ? 0 : hold.creditMs,
      belief,
      dips: hold.dips + 1,
      lostMs: hold.lostMs + lostMs,
    },
  };
}

/** The dip that still lasts in this hold, or undefined. */
export const openDip = (batch: Batch): Dip | undefined =>
  batch.step === 'hold'
    ? batch.dips.findLast(({ from, to }) => to === null && from >= batch.since)
    : undefined;

/** Once the gauge is back at target the dip is over, and under "make up" the hold grows by what it cost. */
export function settleDip(batch: Batch, cost: DipCost | undefined): Batch {
  const open = openDip(batch);
  if (!open || !isHeld(batch)) return batch;
  const addedMs = recipeOf(batch).dips === 'make up' ? (cost?.addS ?? 0) * SECOND : 0;
  const ended: Dip = { ...open, to: batch.now, addedMs, f0Min: cost?.f0Min ?? null };
  return {
    ...batch,
    dips: batch.dips.map(entry => (entry === open ? ended : entry)),
    hold: { ...batch.hold, extraMs: batch.hold.extraMs + addedMs },
  };
}

/**
 * The gauge is below target. That is a dip when it was believed at target, and also when nobody knew (after
 * an undo): what was held before that must not outlive a dip that the policy starts over. Since an answer that
 * is too old to vouch for it, nobody knows when it fell, so nothing since then counts.
 */
export function fallBelow(before: Batch, kPa: number | null = null): Batch {
  if (isGaugeOverdue(before)) {
    const from = gaugeToldAt(before);
    const doubted: Batch = {
      ...before,
      away: { from, to: before.now, why: 'said' },
      hold: { ...before.hold, creditMs: before.hold.vouchedMs },
    };
    return dip(recall(read(doubted, 'below', kPa), 'fell-below-now'), 'below', from);
  }
  const batch = read(before, 'below', kPa);
  const dipped = isHeld(batch) || (batch.hold.belief === 'unknown' && batch.hold.creditMs > 0);
  return dipped ? dip(batch, 'below') : { ...batch, hold: { ...batch.hold, belief: 'below' } };
}
