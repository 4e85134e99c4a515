/**
 * Clock times of every step: forward from a start, or back from "ready to inoculate at". Waits that may last
 * longer (soak, locked cooling, rest) are stretched so that what needs a person stays out of the night; where
 * nothing fits, as little as possible falls into it.
 */
import { DAY, HOUR, MINUTE, SECOND, type WallTime } from '../time.ts';
import { type LocalMinute, type Night, nightMs, nightsWithin, type Stretch, touching } from './quiet.ts';
import type { PlannedStep } from './walk.ts';

export interface TimelineStop {
  readonly step: string;
  readonly load: number;
  readonly from: WallTime;
  readonly to: WallTime;
  readonly waits: boolean;
  /** A wait that was made longer to keep a night free, or to end at the asked time. */
  readonly stretched: boolean;
}

export interface Timeline {
  readonly stops: readonly TimelineStop[];
  readonly startsAt: WallTime;
  /** Containers at room temperature and inoculation begins. */
  readonly readyAt: WallTime;
  readonly endsAt: WallTime;
  /** What needs a person and falls into a night all the same, ms. */
  readonly nightMs: number;
  readonly nights: readonly Stretch[];
}

export interface TimelineQuestion {
  readonly walk: readonly PlannedStep[];
  readonly night: Night;
  readonly local: LocalMinute;
}

/** Steps between two waits: they follow one another and need a person throughout. */
interface Part {
  readonly attended: readonly PlannedStep[];
  readonly attendedMs: number;
  /** The wait after them; null after the last. */
  readonly wait: PlannedStep | null;
}

/** In whole minutes: nobody plans by seconds, and clock times stay readable. */
const likelyMs = ({ length }: PlannedStep): number => Math.round((length.likelyS * SECOND) / MINUTE) * MINUTE;

function partsOf(walk: readonly PlannedStep[]): readonly Part[] {
  const parts: Part[] = [];
  let attended: PlannedStep[] = [];
  const close = (wait: PlannedStep | null) => {
    parts.push({ attended, attendedMs: attended.reduce((sum, step) => sum + likelyMs(step), 0), wait });
    attended = [];
  };
  for (const step of walk) {
    if (step.waits) close(step);
    else attended.push(step);
  }
  close(null);
  return parts;
}

/** Longest a plan can get, for the nights that have to be known. */
const shortestMs = (walk: readonly PlannedStep[]): number =>
  walk.reduce((sum, step) => sum + likelyMs(step), 0);
const longestMs = (walk: readonly PlannedStep[]): number =>
  walk.reduce((sum, step) => sum + Math.max(likelyMs(step), step.waits ? step.mostS * SECOND : 0), 0);

/** No batch lasts so long; a damaged journal may say so, and its nights need not all be known. */
const FURTHEST_MS = 120 * DAY;

/** Lays the steps out from a start. */
export function forwardFrom(startsAt: WallTime, { walk, night, local }: TimelineQuestion): Timeline {
  const lasts = Math.min(longestMs(walk), FURTHEST_MS);
  const nights = nightsWithin({ from: startsAt, to: startsAt + lasts + DAY }, night, local);
  return layOut(startsAt, partsOf(walk), nights);
}

function layOut(startsAt: WallTime, parts: readonly Part[], nights: readonly Stretch[]): Timeline {
  const stops: TimelineStop[] = [];
  let clock = startsAt;
  let inNight = 0;
  parts.forEach(({ attended, attendedMs, wait }, index) => {
    inNight += nightMs({ from: clock, to: clock + attendedMs }, nights);
    for (const step of attended) {
      const to = clock + likelyMs(step);
      stops.push({ step: step.step, load: step.load, from: clock, to, waits: false, stretched: false });
      clock = to;
    }
    if (wait === null) return;
    const next = parts[index + 1]?.attendedMs ?? 0;
    const waitMs = bestWait(clock, wait, next, nights);
    stops.push({
      step: wait.step,
      load: wait.load,
      from: clock,
      to: clock + waitMs,
      waits: true,
      stretched: waitMs > likelyMs(wait),
    });
    clock += waitMs;
  });
  const readyAt = stops.findLast(({ step }) => step === 'inoculate')?.from ?? clock;
  return { stops, startsAt, readyAt, endsAt: clock, nightMs: inNight, nights };
}

/** The shortest wait after which the next part lies least in the night. */
function bestWait(from: WallTime, wait: PlannedStep, nextMs: number, nights: readonly Stretch[]): number {
  const least = likelyMs(wait);
  const most = Math.max(least, wait.mostS * SECOND);
  let best = least;
  let bestNight = nightMs({ from: from + least, to: from + least + nextMs }, nights);
  if (bestNight === 0 || most === least) return least;
  // The overlap is piecewise linear: its least value lies where an end of the part meets an end of a night.
  const near = touching({ from: from + least, to: from + most + nextMs }, nights);
  const edges = near.flatMap(night => [night.from, night.to]);
  const tries = [most, ...edges.flatMap(edge => [edge - from, edge - from - nextMs])]
    .filter(ms => ms > least && ms <= most)
    .sort((a, b) => a - b);
  for (const ms of tries) {
    const inNight = nightMs({ from: from + ms, to: from + ms + nextMs }, nights);
    if (inNight < bestNight) {
      best = ms;
      bestNight = inNight;
    }
  }
  return best;
}

/** The first later start, by half hours within a day, that leaves every night free; null when there is none. */
export function freeStart(after: WallTime, question: TimelineQuestion): WallTime | null {
  const half = 30 * MINUTE;
  const first = Math.ceil(after / half) * half;
  for (let start = first; start <= after + DAY; start += half) {
    if (forwardFrom(start, question).nightMs === 0) return start;
  }
  return null;
}

/** Starts that are tried, and how far back: no plan begins earlier than this before it must. */
const START_STEP = 5 * MINUTE;
const LOOK_BACK = 36 * HOUR;

/**
 * The latest start that has everything ready to inoculate at the asked instant with the least work at night, and
 * that is not before `notBefore` as long as the shortest waits allow it. The last wait is stretched to end
 * exactly then.
 */
export function backFrom(
  readyAt: WallTime,
  question: TimelineQuestion,
  notBefore: WallTime = Number.NEGATIVE_INFINITY,
): Timeline {
  const { walk, night, local } = question;
  const parts = partsOf(walk);
  const afterMs = parts.at(-1)?.attendedMs ?? 0;
  const latest = readyAt - (shortestMs(walk) - afterMs);
  const nights = nightsWithin(
    { from: latest - LOOK_BACK, to: readyAt + longestMs(walk) + DAY },
    night,
    local,
  );
  let best = layOut(latest, parts, nights);
  let bestNight = best.readyAt <= readyAt ? cost(best, readyAt, afterMs, nights) : Number.POSITIVE_INFINITY;
  const earliest = Math.max(latest - LOOK_BACK, notBefore);
  for (let start = latest - START_STEP; start >= earliest; start -= START_STEP) {
    if (bestNight === 0) break;
    const tried = layOut(start, parts, nights);
    const spare = readyAt - tried.readyAt;
    if (spare < 0 || spare > slackMs(tried, walk)) continue;
    const atNight = cost(tried, readyAt, afterMs, nights);
    if (atNight < bestNight) {
      best = tried;
      bestNight = atNight;
    }
  }
  if (bestNight === Number.POSITIVE_INFINITY) best = plainly(latest, parts, nights);
  return endingAt(best, readyAt, nights);
}

/** Every wait at its shortest: what is left when no stretched wait meets the asked time. */
function plainly(start: WallTime, parts: readonly Part[], nights: readonly Stretch[]): Timeline {
  const laid = layOut(start, parts, []);
  const inNight = laid.stops
    .filter(({ waits }) => !waits)
    .reduce((sum, stop) => sum + nightMs(stop, nights), 0);
  return { ...laid, nightMs: inNight, nights };
}

/** How much longer the last wait may still get. */
function slackMs(tried: Timeline, walk: readonly PlannedStep[]): number {
  const most = walk.findLast(({ waits }) => waits)?.mostS ?? 0;
  const laid = tried.stops.findLast(({ waits }) => waits);
  return laid === undefined ? 0 : most * SECOND - (laid.to - laid.from);
}

/** Night work when the last part is moved to the asked time. */
function cost(tried: Timeline, readyAt: WallTime, afterMs: number, nights: readonly Stretch[]): number {
  const asLaid = nightMs({ from: tried.readyAt, to: tried.readyAt + afterMs }, nights);
  return tried.nightMs - asLaid + nightMs({ from: readyAt, to: readyAt + afterMs }, nights);
}

/** The same plan with its last wait stretched to end at the asked time. */
function endingAt(laid: Timeline, readyAt: WallTime, nights: readonly Stretch[]): Timeline {
  const spare = readyAt - laid.readyAt;
  const wait = laid.stops.findLastIndex(({ waits }) => waits);
  const stops = laid.stops.map((stop, index) => {
    if (index < wait || spare === 0) return stop;
    const to = stop.to + spare;
    return index === wait ? { ...stop, to, stretched: true } : { ...stop, from: stop.from + spare, to };
  });
  const inNight = stops.filter(({ waits }) => !waits).reduce((sum, stop) => sum + nightMs(stop, nights), 0);
  return { ...laid, stops, readyAt, endsAt: laid.endsAt + spare, nightMs: inNight };
}
