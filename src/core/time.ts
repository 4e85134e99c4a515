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
  /** Names this start of the machine; uptimes of two boots cannot be compared. */
  readonly boot: string;
  /** Names this process; steady clocks of two processes cannot be compared. */
  readonly process: string;
}

/** How far a wall clock may run from the machine's own before it counts as having been set. */
export const JUMP = MINUTE;

export interface Elapsed {
  /** Ms that certainly passed. */
  readonly ms: number;
  /** Set when the wall clock was moved against the machine's own clocks, by so many ms. */
  readonly jump?: number;
  /** Set when more time may have passed, which only the person can confirm: ms by the wall clock. */
  readonly claimed?: number;
}

/**
 * Time that passed between two samples, and what is doubtful about it.
 *
 * Same boot: the smaller of wall clock and uptime, unless the wall clock fell behind by more than `JUMP`
 * (it was set back: uptime is believed). Never less than the process's own steady clock. Another boot:
 * only the new uptime is certain; the rest of what the wall clock claims is returned as `claimed`.
 */
export function elapsedBetween(before: ClockSample, after: ClockSample): Elapsed {
  const wall = after.wall - before.wall;
  if (before.boot !== after.boot) {
    const certain = Math.max(0, after.uptime);
    return wall > certain + JUMP ? { ms: certain, claimed: wall } : { ms: Math.max(0, Math.min(certain, wall)) };
  }
  const steady = before.process === after.process ? Math.max(0, after.steady - before.steady) : 0;
  const uptime = Math.max(0, after.uptime - before.uptime);
  const apart = wall - uptime;
  const believed = apart < -JUMP ? uptime : Math.min(Math.max(0, wall), uptime);
  const ms = Math.max(steady, believed);
  return Math.abs(apart) > JUMP ? { ms, jump: apart } : { ms };
}
