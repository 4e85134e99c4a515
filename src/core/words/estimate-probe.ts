/** The thermometer in one bag, in words: what it has shown, and what may be kept of it. */
import { recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { type ProbeFit, probeReadings } from '../estimate/probe.ts';
import type { Estimate } from '../estimate/estimate.ts';
import { formatDuration, formatTemperature, trimmed } from '../quantity-format.ts';
import { containerKey } from '../recipe/recipe.ts';
import type { Telling } from './telling.ts';

export const alphaText = (m2s: number): string => `${trimmed(m2s * 1e7, 2)} × 10⁻⁷ m²/s`;

const NOT_YET = {
  'too-few':
    'Three readings or more, spread over the climb and the hold, tell how fast this kind of container warms.',
  'too-flat': 'The readings lie too close together to tell anything yet.',
  'no-fit': 'No bag of grain warms like that: is the tip in the middle?',
} as const;

/** What the probe says so far; null without a probe. */
export function probeWords(batch: Batch, estimate: Estimate, telling: Telling): string | null {
  const { probe } = estimate;
  const last = probeReadings(batch, estimate.load).at(-1);
  if (!probe || !last) return null;
  const now = `Thermometer in the middle: ${formatTemperature(last.celsius, telling.units, 1)} at ${telling.clock(last.t)}.`;
  return `${now} ${probe.ok ? fitWords(probe) : NOT_YET[probe.why]}`;
}

const fitWords = ({ diffusivityM2S, fhS }: Extract<ProbeFit, { ok: true }>): string =>
  `It warms with ${alphaText(diffusivityM2S)}, f_h ${formatDuration(Math.round(fhS / 60) * 60)}.`;

/** The offer to keep it for the next plan. */
export function keepOffer(batch: Batch, fit: Extract<ProbeFit, { ok: true }>): string {
  const own = batch.header.kitchen.measuredDiffusivity[containerKey(recipeOf(batch).containers)];
  const before = own === undefined ? '' : ` instead of ${alphaText(own)}`;
  return `Your thermometer measured ${alphaText(fit.diffusivityM2S)} for ${containerKey(recipeOf(batch).containers)}. k keeps it${before} for the next plan.`;
}
