/**
 * Taking back the last answer. What it changed is restored; what time, the clocks and safety have said
 * since then is not: no lock gets shorter, no time is credited, nothing leaves the record.
 */
import { steamAgain } from './moves.ts';
import type { Batch, Deviation, Lock, Unseen } from './state.ts';
import { stepRow } from './steps.ts';
import { troubleRow } from './troubles.ts';

function laterLock(restored: Lock | null, current: Lock | null): Lock | null {
  if (!restored || !current) return restored;
  return {
    ...restored,
    pressureUntil: Math.max(restored.pressureUntil, current.pressureUntil),
    coolUntil: Math.max(restored.coolUntil, current.coolUntil),
  };
}

/**
 * The states that can still be gone back to once something was done in `from`. Once anything was answered
 * under a closed or steaming lid, the steps in front of the lid are out of reach: from there a batch could be
 * ended, or the vessel opened, without the lock.
 */
export function reachableFrom(from: Batch, past: readonly Batch[]): readonly Batch[] {
  if (!stepRow(from.step).maybePressure) return past;
  return past.slice(past.findLastIndex(batch => !stepRow(batch.step).maybePressure) + 1);
}

/** What a clock or a closed program said is no answer, and is not taken back with one. */
const takeBack = (deviation: Deviation): Deviation =>
  troubleRow(deviation.trouble).byClock ? deviation : { ...deviation, takenBack: true };

/** Time that nobody watched stays unwatched, whatever is taken back; only what was told of it goes. */
function unseenAfter(before: Batch, current: Batch): readonly Unseen[] {
  const later = current.unseen.filter(({ from, told }) => told === null && from >= before.now);
  const doubt =
    current.away && !before.away ? [{ from: current.away.from, to: current.now, told: null }] : [];
  return [...before.unseen, ...later, ...doubt];
}

/** The batch as it was before its last answer, at the present instant. */
export function undo(before: Batch, current: Batch): Batch {
  const kept = before.deviations.length;
  const meanwhile = current.now - before.now;
  const restored: Batch = {
    ...before,
    now: current.now,
    wall: current.wall,
    claim: current.claim ?? before.claim,
    unseen: unseenAfter(before, current),
    lock: before.load === current.load ? laterLock(before.lock, current.lock) : before.lock,
    deviations: current.deviations.map((deviation, index) =>
      index < kept ? deviation : takeBack(deviation),
    ),
  };
  switch (restored.step) {
    // Nobody said that the steam went on meanwhile: the vent has to be unbroken again.
    case 'vent':
      return steamAgain(restored);
    // Back in the hold the gauge has to be answered before time counts again.
    case 'hold':
      return restored.away ? restored : { ...restored, hold: { ...restored.hold, belief: 'unknown' } };
    // What passed elsewhere was not soaked, and the towel has to lie again.
    case 'soak':
      return { ...restored, away: null, since: before.since + meanwhile };
    case 'surface-dry':
      return { ...restored, away: null, askSince: before.askSince + meanwhile };
    default:
      return { ...restored, away: null };
  }
}
