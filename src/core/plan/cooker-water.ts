/** Water in the cooker: how much to pour, what venting and holding use on this burner, when it would be dry. */
import type { Kitchen } from '../kitchen.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { type Band, isNoAnswer } from '../science/limits.ts';
import {
  boilDryS,
  BURNER_EFFICIENCY,
  HEATED_LOSS_WK,
  HOLD_USE_G_MIN,
  steamRateGMin,
  ventRateGMin,
  waterBudget,
} from '../science/water.ts';
import type { GaugeTarget } from './gauge-target.ts';

export interface CookerWater {
  /**
   * To pour, L: likely use and a litre to spare, never under the maker's minimum; more where the recipe asks for
   * more and the cooker takes it.
   */
  readonly pourL: number;
  /** What the recipe asks for beyond what the cooker takes, L; 0 mostly. */
  readonly beyondL: number;
  readonly makersMinimumL: number;
  /** Used by venting and by holding, kg. */
  readonly ventKg: Band;
  readonly holdKg: Band;
  /** Left at heat-off, kg: likely, and if the flame stays on full (0 when it would be dry before). */
  readonly leftKg: { readonly likely: number; readonly low: number };
  /** From the start of the hold until dry, s: flame on full, held gently, held very gently. */
  readonly dryS: Band;
}

/** More water than this share of the vessel would reach the rack and what stands on it. */
const MOST_WATER_SHARE = 0.25;
/** Stands in for a burner that gives no steam at all; the plan refuses such a kitchen anyway. */
const NO_STEAM: Band = { low: 0, likely: 0, high: 0 };

/** What the burner could boil away in the hold, g/min: gently kept, and by this burner left on full. */
function holdRate(kitchen: Kitchen, holdC: number): Band {
  const full = steamRateGMin({
    powerW: kitchen.burnerW,
    efficiency: BURNER_EFFICIENCY[kitchen.burner].high,
    lossWK: HEATED_LOSS_WK.low,
    celsius: holdC,
    ambientC: kitchen.roomC,
  });
  const high = isNoAnswer(full) ? HOLD_USE_G_MIN.likely : Math.max(HOLD_USE_G_MIN.likely, full);
  return { ...HOLD_USE_G_MIN, high };
}

/** The water of one load. */
export function cookerWater(
  recipe: Recipe,
  kitchen: Kitchen,
  gauge: GaugeTarget,
  holdS: number,
): CookerWater {
  const vent = ventRateGMin({
    burner: kitchen.burner,
    powerW: kitchen.burnerW,
    ambientC: kitchen.roomC,
    boilsC: gauge.boilC,
  });
  const holdGMin = holdRate(kitchen, gauge.targetC);
  const budget = waterBudget({
    ventS: recipe.ventS,
    holdS,
    ventGMin: isNoAnswer(vent) ? NO_STEAM : vent,
    holdGMin,
    makersMinimumL: kitchen.minimumWaterL,
  });
  // To the tenth of a litre above, as a jug is read.
  const neededL = Math.ceil(budget.loadL * 10 - 1e-9) / 10;
  const askedL = recipe.cookerWaterL ?? 0;
  const pourL = Math.max(neededL, Math.min(askedL, mostWaterL(kitchen, neededL)));
  const { ventKg, holdKg } = budget;
  const left = (usedKg: number) => Math.max(0, pourL - usedKg);
  return {
    pourL,
    beyondL: Math.max(0, askedL - pourL),
    makersMinimumL: kitchen.minimumWaterL,
    ventKg,
    holdKg,
    leftKg: { likely: left(ventKg.likely + holdKg.likely), low: left(ventKg.high + holdKg.high) },
    dryS: boilDryS(left(ventKg.likely), holdGMin),
  };
}

/** Most that may be poured, L; never less than what the plan pours. */
export const mostWaterL = (kitchen: Kitchen, pourL: number): number =>
  Math.max(pourL, kitchen.cookerL * MOST_WATER_SHARE);
