/** Water in the cooker while it is hot: what is left, when it would boil dry, and what a hold over its time costs. */
import { holdLeftMs } from '../batch/advance.ts';
import { inLoad, numbersOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import { type Band, isNoAnswer } from '../science/limits.ts';
import { HOLD_USE_G_MIN, ventRateGMin } from '../science/water.ts';
import { type CoachTime, MINUTE, SECOND } from '../time.ts';
import { climbMs } from './gauge-points.ts';

/** From here on grain browns and nothing is gained (from memory), F0 min. */
export const BROWNING_F0_MIN = 60;

export interface WaterLeft {
  readonly litres: Band;
  /** When it would be gone as the flame is now; the earliest first. */
  readonly dryAt: Band;
  /** Less than the maker's minimum may be left. */
  readonly low: boolean;
}

/** Steam leaves by the open valve, or past weight and gasket. */
const USES: readonly StepId[] = ['vent', 'climb', 'hold', 'heat-off'];

function ventRateOf(batch: Batch): Band {
  const { kitchen } = batch.header;
  const rate = ventRateGMin({
    burner: kitchen.burner,
    powerW: kitchen.burnerW,
    ambientC: kitchen.roomC,
    boilsC: numbersOf(batch).boilC,
  });
  return isNoAnswer(rate) ? HOLD_USE_G_MIN : rate;
}

/** Water poured for a load, L; what was planned where another load's was poured since. */
const pouredL = (batch: Batch, load: number): number =>
  (load === batch.load ? batch.cookerWaterL : null) ?? numbersOf(batch).cookerWaterL;

/**
 * When the water of a load is gone, or will be as the flame is now; the earliest first. An instant that stands
 * still until another step uses another amount, also once it is past.
 */
export function dryInstant(batch: Batch, load = batch.load): Band {
  const vent = ventRateOf(batch);
  const times = batch.times.filter(time => time.load === load && USES.includes(time.step));
  const goneAt = (side: keyof Band): CoachTime => {
    let leftG = pouredL(batch, load) * 1000;
    let rate = vent[side] / MINUTE;
    for (const { step, from, to } of times) {
      rate = (step === 'vent' ? vent : HOLD_USE_G_MIN)[side] / MINUTE;
      const used = rate * ((to ?? batch.now) - from);
      if (used >= leftG) return from + leftG / rate;
      leftG -= used;
    }
    return batch.now + leftG / rate;
  };
  return { low: goneAt('high'), likely: goneAt('likely'), high: goneAt('low') };
}

const spent = (batch: Batch, steps: readonly StepId[]): number =>
  batch.times
    .filter(({ step, load }) => load === batch.load && steps.includes(step))
    .reduce((sum, { from, to }) => sum + ((to ?? batch.now) - from), 0);

/** Null before steam, and once the heat is off. */
export function waterLeft(batch: Batch): WaterLeft | null {
  const { kitchen } = batch.header;
  const poured = pouredL(batch, batch.load);
  if (!USES.includes(batch.step) || inLoad(batch).length === 0) return null;
  const ventRate = ventRateOf(batch);
  const ventMin = spent(batch, ['vent']) / MINUTE;
  const shutMin = spent(batch, ['climb', 'hold', 'heat-off']) / MINUTE;
  const left = (vent: number, hold: number): number =>
    Math.max(0, poured - (vent * ventMin + hold * shutMin) / 1000);
  const litres: Band = {
    low: left(ventRate.high, HOLD_USE_G_MIN.high),
    likely: left(ventRate.likely, HOLD_USE_G_MIN.likely),
    high: left(ventRate.low, HOLD_USE_G_MIN.low),
  };
  return {
    litres,
    dryAt: dryInstant(batch),
    low: litres.likely < kitchen.minimumWaterL / 2,
  };
}

/** So much longer than planned under heat is nothing to speak of, and so long ahead a shortage is told. */
const LONGER = 10 * MINUTE;

/**
 * When the water may be gone on a high flame, where that is (nearly) so and the hold still has to run on; null
 * otherwise. A batch that keeps to its plan is left alone: its water was reckoned for it when it was planned.
 */
export function goneBeforeEnd(batch: Batch): CoachTime | null {
  const water = waterLeft(batch);
  const leftMs = holdLeftMs(batch);
  if (!water || batch.step !== 'hold' || leftMs === 0) return null;
  const shutMs = spent(batch, ['climb', 'hold']) + leftMs;
  const plannedMs = climbMs(batch).high + numbersOf(batch).holdS * SECOND;
  const goneAt = water.dryAt.low;
  const soon = goneAt < batch.now + Math.min(LONGER, leftMs);
  return soon && shutMs > plannedMs + LONGER ? goneAt : null;
}

/** How long the flame has burned beyond the planned hold, ms; 0 unless heat-off is due. */
export const overrunMs = (batch: Batch): number =>
  batch.step === 'heat-off' && !batch.endedEarly ? batch.now - batch.since : 0;
