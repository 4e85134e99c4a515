/** Nights on a line of time: when the quiet hours are, and how much of a stretch falls into them. */
import type { Kitchen } from '../kitchen.ts';
import { DAY, MINUTE, type WallTime } from '../time.ts';

/** Minute of the local day of an instant, 0 to 1439; the edge knows time zones, the core does not. */
export type LocalMinute = (wall: WallTime) => number;

export interface Stretch {
  readonly from: WallTime;
  readonly to: WallTime;
}

/** Nights that a plan keeps free when the person said no quiet hours, minutes after midnight. */
export const DEFAULT_NIGHT = { fromMin: 23 * 60, toMin: 7 * 60 } as const;

export interface Night {
  readonly fromMin: number;
  readonly toMin: number;
}

/** The person's quiet hours, or the default night. */
export function nightOf({ alerts: { quietFromMin, quietToMin } }: Kitchen): Night {
  return quietFromMin === quietToMin ? DEFAULT_NIGHT : { fromMin: quietFromMin, toMin: quietToMin };
}

const DAY_MIN = 24 * 60;

/** First instant at or after `from` whose local minute is `minute`, whole minutes; right across clock changes. */
export function nextAt(minute: number, from: WallTime, local: LocalMinute): WallTime {
  let at = Math.ceil(from / MINUTE) * MINUTE;
  // A change of the clock on the way is made up in the second round; an hour that is skipped ends there too.
  for (let round = 0; round < 3; round += 1) {
    const ahead = (minute - local(at) + DAY_MIN) % DAY_MIN;
    if (ahead === 0) return at;
    const late = DAY_MIN - ahead;
    at += (round > 0 && late <= 120 ? -late : ahead) * MINUTE;
  }
  return at;
}

/** All nights that touch a stretch of time, in order. */
export function nightsWithin({ from, to }: Stretch, night: Night, local: LocalMinute): readonly Stretch[] {
  const nights: Stretch[] = [];
  let begins = nextAt(night.fromMin, from - DAY, local);
  while (begins < to) {
    const ends = nextAt(night.toMin, begins + MINUTE, local);
    if (ends > from) nights.push({ from: begins, to: ends });
    begins = nextAt(night.fromMin, ends, local);
  }
  return nights;
}

/** Those of the nights, which are in order, that touch a stretch. */
export function touching({ from, to }: Stretch, nights: readonly Stretch[]): readonly Stretch[] {
  let low = 0;
  let high = nights.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((nights[middle]?.to ?? 0) > from) high = middle;
    else low = middle + 1;
  }
  let end = low;
  while (end < nights.length && (nights[end]?.from ?? to) < to) end += 1;
  return nights.slice(low, end);
}

/** Milliseconds of a stretch that fall into the nights, which are in order. */
export function nightMs(stretch: Stretch, nights: readonly Stretch[]): number {
  return touching(stretch, nights).reduce(
    (sum, { from, to }) => sum + Math.min(stretch.to, to) - Math.max(stretch.from, from),
    0,
  );
}
