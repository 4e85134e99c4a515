/**
 * The live estimate of one load: chamber, centre of the fullest container and lethality, each with its band.
 * A pure function of the batch's history, so that it is the same live, after a restart and in the record. An
 * estimate never says that something is sterile.
 */
import { numbersOf, recipeOf } from '../batch/moves.ts';
import { holdMs } from '../batch/advance.ts';
import type { Batch, BatchHeader, Reading } from '../batch/state.ts';
import { decimalReductionMin, F0_REFERENCE, TARGET_F0_MIN } from '../science/lethality.ts';
import { GRAIN_SPORE } from '../science/spores.ts';
import type { Band } from '../science/limits.ts';
import { type CoachTime, HOUR, SECOND } from '../time.ts';
import { type Ahead, aheadOf } from './ahead.ts';
import { measuredBand } from '../recipe/body.ts';
import { keptModes } from '../science/kept-modes.ts';
import { type Diffusivity, knownDiffusivity, slowestBody } from './body.ts';
import { type Chamber, chamberOf } from './chamber.ts';
import { type CoolDown, coolDown } from './cool-down.ts';
import { bandAt, type Corner } from './corners.ts';
import { FULL_VENT_S, airFor } from './gauge.ts';
import {
  branch,
  type CentrePoint,
  centreOf,
  type March,
  reachedAt,
  startMarch,
  walk,
  walkUntil,
} from './march.ts';
import { type ProbeFit, probeFit } from './probe.ts';

/** Between events the estimate moves on in steps of this, so that a second costs nothing. */
const BUCKET = 20 * SECOND;
/** A hold that needs longer than this beyond its end is no answer for a kitchen. */
const LONGEST_MORE = 8 * HOUR;

export type Side = keyof Band;
const SIDES: readonly Side[] = ['low', 'likely', 'high'];

export type Assumption =
  | { readonly of: 'pure-steam' }
  | { readonly of: 'air-left'; readonly share: Band }
  | { readonly of: 'start'; readonly celsius: number }
  | { readonly of: 'diffusivity'; readonly source: Diffusivity['source']; readonly band: Band }
  | { readonly of: 'touching' }
  | { readonly of: 'unwatched'; readonly ms: number };

export interface AtEnd {
  /** Heat-off: planned, or when it was. */
  readonly at: CoachTime;
  readonly planned: boolean;
  readonly centreC: Band;
  readonly f0Min: Band;
  readonly logs: Band;
}

export interface Estimate {
  readonly at: CoachTime;
  readonly load: number;
  readonly chamberC: Band;
  readonly centreC: Band;
  readonly f0Min: Band;
  /** Log reduction of the second organism, which dies more slowly below 121 C than F0 claims. */
  readonly logs: Band;
  readonly end: AtEnd | null;
  /**
   * Hold that brings F0 to the target at the centre, s; null beyond eight hours more. Absent without a planned
   * end, once the hold is over, and when it was started over: then it is no length that could be compared.
   */
  readonly holdForTargetS: { readonly likely: number | null; readonly cautious: number | null } | null;
  readonly diffusivity: Diffusivity;
  readonly assumes: readonly Assumption[];
  readonly chamber: Chamber;
  readonly ahead: Ahead | null;
  readonly behindPoints: Readonly<Record<Side, readonly CentrePoint[]>>;
  readonly aheadPoints: Readonly<Record<Side, readonly CentrePoint[]>>;
  readonly cool: CoolDown | null;
  readonly probe: ProbeFit | null;
  readonly lastReading: Reading | null;
}

type Marches = Readonly<Record<Side, March>>;

const eachSide = <T>(make: (side: Side) => T): Readonly<Record<Side, T>> => ({
  low: make('low'),
  likely: make('likely'),
  high: make('high'),
});

/** The smaller of the organism's own and the one that its D at 121.1 C would give from F0. */
const D121_MIN = decimalReductionMin(GRAIN_SPORE, F0_REFERENCE.atC);
const logsOf = ({ logs, f0Min }: March): number => Math.min(logs, f0Min / D121_MIN);

/** While it cools, the slow bag is the warmer one: the band is sorted around the likely value. */
function bandOf(marches: Marches, read: (march: March) => number): Band {
  const values = SIDES.map(side => read(marches[side]));
  return { low: Math.min(...values), likely: read(marches.likely), high: Math.max(...values) };
}

const atEnd = (marches: Marches, at: CoachTime, planned: boolean): AtEnd => ({
  at,
  planned,
  centreC: bandOf(marches, centreOf),
  f0Min: bandOf(marches, ({ f0Min }) => f0Min),
  logs: bandOf(marches, logsOf),
});

/** Three marches through a chamber up to an instant. */
function marchThrough(batch: Batch, load: number, chamber: Chamber, diffusivity: Diffusivity): Marches {
  const modes = keptModes(slowestBody(batch, load));
  return eachSide(side => startMarch(modes, diffusivity.band[side], chamber.startC, chamber.from));
}

function goOn(marches: Marches, corners: readonly Corner[], from: CoachTime, to: CoachTime): void {
  if (to <= from) return;
  const passed = corners.filter(({ t }) => t > from && t < to);
  const path = [{ t: from, c: bandAt(corners, from) }, ...passed, { t: to, c: bandAt(corners, to - 1e-6) }];
  for (const side of SIDES) walk(marches[side], path, side);
}

function assumptions(batch: Batch, chamber: Chamber, diffusivity: Diffusivity): readonly Assumption[] {
  const unwatched = [
    ...batch.unseen.filter(({ told }) => told !== 'stayed'),
    ...(batch.away ? [{ from: batch.away.from, to: batch.now }] : []),
  ].reduce(
    (ms, { from, to }) => ms + Math.max(0, Math.min(to, chamber.to) - Math.max(from, chamber.from)),
    0,
  );
  return [
    numbersOf(batch).ventS >= FULL_VENT_S ? { of: 'pure-steam' } : { of: 'air-left', share: airFor(batch) },
    { of: 'start', celsius: chamber.startC },
    { of: 'diffusivity', ...diffusivity },
    ...(recipeOf(batch).containers.touching ? [{ of: 'touching' } as const] : []),
    ...(unwatched > 0 ? [{ of: 'unwatched', ms: unwatched } as const] : []),
  ];
}

/** Hold that would bring F0 to its target, counted as the planned hold and what is missing or to spare at its end. */
function holdFor(
  batch: Batch,
  behind: March,
  ahead: March,
  endAt: CoachTime,
  targetC: number,
): number | null {
  const at =
    reachedAt(behind, TARGET_F0_MIN) ??
    reachedAt(ahead, TARGET_F0_MIN) ??
    walkUntil(branch(ahead), targetC, TARGET_F0_MIN, endAt + LONGEST_MORE);
  return at === null ? null : Math.max(0, (holdMs(batch) + at - endAt) / SECOND);
}

/** What was held before does not count any more, but its lethality does. */
const startedOver = (batch: Batch): boolean =>
  batch.hold.lostMs > 0 ||
  batch.times.filter(({ step, load }) => step === 'hold' && load === batch.load).length > 1;

/** The instant an estimate stands for: the last event or the last full bucket, whichever is later. */
export function estimateInstant(batch: Batch): CoachTime {
  const event = Math.max(
    batch.since,
    batch.askSince,
    batch.readings.at(-1)?.t ?? 0,
    batch.measured.at(-1)?.t ?? 0,
    batch.unseen.at(-1)?.to ?? 0,
    batch.away?.to ?? 0,
  );
  return Math.min(batch.now, Math.max(event, Math.floor(batch.now / BUCKET) * BUCKET));
}

function workOut(batch: Batch, load: number, at: CoachTime): Estimate | null {
  const readings = batch.readings.filter(reading => reading.load === load);
  const chamber = chamberOf(load === batch.load ? { ...batch, now: at } : batch, load, readings);
  if (!chamber || chamber.to <= chamber.from) return null;
  const probe = probeFit(batch, chamber, load);
  const diffusivity: Diffusivity = probe?.ok
    ? { band: measuredBand(probe.diffusivityM2S), source: 'probe' }
    : knownDiffusivity(batch);
  const marches = marchThrough(batch, load, chamber, diffusivity);
  const offAt = chamber.heatOffAt;
  const until = chamber.to;
  goOn(marches, chamber.corners, chamber.from, Math.min(offAt ?? until, until));
  const off = offAt === null ? null : atEnd(marches, offAt, false);
  if (offAt !== null) goOn(marches, chamber.corners, offAt, until);
  const ahead = load === batch.load ? aheadOf(batch, chamber, at) : null;
  const further = eachSide(side => branch(marches[side]));
  if (ahead) for (const side of SIDES) walk(further[side], ahead.corners, side);
  const last = ahead?.corners.at(-1)?.c;
  const here = load === batch.load ? batch : { ...batch, load, lock: null };
  return {
    at: until,
    load,
    chamberC: bandAt(chamber.corners, until),
    centreC: bandOf(marches, centreOf),
    f0Min: bandOf(marches, ({ f0Min }) => f0Min),
    logs: bandOf(marches, logsOf),
    end: off ?? (ahead ? atEnd(further, ahead.endAt, true) : null),
    holdForTargetS:
      ahead && last && batch.step !== 'heat-off' && !startedOver(batch)
        ? {
            likely: holdFor(batch, marches.likely, further.likely, ahead.endAt, last.likely),
            cautious: holdFor(batch, marches.low, further.low, ahead.endAt, last.low),
          }
        : null,
    diffusivity,
    assumes: assumptions(batch, chamber, diffusivity),
    chamber,
    ahead,
    behindPoints: eachSide(side => marches[side].points),
    aheadPoints: eachSide(side => further[side].points),
    cool: offAt === null ? null : coolDown(here, bandAt(chamber.corners, offAt)),
    probe,
    lastReading: readings.findLast(({ seen, step }) => seen !== 'unknown' && step !== 'cool') ?? null,
  };
}

interface Kept {
  readonly key: readonly unknown[];
  readonly value: Estimate | null;
}
const kept = new WeakMap<BatchHeader, Kept>();

/** The estimate of a load (the present one by default); null before its flame is lit. */
export function estimateAt(batch: Batch, load = batch.load): Estimate | null {
  const at = load === batch.load ? estimateInstant(batch) : batch.now;
  const key = [
    load,
    load === batch.load ? at : batch.load,
    batch.times,
    batch.readings,
    batch.measured,
    batch.unseen,
    batch.away,
    batch.deviations,
    batch.containers,
    batch.lock,
    batch.hold.extraMs,
    batch.hold.belief,
    batch.cookerWaterL,
  ];
  const known = kept.get(batch.header);
  if (known?.key.every((part, index) => part === key[index])) return known.value;
  const value = workOut(batch, load, at);
  kept.set(batch.header, { key, value });
  return value;
}
