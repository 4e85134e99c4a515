/** Water in the cooker while it is hot: what is left, when it would boil dry, and what a hold over its time costs. */
import { inLoad, numbersOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import { type Band, isNoAnswer } from '../science/limits.ts';
import { HOLD_USE_G_MIN, boilDryS, ventRateGMin } from '../science/water.ts';
import { type CoachTime, MINUTE, SECOND } from '../time.ts';

/** From here on grain browns and nothing is gained (from memory), F0 min. */
export const BROWNING_F0_MIN = 60;

export interface WaterLeft {
  readonly litres: Band;
  /** When it would be gone as the flame is now; the earliest first. */
  readonly dryAt: Band;
  /** Less than the maker's minimum may be left. */
  readonly low: boolean;
}

const spent = (batch: Batch, steps: readonly StepId[]): number =>
  batch.times
    .filter(({ step, load }) => load === batch.load && steps.includes(step))
    .reduce((sum, { from, to }) => sum + ((to ?? batch.now) - from), 0);

/** Null before steam, and once the heat is off. */
export function waterLeft(batch: Batch): WaterLeft | null {
  const { kitchen } = batch.header;
  const { boilC, cookerWaterL } = numbersOf(batch);
  const poured = batch.cookerWaterL ?? cookerWaterL;
  if (!['vent', 'climb', 'hold', 'heat-off'].includes(batch.step) || inLoad(batch).length === 0) return null;
  const venting = ventRateGMin({
    burner: kitchen.burner,
    powerW: kitchen.burnerW,
    ambientC: kitchen.roomC,
    boilsC: boilC,
  });
  const ventRate = isNoAnswer(venting) ? HOLD_USE_G_MIN : venting;
  const ventMin = spent(batch, ['vent']) / MINUTE;
  const shutMin = spent(batch, ['climb', 'hold', 'heat-off']) / MINUTE;
  const left = (vent: number, hold: number): number =>
    Math.max(0, poured - (vent * ventMin + hold * shutMin) / 1000);
  const litres: Band = {
    low: left(ventRate.high, HOLD_USE_G_MIN.high),
    likely: left(ventRate.likely, HOLD_USE_G_MIN.likely),
    high: left(ventRate.low, HOLD_USE_G_MIN.low),
  };
  const rate = batch.step === 'vent' ? ventRate : HOLD_USE_G_MIN;
  const at = (seconds: number): CoachTime => batch.now + seconds * SECOND;
  return {
    litres,
    dryAt: {
      low: at(boilDryS(litres.low, rate).low),
      likely: at(boilDryS(litres.likely, rate).likely),
      high: at(boilDryS(litres.high, rate).high),
    },
    low: litres.likely < kitchen.minimumWaterL / 2,
  };
}

/** How long the flame has burned beyond the planned hold, ms; 0 unless heat-off is due. */
export const overrunMs = (batch: Batch): number =>
  batch.step === 'heat-off' && !batch.endedEarly ? batch.now - batch.since : 0;
