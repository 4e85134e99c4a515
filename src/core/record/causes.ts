/**
 * What in a batch's own record could be behind a loss. Hints, never proof: each names what was seen. Which
 * kind of trouble leads to which look is common practice, no source. What happened at the stove is read in
 * `causes-stove.ts`.
 */
import { fillingKg, recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { MINUTE, SECOND } from '../time.ts';
import type { Bag } from './bags.ts';
import { type Cause, type CauseId, counted, type Found } from './cause.ts';
import { ofStove } from './causes-stove.ts';
import type { Looks } from './diary.ts';

/** Losses of this look point more to these causes (common practice, no source). */
const POINTS_TO: Readonly<Record<Looks, readonly CauseId[]>> = {
  green: ['torn', 'seam', 'dirty-needle', 'opened-warm', 'quick-release', 'overfull'],
  black: ['torn', 'seam', 'dirty-needle', 'opened-warm', 'quick-release', 'short-vent'],
  sour: [
    'wet-grain',
    'short-drying',
    'overcooked',
    'low-water',
    'valve-opened',
    'power-failed',
    'dips',
    'short-hold',
    'short-vent',
    'unwatched',
    'dry-core',
  ],
  other: [],
};

/** More water in the drained grain than wanted by this share speaks of wet grain (common practice, no source). */
const WET_SHARE = 0.03;
/** So many soaked or spotted towels before the grain was dry (common practice, no source). */
const MANY_WET_TOWELS = 3;

/** How often the pressure was below target in the holds of all loads. */
export const dipsOf = (batch: Batch): number => batch.dips.length;

/** Water in the drained grain by its weight, wet basis; null when it was not weighed. */
export function drainedMoisture(batch: Batch): number | null {
  if (batch.drainedKg === null || batch.drainedKg <= 0) return null;
  return 1 - (fillingKg(batch) * (1 - recipeOf(batch).storedMoisture)) / batch.drainedKg;
}

/**
 * Grain portioned after less than half of the drying that the recipe, or the earlier batches where they took
 * longer, speak of: a towel may have shown its top alone. Only told of sour bags, since a fan or a hot day dries
 * fast as well (common practice, no source).
 */
function ofDrying(batch: Batch): Found[] {
  const spells = batch.times.filter(({ step }) => step === 'surface-dry');
  const [from, to] = [spells[0]?.from, spells.at(-1)?.to];
  if (from === undefined || to == null) return [];
  const { aboutS } = recipeOf(batch).drying;
  const learnedS = batch.header.learned?.dryingS ?? 0;
  const usualMs = Math.max(aboutS, learnedS) * SECOND;
  if ((to - from) * 2 >= usualMs) return [];
  const [minutes, usualMin] = [Math.round((to - from) / MINUTE), Math.round(usualMs / MINUTE)];
  return [{ id: 'short-drying', weight: 1, minutes, usualMin, learned: learnedS > aboutS }];
}

function ofGrain(batch: Batch, looks: Looks | null): Found[] {
  const found: Found[] = [];
  const wetTowels = batch.towels.filter(({ seen }) => seen === 'soaked' || seen === 'several').length;
  const moisture = drainedMoisture(batch);
  const wet = moisture !== null && moisture > recipeOf(batch).wantedMoisture + WET_SHARE;
  if (counted(batch, null, 'still-wet').length > 0)
    found.push({ id: 'wet-grain', weight: 3, count: wetTowels });
  else if (wet || wetTowels >= MANY_WET_TOWELS) found.push({ id: 'wet-grain', weight: 2, count: wetTowels });
  else if (looks === 'sour') found.push(...ofDrying(batch));
  const burst = counted(batch, null, 'overcooked').length;
  if (burst > 0) found.push({ id: 'overcooked', weight: 2, count: burst });
  const last = batch.kernels.at(-1);
  if (last?.centre === 'white-core' || counted(batch, null, 'soak-cut-short').length > 0)
    found.push({ id: 'dry-core', weight: 1 });
  return found;
}

function ofHandling(batch: Batch, bag: Bag | null): Found[] {
  const found: Found[] = [];
  const load = bag?.load ?? null;
  if (bag?.seal === 'torn') found.push({ id: 'torn', weight: 3, ownToBag: true });
  else if (!bag && counted(batch, null, 'torn').length > 0)
    found.push({ id: 'torn', weight: 2, count: counted(batch, null, 'torn').length });
  const seams = counted(batch, null, 'seam-failed').length;
  if (bag && (bag.seamFailures > 0 || bag.seal === 'failed' || bag.seal === 'doubtful')) {
    found.push({ id: 'seam', weight: 2, count: Math.max(1, bag.seamFailures), ownToBag: true });
  } else if (!bag && seams > 0) found.push({ id: 'seam', weight: 1, count: seams });
  const { fillKg, mostKg } = recipeOf(batch).containers;
  if (bag?.kg != null && bag.kg > fillKg * 1.05 && bag.kg <= mostKg) {
    found.push({ id: 'overfull', weight: 1, count: Math.round((bag.kg / fillKg - 1) * 100), ownToBag: true });
  }
  const warm = counted(batch, load, 'opened-warm', 'lid-opened-early').length;
  if (warm > 0) found.push({ id: 'opened-warm', weight: 3, count: warm });
  const released = counted(batch, load, 'valve-opened-cooling').length;
  if (released > 0) found.push({ id: 'quick-release', weight: 2, count: released });
  const needle = counted(batch, null, 'touched-dirty').length;
  if (needle > 0) found.push({ id: 'dirty-needle', weight: 2, count: needle });
  return found;
}

/**
 * Causes that this record knows of, the likeliest first. With a bag, its own troubles and those of its load
 * count, and those of other bags and loads do not; with looks, causes that fit them come first.
 */
export function causesOf(batch: Batch, bag: Bag | null, looks: Looks | null): readonly Cause[] {
  const fitting = looks === null ? [] : POINTS_TO[looks];
  return [...ofStove(batch, bag?.load ?? null), ...ofGrain(batch, looks), ...ofHandling(batch, bag)]
    .map(
      ({
        id,
        weight,
        count = 0,
        minutes = 0,
        lastedMin = 0,
        usualMin = 0,
        learned = false,
        leftL = null,
        ownToBag = false,
      }): Cause => ({
        id,
        kind: recipeOf(batch).containers.kind,
        count,
        minutes: Number.isFinite(minutes) ? minutes : 0,
        lastedMin,
        usualMin,
        learned,
        leftL,
        ownToBag,
        weight: weight + (fitting.includes(id) ? 1.5 : 0) + (ownToBag ? 0.5 : 0),
      }),
    )
    .sort((a, b) => b.weight - a.weight);
}
