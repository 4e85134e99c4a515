/** The one number of a step: what is counted, how much is left, and when it will be done. */
import { SECOND, type CoachTime } from '../time.ts';
import { holdLeftMs, holdMs, isCounting, ventEnd } from './advance.ts';
import { openAsk, soakEarliest, soakLatest, towelReady } from './lockout.ts';
import { numbersOf, recipeOf } from './moves.ts';
import type { Batch } from './state.ts';

export type CountOf =
  | 'soak'
  | 'look'
  | 'simmer'
  | 'stir'
  | 'towel'
  | 'vent'
  | 'climb'
  | 'hold'
  | 'overrun'
  | 'pressure-lock'
  | 'cool-lock'
  | 'wait';

export interface Count {
  readonly of: CountOf;
  readonly direction: 'down' | 'up';
  /** Left when counting down, passed when counting up. */
  readonly ms: number;
  /** Whole length of a countdown, for a bar; null for a count-up. */
  readonly totalMs: number | null;
  /** When it will be done; null while it stands still or counts up. */
  readonly until: CoachTime | null;
  readonly running: boolean;
}

function down(of: CountOf, now: CoachTime, until: CoachTime, totalMs: number): Count {
  return { of, direction: 'down', ms: Math.max(0, until - now), totalMs, until, running: true };
}
function up(of: CountOf, now: CoachTime, from: CoachTime): Count {
  return { of, direction: 'up', ms: Math.max(0, now - from), totalMs: null, until: null, running: true };
}

function lockCount(batch: Batch): Count | null {
  const { lock, now } = batch;
  if (!lock) return null;
  if (now < lock.pressureUntil) {
    return down('pressure-lock', now, lock.pressureUntil, lock.pressureUntil - lock.heatOffAt);
  }
  return now < lock.coolUntil
    ? down('cool-lock', now, lock.coolUntil, lock.coolUntil - lock.heatOffAt)
    : up('wait', now, lock.coolUntil);
}

/** What is counted now; null in steps that have no clock. */
export function countOf(batch: Batch): Count | null {
  const { now } = batch;
  switch (batch.ask) {
    case 'soaking': {
      const earliest = soakEarliest(batch);
      return now < earliest
        ? down('soak', now, earliest, earliest - batch.since)
        : down('soak', now, soakLatest(batch), soakLatest(batch) - batch.since);
    }
    case 'simmering': {
      const look = batch.lookAt ?? now;
      return now < look
        ? down('look', now, look, look - batch.askSince)
        : up('simmer', now, batch.simmerFrom ?? now);
    }
    case 'kernel-centre':
    case 'burst':
      return up('simmer', now, batch.simmerFrom ?? now);
    case 'drying': {
      const stir = batch.stirAt ?? now;
      return now < stir
        ? down('stir', now, stir, recipeOf(batch).drying.stirEveryS * SECOND)
        : up('wait', now, batch.since);
    }
    case 'towel':
      return down('towel', now, towelReady(batch), towelReady(batch) - batch.askSince);
    case 'venting':
      return down('vent', now, ventEnd(batch), numbersOf(batch).ventS * SECOND);
    case 'climbing':
      return up('climb', now, batch.since);
    case 'holding': {
      const ms = holdLeftMs(batch);
      const running = isCounting(batch);
      return {
        of: 'hold',
        direction: 'down',
        ms,
        totalMs: holdMs(batch),
        until: running ? now + ms : null,
        running,
      };
    }
    case 'flame':
      return up('overrun', now, batch.since);
    case 'gauge-zero':
    case 'pin':
    case 'shut':
      return lockCount(batch);
    case 'steam':
    case 'warmth':
      return up('wait', now, batch.since);
    default:
      return null;
  }
}

/** A doubt hides the step's own question, and its number is not to be believed meanwhile. */
export const isInDoubt = (batch: Batch): boolean => openAsk(batch) !== batch.ask;
