/**
 * Time as the coach counts it.
 *
 * A batch never reads a wall clock. It counts `CoachTime`: milliseconds since the batch began that the
 * coach believes really passed. The edge samples several clocks (`ClockSample`) and `elapsedBetween`
 * decides how much of what they say is believed, so that a clock set forward cannot shorten a countdown
 * and one set back cannot lose it.
 */

/** Milliseconds since the batch began, as believed by the coach; never runs backwards. */
export type CoachTime = number;
/** Milliseconds since 1970 by the computer's wall clock; for display and dates only. */
export type WallTime = number;

export const SECOND = 1000;
export const MINUTE = 60 * SECOND;
export const HOUR = 60 * MINUTE;
export const DAY = 24 * HOUR;

/** What the clocks of the machine said at one instant. */
export interface ClockSample {
  /** Wall clock, ms since 1970: may be set by anybody, counts sleep. */
  readonly wall: WallTime;
  /** Ms since the machine was started, counting sleep. */
  readonly uptime: number;
  /** Ms of this process's monotonic clock: never jumps, may stand still while the machine sleeps. */
  readonly steady: number;
  /** Names this start of the machine, `id@machine`; uptimes of two boots cannot be compared. */
  readonly boot: string;
  /** Names this process; steady clocks of two processes cannot be compared. */
  readonly process: string;
}

/** How far a wall clock may run from the machine's own before it counts as having been set. */
export const JUMP = MINUTE;

/** Gaps between the machine's own clocks up to this are their graininess, not sleep. */
export const GRAIN = 2 * SECOND;

export interface Elapsed {
  /** Ms that certainly passed. */
  readonly ms: number;
  /** Set when the wall clock was moved against the machine's own clocks, by so many ms. */
  readonly jump?: number;
  /** Set when more time may have passed, which only the person can confirm: ms by the wall clock. */
  readonly claimed?: number;
}

/**
 * Time that passed between two samples, and what is doubtful about it. Never more than really passed, to
 * within `GRAIN`, as long as uptime and steady clock are honest; the wall clock may say what it likes.
 *
 * Same start of the machine: the smaller of wall clock and uptime, unless the wall clock fell behind by more
 * than `JUMP` (it was set back: uptime is believed). Within one process the steady clock is the measure, and
 * the others count only where they show that the machine slept.
 * Another start: only the new uptime is certain; the rest of what the wall clock claims is returned as
 * `claimed`. Another machine: nothing is certain.
 * Throws RangeError for a sample that is not finite.
 */
export function elapsedBetween(before: ClockSample, after: ClockSample): Elapsed {
  mustBeFinite(before);
  mustBeFinite(after);
  const wall = after.wall - before.wall;
  const steady = before.process === after.process ? Math.max(0, after.steady - before.steady) : null;
  const start = steady === null ? startOf(before, after) : 'same';
  if (start !== 'same') {
    const certain = start === 'machine' ? 0 : Math.max(0, after.uptime);
    if (wall > certain + JUMP) return { ms: certain, claimed: wall };
    const ms = start === 'other' ? certain : Math.max(0, Math.min(certain, wall));
    return wall < certain - JUMP ? { ms, jump: wall - certain } : { ms };
  }
  const uptime = Math.max(0, after.uptime - before.uptime);
  const apart = wall - uptime;
  const believed = apart < -JUMP ? uptime : Math.min(Math.max(0, wall), uptime);
  // Taking the greater of two grainy clocks at every tick would add up to a clock that runs fast.
  const ms = steady !== null && believed < steady + GRAIN ? steady : believed;
  return Math.abs(apart) > JUMP ? { ms, jump: apart } : { ms };
}

/**
 * How two samples of different processes stand to one another: the same start of the machine, another start
 * of it, probably another start, or another machine. A boot name is `id@machine`; an id that begins with "~"
 * is an estimate that changes when the wall clock is set. With an estimate, an uptime that grew is taken for
 * the same start: should it be another one, then even more time has passed than is believed.
 */
function startOf(before: ClockSample, after: ClockSample): 'same' | 'other' | 'perhaps other' | 'machine' {
  const grew = after.uptime >= before.uptime - JUMP;
  if (before.boot === after.boot) return grew ? 'same' : 'perhaps other';
  const [id = '', machine] = before.boot.split('@');
  if (after.boot.split('@')[1] !== machine) return 'machine';
  if (!id.startsWith('~')) return 'other';
  return grew ? 'same' : 'perhaps other';
}

function mustBeFinite({ wall, uptime, steady }: ClockSample): void {
  if (Number.isFinite(wall) && Number.isFinite(uptime) && Number.isFinite(steady)) return;
  throw new RangeError(`A clock gave no time: wall ${wall}, uptime ${uptime}, steady ${steady}.`);
}
