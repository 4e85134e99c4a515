/** Everything kept of one batch, in lines: times, weights, readings, estimate, deviations, bags. */
import { fillingKg, numbersOf, recipeOf } from '../batch/moves.ts';
import type { Batch, Deviation } from '../batch/state.ts';
import { stepRow } from '../batch/steps.ts';
import { dipsOf } from '../estimate/dips.ts';
import { estimateAt } from '../estimate/estimate.ts';
import {
  formatDuration,
  formatMass,
  formatPercent,
  formatPressure,
  formatTemperature,
  formatVolume,
} from '../quantity-format.ts';
import type { RecordedBatch } from '../record/record.ts';
import type { Band } from '../science/limits.ts';
import { type CoachTime, SECOND } from '../time.ts';
import { bandText, ESTIMATE_CAUTION, f0Text, toughText } from './estimate.ts';
import { dipWords } from './estimate-advice.ts';
import { doseText, standingText } from './record.ts';
import { STEP_NAMES } from './steps.ts';
import type { Telling } from './telling.ts';
import { troubleWords } from './troubles.ts';

type Row = readonly string[];
export interface StoryPart {
  readonly title: string;
  readonly rows: readonly Row[];
}

/** What the eye said of the gauge, where no number was read. */
export const GAUGE_SEEN = {
  at: 'at target',
  above: 'above target',
  below: 'below target',
  unknown: 'not at zero, or not known',
  zero: 'zero',
} as const;

const KERNELS = {
  'white-core': 'white core',
  'thin-line': 'thin white line',
  translucent: 'translucent',
} as const;
const TOWELS: Readonly<Record<string, string>> = {
  soaked: 'soaked',
  several: 'several wet spots',
  faint: 'one or two faint spots',
  dry: 'dry',
};

const loadsOf = (batch: Batch): readonly number[] => [...new Set(batch.containers.map(({ load }) => load))];
const isMany = (batch: Batch): boolean => numbersOf(batch).loads.length > 1;
const loadText = (batch: Batch, load: number): string => (isMany(batch) ? `load ${load}` : '');

function steps(batch: Batch, { clock }: Telling): StoryPart {
  const rows = batch.times
    .filter(({ step }) => step !== 'done')
    .map(({ step, load, from, to }) => [
      clock(from),
      STEP_NAMES[step],
      to === null ? 'now' : formatDuration(Math.round((to - from) / SECOND)),
      stepRow(step).perLoad ? loadText(batch, load) : '',
    ]);
  return { title: 'Steps', rows };
}

function amounts({ batch, bags }: RecordedBatch, { units }: Telling): StoryPart {
  const filled = bags.reduce((sum, { kg }) => sum + (kg ?? 0), 0);
  const rows: Row[] = [['dry grain', formatMass(batch.dryKg, units)]];
  if (batch.drainedKg !== null) {
    const water = 1 - (fillingKg(batch) * (1 - recipeOf(batch).storedMoisture)) / batch.drainedKg;
    rows.push(['drained', `${formatMass(batch.drainedKg, units)}, ${formatPercent(water, 0)} water`]);
  }
  if (filled > 0) rows.push(['filled in all', formatMass(filled, units)]);
  if (batch.cookerWaterL !== null)
    rows.push([
      isMany(batch) ? 'cooker water, last load' : 'cooker water',
      formatVolume(batch.cookerWaterL, units),
    ]);
  return { title: 'Amounts', rows };
}

function grain(batch: Batch, { clock }: Telling): StoryPart {
  const kernels = batch.kernels.map(({ t, centre, burst }): readonly [CoachTime, string] => [
    t,
    `kernels: ${KERNELS[centre]}${burst === null ? '' : `, burst: ${burst}`}`,
  ]);
  const towels = batch.towels.map(({ t, seen }): readonly [CoachTime, string] => [
    t,
    `towel: ${TOWELS[seen] ?? seen}`,
  ]);
  return { title: 'Grain', rows: [...kernels, ...towels].map(([t, says]) => [clock(t), says]) };
}

function readings(batch: Batch, { clock, units }: Telling): StoryPart {
  const gauge = batch.readings.map(({ t, kPa, seen, step, load }) => ({
    t,
    row: [
      kPa === null ? GAUGE_SEEN[seen] : formatPressure(kPa, units),
      STEP_NAMES[step].toLowerCase(),
      loadText(batch, load),
    ],
  }));
  const probe = batch.measured.map(({ t, of, celsius, load }) => ({
    t,
    row: [
      formatTemperature(celsius, units),
      of === 'centre' ? `thermometer in a ${recipeOf(batch).containers.kind}` : 'thermometer on the vessel',
      loadText(batch, load),
    ],
  }));
  const rows = [...gauge, ...probe].sort((a, b) => a.t - b.t).map(({ t, row }) => [clock(t), ...row]);
  return { title: 'Gauge and thermometer', rows };
}

export interface EndEstimate {
  readonly load: number;
  readonly planned: boolean;
  readonly centreC: Band;
  readonly f0Min: Band;
  readonly logs: Band;
}
/** Of every load that was heated: what the estimate says of its heat-off. */
export const endEstimates = (batch: Batch): readonly EndEstimate[] =>
  loadsOf(batch).flatMap(load => {
    const end = estimateAt(batch, load)?.end;
    if (!end) return [];
    const { planned, centreC, f0Min, logs } = end;
    return [{ load, planned, centreC, f0Min, logs }];
  });

function estimates(batch: Batch, telling: Telling): StoryPart {
  const rows = loadsOf(batch).flatMap((load): readonly Row[] => {
    const estimate = estimateAt(batch, load);
    const end = estimate?.end;
    if (!estimate || !end) return [];
    const when = end.planned
      ? `at the planned end, ${telling.clock(end.at)}`
      : `heat off ${telling.clock(end.at)}`;
    const bare = (celsius: number): string => formatTemperature(celsius, telling.units).split(' ')[0] ?? '';
    const centre = bandText(end.centreC, bare);
    const spread = (low: number, high: number): string => `${f0Text(low)} to ${f0Text(high)}`;
    return [
      [
        loadText(batch, load) || 'estimate',
        `F0 ${f0Text(end.f0Min.likely)} (${spread(end.f0Min.low, end.f0Min.high)}) in the middle of the fullest, ${when}`,
      ],
      [
        '',
        `there ${formatTemperature(end.centreC.likely, telling.units)}${centre === '' ? '' : ` (${centre})`}`,
      ],
      ['', toughText(end.logs)],
      ...dipsOf(batch, load).map((dip): Row => ['', dipWords(dip, telling)]),
    ];
  });
  return { title: 'Estimate', rows: rows.length === 0 ? [] : [...rows, ['', ESTIMATE_CAUTION]] };
}

/** A deviation in words, with the number of its bag where it has one. */
export function deviationText(batch: Batch, { trouble, container, takenBack }: Deviation): string {
  const { kind } = recipeOf(batch).containers;
  const { name } = troubleWords(trouble, batch);
  const own = container === null ? name : name.replace(/^a (?:bag|jar) /, `${kind} ${container} `);
  const which = container === null || own !== name ? '' : `, ${kind} ${container}`;
  return `${own}${which}${takenBack ? ' (taken back)' : ''}`;
}

function deviations(batch: Batch, { clock }: Telling): StoryPart {
  const rows = batch.deviations.map(deviation => [clock(deviation.t), deviationText(batch, deviation)]);
  return { title: 'Deviations, at the time they were noted', rows };
}

function bags({ bags: all, batch }: RecordedBatch, { units, clock }: Telling): StoryPart {
  const kind = recipeOf(batch).containers.kind;
  const given = new Map(batch.containers.map(({ number, dosedAt }) => [number, dosedAt]));
  const when = (number: number): string => {
    const at = given.get(number) ?? null;
    return at === null ? '' : clock(at);
  };
  const rows = all.map(bag => [
    bag.id,
    bag.kg === null ? '-' : formatMass(bag.kg, units),
    bag.seal === null ? '' : `seal ${bag.seal}`,
    doseText(bag),
    when(bag.number),
    standingText(bag),
  ]);
  return { title: kind === 'jar' ? 'Jars' : 'Bags', rows };
}

/** The parts that have anything to tell. */
export const batchStory = (recorded: RecordedBatch, telling: Telling): readonly StoryPart[] => {
  const { batch } = recorded;
  return [
    steps(batch, telling),
    amounts(recorded, telling),
    grain(batch, telling),
    readings(batch, telling),
    estimates(batch, telling),
    deviations(batch, telling),
    bags(recorded, telling),
  ].filter(({ rows }) => rows.length > 0);
};
