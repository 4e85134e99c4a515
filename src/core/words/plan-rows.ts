/** The facts of a plan as short rows: a name, the value to read from a metre away, and what stands behind it. */
import type { Kitchen, Units } from '../kitchen.ts';
import type { Estimate } from '../plan/hold-plan.ts';
import type { Plan } from '../plan/plan.ts';
import type { Band } from '../science/limits.ts';
import {
  formatDuration,
  formatLength,
  formatMass,
  formatPercent,
  formatPressure,
  formatSize,
  formatTemperature,
  formatVolume,
  trimmed,
} from '../quantity-format.ts';

export type RowId =
  | 'weigh'
  | 'soak'
  | 'simmer'
  | 'gives'
  | 'cooker'
  | 'water'
  | 'gauge'
  | 'hold'
  | 'centre'
  | 'advised'
  | 'shut';

export interface PlanRow {
  readonly id: RowId;
  readonly label: string;
  readonly value: string;
  /** Parts of what stands behind it, the most important first. */
  readonly more: readonly string[];
  /** Rests on a part of the kitchen the person never said. */
  readonly assumed: boolean;
}

/** More log reductions than this say only "enough". */
const MANY_LOGS = 12;

export const formatF0 = (minutes: number): string =>
  minutes < 10 ? trimmed(minutes, 1) : trimmed(minutes, 0);
export const formatLogs = (logs: number): string =>
  logs > MANY_LOGS ? `over ${MANY_LOGS}` : trimmed(logs, 1);
/** To the whole minute. */
const minutesOf = (seconds: number): string => formatDuration(Math.round(seconds / 60) * 60);
/** A length nobody needs to the minute. */
export const roughly = (seconds: number): string =>
  formatDuration(seconds < 3600 ? Math.round(seconds / 60) * 60 : Math.round(seconds / 300) * 300);
/** "27 to 46 min", "50 min to 2 h". */
const spread = ({ low, high }: Band): string =>
  high < 3600 ? `${Math.round(low / 60)} to ${minutesOf(high)}` : `${minutesOf(low)} to ${minutesOf(high)}`;
const hoursOf = (seconds: number): number => Math.round(seconds / 3600);
const hold = (seconds: number | null): string => (seconds === null ? 'over 12 h' : minutesOf(seconds));

export const containerWord = (kind: 'bag' | 'jar', count: number): string =>
  `${count} ${kind}${count === 1 ? '' : 's'}`;

/** Every row of a plan in the order of the batch. */
export function planRows(plan: Plan): readonly PlanRow[] {
  const { units } = plan.kitchen;
  return [...grainRows(plan, units), ...cookerRows(plan, units), ...heatRows(plan, units)];
}

const row = (
  id: RowId,
  label: string,
  value: string,
  more: readonly (string | false)[],
  assumed = false,
): PlanRow => ({ id, label, value, more: more.filter(part => part !== false), assumed });

const isAssumed = ({ assumed }: Plan, ...keys: (keyof Kitchen)[]): boolean =>
  keys.some(key => assumed.has(key));

function grainRows(plan: Plan, units: Units): readonly PlanRow[] {
  const { recipe, grain } = plan;
  const { pot, soak, hydratedKg, hydratedVolumeL, fills } = grain;
  const kind = recipe.containers.kind;
  const range = fills.low === fills.high ? `${fills.low}` : `${fills.low} to ${fills.high}`;
  const parts = pot.fillings === 1 ? 'one pot' : `${pot.fillings} pots`;
  return [
    row('weigh', 'weigh', formatMass(grain.dryKg, units), [
      `dry ${recipe.grain}, ${formatPercent(recipe.storedMoisture)} water, ${formatVolume(grain.dryVolumeL, units)}`,
    ]),
    ...(soak === null || recipe.soak === null
      ? []
      : [
          row('soak', 'soak', formatVolume(soak.waterL, units), [
            `${formatDuration(recipe.soak.shortestS)} to ${formatDuration(recipe.soak.longestS)} in a vessel of ${formatVolume(soak.vesselL, units)}`,
            soak.moisture !== null &&
              `then about ${formatPercent(soak.moisture.low, 0)} water${soak.borrowed ? ' by the curve of another grain' : ''}; the scales decide`,
          ]),
        ]),
    row(
      'simmer',
      'simmer in',
      formatVolume(grain.simmerWaterL, units),
      [
        pot.fillings === 1
          ? `${parts}, ${formatPercent(pot.share, 0)} full, ${formatVolume(pot.headspaceL, units)} of headspace`
          : `${parts} of ${formatMass(pot.dryKg, units)} in ${formatVolume(pot.waterL, units)}, each ${formatPercent(pot.share, 0)} full`,
      ],
      isAssumed(plan, 'potL'),
    ),
    row('gives', 'gives', formatMass(hydratedKg.likely, units), [
      `hydrated, ${formatMass(hydratedKg.low, units)} to ${formatMass(hydratedKg.high, units)}`,
      `fills ${range} ${kind}s`,
      `${formatVolume(hydratedVolumeL.low, units)} to ${formatVolume(hydratedVolumeL.high, units)}`,
    ]),
  ];
}

function cookerRows(plan: Plan, units: Units): readonly PlanRow[] {
  const { recipe, fit, numbers, water } = plan;
  const { kind } = recipe.containers;
  const { standing } = fit;
  const loads = numbers.loads.length;
  const even = numbers.loads.every(count => count === numbers.loads[0]);
  const [first = 0] = numbers.loads;
  const value =
    loads === 1
      ? '1 load'
      : even
        ? `${loads} loads of ${first}`
        : `${loads} loads, ${numbers.loads.join('+')}`;
  return [
    row(
      'cooker',
      'cooker',
      fit.perLoad === 0 ? 'does not fit' : value,
      standing === null && fit.perLoad > 0
        ? [
            `room for ${containerWord(kind, fit.perLoad)} by its volume of ${formatVolume(plan.kitchen.cookerL, units)}`,
          ]
        : standing === null
          ? [
              `${formatSize(recipe.containers.size, units)} under ${formatLength(fit.freeHeightM, units)} of free height`,
            ]
          : [
              `room for ${containerWord(kind, fit.perLoad)}: ${standing.layers === 1 ? 'one layer' : `${standing.layers} layers`} of ${standing.inLayer}${kind === 'bag' ? `, ${formatLength(standing.uprightM, units)} side up` : ''}`,
            ],
      isAssumed(plan, 'cookerInnerDiameterM', 'cookerInnerHeightM'),
    ),
    row(
      'water',
      'water',
      formatVolume(water.pourL, units),
      [
        `maker's least ${formatVolume(water.makersMinimumL, units)}`,
        `${formatVolume(water.leftKg.likely, units)} left at heat-off`,
        `dry ${roughly(water.dryS.likely)} into the hold, ${roughly(water.dryS.low)} at full heat`,
      ],
      isAssumed(plan, 'minimumWaterL', 'burner', 'burnerW'),
    ),
  ];
}

function heatRows(plan: Plan, units: Units): readonly PlanRow[] {
  const { gauge, hold: held, numbers, recipe, zeroGaugeS, coolThroughS } = plan;
  const { cautious, likely, fast } = held;
  const short = gauge.wantedC - gauge.targetC;
  const yours = held.source === 'yours';
  return [
    row(
      'gauge',
      'gauge',
      formatPressure(gauge.targetKPa, units),
      [
        `pure steam of ${formatTemperature(gauge.targetC, units, 1)} here`,
        gauge.heldBack !== null && short >= 0.05 && `meant: ${formatTemperature(gauge.wantedC, units, 1)}`,
        `water boils at ${formatTemperature(gauge.boilC, units, 1)}`,
      ],
      plan.kitchen.stationKPa === null && isAssumed(plan, 'altitudeM'),
    ),
    row('hold', 'hold', minutesOf(numbers.holdS), [
      held.refused !== null
        ? 'not enough here'
        : held.holdS > held.recipeS
          ? `recipe ${minutesOf(held.recipeS)} and ${minutesOf(held.holdS - held.recipeS)} for cooler steam`
          : 'as the recipe says',
      `after ${minutesOf(recipe.ventS)} of venting`,
    ]),
    row('centre', 'centre', `F0 ${formatF0(likely.f0Min)}`, [
      `${formatF0(cautious.f0Min)} to ${formatF0(fast.f0Min)} at heat-off, aim ${held.targetF0Min}`,
      `log kill ${formatLogs(likely.logs)}, cautiously ${formatLogs(cautious.logs)}`,
      yours ? 'by your own measurement' : false,
    ]),
    held.refused === null
      ? row('advised', 'advised', hold(likely.suggestedS), [
          `${hold(fast.suggestedS)} if heat is fast, ${hold(cautious.suggestedS)} to be cautious`,
          yours ? 'yours, measured' : `for F0 ${held.targetF0Min}`,
        ])
      : row('advised', 'advised', 'none', [
          'no hold is sensible here',
          `F0 ${held.targetF0Min} would take ${hold(likely.suggestedS)}`,
        ]),
    row('shut', 'stays shut', formatDuration(numbers.coolS), [
      `${minutesOf(numbers.pressureLockS)} of it locked for pressure`,
      `gauge at zero after ${spread(zeroGaugeS)}`,
      `centre cool after ${hoursOf(coolThroughS.low)} to ${hoursOf(coolThroughS.high)} h`,
    ]),
  ];
}

/** One line about one diffusivity, for the full list. */
export function estimateText(
  name: string,
  { diffusivityM2S, suggestedS, f0Min, logs, centreC }: Estimate,
  units: Units,
): string {
  return `${name} ${(diffusivityM2S * 1e7).toFixed(1)}e-7 m2/s: F0 ${formatF0(f0Min)}, log kill ${formatLogs(logs)}, centre ${formatTemperature(centreC, units)} at heat-off; would need ${hold(suggestedS)}`;
}
