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
import { endEstimates } from '../words/batch-story.ts';
import { countOf } from '../words/count.ts';
import { f0Text } from '../words/estimate.ts';
import { cultureText } from '../words/record.ts';
import { dipsOf, drainedMoisture } from './causes.ts';
import { ventMinutes } from './causes-stove.ts';
import { countOutcomes, type OutcomeCounts, type RecordedBatch } from './record.ts';

export interface CompareRow {
  readonly name: string;
  readonly left: string;
  readonly right: string;
  readonly differs: boolean;
}

/** What is compared: a name, the value in words, and in numbers where a small difference is none. */
type Fact = readonly [name: string, says: string, seconds?: number];

/** Two kitchens' clocks never agree to the second: times count as unlike from a twentieth on (no source). */
const SAME_SHARE = 0.05;

/**
 * Time spent in a step over all returns to it, the loads after one another: batches of one load and of two are
 * compared by what a load took. A dash when it was never entered.
 */
function timeIn(name: string, batch: Batch, step: StepId): Fact {
  const loads = new Map<number, number>();
  for (const { step: of, load, from, to } of batch.times)
    if (of === step && to !== null) loads.set(load, (loads.get(load) ?? 0) + (to - from) / SECOND);
  if (loads.size === 0) return [name, '-'];
  const each = [...loads.values()];
  const mean = each.reduce((sum, seconds) => sum + seconds, 0) / each.length;
  return [name, each.map(seconds => formatDuration(seconds)).join(', '), mean];
}

/** F0 at heat-off with its band, the loads after one another. */
function f0Of(batch: Batch): string {
  const ends = endEstimates(batch).map(
    ({ f0Min }) => `${f0Text(f0Min.likely)} (${f0Text(f0Min.low)} to ${f0Text(f0Min.high)})`,
  );
  return ends.length === 0 ? '-' : ends.join(', ');
}

const meanKg = (recorded: RecordedBatch): number | null => {
  const weights = recorded.bags.flatMap(({ kg }) => (kg === null ? [] : [kg]));
  return weights.length === 0 ? null : weights.reduce((sum, kg) => sum + kg, 0) / weights.length;
};

/** What the bags were given, each culture once. */
function cultureOf({ bags }: RecordedBatch): string {
  const given = bags.flatMap(bag =>
    bag.inoculatedWall === null ? [] : [`${cultureText(bag)}, ${bag.form}`],
  );
  return given.length === 0 ? 'none given' : [...new Set(given)].join('; ');
}

function became({ good, lost, open }: OutcomeCounts): string {
  if (good + lost > 0) return `${good} of ${good + lost}`;
  return open > 0 ? 'not known yet' : 'nothing inoculated';
}

/** Name and value of everything that is compared, the value in the person's units. */
export function factsOf(recorded: RecordedBatch, units: Units): readonly Fact[] {
  const { batch } = recorded;
  const recipe = recipeOf(batch);
  const { numbers } = batch.header;
  const moisture = drainedMoisture(batch);
  const vent = ventMinutes(batch, batch.load);
  const kg = meanKg(recorded);
  const counts = countOutcomes(recorded.bags);
  const deviations = batch.deviations.filter(({ takenBack }) => !takenBack).length;
  return [
    ['recipe', recipe.name],
    ['grain', recipe.grain],
    ['containers', countOf(recorded.bags.length, recipe.containers.kind)],
    ['filled', kg === null ? '-' : formatMass(kg, units)],
    ['dry grain', formatMass(batch.dryKg, units)],
    timeIn('soaked', batch, 'soak'),
    timeIn('simmered', batch, 'simmer'),
    ['after draining', moisture === null ? '-' : `${formatPercent(moisture, 0)} water`],
    timeIn('surface-dried', batch, 'surface-dry'),
    ['cooker water', batch.cookerWaterL === null ? '-' : formatVolume(batch.cookerWaterL, units)],
    vent === null ? ['last vent', '-'] : ['last vent', formatDuration(vent * 60), vent * 60],
    timeIn('climbed', batch, 'climb'),
    ['target', formatPressure(numbers.targetKPa, units)],
    ['hold asked', formatDuration(numbers.holdS)],
    timeIn('at the hold', batch, 'hold'),
    ['dips', String(dipsOf(batch))],
    ['F0, estimated', f0Of(batch)],
    timeIn('shut', batch, 'cool'),
    ['torn', String(recorded.bags.filter(({ torn }) => torn).length)],
    ['deviations', String(deviations)],
    ['culture', cultureOf(recorded)],
    ['became spawn', became(counts)],
    ['still growing', String(counts.open)],
  ];
}

/** Rows of both, in one order. */
export function compareBatches(
  left: RecordedBatch,
  right: RecordedBatch,
  units: Units,
): readonly CompareRow[] {
  const other = new Map(factsOf(right, units).map(fact => [fact[0], fact]));
  return factsOf(left, units).map(([name, says, seconds]) => {
    const [, beside, besideS] = other.get(name) ?? [name, '-'];
    const isClose =
      seconds !== undefined &&
      besideS !== undefined &&
      Math.abs(seconds - besideS) <= SAME_SHARE * Math.max(seconds, besideS);
    return { name, left: says, right: beside, differs: says !== beside && !isClose };
  });
}
