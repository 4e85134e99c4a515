/**
 * Cooling of the centre of a bag: in open air, or in the shut pot whose own cooling it follows and lags.
 *
 * Below about 60 C vapour carries little heat, so plain conduction is used (`COOLING_DIFFUSIVITY`), with still
 * air and radiation at the surface. Both are estimates and the answer is a band: hours, not minutes. A pot
 * that has cooled is not a bag that has cooled.
 */
import type { Body } from './conduction.ts';
import { type Cooling, coolingC } from './cooldown.ts';
import { COOLING_DIFFUSIVITY, WET_HEAT_CAPACITY_J_M3K } from './diffusivity.ts';
import { advance, centreC, createModes } from './heat-penetration.ts';
import { type Band, finite, type NoAnswer, noAnswer } from './limits.ts';

/** Still air and radiation around a warm bag, W/m2K. */
export const STILL_AIR_W_M2K: Band = { low: 6, likely: 7.5, high: 9 };

const STEP_S = 300;
/** A bag that takes longer than this is no plan for a kitchen. */
const LONGEST_S = 4 * 86_400;

export interface BagCooling {
  readonly body: Body;
  /** Centre and bag at the start, C. */
  readonly startC: number;
  readonly ambientC: number;
  readonly targetC: number;
}

/** Seconds until the centre of a bag in open air reaches a temperature; no answer at or below the room's. */
export function bagInAirS(bag: BagCooling): Band | NoAnswer {
  const air = () => finite('Room temperature', bag.ambientC, 'C');
  return overBands(bag, { low: air, likely: air, high: air });
}

/** The vessel around the bag, cooling from the same instant: fastest, likely and slowest. */
export interface PotCooling {
  readonly low: Cooling;
  readonly likely: Cooling;
  readonly high: Cooling;
}

/** Seconds from heat-off until the centre of a bag left in the shut pot reaches a temperature. */
export function bagInPotS(bag: BagCooling, pot: PotCooling): Band | NoAnswer {
  const follow = (cooling: Cooling) => (seconds: number) => coolingC(cooling, seconds);
  return overBands(bag, { low: follow(pot.low), likely: follow(pot.likely), high: follow(pot.high) });
}

type Surroundings = (seconds: number) => number;

function overBands(
  bag: BagCooling,
  around: { readonly low: Surroundings; readonly likely: Surroundings; readonly high: Surroundings },
): Band | NoAnswer {
  const { low: slowM2S, likely: likelyM2S, high: fastM2S } = COOLING_DIFFUSIVITY;
  const low = coolS(bag, fastM2S, STILL_AIR_W_M2K.high, around.low);
  const likely = coolS(bag, likelyM2S, STILL_AIR_W_M2K.likely, around.likely);
  const high = coolS(bag, slowM2S, STILL_AIR_W_M2K.low, around.high);
  if (typeof low !== 'number') return low;
  if (typeof likely !== 'number') return likely;
  return typeof high === 'number' ? { low, likely, high } : high;
}

function coolS(
  bag: BagCooling,
  diffusivityM2S: number,
  filmW: number,
  around: Surroundings,
): number | NoAnswer {
  const { body, startC, ambientC, targetC } = bag;
  if (finite('Target', targetC, 'C') >= startC) return 0;
  if (targetC <= finite('Room temperature', ambientC, 'C')) {
    return noAnswer(`It never cools to ${targetC} C in a room at ${ambientC} C.`);
  }
  const hOverK = filmW / (diffusivityM2S * WET_HEAT_CAPACITY_J_M3K);
  const state = createModes({ body, diffusivityM2S, startC, hOverK });
  let before = startC;
  for (let seconds = 0; seconds < LONGEST_S; seconds += STEP_S) {
    advance(state, STEP_S, around(seconds), around(seconds + STEP_S));
    const now = centreC(state);
    if (now <= targetC) return seconds + (STEP_S * (before - targetC)) / (before - now);
    before = now;
  }
  return noAnswer(`The centre does not cool to ${targetC} C within four days.`);
}
