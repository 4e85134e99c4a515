/** What the record saw at the stove that could be behind a loss: steam, pressure, water, flame, time. */
import { numbersOf, recipeOf } from '../batch/moves.ts';
import type { Batch, StepTime } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import { waterLeft } from '../estimate/water.ts';
import { MINUTE } from '../time.ts';
import { counted, type Found } from './cause.ts';

/** Recommended length of an unbroken vent, s (science notes k 1, read). */
const FULL_VENT_S = 600;
/** A flame left on for so long beyond the hold is told of (common practice, no source). */
const LONG_OVERRUN_MIN = 10;

const spells = (batch: Batch, step: StepId, load: number | null): readonly StepTime[] =>
  batch.times.filter(time => time.step === step && (load === null || time.load === load) && time.to !== null);
const lengthMin = ({ from, to }: StepTime): number => ((to ?? from) - from) / MINUTE;

/** Minutes of the last, unbroken vent of a load; null when none was finished. */
export function ventMinutes(batch: Batch, load: number): number | null {
  const vent = spells(batch, 'vent', load).at(-1);
  return vent ? lengthMin(vent) : null;
}

function ofVent(batch: Batch, load: number | null): Found[] {
  const loads = [...new Set(spells(batch, 'vent', load).map(time => time.load))];
  const shortest = Math.min(...loads.map(each => ventMinutes(batch, each) ?? Number.POSITIVE_INFINITY));
  const breaks = load === null ? batch.ventBreaks : counted(batch, load, 'steam-stopped').length;
  const planned = numbersOf(batch).ventS;
  if (planned < FULL_VENT_S || (Number.isFinite(shortest) && shortest * 60 < FULL_VENT_S - 1)) {
    return [{ id: 'short-vent', weight: 2, count: breaks, minutes: Math.min(shortest, planned / 60) }];
  }
  return breaks > 0 ? [{ id: 'short-vent', weight: 1, count: breaks, minutes: shortest }] : [];
}

function ofPressure(batch: Batch, load: number | null): Found[] {
  const found: Found[] = [];
  const dips = batch.dips.filter(dip => load === null || dip.load === load);
  const lost = Math.round(dips.reduce((sum, { lostMs }) => sum + lostMs, 0) / MINUTE);
  const lasted = dips.reduce((sum, { from, to }) => sum + Math.max(0, (to ?? from) - from), 0);
  const failedInHold = counted(batch, load, 'heat-failed-in-hold').length;
  // A dip that a failed flame made is told as that.
  const own = Math.max(0, dips.length - failedInHold);
  // Minutes that were made up or started over were held after all; what the centre lost in between was not.
  const weight = recipeOf(batch).dips === 'make up' ? 2 : 1;
  if (own > 0)
    found.push({ id: 'dips', weight, count: own, minutes: lost, lastedMin: Math.round(lasted / MINUTE) });
  const failed = counted(batch, load, 'heat-failed').length + failedInHold;
  if (failed > 0)
    found.push({
      id: 'power-failed',
      weight: failedInHold > 0 ? weight : 1,
      count: failed,
      minutes: own > 0 ? 0 : lost,
    });
  const opened = counted(batch, load, 'valve-opened').length;
  if (opened > 0) found.push({ id: 'valve-opened', weight: 2, count: opened });
  return found;
}

function ofWater(batch: Batch, load: number | null): Found[] {
  const low = counted(batch, load, 'water-low').length;
  if (low > 0) return [{ id: 'low-water', weight: 3, count: low }];
  // What was poured is only known of the last load.
  const hot = spells(batch, 'heat-off', batch.load).length > 0;
  if (!hot || (load !== null && load !== batch.load)) return [];
  const left = waterLeft({ ...batch, step: 'heat-off' });
  return left?.low ? [{ id: 'low-water', weight: 2, leftL: left.litres.likely }] : [];
}

function ofTime(batch: Batch, load: number | null): Found[] {
  const found: Found[] = [];
  const short = counted(batch, load, 'hold-cut-short').length;
  if (short > 0) {
    const last = spells(batch, 'hold', load ?? batch.load).at(-1);
    // Of the last load it is known which minutes counted.
    const heldMin =
      load === null || load === batch.load ? batch.hold.creditMs / MINUTE : last ? lengthMin(last) : 0;
    found.push({ id: 'short-hold', weight: 3, count: short, minutes: Math.round(heldMin) });
  }
  const away = counted(batch, load, 'away', 'was-away').length;
  if (away > 0) found.push({ id: 'unwatched', weight: 1, count: away });
  const over = batch.endedEarly ? 0 : Math.max(0, ...spells(batch, 'heat-off', load).map(lengthMin));
  if (over >= LONG_OVERRUN_MIN) found.push({ id: 'overrun', weight: 1, minutes: Math.round(over) });
  return found;
}

/** Of one load, or of all. */
export const ofStove = (batch: Batch, load: number | null): readonly Found[] => [
  ...ofVent(batch, load),
  ...ofPressure(batch, load),
  ...ofWater(batch, load),
  ...ofTime(batch, load),
];
