/**
 * Water on the surface of drained kernels spread on towels. Only the upper layer meets moving air; stirring
 * brings the rest up. Bare kernels go on to dry from inside, which is dried too far. Rates are set so that
 * the recipe's own drying time is right when it is stirred as told (common practice, no source); a film of
 * 20 um is 27 g on each kg of wet grain, and drained grain carries about twice that.
 */
import { between, chance } from './chance.ts';

/** Share of the grain that lies open to the air. */
const UPPER = 0.4;
/** Just drained and just right, g on each kg of wet grain. */
const DRAINED_G = 58;
export const DRY_ENOUGH_G = 9;
export const DRIED_OUT_G = 1.5;
/** Under this film the air finds bare skin and takes less, g/kg. */
const BARE_G = 4;
/** Layers even out by themselves with this time constant, s. */
const CREEP_S = 5400;
/** Bare kernels give off so much of the surface rate from inside. */
const FROM_INSIDE = 0.25;
/** Bigger rates than the plain quotient, because evaporation slows down as the upper layer dries between stirs. */
const RATE = 1.35;

export interface Surface {
  readonly wetKg: number;
  /** Evaporation from a wet upper layer, g per kg of it and second. */
  readonly rate: number;
  /** g on each kg of the upper and the lower layer. */
  upperG: number;
  lowerG: number;
  /** Given off so far, kg: from the surface and from inside. */
  offKg: number;
  insideKg: number;
}

export function spread(wetKg: number, aboutS: number, seed: number, starchy: boolean): Surface {
  // Starch glues a thicker film on: rinsed badly, it dries longer.
  const start = DRAINED_G * between(0.92, 1.08, chance(seed, 'film')) * (starchy ? 1.25 : 1);
  return {
    wetKg,
    rate: (RATE * (DRAINED_G - 5)) / UPPER / aboutS,
    upperG: start,
    lowerG: start,
    offKg: 0,
    insideKg: 0,
  };
}

/** Lies for so many seconds: water that came from inside the kernels, kg. */
export function lie(surface: Surface, seconds: number): number {
  const { wetKg, rate } = surface;
  const bare = surface.upperG / (surface.upperG + BARE_G);
  const off = Math.min(surface.upperG, rate * bare * seconds);
  const inside = (rate * (1 - bare) * FROM_INSIDE * seconds * UPPER * wetKg) / 1000;
  surface.upperG -= off;
  surface.offKg += (off * UPPER * wetKg) / 1000 + inside;
  surface.insideKg += inside;
  const creeps = (surface.lowerG - surface.upperG) * -Math.expm1(-seconds / CREEP_S) * UPPER;
  surface.lowerG -= creeps;
  surface.upperG += (creeps * (1 - UPPER)) / UPPER;
  return inside;
}

/** Mean film, g/kg. */
export const meanG = ({ upperG, lowerG }: Surface): number => UPPER * upperG + (1 - UPPER) * lowerG;

/** Stirred and spread again. */
export function stir(surface: Surface): void {
  const mean = meanG(surface);
  surface.upperG = mean;
  surface.lowerG = mean;
}

/** What a towel on the upper layer shows: 0 dry, to 0.3 faint spots, to 0.8 wet spots, above that soaked. */
export function towelWetness({ upperG }: Surface): number {
  if (upperG < DRIED_OUT_G) return 0;
  if (upperG < DRY_ENOUGH_G) return 0.06 + (0.24 * (upperG - DRIED_OUT_G)) / (DRY_ENOUGH_G - DRIED_OUT_G);
  return Math.min(1, 0.32 + (0.48 * (upperG - DRY_ENOUGH_G)) / (28 - DRY_ENOUGH_G));
}
