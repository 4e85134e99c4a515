/**
 * Taking back the last answer. What it changed is restored; what time, the clocks and safety have said
 * since then is not: no lock gets shorter, no time is credited, nothing leaves the record.
 */
import { steamAgain } from './moves.ts';
import type { Batch, Lock } from './state.ts';

function laterLock(restored: Lock | null, current: Lock | null): Lock | null {
  if (!restored || !current) return restored;
  return {
    ...restored,
    pressureUntil: Math.max(restored.pressureUntil, current.pressureUntil),
    coolUntil: Math.max(restored.coolUntil, current.coolUntil),
  };
}

/** The batch as it was before its last answer, at the present instant. */
export function undo(before: Batch, current: Batch): Batch {
  const kept = before.deviations.length;
  const restored: Batch = {
    ...before,
    now: current.now,
    wall: current.wall,
    claim: current.claim ?? before.claim,
    lock: before.load === current.load ? laterLock(before.lock, current.lock) : before.lock,
    deviations: current.deviations.map((deviation, index) =>
      index < kept ? deviation : { ...deviation, takenBack: true },
    ),
  };
  switch (restored.step) {
    // Nobody said that the steam went on meanwhile: the vent has to be unbroken again.
    case 'vent':
      return steamAgain(restored);
    // Back in the hold the gauge has to be answered before time counts again.
    case 'hold':
      return restored.away ? restored : { ...restored, hold: { ...restored.hold, belief: 'unknown' } };
    default:
      return { ...restored, away: null };
  }
}
