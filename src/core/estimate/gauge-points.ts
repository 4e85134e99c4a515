/** What is known of the chamber between a closed valve and heat-off: one point for each thing that was answered. */
import { numbersOf } from '../batch/moves.ts';
import type { Batch, Reading, Unseen } from '../batch/state.ts';
import type { TroubleId } from '../batch/troubles.ts';
import type { Band } from '../science/limits.ts';
import { type CoachTime, MINUTE, SECOND } from '../time.ts';
import { alongC, freeCooling } from './cooling.ts';
import { type Corner, ordered, same } from './corners.ts';
import { belowKPa, readingKPa, targetBandC, temperatureC } from './gauge.ts';

export interface PressureRun {
  readonly load: number;
  readonly from: CoachTime;
  /** Heat-off, or the present instant. */
  readonly to: CoachTime;
  /** When the target was first answered; null while it climbs. */
  readonly holdFrom: CoachTime | null;
}

/**
 * `start` valve closed; `number` and `eye` from a reading; `stuck` will not climb; `unsure` nobody knows what
 * the gauge did up to here.
 */
export interface Known extends Corner {
  readonly kind: 'start' | 'number' | 'eye' | 'stuck' | 'unsure';
  /** What the time before it is drawn towards, where that is not the band itself. */
  readonly towards?: Band;
}

/** A climb takes so long where no plan says so (common practice, no source). */
const USUAL_CLIMB = 8 * MINUTE;
/** A pot that will not climb stands at some five psi at most (estimate). */
const STUCK_KPA = 34.5;
/** Troubles by which the person says that the pressure does not come. */
const NO_CLIMB: readonly TroubleId[] = ['will-not-climb', 'gasket-leaks', 'flame-weak'];

/** From a closed valve to target, ms: usually, at the quickest, at the slowest. */
export function climbMs(batch: Batch): Band {
  const length = numbersOf(batch).lengths.climb;
  return length
    ? { low: length.lowS * SECOND, likely: length.likelyS * SECOND, high: length.highS * SECOND }
    : same(USUAL_CLIMB);
}

/** The person said that the pressure does not come, and has read nothing since. */
export function isStuck({ deviations, readings, load, since }: Batch): boolean {
  const said = deviations.findLast(
    ({ trouble, takenBack, ...noted }) => NO_CLIMB.includes(trouble) && !takenBack && noted.load === load,
  );
  const read = readings.findLast(reading => reading.load === load && reading.step === 'climb');
  return said !== undefined && said.t >= since && said.t >= (read?.t ?? since);
}

/** Below target while it climbs: anything from no pressure on, half-way at most as the likely one. */
function climbingEye(batch: Batch, run: PressureRun, t: CoachTime): Band {
  const { targetKPa } = numbersOf(batch);
  const share = Math.min(0.5, (t - run.from) / climbMs(batch).likely);
  return temperatureC(batch, { low: 0, likely: targetKPa * share, high: belowKPa(batch).high });
}

/** After time that nobody watched a gauge below target may be anywhere down to a cold vessel. */
function afterGap(batch: Batch, gap: Unseen | undefined, before: Known, c: Band): Band {
  if (!gap) return c;
  const cooled = alongC(freeCooling(batch, gap.from, before.c), gap.to).low;
  const low = Math.min(c.low, cooled);
  return { low, likely: Math.min(c.likely, (low + c.likely) / 2), high: c.high };
}

/** What was believed of an instant by the points before it. */
export type Believed = (known: readonly Known[], t: CoachTime) => Band;

function pointOf(
  batch: Batch,
  run: PressureRun,
  reading: Reading,
  before: Known,
  believed: () => Band,
): Known | null {
  const kPa = readingKPa(batch, reading);
  if (kPa === null) return null;
  const { t } = reading;
  if (reading.kPa !== null) return { t, c: ordered(temperatureC(batch, kPa)), kind: 'number' };
  if (reading.seen !== 'below') return { t, c: ordered(temperatureC(batch, kPa)), kind: 'eye' };
  const climbs = run.holdFrom === null || t < run.holdFrom;
  if (climbs) return { t, c: climbingEye(batch, run, t), kind: 'eye' };
  const below = ordered(temperatureC(batch, kPa));
  const gap = batch.unseen.find(({ to, told }) => to === t && told === 'fell-below-now');
  const c = afterGap(batch, gap, before, below);
  // "Below" does not say how far: it is no reason to believe in more heat than before it was answered.
  const { low, likely } = believed();
  const told = { low: Math.min(c.low, low), likely: Math.min(c.likely, likely), high: c.high };
  return { t, c: ordered(told), kind: 'eye', towards: gap ? below : ordered(told) };
}

/** "Will not climb": no higher than it was read before, or than a few psi. */
function stuckAt(batch: Batch, t: CoachTime, before: Known): Known {
  const { boilC } = numbersOf(batch);
  const high = temperatureC(batch, { low: 0, likely: 0, high: STUCK_KPA }).high;
  const read = before.kind === 'number';
  return {
    t,
    c: read
      ? { low: Math.min(boilC, before.c.low), likely: before.c.likely, high: before.c.high }
      : { low: boilC, likely: boilC, high },
    kind: 'stuck',
  };
}

/** Likely in a time of which nobody knows: as if it had been below target throughout, the worst answer. */
export const worstOf = (low: number, likely: number, below: Band): number =>
  Math.max(low, (low + Math.min(likely, below.likely)) / 2);

export const belowBandC = (batch: Batch): Band => ordered(temperatureC(batch, belowKPa(batch)));

/** The end of a time in the hold of which nobody knows what the gauge did. */
function unsureAt(batch: Batch, t: CoachTime, from: CoachTime, before: Known): Known {
  const target = targetBandC(batch);
  const low = Math.min(target.low, alongC(freeCooling(batch, from, before.c), t).low);
  const c = { low, likely: worstOf(low, target.likely, belowBandC(batch)), high: target.high };
  return { t, c, kind: 'unsure', towards: target };
}

/** Times that nobody watched and nobody could vouch for afterwards, within a run. */
export function unwatched(batch: Batch, run: PressureRun): readonly Unseen[] {
  const { away, step, load } = batch;
  const open = away && step !== 'vent' && load === run.load;
  return [...batch.unseen, ...(open ? [{ from: away.from, to: run.to, told: null }] : [])].filter(
    ({ from, to, told }) => told !== 'stayed' && to > run.from && from < run.to,
  );
}

/** Everything known of a run, in order: the boiling point when the valve was closed, then what was answered. */
export function knownPoints(
  batch: Batch,
  run: PressureRun,
  readings: readonly Reading[],
  believed: Believed,
): readonly Known[] {
  const within = (t: CoachTime) => t >= run.from && t <= run.to;
  const holdFrom = run.holdFrom ?? Number.POSITIVE_INFINITY;
  const stuck = batch.deviations.filter(
    ({ trouble, t, load, takenBack }) =>
      NO_CLIMB.includes(trouble) && load === run.load && !takenBack && within(t) && t < holdFrom,
  );
  const unsure = unwatched(batch, run).filter(
    ({ to, told }) => (told === 'unknown' || (told === null && to === run.to)) && to > holdFrom && within(to),
  );
  const known: Known[] = [{ t: run.from, c: same(numbersOf(batch).boilC), kind: 'start' }];
  const told = [
    // First, so that an answer of the same instant is taken after the doubt that it ends.
    ...unsure.map(({ from, to }) => ({
      t: to,
      point: (before: Known) => unsureAt(batch, to, Math.max(from, run.from), before),
    })),
    ...readings
      .filter(({ t }) => within(t))
      .map(reading => ({
        t: reading.t,
        point: (before: Known) => pointOf(batch, run, reading, before, () => believed([...known], reading.t)),
      })),
    ...stuck.map(({ t }) => ({ t, point: (before: Known) => stuckAt(batch, t, before) })),
  ].sort((a, b) => a.t - b.t);
  for (const { point } of told) {
    const before = known.at(-1);
    const next = before ? point(before) : null;
    if (next) known.push(next);
  }
  return known;
}
