/**
 * The chamber from a closed valve to heat-off: straight between gauge readings, with a band that widens
 * with the time from the nearest one. Behind the last reading it stays, climbs on or, when it was below
 * target, may be falling; in time that nobody watched it may have been as cold as a flame gone out makes it.
 */
import { numbersOf } from '../batch/moves.ts';
import type { Batch, Reading, Unseen } from '../batch/state.ts';
import type { Band } from '../science/limits.ts';
import { type CoachTime, MINUTE, SECOND } from '../time.ts';
import { alongC, freeCooling } from './cooling.ts';
import { bandAt, between, type Corner, instants, mapBand, ordered, same } from './corners.ts';
import { hottestC, readingKPa, targetBandC, temperatureC } from './gauge.ts';

/** A gauge nobody looks at drifts: a tenth of a psi a minute, up to some three psi (estimates), in K. */
const DRIFT_K_PER_MIN = 0.13;
const DRIFT_MOST_K = 4;
/** From a gauge below target back up, at the quickest. */
const BACK_UP = 5 * MINUTE;
const STEP = 3 * MINUTE;

export interface PressureRun {
  readonly from: CoachTime;
  /** Heat-off, or the present instant. */
  readonly to: CoachTime;
  /** When the target was first answered; null while it climbs. */
  readonly holdFrom: CoachTime | null;
}

const driftK = (ms: number): number => Math.min(DRIFT_MOST_K, (DRIFT_K_PER_MIN * ms) / MINUTE);

function widened(band: Band, byK: number, mostC: number): Band {
  return {
    low: band.low - byK,
    likely: band.likely,
    high: Math.max(band.high, Math.min(mostC, band.high + byK)),
  };
}

/** Known temperatures of the run: the boiling point when the valve was closed, then every reading. */
export function knownPoints(batch: Batch, run: PressureRun, readings: readonly Reading[]): readonly Corner[] {
  const known: Corner[] = [{ t: run.from, c: same(numbersOf(batch).boilC) }];
  for (const reading of readings) {
    if (reading.t < run.from || reading.t > run.to) continue;
    const kPa = readingKPa(batch, reading);
    if (kPa === null) continue;
    known.push({ t: reading.t, c: ordered(temperatureC(batch, kPa)) });
  }
  return known;
}

/** The chamber after the last reading, `ms` later. */
function tail(batch: Batch, run: PressureRun, known: readonly Corner[], ms: number): Band {
  const last = known.at(-1) ?? { t: run.from, c: same(numbersOf(batch).boilC) };
  const target = targetBandC(batch);
  const most = hottestC(batch);
  const reached = last.c.high >= target.likely && last.c.likely > target.low - 0.5;
  if (run.holdFrom !== null && reached) return widened(last.c, driftK(ms), most);
  if (run.holdFrom !== null) {
    const cooled = alongC(freeCooling(batch, last.t, last.c), last.t + ms);
    return {
      low: Math.min(last.c.low, cooled.low),
      likely: last.c.likely,
      high: between(last.c, target, Math.min(1, ms / BACK_UP)).high,
    };
  }
  return climbing(batch, known, last, ms);
}

/** Still climbing: by its own trend once it was read, by the expected time before. */
function climbing(batch: Batch, known: readonly Corner[], last: Corner, ms: number): Band {
  const { lengths, boilC } = numbersOf(batch);
  const target = targetBandC(batch);
  const before = known.at(-2);
  const expected = lengths.climb;
  const rise = (seconds: number | undefined): number =>
    seconds ? (target.likely - boilC) / (seconds * SECOND) : (target.likely - boilC) / (8 * MINUTE);
  const seen =
    before && last.t > before.t ? Math.max(0, (last.c.likely - before.c.likely) / (last.t - before.t)) : null;
  const slope: Band =
    seen === null
      ? { low: rise(expected?.highS), likely: rise(expected?.likelyS), high: rise(expected?.lowS) }
      : { low: 0, likely: seen, high: 2 * seen };
  const mostly = mapBand(last.c, (value, side) =>
    Math.max(value, Math.min(target[side], value + slope[side] * ms)),
  );
  return ordered(mostly);
}

function unwatched(batch: Batch, run: PressureRun): readonly Unseen[] {
  const { away, step } = batch;
  const open = away && step !== 'vent' ? [{ from: away.from, to: run.to, told: null }] : [];
  return [...batch.unseen, ...open].filter(
    ({ from, to, told }) => told !== 'stayed' && to > run.from && from < run.to,
  );
}

/** Worst and best of a time nobody watched, up to the next reading; likely is half-way. */
function clouded(
  batch: Batch,
  run: PressureRun,
  base: readonly Corner[],
  known: readonly Corner[],
): readonly Corner[] {
  let corners = base;
  for (const gap of unwatched(batch, run)) {
    const from = Math.max(run.from, gap.from);
    const to = Math.min(run.to, known.find(({ t }) => t >= gap.to)?.t ?? run.to);
    if (to <= from) continue;
    const tracks = freeCooling(batch, from, bandAt(corners, from));
    const within = instants(from, to, STEP)
      .slice(1)
      .map((t): Corner => {
        // Just before the instant: a reading there is a jump up from what the gap may have been.
        const seen = bandAt(corners, t - 1);
        const low = Math.min(seen.low, alongC(tracks, t).low);
        return { t, c: { low, likely: (low + seen.high) / 2, high: seen.high } };
      });
    corners = [
      ...corners.filter(({ t }) => t <= from),
      { t: from, c: bandAt(corners, from) },
      ...within,
      { t: to, c: bandAt(corners, to) },
      ...corners.filter(({ t }) => t > to),
    ];
  }
  return corners;
}

/** Corners of the run, for these readings. */
export function pressureCorners(
  batch: Batch,
  run: PressureRun,
  readings: readonly Reading[],
): readonly Corner[] {
  const known = knownPoints(batch, run, readings);
  const most = hottestC(batch);
  const corners: Corner[] = [];
  for (const [index, point] of known.entries()) {
    const before = known[index - 1];
    if (before && point.t > before.t) {
      const middle = between(before.c, point.c, 0.5);
      corners.push({
        t: (before.t + point.t) / 2,
        c: widened(middle, driftK((point.t - before.t) / 2), most),
      });
    }
    corners.push(point);
  }
  const last = known.at(-1);
  if (last && run.to > last.t) {
    for (const t of instants(last.t, run.to, STEP).slice(1)) {
      corners.push({ t, c: ordered(tail(batch, run, known, t - last.t)) });
    }
  }
  return clouded(batch, run, corners, known);
}
