/** Grain and water before the cooker: what to weigh, what it becomes, and how it goes into the pot. */
import type { Kitchen } from '../kitchen.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { GRAIN_PROPERTIES } from '../science/grains.ts';
import {
  BULK_POROSITY,
  bulkVolumeL,
  hydrationYield,
  massAtMoistureKg,
  potLevel,
  STORED_MOISTURE,
} from '../science/hydration.ts';
import type { Band } from '../science/limits.ts';
import { soakMoisture } from '../science/soak.ts';
import { isNoAnswer } from '../science/limits.ts';

/** Share of the pot that grain and water may take: a hand of headspace for foam (common practice, no source). */
export const MOST_POT_FILL = 0.85;
/** Water kept over the swollen grain while it soaks, as a factor (common practice, no source). */
const SOAK_SPARE = 1.2;

export interface GrainPlan {
  /** Grain as bought, kg. */
  readonly dryKg: number;
  readonly dryVolumeL: number;
  /** What it weighs drained and surface-dry; the band is the grain's usual moistures. */
  readonly hydratedKg: Band;
  readonly hydratedVolumeL: Band;
  /** Containers that the yield fills, whole ones. */
  readonly fills: { readonly low: number; readonly high: number };
  readonly soak: SoakPlan | null;
  readonly simmerWaterL: number;
  readonly pot: PotPlan;
}

export interface SoakPlan {
  readonly waterL: number;
  /** Vessel that holds the soak, L. */
  readonly vesselL: number;
  /** Wet-basis moisture after the shortest and the longest soak; null where no curve reaches. */
  readonly moisture: { readonly low: number; readonly high: number } | null;
  /** The curve was measured on another grain. */
  readonly borrowed: boolean;
}

export interface PotPlan {
  /** Simmered in so many parts, one after the other. */
  readonly fillings: number;
  /** Dry grain that the pot takes at once with its water, kg. */
  readonly takesKg: number;
  /** Of each part: highest level, share of the pot, litres left to the rim. */
  readonly volumeL: number;
  readonly share: number;
  readonly headspaceL: number;
  /** Grain and water of each part. */
  readonly dryKg: number;
  readonly waterL: number;
}

/** Dry grain for so much hydrated grain, kg. */
export const dryKgFor = ({ containers, storedMoisture, wantedMoisture }: Recipe): number =>
  massAtMoistureKg({
    massKg: containers.count * containers.fillKg,
    from: wantedMoisture,
    to: storedMoisture,
  });

/** Everything about the grain of one batch. */
export function grainPlan(recipe: Recipe, kitchen: Kitchen): GrainPlan {
  const { grain, storedMoisture, wantedMoisture, containers } = recipe;
  const { bulkKgM3, wantedMoisture: usual } = GRAIN_PROPERTIES[grain];
  const dryKg = dryKgFor(recipe);
  const batch = { storedKg: dryKg, storedMoisture, wantedMoisture, dryBulkKgM3: bulkKgM3 };
  const becomes = hydrationYield(batch);
  const hydrated = (from: number, to: number) => massAtMoistureKg({ massKg: dryKg, from, to });
  const hydratedKg: Band = {
    low: hydrated(Math.max(storedMoisture, STORED_MOISTURE.high), Math.min(usual.low, wantedMoisture)),
    likely: becomes.hydratedKg,
    high: hydrated(Math.min(storedMoisture, STORED_MOISTURE.low), Math.max(usual.high, wantedMoisture)),
  };
  const simmerWaterL = dryKg * recipe.simmer.waterPerKg;
  return {
    dryKg,
    dryVolumeL: becomes.dryVolumeL,
    hydratedKg,
    hydratedVolumeL: becomes.hydratedVolumeL,
    fills: {
      low: Math.floor(hydratedKg.low / containers.fillKg + 1e-9),
      high: Math.floor(hydratedKg.high / containers.fillKg + 1e-9),
    },
    soak: soakPlan(recipe, kitchen, becomes.waterKg, becomes.hydratedVolumeL.high),
    simmerWaterL,
    pot: potPlan({ ...batch, waterL: simmerWaterL }, kitchen.potL),
  };
}

function soakPlan(recipe: Recipe, kitchen: Kitchen, takenUpKg: number, heapL: number): SoakPlan | null {
  const { soak, storedMoisture, grain } = recipe;
  if (soak === null) return null;
  const waterL = Math.ceil((takenUpKg + heapL * BULK_POROSITY) * SOAK_SPARE * 2) / 2;
  const kernelsL = bulkVolumeL(dryKgFor(recipe), GRAIN_PROPERTIES[grain].bulkKgM3) * (1 - BULK_POROSITY);
  const after = (seconds: number) => soakMoisture(grain, { storedMoisture, waterC: kitchen.roomC, seconds });
  const [low, high] = [after(soak.shortestS), after(soak.longestS)];
  const known = !isNoAnswer(low) && !isNoAnswer(high);
  return {
    waterL,
    vesselL: Math.ceil(kernelsL + waterL),
    moisture: known ? { low: low.moisture, high: high.moisture } : null,
    borrowed: known && low.borrowed,
  };
}

interface PotBatch {
  readonly storedKg: number;
  readonly storedMoisture: number;
  readonly wantedMoisture: number;
  readonly dryBulkKgM3: number;
  readonly waterL: number;
}

function potPlan(batch: PotBatch, potL: number): PotPlan {
  const whole = potLevel({ ...batch, potL });
  const fillings = Math.max(1, Math.ceil(whole.fill / MOST_POT_FILL - 1e-9));
  const volumeL = whole.volumeL / fillings;
  return {
    fillings,
    takesKg: (batch.storedKg * MOST_POT_FILL) / whole.fill,
    volumeL,
    share: volumeL / potL,
    headspaceL: potL - volumeL,
    dryKg: batch.storedKg / fillings,
    waterL: batch.waterL / fillings,
  };
}
