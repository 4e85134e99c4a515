/**
 * The container that decides: the fullest of the load, as a body for heat penetration, and how fast it warms.
 *
 * Imports run science <- recipe <- plan <- batch <- estimate <- words: the estimate reads a batch and never
 * the other way round; what the machine must keep of it (the cost of a dip) travels in the event.
 */
import { inLoad, recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { type ContainerSize, containerKey } from '../recipe/recipe.ts';
import type { Body } from '../science/conduction.ts';
import { EFFECTIVE_DIFFUSIVITY, mergeTouching, touchingBlock } from '../science/diffusivity.ts';
import { type Modes, modesOf } from '../science/heat-modes.ts';
import type { Band } from '../science/limits.ts';

/** A measured diffusivity is worth about this much either way: another bag, another packing (estimate). */
const MEASURED_SPREAD = 0.15;

/** A filled container by its half dimensions; grain above or below the planned fill makes it thicker or thinner. */
export function bodyOfSize(size: ContainerSize, fill = 1): Body {
  return size.shape === 'brick'
    ? {
        shape: 'brick',
        halfLengthM: size.lengthM / 2,
        halfWidthM: size.widthM / 2,
        halfThicknessM: (size.thicknessM * fill) / 2,
      }
    : { shape: 'finite cylinder', radiusM: size.diameterM / 2, halfHeightM: (size.heightM * fill) / 2 };
}

/** The fullest container of a load, kg; the planned fill while nothing was weighed. */
export function fullestKg(batch: Batch, load = batch.load): number {
  const { fillKg } = recipeOf(batch).containers;
  const weights = batch.containers.filter(entry => entry.load === load).map(({ kg }) => kg ?? fillKg);
  return Math.max(...weights, 0) || fillKg;
}

/** The body that warms most slowly: the fullest container, or the block it stands in. */
export function slowestBody(batch: Batch, load = batch.load): Body {
  const { size, touching, fillKg } = recipeOf(batch).containers;
  const one = bodyOfSize(size, fullestKg(batch, load) / fillKg);
  const count = inLoad({ ...batch, load }).length;
  return touching && count > 1 ? mergeTouching(one, touchingBlock(count)) : one;
}

const KEPT_BODIES = 8;
const kept = new Map<string, Modes>();

/** Modes of a body, remembered: costly to expand, and the same for a whole batch. */
export function modesFor(body: Body): Modes {
  const key = JSON.stringify(body);
  const known = kept.get(key);
  if (known !== undefined) return known;
  const modes = modesOf(body, Number.POSITIVE_INFINITY);
  const [oldest] = kept.keys();
  if (kept.size >= KEPT_BODIES && oldest !== undefined) kept.delete(oldest);
  kept.set(key, modes);
  return modes;
}

export interface Diffusivity {
  /** m2/s; low is the cautious one. */
  readonly band: Band;
  /** Assumed for every grain, measured by the person earlier, or fitted to the probe of this load. */
  readonly source: 'assumed' | 'yours' | 'probe';
}

export const measuredBand = (m2s: number): Band => ({
  low: m2s * (1 - MEASURED_SPREAD),
  likely: m2s,
  high: m2s * (1 + MEASURED_SPREAD),
});

/** What is known of the diffusivity before this batch says anything itself. */
export function knownDiffusivity(batch: Batch): Diffusivity {
  const own = batch.header.kitchen.measuredDiffusivity[containerKey(recipeOf(batch).containers)];
  return own === undefined
    ? { band: EFFECTIVE_DIFFUSIVITY, source: 'assumed' }
    : { band: measuredBand(own), source: 'yours' };
}
