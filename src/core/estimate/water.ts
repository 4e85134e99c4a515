/** Water in the cooker while it is hot: what is left, when it would boil dry, and what a hold over its time costs. */
import { holdLeftMs } from '../batch/advance.ts';
import { inLoad, numbersOf } from '../batch/moves.ts';
import type { Batch, StepTime } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import { type Band, isNoAnswer } from '../science/limits.ts';
import { HOLD_USE_G_MIN, ventRateGMin } from '../science/water.ts';
import { type CoachTime, MINUTE, SECOND } from '../time.ts';
import { climbMs } from './gauge-points.ts';

/** Where the plan of an old batch does not say how slowly it may heat, s. */
const SLOWEST_HEAT_S = 2400;
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
const USES: readonly StepId[] = ['heat', 'vent', 'climb', 'hold', 'heat-off'];

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

interface Use {
  readonly from: CoachTime;
  readonly to: CoachTime;
  /** g/ms */
  readonly rate: number;
}

/** A first heating this often longer than its slowest plan boils water away unseen, by the side of the band (estimate). */
const BOILS_AFTER: Band = { low: 1, likely: 2, high: 4 };
/** Where steam was there before, it is there again so soon under a full flame (estimate). */
const BOILS_AGAIN: Band = { low: 0, likely: 10 * MINUTE, high: 40 * MINUTE };

/**
 * When water begins to leave in a step of heating in which nobody called the steam steady: it may well, before an
 * open valve that nobody believes. A heating begun over for want of heat is taken for a first one.
 */
function boilsFrom(batch: Batch, { from, load }: StepTime, side: keyof Band): CoachTime {
  const hadSteam = batch.times.some(time => time.step === 'vent' && time.load === load && time.from < from);
  const noHeat = batch.deviations.some(
    ({ trouble, t, load: of }) => trouble === 'heat-failed' && of === load && t <= from,
  );
  if (hadSteam && !noHeat) return from + BOILS_AGAIN[side];
  const slowest = numbersOf(batch).lengths.heat?.highS ?? SLOWEST_HEAT_S;
  return from + BOILS_AFTER[side] * slowest * SECOND;
}

/** What a load's water went into so far; `side` is that of the water left, so that low uses most. */
function usesOf(batch: Batch, load: number, side: keyof Band): readonly Use[] {
  const more = side === 'low' ? 'high' : side === 'high' ? 'low' : side;
  const vent = ventRateOf(batch)[more] / MINUTE;
  return batch.times
    .filter(time => time.load === load && USES.includes(time.step))
    .map(time => ({
      from: time.step === 'heat' ? boilsFrom(batch, time, side) : time.from,
      to: time.to ?? batch.now,
      rate: time.step === 'heat' || time.step === 'vent' ? vent : HOLD_USE_G_MIN[more] / MINUTE,
    }))
    .filter(({ from, to }, index, all) => from < to || index === all.length - 1);
}

/**
 * When the water of a load is gone, or will be as the flame is now; the earliest first. An instant that stands
 * still until another step uses another amount, also once it is past.
 */
export function dryInstant(batch: Batch, load = batch.load): Band {
  const goneAt = (side: keyof Band): CoachTime => {
    let leftG = pouredL(batch, load) * 1000;
    let last: Use = { from: batch.now, to: batch.now, rate: HOLD_USE_G_MIN.likely / MINUTE };
    for (const use of usesOf(batch, load, side)) {
      last = use;
      const used = use.rate * Math.max(0, use.to - use.from);
      if (used >= leftG) return use.from + leftG / use.rate;
      leftG -= used;
    }
    return Math.max(batch.now, last.from) + leftG / last.rate;
  };
  return { low: goneAt('low'), likely: goneAt('likely'), high: goneAt('high') };
}

const spent = (batch: Batch, steps: readonly StepId[]): number =>
  batch.times
    .filter(({ step, load }) => load === batch.load && steps.includes(step))
    .reduce((sum, { from, to }) => sum + ((to ?? batch.now) - from), 0);

/** Null before steam, and once the heat is off. */
export function waterLeft(batch: Batch): WaterLeft | null {
  const { kitchen } = batch.header;
  if (!USES.includes(batch.step) || inLoad(batch).length === 0) return null;
  const leftL = (side: keyof Band): number => {
    const used = usesOf(batch, batch.load, side).reduce(
      (sum, { from, to, rate }) => sum + rate * Math.max(0, to - from),
      0,
    );
    return Math.max(0, pouredL(batch, batch.load) - used / 1000);
  };
  const litres: Band = { low: leftL('low'), likely: leftL('likely'), high: leftL('high') };
  if (batch.step === 'heat' && litres.low >= pouredL(batch, batch.load)) return null;
  return {
    litres,
    dryAt: dryInstant(batch),
    low: litres.likely < kitchen.minimumWaterL / 2,
  };
}

/** When steady steam is due at the latest by the plan, from the beginning of this heating on. */
export const steamDueAt = (batch: Batch): CoachTime =>
  batch.since + (numbersOf(batch).lengths.heat?.highS ?? SLOWEST_HEAT_S) * SECOND;

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
