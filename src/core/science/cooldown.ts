/**
 * Cooling of a shut vessel after heat-off: when the gauge reaches zero, when it is cool enough.
 *
 * One lumped body with heat capacity C and loss UA: Newton, T = Ta + (T0 - Ta) exp(-t / tau), tau = C / UA;
 * or natural convection, UA ~ (T - Ta)^(1/4): (T - Ta) / (T0 - Ta) = (1 + t / (4 tau))^-4, which agrees at
 * first and cools more slowly later. UA is an estimate (times are good to about 40 %) until two readings
 * replace it (about 10 %). The bags lag behind the vessel: see bag-cooldown.ts. Zero on a gauge does not
 * prove zero, and below the boiling point a shut vessel is under vacuum.
 */
import { ALUMINIUM_CP_KJ_KGK, WATER_CP_KJ_KGK } from './constants.ts';
import { type Band, finite, type NoAnswer, noAnswer, notNegative, positive, temperature } from './limits.ts';

/** Loss of a shut 20 to 25 L pot standing on its burner, W/K; an estimate. */
export const COOLING_LOSS_WK: Band = { low: 3, likely: 3.5, high: 5 };
/** Specific heat of hydrated grain in its bags, kJ/(kg K), Choi-Okos at 100 C rounded up for the bags. */
export const LOAD_CP_KJ_KGK = 3.1;
/** A fit between readings closer than this is worth little: half a psi is 0.6 C. */
export const LEAST_DROP_C = 3;
/** Share of the predicted time by which a two-reading fit may be off. */
export const FIT_SPREAD = 0.1;

export interface Contents {
  readonly potKg: number;
  /** kJ/(kg K); aluminium when absent. */
  readonly potCpKJKgK?: number;
  readonly waterKg: number;
  readonly loadKg: number;
}

/** Heat capacity of pot, water and load together, kJ/K. */
export function heatCapacityKJK({
  potKg,
  potCpKJKgK = ALUMINIUM_CP_KJ_KGK,
  waterKg,
  loadKg,
}: Contents): number {
  return (
    positive('Mass of the pot', potKg, 'kg') * positive('Specific heat of the pot', potCpKJKgK, 'kJ/kgK') +
    notNegative('Water', waterKg, 'kg') * WATER_CP_KJ_KGK +
    notNegative('Load', loadKg, 'kg') * LOAD_CP_KJ_KGK
  );
}

/** Time constant in s of a heat capacity in kJ/K losing heat at UA in W/K. */
export function timeConstantS(capacityKJK: number, lossWK: number): number {
  return (positive('Heat capacity', capacityKJK, 'kJ/K') * 1000) / positive('Loss', lossWK, 'W/K');
}

export type CoolingLaw = 'newton' | 'natural';

export interface Cooling {
  readonly startC: number;
  readonly ambientC: number;
  /** Time constant at the start, s. */
  readonly tauS: number;
  readonly law: CoolingLaw;
}

/** Temperature in C after so many seconds of cooling (0 or more). */
export function coolingC({ startC, ambientC, tauS, law }: Cooling, seconds: number): number {
  const t = notNegative('Time', seconds, 's') / positive('Time constant', tauS, 's');
  const left = law === 'newton' ? Math.exp(-t) : (1 + t / 4) ** -4;
  return temperature('Ambient temperature', ambientC) + (temperature('Start', startC) - ambientC) * left;
}

/** Seconds until a temperature is reached; 0 when it is already that cool, no answer when it never will be. */
export function coolingS({ startC, ambientC, tauS, law }: Cooling, targetC: number): number | NoAnswer {
  temperature('Start', startC);
  temperature('Ambient temperature', ambientC);
  positive('Time constant', tauS, 's');
  if (finite('Target', targetC, 'C') >= startC) return 0;
  if (targetC <= ambientC) {
    return noAnswer(`It never cools to ${targetC} C in a room at ${ambientC} C.`);
  }
  const ratio = (startC - ambientC) / (targetC - ambientC);
  return law === 'newton' ? tauS * Math.log(ratio) : 4 * tauS * (ratio ** 0.25 - 1);
}

export interface VesselCooling {
  readonly startC: number;
  readonly ambientC: number;
  readonly capacityKJK: number;
  /** W/K; `COOLING_LOSS_WK` when absent. */
  readonly lossWK?: Band;
}

/**
 * Seconds to a temperature before any reading: fastest by Newton with the greatest loss, likely by Newton,
 * slowest by natural convection with the least loss.
 */
export function vesselCoolingS(vessel: VesselCooling, targetC: number): Band | NoAnswer {
  const { startC, ambientC, capacityKJK, lossWK = COOLING_LOSS_WK } = vessel;
  const at = (loss: number, law: CoolingLaw) =>
    coolingS({ startC, ambientC, tauS: timeConstantS(capacityKJK, loss), law }, targetC);
  return asBand(at(lossWK.high, 'newton'), at(lossWK.likely, 'newton'), at(lossWK.low, 'natural'));
}

export interface TwoReadings {
  readonly firstC: number;
  readonly secondC: number;
  readonly secondsApart: number;
  readonly ambientC: number;
}

export interface CoolingFit {
  readonly newton: Cooling;
  readonly natural: Cooling;
  /** The readings lie so close together that the fit is worth little. */
  readonly weak: boolean;
}

/** Both cooling laws through two readings of one vessel; times count from the first reading. */
export function fitCooling({ firstC, secondC, secondsApart, ambientC }: TwoReadings): CoolingFit | NoAnswer {
  temperature('First reading', firstC);
  positive('Time between the readings', secondsApart, 's');
  if (temperature('Second reading', secondC) >= firstC) {
    return noAnswer('The second reading is not cooler than the first: it is not cooling yet.');
  }
  if (secondC <= temperature('Ambient temperature', ambientC)) {
    return noAnswer('The second reading is not warmer than the room: there is nothing left to predict.');
  }
  const ratio = (firstC - ambientC) / (secondC - ambientC);
  const base = { startC: firstC, ambientC };
  return {
    newton: { ...base, law: 'newton', tauS: secondsApart / Math.log(ratio) },
    natural: { ...base, law: 'natural', tauS: secondsApart / (4 * (ratio ** 0.25 - 1)) },
    weak: firstC - secondC < LEAST_DROP_C,
  };
}

/** Seconds from the first reading to a temperature, with the spread of the fit and of the two laws. */
export function fittedCoolingS({ newton, natural }: CoolingFit, targetC: number): Band | NoAnswer {
  const band = asBand(coolingS(newton, targetC), coolingS(newton, targetC), coolingS(natural, targetC));
  if ('kind' in band) return band;
  return {
    low: band.low * (1 - FIT_SPREAD),
    likely: band.likely,
    high: Math.max(band.likely, band.high) * (1 + FIT_SPREAD),
  };
}

function asBand(low: number | NoAnswer, likely: number | NoAnswer, high: number | NoAnswer): Band | NoAnswer {
  if (typeof low !== 'number') return low;
  if (typeof likely !== 'number') return likely;
  return typeof high === 'number' ? { low, likely, high } : high;
}
