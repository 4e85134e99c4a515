/**
 * What the grain that was really weighed becomes: fillings of the pot, containers, loads of the cooker. The
 * plan counted with its own weight; another one changes everything that is measured out after it.
 */
import { numbersOf, recipeOf } from './moves.ts';
import type { Batch, Container } from './state.ts';

/** A kitchen scale and a scoop are this good; less of a difference is as planned (common practice, no source). */
const AS_PLANNED = 0.02;
/** Less than this share of a container is no container of its own: so little is spread over the others. */
const LEAST_FILL = 0.1;

/** Weighed grain as a share of the planned weight; 1 where the difference is none. */
export function shareOfPlan(batch: Batch): number {
  const share = batch.dryKg / numbersOf(batch).dryKg;
  return Math.abs(share - 1) < AS_PLANNED ? 1 : share;
}

/** Simmer water for the grain that was weighed, all fillings together, L. */
export const simmerWaterOf = (batch: Batch): number => numbersOf(batch).simmerWaterL * shareOfPlan(batch);
/** Expected weight of the hydrated grain, kg. */
export const hydratedKgOf = (batch: Batch): number => numbersOf(batch).hydratedKg * shareOfPlan(batch);

/** Containers as the batch begins with them, load by load. */
export function emptyContainers(loads: readonly number[]): Container[] {
  return loads
    .flatMap((count, index) => Array.from({ length: count }, () => index + 1))
    .map((load, index) => ({
      number: index + 1,
      load,
      kg: null,
      sealed: false,
      seamFailures: 0,
      state: 'whole',
      lifted: false,
      dose: null,
      dosedAt: null,
      leftOut: false,
    }));
}

/** Loads of the cooker for so many containers, each as full as it takes. */
function loadsFor(count: number, most: number): readonly number[] {
  const full = Math.floor(count / most);
  const rest = count - full * most;
  return [...Array.from({ length: full }, () => most), ...(rest > 0 ? [rest] : [])];
}

/**
 * Takes the weight that was really put on the scale, kg. Batches begun before the coach counted again keep
 * the plan's containers, so that their journals read as they were written.
 */
export function reweigh(batch: Batch, kg: number): Batch {
  const weighed: Batch = { ...batch, dryKg: kg };
  const { loads, potTakesKg, perLoad = 1 } = numbersOf(batch);
  if (potTakesKg === undefined || shareOfPlan(weighed) === 1) return weighed;
  const fills = hydratedKgOf(weighed) / recipeOf(batch).containers.fillKg;
  const count = Math.max(1, Math.ceil(fills - LEAST_FILL));
  return count === batch.containers.length
    ? weighed
    : { ...weighed, containers: emptyContainers(loadsFor(count, Math.max(perLoad, ...loads))) };
}
