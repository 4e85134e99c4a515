/** Two batches side by side: settings, what happened, what became of it; rows that differ are marked. */
import { recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import type { Units } from '../kitchen.ts';
import {
  formatDuration,
  formatMass,
  formatPercent,
  formatPressure,
  formatVolume,
} from '../quantity-format.ts';
import { SECOND } from '../time.ts';
import { countOf } from '../words/count.ts';
import { dipsOf, drainedMoisture } from './causes.ts';
import { ventMinutes } from './causes-stove.ts';
import { countOutcomes, type RecordedBatch } from './record.ts';

export interface CompareRow {
  readonly name: string;
  readonly left: string;
  readonly right: string;
  readonly differs: boolean;
}

/** Time spent in a step over all loads and returns, in words; a dash when it was never entered. */
function timeIn(batch: Batch, step: StepId): string {
  const spells = batch.times.filter(time => time.step === step && time.to !== null);
  if (spells.length === 0) return '-';
  return formatDuration(spells.reduce((sum, { from, to }) => sum + ((to ?? from) - from), 0) / SECOND);
}

const meanKg = (recorded: RecordedBatch): number | null => {
  const weights = recorded.bags.flatMap(({ kg }) => (kg === null ? [] : [kg]));
  return weights.length === 0 ? null : weights.reduce((sum, kg) => sum + kg, 0) / weights.length;
};

/** Name and value of everything that is compared, the value in the person's units. */
export function factsOf(
  recorded: RecordedBatch,
  units: Units,
): readonly (readonly [name: string, value: string])[] {
  const { batch } = recorded;
  const recipe = recipeOf(batch);
  const { numbers } = batch.header;
  const moisture = drainedMoisture(batch);
  const vent = ventMinutes(batch, batch.load);
  const kg = meanKg(recorded);
  const counts = countOutcomes(recorded.bags);
  const known = counts.good + counts.lost;
  const deviations = batch.deviations.filter(({ takenBack }) => !takenBack).length;
  return [
    ['recipe', recipe.name],
    ['grain', recipe.grain],
    ['containers', countOf(recorded.bags.length, recipe.containers.kind)],
    ['filled', kg === null ? '-' : formatMass(kg, units)],
    ['dry grain', formatMass(batch.dryKg, units)],
    ['soaked', timeIn(batch, 'soak')],
    ['simmered', timeIn(batch, 'simmer')],
    ['after draining', moisture === null ? '-' : `${formatPercent(moisture, 0)} water`],
    ['surface-dried', timeIn(batch, 'surface-dry')],
    ['cooker water', batch.cookerWaterL === null ? '-' : formatVolume(batch.cookerWaterL, units)],
    ['last vent', vent === null ? '-' : formatDuration(vent * 60)],
    ['climbed', timeIn(batch, 'climb')],
    ['target', formatPressure(numbers.targetKPa, units)],
    ['hold asked', formatDuration(numbers.holdS)],
    ['at the hold', timeIn(batch, 'hold')],
    ['dips', String(dipsOf(batch))],
    ['shut', timeIn(batch, 'cool')],
    ['torn', String(recorded.bags.filter(({ torn }) => torn).length)],
    ['deviations', String(deviations)],
    ['culture', `${recipe.culture.species || 'no species'}, ${recipe.culture.form}`],
    ['became spawn', known === 0 ? 'not known yet' : `${counts.good} of ${known}`],
    ['still growing', String(counts.open)],
  ];
}

/** Rows of both, in one order. */
export function compareBatches(
  left: RecordedBatch,
  right: RecordedBatch,
  units: Units,
): readonly CompareRow[] {
  const other = new Map(factsOf(right, units));
  return factsOf(left, units).map(([name, value]) => {
    const beside = other.get(name) ?? '-';
    return { name, left: value, right: beside, differs: value !== beside };
  });
}
