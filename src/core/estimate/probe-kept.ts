/** What a batch's thermometer measured, over all its loads: offered once more when the batch is over. */
import type { Batch } from '../batch/state.ts';
import type { Kitchen, KitchenAnswers } from '../kitchen.ts';
import { containerKey } from '../recipe/recipe.ts';
import { estimateAt } from './estimate.ts';
import { type ProbeFit, probeReadings } from './probe.ts';

export type GoodFit = Extract<ProbeFit, { ok: true }>;

/** Steps in which the load is out of the cooker and its thermometer has said all it will. */
const AFTER: readonly Batch['step'][] = ['unload', 'seal-after', 'rest', 'inoculate', 'done'];
export const isProbeDone = ({ step }: Batch): boolean => AFTER.includes(step);

/** The change of the kitchen that keeps what was measured, for this kind of container; null without a fit. */
export function keepingProbe(batch: Batch, { measuredDiffusivity }: Kitchen): KitchenAnswers | null {
  const fit = keptProbe(batch);
  if (!fit) return null;
  const key = containerKey(batch.header.recipe.containers);
  // Three figures are more than one bag's curve is worth.
  return {
    measuredDiffusivity: { ...measuredDiffusivity, [key]: Number(fit.diffusivityM2S.toPrecision(3)) },
  };
}

const kept = new WeakMap<Batch['measured'], GoodFit | null>();

/** The fit of the last load that has one; null when no thermometer said enough. */
export function keptProbe(batch: Batch): GoodFit | null {
  const known = kept.get(batch.measured);
  if (known !== undefined) return known;
  const loads = [...new Set(batch.measured.map(({ load }) => load))].filter(
    load => probeReadings(batch, load).length > 0,
  );
  let fit: GoodFit | null = null;
  for (const load of loads) {
    const probe = estimateAt(batch, load)?.probe;
    if (probe?.ok) fit = probe;
  }
  // Only a finished batch has readings that no longer change what the fit rests on.
  if (batch.finishedAt !== null) kept.set(batch.measured, fit);
  return fit;
}
