/**
 * What stands in the cooker: all bags or jars of a load, alike, heated by the steam around them.
 *
 * Energy: the mean temperature of a conducting body follows the chamber as a set of lumps, each with its
 * share of the heat capacity and its decay constant (the modes of the mean; all shares are positive), so that
 * the heat taken from the steam is exactly what the lumps gain. Centre: the full modes of
 * `science/heat-penetration.ts`, for the low, likely and high end of the diffusivity, with lethality.
 */
import { heatedBody } from '../recipe/body.ts';
import type { Containers } from '../recipe/recipe.ts';
import { type Body, factors, seriesTerms } from '../science/conduction.ts';
import { LOAD_CP_KJ_KGK } from '../science/cooldown.ts';
import { EFFECTIVE_DIFFUSIVITY } from '../science/diffusivity.ts';
import { type HeatState, advance, centreC, stateOf } from '../science/heat-penetration.ts';
import { keptModes } from '../science/kept-modes.ts';
import { F0_REFERENCE, type Organism, segmentF } from '../science/lethality.ts';
import { GRAIN_SPORE } from '../science/spores.ts';

/** Lumps of the mean: the slowest modes by themselves, one more for all that is left. */
export const LUMPS = 12;
const TERMS = 6;
/** The centre is advanced in straight pieces of this length; the chamber does not bend faster. */
export const CENTRE_STEP_S = 60;
/** Slow things move in steps of this, s. */
export const SLOW_S = 10;

export interface Centre {
  readonly state: HeatState;
  f0Min: number;
  /** Log reduction of the grain spore (z 6.1). */
  logs: number;
}

export interface Load {
  readonly count: number;
  readonly capacityKJK: number;
  /** Decay constant 1/s, share of the capacity, and what of the distance is closed in one second. */
  readonly lambda: Float64Array;
  readonly share: Float64Array;
  readonly closes: Float64Array;
  /** The same for a slow step, see `SLOW_S`. */
  readonly closesSlow: Float64Array;
  readonly lumpC: Float64Array;
  /** Centre at the low, likely and high diffusivity. */
  readonly centres: readonly [Centre, Centre, Centre];
  /** Chamber temperature at the last corner of the centres' course, C, and seconds since. */
  cornerC: number;
  sinceCorner: number;
}

interface MeanMode {
  readonly lambda: number;
  readonly share: number;
}

/** Modes of the mean temperature of a body whose surface has the chamber's temperature. */
function meanModes(body: Body, diffusivityM2S: number): MeanMode[] {
  let modes: MeanMode[] = [{ lambda: 0, share: 1 }];
  for (const { side, lengthM } of factors(body)) {
    const { z } = seriesTerms(side, Number.POSITIVE_INFINITY, TERMS);
    // Share of a mode in the mean: 2/z^2 for a slab, 4/z^2 for a cylinder, 6/z^2 for a sphere.
    const top = { slab: 2, cylinder: 4, sphere: 6 }[side];
    modes = modes.flatMap(mode =>
      Array.from(z, root => ({
        lambda: mode.lambda + diffusivityM2S * (root / lengthM) ** 2,
        share: (mode.share * top) / root ** 2,
      })),
    );
  }
  return modes.sort((a, b) => a.lambda - b.lambda);
}

/** The slowest modes and one that stands for the rest, with the right whole and the right mean lag. */
function lumpsOf(body: Body, diffusivityM2S: number): MeanMode[] {
  const modes = meanModes(body, diffusivityM2S);
  const kept = modes.slice(0, LUMPS - 1);
  const rest = modes.slice(LUMPS - 1);
  const share = 1 - kept.reduce((sum, mode) => sum + mode.share, 0);
  const restShare = rest.reduce((sum, mode) => sum + mode.share, 0);
  const lag = rest.reduce((sum, mode) => sum + mode.share / mode.lambda, 0);
  return [...kept, { lambda: restShare / lag, share }];
}

export interface LoadOptions {
  readonly containers: Containers;
  readonly count: number;
  readonly fillKg: number;
  readonly startC: number;
  /** Effective diffusivity, m2/s; the usual band when absent. */
  readonly diffusivity?: { readonly low: number; readonly likely: number; readonly high: number };
}

/** A cold load. RangeError when there is nothing in it. */
export function createLoad({ containers, count, fillKg, startC, diffusivity }: LoadOptions): Load {
  if (!(count > 0) || !(fillKg > 0))
    throw new RangeError(`A load needs grain: ${count} containers of ${fillKg} kg.`);
  const band = diffusivity ?? EFFECTIVE_DIFFUSIVITY;
  const body = heatedBody(containers, count);
  const lumps = lumpsOf(body, band.likely);
  const modes = keptModes(body);
  const centre = (alpha: number): Centre => ({ state: stateOf(modes, alpha, startC), f0Min: 0, logs: 0 });
  return {
    count,
    capacityKJK: count * fillKg * LOAD_CP_KJ_KGK,
    lambda: Float64Array.from(lumps, ({ lambda }) => lambda),
    share: Float64Array.from(lumps, ({ share }) => share),
    closes: Float64Array.from(lumps, ({ lambda }) => -Math.expm1(-lambda)),
    closesSlow: Float64Array.from(lumps, ({ lambda }) => -Math.expm1(-lambda * SLOW_S)),
    lumpC: new Float64Array(lumps.length).fill(startC),
    centres: [centre(band.low), centre(band.likely), centre(band.high)],
    cornerC: startC,
    sinceCorner: 0,
  };
}

/** One second, or one slow step, in a chamber of this temperature: the heat the load takes up, kJ. */
export function warmLoad(load: Load, chamberC: number, slow = false): number {
  const { capacityKJK, share, lumpC } = load;
  const closes = slow ? load.closesSlow : load.closes;
  let gained = 0;
  for (let n = 0; n < lumpC.length; n += 1) {
    const rise = (chamberC - (lumpC[n] as number)) * (closes[n] as number);
    lumpC[n] = (lumpC[n] as number) + rise;
    gained += (share[n] as number) * rise;
  }
  return gained * capacityKJK;
}

/** Mean temperature, C. */
export function meanC({ share, lumpC }: Load): number {
  let sum = 0;
  for (let n = 0; n < lumpC.length; n += 1) sum += (share[n] as number) * (lumpC[n] as number);
  return sum;
}

/** Heat in the load above 0 C, kJ. */
export const loadKJ = (load: Load): number => load.capacityKJK * meanC(load);

/**
 * Lets the centres follow the chamber by one second; they are moved at every corner of its course. `moist`
 * is false in a vessel that has boiled dry: dry heat is not what lethality of steam is about.
 */
export function followCentre(load: Load, chamberC: number, moist = true): void {
  load.sinceCorner += 1;
  if (load.sinceCorner < CENTRE_STEP_S) return;
  moveCentres(load, chamberC, moist);
}

/** Brings the centres up to the present second. */
export function moveCentres(load: Load, chamberC: number, moist = true): void {
  const seconds = load.sinceCorner;
  if (seconds === 0) return;
  for (const centre of load.centres) {
    const fromC = centreC(centre.state);
    advance(centre.state, seconds, load.cornerC, chamberC);
    const toC = centreC(centre.state);
    if (!moist) continue;
    centre.f0Min += segmentF({ seconds, fromC, toC }, F0_REFERENCE);
    centre.logs += segmentF({ seconds, fromC, toC }, SPORE) / SPORE.dMin;
  }
  load.cornerC = chamberC;
  load.sinceCorner = 0;
}
const SPORE: Organism = GRAIN_SPORE;

/** The likely centre now, C; up to a minute old. */
export const likelyCentreC = (load: Load): number => centreC(load.centres[1].state);
