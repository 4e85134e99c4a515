/**
 * Hydration as bookkeeping: dry matter stays, water comes and goes. Masses are kg, moistures wet-basis
 * fractions (water / total), 0 to below 1, unless named dry basis (water / dry matter). Valid for any grain as long as nothing but water is lost; starch washed out is not counted.
 */
import { type Band, notNegative, positive, within } from './limits.ts';

/** Bulk density of hydrated cereal in a bag, kg/m3: 1168 kg/m3 kernels with 40 % voids; computed, not measured. */
export const WET_BULK_KG_M3: Band = { low: 600, likely: 700, high: 780 };
/** Share of a heap of kernels that is air, computed from kernel and bulk density. */
export const BULK_POROSITY = 0.4;
/** Practical moistures of stored grain, wet basis: 12 % with 11 to 13.5 (extension publications). */
export const STORED_MOISTURE: Band = { low: 0.11, likely: 0.12, high: 0.135 };

const moisture = (name: string, fraction: number): number => {
  if (fraction >= 0 && fraction < 1) return fraction;
  throw new RangeError(`${name} must be a wet-basis fraction from 0 to below 1, not ${fraction}.`);
};

/** Wet basis to dry basis: X = M / (1 - M). */
export function dryBasis(wetBasis: number): number {
  return moisture('Moisture', wetBasis) / (1 - wetBasis);
}

/** Dry basis to wet basis: M = X / (1 + X). */
export function wetBasis(dryBasisMoisture: number): number {
  return notNegative('Dry-basis moisture', dryBasisMoisture, '') / (1 + dryBasisMoisture);
}

export interface MoistureChange {
  /** Mass before, kg. */
  readonly massKg: number;
  /** Wet-basis moisture before. */
  readonly from: number;
  /** Wet-basis moisture after. */
  readonly to: number;
}

/** Mass in kg after the moisture changed: m2 = m1 (1 - M1) / (1 - M2). Also backwards, by swapping from and to. */
export function massAtMoistureKg({ massKg, from, to }: MoistureChange): number {
  notNegative('Mass', massKg, 'kg');
  return (massKg * (1 - moisture('Moisture before', from))) / (1 - moisture('Moisture after', to));
}

/** Water taken up (negative: given off) in kg. */
export function waterUptakeKg(change: MoistureChange): number {
  return massAtMoistureKg(change) - change.massKg;
}

export interface Weighing {
  /** Grain put in, kg, and its wet-basis moisture then. */
  readonly storedKg: number;
  readonly storedMoisture: number;
  /** What the drained grain weighs now, kg. */
  readonly drainedKg: number;
}

/**
 * Wet-basis moisture by weighing the drained grain; this overrules every model of soaking. RangeError when
 * the grain weighs less than its dry matter, which means a weight was mistaken or grain was lost.
 */
export function moistureByWeighing({ storedKg, storedMoisture, drainedKg }: Weighing): number {
  const dryKg = positive('Stored mass', storedKg, 'kg') * (1 - moisture('Stored moisture', storedMoisture));
  if (positive('Drained mass', drainedKg, 'kg') >= dryKg) return 1 - dryKg / drainedKg;
  throw new RangeError(
    `The drained grain cannot weigh ${drainedKg} kg: its dry matter alone is ${dryKg.toFixed(3)} kg. Weigh it again.`,
  );
}

export interface Wetted {
  readonly massKg: number;
  readonly moisture: number;
  /** Water or liquid culture added, kg (a litre of culture counts as a kilogram of water). */
  readonly waterKg: number;
}

/** Wet-basis moisture after adding water or liquid culture to hydrated grain. */
export function moistureWithWater({ massKg, moisture: before, waterKg }: Wetted): number {
  const water = positive('Mass', massKg, 'kg') * moisture('Moisture', before);
  return (water + notNegative('Water', waterKg, 'kg')) / (massKg + waterKg);
}

/** Volume in litres of a mass in kg at a bulk density in kg/m3. */
export function bulkVolumeL(massKg: number, densityKgM3: number): number {
  return (notNegative('Mass', massKg, 'kg') * 1000) / positive('Bulk density', densityKgM3, 'kg/m3');
}

export interface Yield {
  readonly hydratedKg: number;
  readonly waterKg: number;
  readonly dryVolumeL: number;
  readonly hydratedVolumeL: Band;
}

export interface Batch {
  readonly storedKg: number;
  readonly storedMoisture: number;
  readonly wantedMoisture: number;
  /** Bulk density of the stored grain, kg/m3. */
  readonly dryBulkKgM3: number;
}

/** What a batch of stored grain becomes: mass, water taken up, and volumes before and after. */
export function hydrationYield({ storedKg, storedMoisture, wantedMoisture, dryBulkKgM3 }: Batch): Yield {
  const change = { massKg: storedKg, from: storedMoisture, to: wantedMoisture };
  const hydratedKg = massAtMoistureKg(change);
  return {
    hydratedKg,
    waterKg: hydratedKg - storedKg,
    dryVolumeL: bulkVolumeL(storedKg, dryBulkKgM3),
    hydratedVolumeL: {
      low: bulkVolumeL(hydratedKg, WET_BULK_KG_M3.high),
      likely: bulkVolumeL(hydratedKg, WET_BULK_KG_M3.likely),
      high: bulkVolumeL(hydratedKg, WET_BULK_KG_M3.low),
    },
  };
}

export interface Pot extends Batch {
  readonly waterL: number;
  readonly potL: number;
}

export interface PotLevel {
  /** Highest volume reached: at the start, or when the swollen grain stands above its water. */
  readonly volumeL: number;
  /** That volume over the pot's; above 1 it does not fit. */
  readonly fill: number;
  /** Litres left to the rim; negative when it overflows. */
  readonly headspaceL: number;
}

/**
 * Level of grain and water in an open pot. At the start the solid kernels and the water add up; water that
 * soaks in hardly changes that sum, but the swollen heap (its loosest, for safety) may stand higher.
 */
export function potLevel({ waterL, potL, ...batch }: Pot): PotLevel {
  const { dryVolumeL, hydratedVolumeL } = hydrationYield(batch);
  const atStartL = dryVolumeL * (1 - BULK_POROSITY) + notNegative('Water', waterL, 'L');
  const volumeL = Math.max(atStartL, hydratedVolumeL.high);
  positive('Pot volume', potL, 'L');
  return { volumeL, fill: volumeL / potL, headspaceL: potL - volumeL };
}

/** Height in m at which a volume in litres stands in a round vessel of 1 cm to 10 m. */
export function levelHeightM(volumeL: number, innerDiameterM: number): number {
  const area = (Math.PI * within('Inner diameter', innerDiameterM, 0.01, 10, 'm') ** 2) / 4;
  return notNegative('Volume', volumeL, 'L') / 1000 / area;
}
