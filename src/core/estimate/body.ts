/**
 * The container that decides: the fullest of the load, as a body for heat penetration, and how fast it warms.
 *
 * Imports run science <- recipe <- plan <- batch <- estimate <- words: the estimate reads a batch and never
 * the other way round; what the machine must keep of it (the cost of a dip) travels in the event.
 */
import { inLoad, recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { diffusivityFor, heatedBody } from '../recipe/body.ts';
import type { Body } from '../science/conduction.ts';
import type { Band } from '../science/limits.ts';

/** The fullest container of a load, kg; the planned fill while nothing was weighed. */
export function fullestKg(batch: Batch, load = batch.load): number {
  const { fillKg } = recipeOf(batch).containers;
  const weights = batch.containers.filter(entry => entry.load === load).map(({ kg }) => kg ?? fillKg);
  return Math.max(...weights, 0) || fillKg;
}

/** The body that warms most slowly: the fullest container, or the block it stands in. */
export function slowestBody(batch: Batch, load = batch.load): Body {
  const { containers } = recipeOf(batch);
  return heatedBody(
    containers,
    inLoad({ ...batch, load }).length,
    fullestKg(batch, load) / containers.fillKg,
  );
}

export interface Diffusivity {
  /** m2/s; low is the cautious one. */
  readonly band: Band;
  /** Assumed for every grain, measured by the person earlier, or fitted to the probe of this load. */
  readonly source: 'assumed' | 'yours' | 'probe';
}

/** What is known of the diffusivity before this batch says anything itself. */
export function knownDiffusivity(batch: Batch): Diffusivity {
  const { m2S, source } = diffusivityFor(recipeOf(batch).containers, batch.header.kitchen);
  return { band: m2S, source: source === 'yours' ? 'yours' : 'assumed' };
}
