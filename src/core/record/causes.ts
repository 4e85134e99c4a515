/**
 * What in a batch's own record could be behind a loss. Hints, never proof: each names what was seen. Which
 * kind of trouble leads to which look is common practice, no source.
 */
import { fillingKg, numbersOf, recipeOf } from '../batch/moves.ts';
import type { Batch, Deviation } from '../batch/state.ts';
import type { TroubleId } from '../batch/troubles.ts';
import { MINUTE, SECOND } from '../time.ts';
import type { Bag } from './bags.ts';
import type { Looks } from './diary.ts';

export type CauseId =
  | 'short-vent'
  | 'dips'
  | 'short-hold'
  | 'unwatched'
  | 'wet-grain'
  | 'overcooked'
  | 'dry-core'
  | 'torn'
  | 'seam'
  | 'overfull'
  | 'opened-warm'
  | 'dirty-needle';

export interface Cause {
  readonly id: CauseId;
  /** What was seen, as numbers for the sentence: a count, minutes, percent, depending on the cause. */
  readonly count: number;
  readonly minutes: number;
  /** It concerns this one bag and not the whole batch. */
  readonly ownToBag: boolean;
  /** 1 to 3: how much it usually matters, raised when the look of the loss fits it. */
  readonly weight: number;
}

/** Losses of this look point more to these causes (common practice, no source). */
const POINTS_TO: Readonly<Record<Looks, readonly CauseId[]>> = {
  green: ['torn', 'seam', 'dirty-needle', 'opened-warm', 'overfull'],
  black: ['torn', 'seam', 'dirty-needle', 'opened-warm', 'short-vent'],
  sour: ['wet-grain', 'overcooked', 'dips', 'short-hold', 'short-vent', 'unwatched', 'dry-core'],
  other: [],
};

/** Recommended length of an unbroken vent, s (science notes k 1, read). */
const FULL_VENT_S = 600;
/** More water in the drained grain than wanted by this share speaks of wet grain (common practice, no source). */
const WET_SHARE = 0.03;
/** So many soaked or spotted towels before the grain was dry (common practice, no source). */
const MANY_WET_TOWELS = 3;

const counted = (batch: Batch, ...troubles: readonly TroubleId[]): readonly Deviation[] =>
  batch.deviations.filter(({ trouble, takenBack }) => !takenBack && troubles.includes(trouble));

/** How often the pressure was below target in the holds of all loads. */
export const dipsOf = (batch: Batch): number => counted(batch, 'dip', 'heat-failed-in-hold').length;

/** Minutes of the last, unbroken vent of a load; null when none was finished. */
export function ventMinutes(batch: Batch, load: number): number | null {
  const vent = batch.times.findLast(time => time.step === 'vent' && time.load === load);
  return vent?.to == null ? null : (vent.to - vent.from) / MINUTE;
}

/** Water in the drained grain by its weight, wet basis; null when it was not weighed. */
export function drainedMoisture(batch: Batch): number | null {
  if (batch.drainedKg === null || batch.drainedKg <= 0) return null;
  return 1 - (fillingKg(batch) * (1 - recipeOf(batch).storedMoisture)) / batch.drainedKg;
}

interface Found {
  readonly id: CauseId;
  readonly weight: number;
  readonly count?: number;
  readonly minutes?: number;
  readonly ownToBag?: boolean;
}

function ofPressure(batch: Batch): Found[] {
  const found: Found[] = [];
  const shortest = Math.min(
    ...batch.times
      .filter(({ step, to }) => step === 'vent' && to !== null)
      .map(({ load }) => ventMinutes(batch, load) ?? 99),
  );
  const breaks = batch.ventBreaks;
  if (
    numbersOf(batch).ventS < FULL_VENT_S ||
    (Number.isFinite(shortest) && shortest * 60 < FULL_VENT_S - 1)
  ) {
    found.push({
      id: 'short-vent',
      weight: 2,
      count: breaks,
      minutes: Math.min(shortest, numbersOf(batch).ventS / 60),
    });
  } else if (breaks > 0) {
    found.push({ id: 'short-vent', weight: 1, count: breaks, minutes: shortest });
  }
  const dips = counted(batch, 'dip', 'heat-failed-in-hold', 'valve-opened').length;
  // Undone steam leaves no hold of this load to lose; what was given up still tells of dips.
  const lostMin = Math.round(batch.hold.lostMs / MINUTE);
  if (dips > 0)
    found.push({
      id: 'dips',
      weight: recipeOf(batch).dips === 'make up' ? 2 : 1,
      count: dips,
      minutes: lostMin,
    });
  const short = counted(batch, 'hold-cut-short').length;
  if (short > 0) {
    const heldMin = Math.round(batch.hold.creditMs / MINUTE);
    found.push({ id: 'short-hold', weight: 3, count: short, minutes: heldMin });
  }
  const away = counted(batch, 'away', 'was-away').length;
  if (away > 0) found.push({ id: 'unwatched', weight: 1, count: away });
  return found;
}

function ofGrain(batch: Batch): Found[] {
  const found: Found[] = [];
  const wetTowels = batch.towels.filter(({ seen }) => seen === 'soaked' || seen === 'several').length;
  const moisture = drainedMoisture(batch);
  const wet = moisture !== null && moisture > recipeOf(batch).wantedMoisture + WET_SHARE;
  if (counted(batch, 'still-wet').length > 0) found.push({ id: 'wet-grain', weight: 3, count: wetTowels });
  else if (wet || wetTowels >= MANY_WET_TOWELS) found.push({ id: 'wet-grain', weight: 2, count: wetTowels });
  const burst = counted(batch, 'overcooked').length;
  if (burst > 0) found.push({ id: 'overcooked', weight: 2, count: burst });
  const last = batch.kernels.at(-1);
  if (last?.centre === 'white-core' || counted(batch, 'soak-cut-short').length > 0)
    found.push({ id: 'dry-core', weight: 1 });
  return found;
}

function ofHandling(batch: Batch, bag: Bag | null): Found[] {
  const found: Found[] = [];
  if (bag?.seal === 'torn') found.push({ id: 'torn', weight: 3, ownToBag: true });
  else if (!bag && counted(batch, 'torn').length > 0)
    found.push({ id: 'torn', weight: 2, count: counted(batch, 'torn').length });
  const seams = counted(batch, 'seam-failed').length;
  if (bag && (bag.seamFailures > 0 || bag.seal === 'failed' || bag.seal === 'doubtful')) {
    found.push({ id: 'seam', weight: 2, count: Math.max(1, bag.seamFailures), ownToBag: true });
  } else if (!bag && seams > 0) found.push({ id: 'seam', weight: 1, count: seams });
  const { fillKg, mostKg } = recipeOf(batch).containers;
  if (bag?.kg != null && bag.kg > fillKg * 1.05 && bag.kg <= mostKg) {
    found.push({ id: 'overfull', weight: 1, count: Math.round((bag.kg / fillKg - 1) * 100), ownToBag: true });
  }
  const warm = counted(batch, 'opened-warm', 'lid-opened-early').length;
  if (warm > 0) found.push({ id: 'opened-warm', weight: 3, count: warm });
  const needle = counted(batch, 'touched-dirty').length;
  if (needle > 0) found.push({ id: 'dirty-needle', weight: 2, count: needle });
  return found;
}

/**
 * Causes that this record knows of, the likeliest first. With a bag, its own troubles count and those of
 * other bags do not; with looks, causes that fit them come first.
 */
export function causesOf(batch: Batch, bag: Bag | null, looks: Looks | null): readonly Cause[] {
  const fitting = looks === null ? [] : POINTS_TO[looks];
  return [...ofPressure(batch), ...ofGrain(batch), ...ofHandling(batch, bag)]
    .map(({ id, weight, count = 0, minutes = 0, ownToBag = false }) => ({
      id,
      count,
      minutes: Number.isFinite(minutes) ? minutes : 0,
      ownToBag,
      weight: weight + (fitting.includes(id) ? 1.5 : 0) + (ownToBag ? 0.5 : 0),
    }))
    .sort((a, b) => b.weight - a.weight);
}

/** Ms of hold in a load: the last spell at target that was credited, from the times of the step. */
export function holdMinutes(batch: Batch, load: number): number | null {
  const hold = batch.times.findLast(time => time.step === 'hold' && time.load === load);
  return hold?.to == null ? null : (hold.to - hold.from) / SECOND / 60;
}
