/** When to touch the flame: from the trend of the last two numbers read at the gauge. */
import { ABOVE_KPA, GAUGE_GRAIN_KPA } from '../batch/gauge.ts';
import { numbersOf } from '../batch/moves.ts';
import type { Batch, Reading } from '../batch/state.ts';
import { type CoachTime, MINUTE } from '../time.ts';

/** Readings further apart than this are no trend, and closer than this no rate. */
const TREND_MOST = 20 * MINUTE;
const TREND_LEAST = 30_000;
/** A gauge that moves less than this in a minute stands, kPa (a dial's grain). */
const STANDS_KPA_PER_MIN = 0.35;
/** A pot goes on climbing for about so long after the flame came down (common practice, no source). */
const LAG = 2 * MINUTE;

export interface Trend {
  readonly kPaPerMin: number;
  readonly last: Reading & { readonly kPa: number };
}

export type FlameAdvice =
  | { readonly do: 'lower-at'; readonly kPa: number; readonly at: CoachTime }
  | { readonly do: 'lower-now'; readonly why: 'near' | 'above' | 'rising' }
  | { readonly do: 'raise-now'; readonly why: 'below' | 'falling'; readonly belowAt: CoachTime | null }
  | { readonly do: 'too-slow' }
  | { readonly do: 'leave' };

const isNumber = (reading: Reading): reading is Reading & { readonly kPa: number } => reading.kPa !== null;

/** The trend of the gauge, or null without two numbers in this load's climb and hold. */
export function gaugeTrend(batch: Batch): Trend | null {
  const numbers = batch.readings.filter(
    ({ load, step, t }) =>
      load === batch.load && (step === 'climb' || step === 'hold') && t >= pressureFrom(batch),
  );
  const read = numbers.filter(isNumber);
  const last = read.at(-1);
  const before = read.at(-2);
  if (!last || !before || batch.now - last.t > TREND_MOST) return null;
  const apart = last.t - before.t;
  if (apart > TREND_MOST || apart < TREND_LEAST) return null;
  return { kPaPerMin: ((last.kPa - before.kPa) / apart) * MINUTE, last };
}

/** When the valve was closed last. */
const pressureFrom = (batch: Batch): CoachTime =>
  batch.times.findLast(({ step, load }) => step === 'climb' && load === batch.load)?.from ?? batch.now;

/** What to do with the flame; null where it says nothing, or no trend is known. */
export function flameAdvice(batch: Batch): FlameAdvice | null {
  const { targetKPa, lengths } = numbersOf(batch);
  if (batch.step !== 'climb' && batch.step !== 'hold') return null;
  const trend = gaugeTrend(batch);
  if (!trend) return null;
  const { kPaPerMin, last } = trend;
  const since = (batch.now - last.t) / MINUTE;
  if (batch.step === 'hold') {
    if (last.kPa < targetKPa - GAUGE_GRAIN_KPA) return { do: 'raise-now', why: 'below', belowAt: null };
    if (last.kPa > targetKPa + ABOVE_KPA) return { do: 'lower-now', why: 'above' };
    if (kPaPerMin > STANDS_KPA_PER_MIN) return { do: 'lower-now', why: 'rising' };
    if (kPaPerMin > -STANDS_KPA_PER_MIN) return { do: 'leave' };
    const belowAt = last.t + ((last.kPa - (targetKPa - GAUGE_GRAIN_KPA)) / -kPaPerMin) * MINUTE;
    return { do: 'raise-now', why: 'falling', belowAt };
  }
  if (kPaPerMin < STANDS_KPA_PER_MIN) return { do: 'too-slow' };
  // What the pot still gains after the flame came down has to fit under the target.
  const lowerKPa = Math.max(0, targetKPa - (kPaPerMin * LAG) / MINUTE / 2);
  const inMin = (lowerKPa - last.kPa) / kPaPerMin - since;
  if (inMin <= 0.25) return { do: 'lower-now', why: 'near' };
  const slow = lengths.climb ? lengths.climb.highS / 60 : 20;
  if ((targetKPa - last.kPa) / kPaPerMin > 2 * slow) return { do: 'too-slow' };
  return { do: 'lower-at', kPa: lowerKPa, at: batch.now + inMin * MINUTE };
}
