/** What is expected of the chamber from now to the planned end, when all goes on as it should. */
import { holdLeftMs, holdMs, isAwaitingGauge, isCounting } from '../batch/advance.ts';
import { numbersOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { Band } from '../science/limits.ts';
import { type CoachTime, MINUTE, SECOND } from '../time.ts';
import type { Chamber } from './chamber.ts';
import { bandAt, type Corner } from './corners.ts';
import { hottestC, targetBandC } from './gauge.ts';
import { climbMs, isStuck } from './gauge-points.ts';

export interface Ahead {
  /** Planned heat-off. */
  readonly endAt: CoachTime;
  readonly corners: readonly Corner[];
}

/** When the target should be reached, by the climb's own trend or its expected time; null when it does not come. */
function reachedAt(batch: Batch, chamber: Chamber, at: CoachTime, target: Band): CoachTime | null {
  const climbFrom = batch.times.findLast(({ step }) => step === 'climb')?.from ?? at;
  const expected = climbMs(batch).likely;
  const now = bandAt(chamber.corners, at).likely;
  const start = numbersOf(batch).boilC;
  const seen = batch.readings.some(({ step, t, kPa }) => step === 'climb' && t >= climbFrom && kPa !== null);
  if (isStuck(batch) || (now <= start + 1 && at > climbFrom + expected)) return null;
  if (!seen || now <= start + 1 || at <= climbFrom) return Math.max(at + MINUTE, climbFrom + expected);
  return at + Math.max(MINUTE, ((target.likely - now) * (at - climbFrom)) / (now - start));
}

/** Null where no end is planned: before the valve is closed, while time stands still, and once the flame is off. */
export function aheadOf(batch: Batch, chamber: Chamber, at: CoachTime): Ahead | null {
  const target = targetBandC(batch);
  const now = bandAt(chamber.corners, at);
  switch (batch.step) {
    case 'climb': {
      const from = reachedAt(batch, chamber, at, target);
      if (from === null) return null;
      const endAt = from + holdMs(batch);
      return {
        endAt,
        corners: [
          { t: at, c: now },
          { t: from, c: target },
          { t: endAt, c: target },
        ],
      };
    }
    case 'hold': {
      if (isCounting(batch) || isAwaitingGauge(batch)) {
        // A sum of two clocks that run against one another: rounded, so that the end stands still.
        const endAt = Math.round((batch.now + holdLeftMs(batch)) / SECOND) * SECOND;
        const kept: Band = {
          low: Math.min(now.likely, target.low),
          likely: Math.min(hottestC(batch), Math.max(target.low, now.likely)),
          high: Math.max(now.high, target.high),
        };
        return {
          endAt,
          corners: [
            { t: at, c: now },
            { t: at, c: kept },
            { t: Math.max(at, endAt), c: kept },
          ],
        };
      }
      // Nobody knows when it will be back at target, so no end is planned while time stands still.
      return null;
    }
    case 'heat-off':
      return { endAt: at, corners: [{ t: at, c: now }] };
    default:
      return null;
  }
}
