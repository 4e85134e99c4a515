/**
 * The grain in the pot: a population of kernels that takes up water, turns translucent and bursts.
 *
 * Soak: Peleg's curve in its rate form, dX/dt = (1 - k2 u)^2 / k1 with u = X - X0, which gives the published
 * curve back at a constant temperature (sorghum constants, borrowed by the other grains). Simmer: no kinetics
 * above 60 C were found, so a first-order approach is set to common practice times (10 to 20 min after a
 * soak, about twice without); it is a practice model, not a measurement. X is dry basis, g water per g.
 */
import type { Recipe } from '../recipe/recipe.ts';
import { dryBasis, wetBasis } from '../science/hydration.ts';
import { GRAIN_PROPERTIES } from '../science/grains.ts';
import { pelegConstants } from '../science/soak.ts';
import { between, chance, deviate } from './chance.ts';
import type { FaultId } from './faults.ts';

export const KERNELS = 48;
/** Natural spread of the rate between kernels and of the moisture at which they burst. */
const RATE_SPREAD = 0.1;
const BURST_SPREAD = 0.07;
/** Above the wanted moisture by so much (dry basis): where the simmer levels out, where kernels burst. */
const LEVEL = 0.3;
const BURST = 0.16;
/** A kernel is translucent through this much below the wanted moisture, and white through at `CHALK`. */
const CLEAR = 0.04;
const CHALK = 0.43;
/** Soft and stubborn lots against the usual one (the project's own figures). */
const SOFT = 1.6;
const STUBBORN = 0.42;
const SOAK_WARMEST_C = 50;
/** Moisture a soak leaves before the simmer, dry basis, for setting the simmer's rate: 33 % wet basis. */
const SOAKED = 0.49;

export interface Grain {
  /** Dry matter, kg. */
  readonly dryKg: number;
  readonly startX: number;
  readonly wantedX: number;
  /** Simmer rate at a full simmer, 1/s. */
  readonly simmerRate: number;
  readonly rate: Float64Array;
  readonly burstX: Float64Array;
  readonly x: Float64Array;
  readonly burst: Uint8Array;
}

/** Simmer after a soak that practice calls usual for this grain, s; 20 min where it names none. */
export function usualSimmerS(grain: Recipe['grain']): number {
  const [least, most] = GRAIN_PROPERTIES[grain].simmerMin ?? [15, 25];
  return ((least + most) / 2) * 60;
}

export function createGrain(
  recipe: Recipe,
  storedKg: number,
  seed: number,
  faults: ReadonlySet<FaultId>,
): Grain {
  const startX = dryBasis(recipe.storedMoisture);
  const wantedX = dryBasis(recipe.wantedMoisture);
  const reach = wantedX + LEVEL;
  const lot =
    (faults.has('soft-grain') ? SOFT : faults.has('stubborn-grain') ? STUBBORN : 1) *
    between(0.93, 1.07, chance(seed, 'lot'));
  const spread = (name: string, index: number) => deviate(seed, name, index);
  return {
    dryKg: storedKg * (1 - recipe.storedMoisture),
    startX,
    wantedX,
    simmerRate: Math.log((reach - SOAKED) / (reach - wantedX)) / usualSimmerS(recipe.grain),
    rate: Float64Array.from({ length: KERNELS }, (_, n) => lot * Math.exp(RATE_SPREAD * spread('rate', n))),
    burstX: Float64Array.from(
      { length: KERNELS },
      (_, n) => wantedX + BURST + BURST_SPREAD * spread('burst', n),
    ),
    x: new Float64Array(KERNELS).fill(startX),
    burst: new Uint8Array(KERNELS),
  };
}

/**
 * Lies in water of a temperature for so many seconds, of which it simmers a share from 0 to 1: the water
 * taken up, kg. Practice times count from when the pot moves, so warming up is not counted as simmering.
 */
export function hydrate(grain: Grain, waterC: number, simmers: number, seconds: number): number {
  const { x, rate, burstX, burst, startX, wantedX, simmerRate, dryKg } = grain;
  const before = meanX(grain);
  const { k1, k2 } = pelegConstants('sorghum', Math.min(SOAK_WARMEST_C, Math.max(10, waterC)));
  const level = wantedX + LEVEL;
  for (let n = 0; n < x.length; n += 1) {
    const now = x[n] as number;
    const factor = rate[n] as number;
    const short = Math.max(0, 1 - k2 * 100 * (now - startX));
    const soaks = ((short * short) / k1 / 100 / 3600) * factor * seconds;
    const cooks =
      simmers > 0 ? Math.max(0, level - now) * -Math.expm1(-simmerRate * factor * simmers * seconds) : 0;
    const then = now + Math.max(soaks, cooks);
    x[n] = then;
    if (then >= (burstX[n] as number)) burst[n] = 1;
  }
  return dryKg * (meanX(grain) - before);
}

/** Mean moisture, dry basis. */
export function meanX({ x }: Grain): number {
  let sum = 0;
  for (let n = 0; n < x.length; n += 1) sum += x[n] as number;
  return sum / x.length;
}

/** Mean moisture, wet basis. */
export const moistureOf = (grain: Grain): number => wetBasis(meanX(grain));

/** Share of the kernels that have burst. */
export function burstShare({ burst }: Grain): number {
  let count = 0;
  for (let n = 0; n < burst.length; n += 1) count += burst[n] as number;
  return count / burst.length;
}

/** White share of a kernel's cut face: 0 translucent through, 1 chalk to the skin. */
export const coreOf = ({ wantedX }: Grain, x: number): number =>
  Math.min(1, Math.max(0, (wantedX - CLEAR - x) / (wantedX - CLEAR - CHALK)));

/** Mean white share over all kernels: what the cut of three stands for. */
export function meanCore(grain: Grain): number {
  let sum = 0;
  for (let n = 0; n < grain.x.length; n += 1) sum += coreOf(grain, grain.x[n] as number);
  return sum / grain.x.length;
}

/** The middle one of three kernels cut open. */
export function cutThree(grain: Grain, seed: number, look: number): number {
  const cores = [0, 1, 2].map(n => {
    const kernel = Math.floor(chance(seed, 'kernel', 3 * look + n) * grain.x.length);
    return coreOf(grain, grain.x[kernel] ?? grain.startX);
  });
  return cores.sort((a, b) => a - b)[1] ?? 0;
}

/** Dries from inside once its surface is bare: kg of water given off. */
export function dryInside(grain: Grain, kgWater: number): void {
  const less = kgWater / grain.dryKg;
  for (let n = 0; n < grain.x.length; n += 1)
    grain.x[n] = Math.max(grain.startX, (grain.x[n] as number) - less);
}
