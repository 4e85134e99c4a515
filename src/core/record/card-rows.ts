/** What the batch card says, as rows of text: settings, steps, readings, deviations, estimate, bags. */
import { numbersOf, recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { stepRow } from '../batch/steps.ts';
import type { Units } from '../kitchen.ts';
import {
  formatAltitude,
  formatDuration,
  formatMass,
  formatPressure,
  formatSize,
  formatTemperature,
  formatVolume,
} from '../quantity-format.ts';
import { SECOND, type WallTime } from '../time.ts';
import { countOf } from '../words/count.ts';
import { deviationText, endEstimates, GAUGE_SEEN } from '../words/batch-story.ts';
import { f0Text } from '../words/estimate.ts';
import { cultureText, doseText, standingText } from '../words/record.ts';
import { STEP_NAMES } from '../words/steps.ts';
import { batchWall } from './bags.ts';
import type { RecordedBatch } from './record.ts';

export interface CardTelling {
  readonly units: Units;
  readonly date: (wall: WallTime) => string;
  readonly clock: (wall: WallTime) => string;
}

export type TableRow = readonly string[];

const isMany = (batch: Batch): boolean => numbersOf(batch).loads.length > 1;

export function settingRows(batch: Batch, { units }: CardTelling): readonly TableRow[] {
  const recipe = recipeOf(batch);
  const numbers = numbersOf(batch);
  const { containers } = recipe;
  const { kitchen } = batch.header;
  const weighed = batch.drainedKg === null ? '' : `, ${formatMass(batch.drainedKg, units)} drained`;
  return [
    ['grain', `${formatMass(batch.dryKg, units)} of dry ${recipe.grain}${weighed}`],
    [
      'containers',
      `${countOf(containers.count, containers.kind)} of ${formatMass(containers.fillKg, units)}, ${formatSize(containers.size, units)}, sealed ${recipe.seal}`,
    ],
    [
      'gauge',
      `${formatPressure(numbers.targetKPa, units)} at ${formatAltitude(kitchen.altitudeM, units)} (${kitchen.gauge}): ${formatTemperature(numbers.targetC, units, 1)} in pure steam`,
    ],
    ['vent, hold', `${formatDuration(numbers.ventS)}, ${formatDuration(numbers.holdS)}`],
    ['dips', recipe.dips === 'restart' ? 'the hold starts over' : 'missing minutes are made up'],
    ['water', batch.cookerWaterL === null ? 'not poured' : formatVolume(batch.cookerWaterL, units)],
    ['shut', formatDuration(numbers.coolS)],
    ['culture', `${recipe.culture.species || 'no species'}, ${recipe.culture.form}`],
  ];
}

/** Steps in order; the day stands before the first clock time of each. */
export function stepRows(batch: Batch, { clock, date }: CardTelling): readonly TableRow[] {
  let last = '';
  return batch.times
    .filter(({ step }) => step !== 'done')
    .map(({ step, load, from, to }) => {
      const wall = batchWall(batch, from);
      const day = date(wall);
      const isNew = day !== last;
      last = day;
      // The year stands over the page.
      const short = day.replace(/ \d{4}$/, '');
      return [
        isMany(batch) && stepRow(step).perLoad ? `${STEP_NAMES[step]} (${load})` : STEP_NAMES[step],
        `${isNew ? `${short} ` : ''}${clock(wall)}`,
        to === null ? '' : formatDuration((to - from) / SECOND),
      ];
    });
}

/** `18:43 16 psi`, in order of time; a thermometer among them. */
export function readingTexts(batch: Batch, { clock, units }: CardTelling): readonly string[] {
  const gauge = batch.readings.map(({ t, kPa, seen }) => ({
    t,
    says: kPa === null ? (seen === 'unknown' ? 'not at zero' : GAUGE_SEEN[seen]) : formatPressure(kPa, units),
  }));
  const probe = batch.measured.map(({ t, of, celsius }) => ({
    t,
    says: `${formatTemperature(celsius, units)} ${of === 'centre' ? 'in the middle' : 'on the vessel'}`,
  }));
  return [...gauge, ...probe]
    .sort((a, b) => a.t - b.t)
    .map(({ t, says }) => `${clock(batchWall(batch, t))} ${says}`);
}

export const deviationRows = (batch: Batch, { clock }: CardTelling): readonly TableRow[] =>
  batch.deviations.map(deviation => [
    clock(batchWall(batch, deviation.t)),
    deviationText(batch, deviation),
    STEP_NAMES[deviation.step].toLowerCase(),
  ]);

export function estimateRows(batch: Batch, { units }: CardTelling): readonly TableRow[] {
  const degrees = (celsius: number): string => formatTemperature(celsius, units);
  return endEstimates(batch).map(({ load, planned, f0Min, centreC }) => [
    isMany(batch) ? `load ${load}` : planned ? 'planned' : 'heat off',
    `F0 ${f0Text(f0Min.likely)} (${f0Text(f0Min.low)} to ${f0Text(f0Min.high)}), middle ${degrees(centreC.likely)} (${degrees(centreC.low)} to ${degrees(centreC.high)})`,
  ]);
}

/** Which cell of a bag's row is the day of its culture. */
export const BAG_DATE = 3;
export const bagRows = ({ bags }: RecordedBatch, { units, date }: CardTelling): readonly TableRow[] =>
  bags.map(bag => [
    String(bag.number),
    [bag.kg === null ? '' : formatMass(bag.kg, units), bag.seal ?? ''].filter(text => text !== '').join(', '),
    // The amount first: a long name is cut at its end.
    `${doseText(bag)} ${cultureText(bag)}`.trim(),
    bag.inoculatedWall === null ? '' : date(bag.inoculatedWall),
    standingText(bag),
  ]);
