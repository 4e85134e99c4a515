/**
 * Lethality: what a temperature history is worth. Lethal rate L = 10^((T - Tref) / z); F = integral of L dt in
 * minutes; F0 has Tref 121.1 C and z 10 C. An organism with its own D and z gets its own integral, because
 * F0 / D is its log reduction only if its z is 10 C. Estimates, never a claim of sterility: between
 * readings and at the centre the temperature is modelled, and the organisms of the batch are unknown.
 */
import { notNegative, positive, temperature, within } from './limits.ts';

export interface Reference {
  readonly atC: number;
  readonly zC: number;
}

/** F0 as used here: 121.1 C, z 10 C. (121.0 or 121.11 change it by 1 to 2.5 %.) */
export const F0_REFERENCE: Reference = { atC: 121.1, zC: 10 };

/** Target at the centre at heat-off, minutes; 12 is a 12-log kill of an organism with D 1 min, 15 the usual cycle. */
export const TARGET_F0_MIN = 15;
/** Below this the choice of z decides the credit by a factor of 2 to 5: live credit starts here. */
export const CREDIT_FROM_C = 110;

/** log-linear is exact for a straight temperature; step holds the first reading of a segment. */
export type Method = 'log-linear' | 'trapezoid' | 'step';

/** z-values met in organisms are 4 to 50 K; outside of 1 to 100 K it is no z-value. */
const z = ({ zC }: Reference): number => within('z-value', zC, 1, 100, 'K');

/**
 * Minutes at the reference temperature that one minute at a temperature is worth: 10^((T - Tref) / z).
 * Valid for temperatures of -60 to 300 C (RangeError outside); what it says below 110 C rests on z alone.
 */
export function lethalRate(celsius: number, reference: Reference = F0_REFERENCE): number {
  const aboveK = temperature('Temperature', celsius) - temperature('Reference temperature', reference.atC);
  return 10 ** (aboveK / z(reference));
}

export interface Segment {
  readonly seconds: number;
  readonly fromC: number;
  readonly toC: number;
}

/** F of one segment between two readings, minutes. */
export function segmentF(
  { seconds, fromC, toC }: Segment,
  reference: Reference = F0_REFERENCE,
  method: Method = 'log-linear',
): number {
  const minutes = notNegative('Time', seconds, 's') / 60;
  const first = lethalRate(fromC, reference);
  if (method === 'step') return minutes * first;
  if (method === 'trapezoid') return (minutes * (first + lethalRate(toC, reference))) / 2;
  const x = ((temperature('Temperature', toC) - fromC) * Math.LN10) / reference.zC;
  return minutes * first * (Math.abs(x) < 1e-12 ? 1 : Math.expm1(x) / x);
}

export interface Reading {
  readonly seconds: number;
  readonly celsius: number;
}

/** F in minutes of a history of readings in the order of time. RangeError when time runs backwards. */
export function historyF(
  readings: readonly Reading[],
  reference: Reference = F0_REFERENCE,
  method: Method = 'log-linear',
): number {
  let total = 0;
  let before: Reading | undefined;
  for (const reading of readings) {
    if (before !== undefined) {
      const seconds = reading.seconds - before.seconds;
      if (!(seconds >= 0))
        throw new RangeError(
          `Readings must follow in time; ${reading.seconds} s comes after ${before.seconds} s.`,
        );
      total += segmentF({ seconds, fromC: before.celsius, toC: reading.celsius }, reference, method);
    }
    before = reading;
  }
  return total;
}

/** F of a segment counting only the part at or above a floor, minutes; for credit shown while it runs. */
export function creditedF(
  { seconds, fromC, toC }: Segment,
  floorC: number = CREDIT_FROM_C,
  reference: Reference = F0_REFERENCE,
): number {
  const low = Math.min(temperature('Temperature', fromC), temperature('Temperature', toC));
  const high = Math.max(fromC, toC);
  notNegative('Time', seconds, 's');
  if (high < floorC) return 0;
  if (low >= floorC) return segmentF({ seconds, fromC, toC }, reference);
  const share = (high - floorC) / (high - low);
  return segmentF({ seconds: seconds * share, fromC: floorC, toC: high }, reference);
}

export interface Organism {
  readonly name: string;
  /** Minutes for one log reduction at `atC`. */
  readonly dMin: number;
  readonly atC: number;
  readonly zC: number;
}

/** Decimal reduction time in minutes at a temperature: D = D_ref 10^((Tref - T) / z). */
export function decimalReductionMin(organism: Organism, celsius: number): number {
  return positive('D-value', organism.dMin, 'min') / lethalRate(celsius, organism);
}

/** Log10 reduction over a history: integral of dt / D(T). */
export function logReduction(
  readings: readonly Reading[],
  organism: Organism,
  method: Method = 'log-linear',
): number {
  return historyF(readings, organism, method) / positive('D-value', organism.dMin, 'min');
}

/** Survivors of an initial number after a log reduction; may be far below one. */
export function survivors(initial: number, logs: number): number {
  return notNegative('Initial number', initial, '') * 10 ** -notNegative('Log reduction', logs, '');
}

/** Chance 0..1 that at least one of an expected number of survivors is there (Poisson). */
export function riskOfSurvivor(expected: number): number {
  return -Math.expm1(-notNegative('Expected survivors', expected, ''));
}

/** Log reduction that brings the chance of a survivor in a bag down to `risk`. */
export function logReductionFor(initial: number, risk: number): number {
  positive('Initial number', initial, '');
  if (!(risk > 0 && risk < 1)) throw new RangeError(`Risk must lie between 0 and 1, not ${risk}.`);
  return Math.log10(initial / -Math.log1p(-risk));
}

export interface BagLoad {
  /** Dry matter in the bag, kg. */
  readonly dryKg: number;
  /** Heat-resistant spores for each gram of dry matter. */
  readonly sporesPerG: number;
}

/** Spores in a bag before heating. */
export function sporesInBag({ dryKg, sporesPerG }: BagLoad): number {
  return notNegative('Dry matter', dryKg, 'kg') * 1000 * within('Spores per gram', sporesPerG, 0, 1e9, '/g');
}
