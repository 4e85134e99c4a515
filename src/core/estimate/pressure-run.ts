/**
 * The chamber from a closed valve to heat-off: straight between what was answered, with a band that widens
 * with the time from the nearest answer. Behind the last one it stays, climbs for as long as a climb takes,
 * or, when it was below target, may be falling; in time that nobody watched it may have been as cold as a
 * flame gone out makes it. Nothing is believed above what was answered: a target that nobody reported was
 * not reached, and a cooker without water makes no steam.
 */
import { numbersOf } from '../batch/moves.ts';
import type { Batch, Reading } from '../batch/state.ts';
import type { Band } from '../science/limits.ts';
import { type CoachTime, MINUTE } from '../time.ts';
import { alongC, freeCooling } from './cooling.ts';
import { bandAt, between, type Corner, instants, ordered } from './corners.ts';
import { hottestC, targetBandC } from './gauge.ts';
import {
  belowBandC,
  climbMs,
  type Known,
  knownPoints,
  type PressureRun,
  unwatched,
  worstOf,
} from './gauge-points.ts';
import { dryInstant } from './water.ts';

/** A gauge nobody looks at drifts: a tenth of a psi a minute, up to some three psi (estimates), in K. */
const DRIFT_K_PER_MIN = 0.13;
const DRIFT_MOST_K = 4;
const STEP = 3 * MINUTE;

const driftK = (ms: number): number => Math.min(DRIFT_MOST_K, (DRIFT_K_PER_MIN * ms) / MINUTE);

function widened(band: Band, byK: number, mostC: number): Band {
  return {
    low: band.low - byK,
    likely: band.likely,
    high: Math.max(band.high, Math.min(mostC, band.high + byK)),
  };
}

/** Up by a slope for `upMs`, and back down as fast when nobody said that it is there. */
const upAndBack = (from: number, perMs: number, upMs: number, ms: number): number =>
  from + perMs * Math.max(0, ms <= upMs ? ms : 2 * upMs - ms);

/** Still climbing: by its own trend once numbers were read, by the usual time before. */
function climbing(batch: Batch, known: readonly Known[], last: Known, ms: number): Band {
  const { boilC } = numbersOf(batch);
  const target = targetBandC(batch);
  const usual = climbMs(batch);
  const quickest = last.c.high + ((target.high - boilC) * ms) / usual.low;
  if (last.kind === 'stuck') return last.c;
  if (last.kind === 'eye') {
    return {
      low: boilC,
      likely: last.c.likely,
      high: Math.max(last.c.high, Math.min(target.high, quickest)),
    };
  }
  if (last.kind !== 'number') {
    const likely = upAndBack(last.c.likely, (target.likely - boilC) / usual.likely, usual.likely, ms);
    return { low: last.c.low, likely, high: Math.max(likely, Math.min(target.high, quickest)) };
  }
  const before = known.findLast(({ kind, t }) => (kind === 'number' || kind === 'start') && t < last.t);
  const slope = before ? (last.c.likely - before.c.likely) / (last.t - before.t) : 0;
  const gap = target.likely - last.c.likely;
  if (slope <= 0 || gap <= 0) return widened(last.c, driftK(ms), target.high);
  const upMs = gap / slope;
  const late = Math.max(0, ms - upMs) / upMs;
  return {
    low: last.c.low - (last.c.low - boilC) * Math.min(1, late),
    likely: upAndBack(last.c.likely, slope, upMs, ms),
    high: Math.max(last.c.high, Math.min(target.high, last.c.high + 2 * slope * ms)),
  };
}

const isAtTarget = (batch: Batch, { c }: Known): boolean => {
  const target = targetBandC(batch);
  return c.high >= target.likely && c.likely > target.low - 0.5;
};

/** The chamber after the last thing known, `ms` later, as long as there is water. */
function wetTail(batch: Batch, run: PressureRun, known: readonly Known[], last: Known, ms: number): Band {
  if (run.holdFrom === null) return climbing(batch, known, last, ms);
  if (last.kind !== 'unsure' && isAtTarget(batch, last)) return widened(last.c, driftK(ms), hottestC(batch));
  // Below stays below, and may fall, until somebody says that it is back.
  const low = Math.min(last.c.low, alongC(freeCooling(batch, last.t, last.c), last.t + ms).low);
  return { low, likely: last.c.likely - (last.c.low - low) / 2, high: last.c.high };
}

/** Without water there is no steam: the low side at once without pressure, the likely one cooling. */
function dried(batch: Batch, wet: (t: CoachTime) => Band, dryAt: CoachTime, t: CoachTime): Band {
  const wetThen = wet(dryAt);
  const from = { ...wetThen, low: Math.min(wetThen.low, numbersOf(batch).boilC) };
  const cooled = alongC(freeCooling(batch, dryAt, from), t);
  return {
    low: cooled.low,
    likely: Math.min(from.likely, cooled.likely),
    high: wet(t).high,
  };
}

function tailCorners(
  batch: Batch,
  run: PressureRun,
  known: readonly Known[],
  last: Known,
): readonly Corner[] {
  if (run.to <= last.t) return [];
  const wet = (t: CoachTime): Band => ordered(wetTail(batch, run, known, last, t - last.t));
  const dryAt = Math.max(last.t, dryInstant(batch, run.load).likely);
  const usual = last.t + climbMs(batch).likely;
  const turns = run.holdFrom === null ? [usual, 2 * usual - last.t] : [];
  const at = [...instants(last.t, run.to, STEP).slice(1), ...turns, dryAt]
    .filter(t => t > last.t && t <= run.to)
    .sort((a, b) => a - b);
  return at.flatMap((t): Corner[] => {
    if (t < dryAt) return [{ t, c: wet(t) }];
    const c = ordered(dried(batch, wet, dryAt, t));
    return t === dryAt
      ? [
          { t, c: wet(t) },
          { t, c },
        ]
      : [{ t, c }];
  });
}

/** Between two points: a climb that took far longer than usual stood low for most of it. */
function middleCorners(batch: Batch, run: PressureRun, a: Known, b: Known): readonly Corner[] {
  const towards = b.towards ?? b.c;
  const most = hottestC(batch);
  const long = b.t - a.t;
  const climbs = run.holdFrom === null || b.t <= run.holdFrom;
  const usual = climbMs(batch).likely;
  if (climbs && long > 2 * usual && towards.likely > a.c.likely + 0.5) {
    const { low, likely } = a.c;
    return [
      { t: a.t + usual, c: { low, likely, high: Math.max(likely, towards.high) } },
      { t: b.t - usual, c: { low, likely, high: Math.max(likely, towards.high) } },
    ];
  }
  if (climbs || isAtTarget(batch, a)) {
    const c = widened(between(a.c, towards, 0.5), driftK(long / 2), most);
    return [{ t: (a.t + b.t) / 2, c }];
  }
  // Below target: how far it fell before it came back, nobody said.
  const tracks = freeCooling(batch, a.t, a.c);
  return instants(a.t, b.t, STEP)
    .slice(1, -1)
    .map(t => {
      const c = between(a.c, towards, (t - a.t) / long);
      return { t, c: { ...c, low: Math.min(c.low, alongC(tracks, t).low) } };
    });
}

/** Worst and best of a time nobody watched, up to the next point. */
function clouded(
  batch: Batch,
  run: PressureRun,
  base: readonly Corner[],
  known: readonly Known[],
): readonly Corner[] {
  const below = belowBandC(batch);
  let corners = base;
  for (const gap of unwatched(batch, run)) {
    const from = Math.max(run.from, gap.from);
    const to = Math.min(run.to, known.find(({ t }) => t >= gap.to)?.t ?? run.to);
    if (to <= from) continue;
    const tracks = freeCooling(batch, from, bandAt(corners, from));
    const told = gap.told;
    const turns = corners.filter(({ t }) => t > from && t < to).map(({ t }) => t);
    const within = [...new Set([...instants(from, to, STEP).slice(1), ...turns])]
      .sort((a, b) => a - b)
      .map((t): Corner => {
        // Just before the instant: a reading there is a jump up from what the gap may have been.
        const seen = bandAt(corners, t - 1);
        const low = Math.min(seen.low, alongC(tracks, t).low);
        const likely = told === 'fell-back-now' ? (low + seen.likely) / 2 : worstOf(low, seen.likely, below);
        const high = told === 'fell-below-now' ? Math.min(seen.high, below.high) : seen.high;
        return { t, c: ordered({ low, likely, high }) };
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

/** Corners of the run through these points. */
function cornersOf(batch: Batch, run: PressureRun, known: readonly Known[]): readonly Corner[] {
  const corners: Corner[] = [];
  for (const [index, point] of known.entries()) {
    const before = known[index - 1];
    if (before && point.t > before.t) {
      corners.push(...middleCorners(batch, run, before, point));
      if (point.towards) corners.push({ t: point.t, c: point.towards });
    }
    corners.push({ t: point.t, c: point.c });
  }
  const last = known.at(-1);
  if (last) corners.push(...tailCorners(batch, run, known, last));
  return clouded(batch, run, corners, known);
}

/** Corners of the run, for these readings. */
export function pressureCorners(
  batch: Batch,
  run: PressureRun,
  readings: readonly Reading[],
): readonly Corner[] {
  const believed = (known: readonly Known[], t: CoachTime): Band => {
    const last = known.at(-1);
    // An instant earlier: at its end a time nobody watched jumps to what comes after it.
    return last && t <= last.t ? last.c : bandAt(cornersOf(batch, { ...run, to: t }, known), t - 1);
  };
  return cornersOf(batch, run, knownPoints(batch, run, readings, believed));
}
