/**
 * Water and heat in the cooker: steam rate, water used by venting and holding, time until it boils dry,
 * time to heat up. Heat entering is eta P; losses are UA (T - Ta). Efficiencies and losses are bands: two
 * sources for the first, an estimate for the second. What the weight lets go decides the real use, so a
 * measured remainder beats every figure here.
 */
import { type Band, finite, type NoAnswer, noAnswer, notNegative, positive, within } from './limits.ts';
import { LOAD_CP_KJ_KGK } from './cooldown.ts';
import { latentHeatKJKg, steamKgM3 } from './steam.ts';

/** Share of a burner's power that reaches the pot (ENERGY STAR 2021; a list derived from DOE tests). */
export const BURNER_EFFICIENCY = {
  gas: { low: 0.32, likely: 0.36, high: 0.4 },
  electric: { low: 0.74, likely: 0.77, high: 0.8 },
  induction: { low: 0.84, likely: 0.845, high: 0.85 },
} as const satisfies Readonly<Record<string, Band>>;
export type Burner = keyof typeof BURNER_EFFICIENCY;

/** Loss of a hot 20 to 25 L pot on a burner, W/K; an estimate. */
export const HEATED_LOSS_WK: Band = { low: 3, likely: 4.5, high: 5 };
/** Water that a gently kept hold uses, g/min; the high end is a burner left on full. */
export const HOLD_USE_G_MIN: Band = { low: 4, likely: 6, high: 25 };
/** Water that should be left at heat-off, L. */
export const RESERVE_L = 1;

export interface Boiling {
  readonly powerW: number;
  /** Share of the power reaching the pot, above 0 to 1. */
  readonly efficiency: number;
  readonly lossWK: number;
  readonly celsius: number;
  readonly ambientC: number;
  /** Heat still going into the load, W; 0 when absent. */
  readonly sensibleW?: number;
}

/** Steam given off, g/min; no answer when the heat does not cover the losses. Valid 0 to 200 C. */
export function steamRateGMin(boiling: Boiling): number | NoAnswer {
  const { powerW, efficiency, lossWK, celsius, ambientC, sensibleW = 0 } = boiling;
  within('Efficiency', efficiency, 0, 1, '');
  within('Steam temperature', celsius, 0, 200, 'C');
  const losses =
    notNegative('Loss', lossWK, 'W/K') * (celsius - finite('Ambient temperature', ambientC, 'C'));
  const netW =
    notNegative('Power', powerW, 'W') * efficiency - losses - notNegative('Heat to the load', sensibleW, 'W');
  if (netW > 0) return (netW * 60) / latentHeatKJKg(celsius);
  return noAnswer(
    `${Math.round(powerW * efficiency)} W entering the pot do not cover its losses at ${celsius} C: no steam, and it cools.`,
  );
}

export interface Stove {
  readonly burner: Burner;
  readonly powerW: number;
  readonly ambientC: number;
  /** Boiling point here, C. */
  readonly boilsC: number;
}

/** Steam given off with the valve open and the burner full on, g/min, over the bands of efficiency and loss. */
export function ventRateGMin({ burner, powerW, ambientC, boilsC }: Stove): Band | NoAnswer {
  const rate = (efficiency: number, lossWK: number) =>
    steamRateGMin({ powerW, efficiency, lossWK, celsius: boilsC, ambientC });
  const efficiency = BURNER_EFFICIENCY[burner];
  const low = rate(efficiency.low, HEATED_LOSS_WK.high);
  const likely = rate(efficiency.likely, HEATED_LOSS_WK.likely);
  const high = rate(efficiency.high, HEATED_LOSS_WK.low);
  if (typeof low !== 'number') return low;
  if (typeof likely !== 'number') return likely;
  return typeof high === 'number' ? { low, likely, high } : high;
}

export interface WaterPlan {
  readonly ventS: number;
  readonly holdS: number;
  readonly ventGMin: Band;
  /** g/min; `HOLD_USE_G_MIN` when absent. */
  readonly holdGMin?: Band;
  readonly makersMinimumL: number;
}

export interface WaterBudget {
  readonly ventKg: Band;
  readonly holdKg: Band;
  /** To load: likely use and the reserve, and not less than the maker's minimum; L. */
  readonly loadL: number;
  /** To load if everything goes the wasteful way, L. */
  readonly cautiousL: number;
}

/** Water used and water to load (1 kg counted as 1 L: it is measured cold). */
export function waterBudget(plan: WaterPlan): WaterBudget {
  const { ventS, holdS, ventGMin, holdGMin = HOLD_USE_G_MIN, makersMinimumL } = plan;
  notNegative("Maker's minimum", makersMinimumL, 'L');
  const ventKg = used(ventGMin, notNegative('Vent', ventS, 's'));
  const holdKg = used(holdGMin, notNegative('Hold', holdS, 's'));
  return {
    ventKg,
    holdKg,
    loadL: Math.max(makersMinimumL, ventKg.likely + holdKg.likely + RESERVE_L),
    cautiousL: Math.max(makersMinimumL, ventKg.high + holdKg.high + RESERVE_L),
  };
}

function used({ low, likely, high }: Band, seconds: number): Band {
  const kg = (gMin: number) => (notNegative('Steam rate', gMin, 'g/min') * seconds) / 60_000;
  return { low: kg(low), likely: kg(likely), high: kg(high) };
}

/** Seconds until an amount of water is gone at a steady rate in g/min; soonest first. */
export function boilDryS(waterKg: number, rateGMin: Band): Band {
  const seconds = (gMin: number) =>
    (notNegative('Water', waterKg, 'kg') * 60_000) / positive('Steam rate', gMin, 'g/min');
  return { low: seconds(rateGMin.high), likely: seconds(rateGMin.likely), high: seconds(rateGMin.low) };
}

export interface HeatUp {
  readonly capacityKJK: number;
  readonly fromC: number;
  readonly toC: number;
  readonly powerW: number;
  readonly efficiency: number;
  readonly lossWK: number;
  readonly ambientC: number;
}

/** Seconds to heat a lumped pot; no answer when the burner cannot reach the temperature. */
export function heatUpS(heat: HeatUp): number | NoAnswer {
  const { capacityKJK, fromC, toC, powerW, efficiency, lossWK, ambientC } = heat;
  within('Efficiency', efficiency, 0, 1, '');
  if (finite('Wanted temperature', toC, 'C') <= finite('Start temperature', fromC, 'C')) return 0;
  positive('Loss', lossWK, 'W/K');
  const reachedC =
    finite('Ambient temperature', ambientC, 'C') + (notNegative('Power', powerW, 'W') * efficiency) / lossWK;
  if (reachedC <= toC) return noAnswer(`This burner heats the pot to ${Math.round(reachedC)} C at most.`);
  const tauS = (positive('Heat capacity', capacityKJK, 'kJ/K') * 1000) / lossWK;
  return tauS * Math.log((reachedC - fromC) / (reachedC - toC));
}

/** Steam in kg that condenses on a load of hydrated grain to heat it; it drips back and is not lost. */
export function condensedKg(loadKg: number, fromC: number, toC: number): number {
  const heatKJ =
    notNegative('Load', loadKg, 'kg') * LOAD_CP_KJ_KGK * notNegative('Warming', toC - fromC, 'K');
  return heatKJ / latentHeatKJKg(toC);
}

/** Steam in g that fills a free volume in litres. */
export function steamHeldG(freeL: number, celsius: number): number {
  return notNegative('Free volume', freeL, 'L') * steamKgM3(celsius);
}

/** Water in L that stands to a depth in m in a round pot; published rules ask for 2 to 3 inches. */
export function waterForDepthL(depthM: number, innerDiameterM: number): number {
  const area = (Math.PI * within('Inner diameter', innerDiameterM, 0.01, 10, 'm') ** 2) / 4;
  return notNegative('Depth', depthM, 'm') * area * 1000;
}
