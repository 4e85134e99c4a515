/** The burner under the pot: a knob from 0 to 10, and what of its power reaches the metal. */
import type { Kitchen } from '../kitchen.ts';
import { BURNER_EFFICIENCY } from '../science/water.ts';
import { between, chance } from './chance.ts';
import type { FaultId } from './faults.ts';

export const KNOB_TOP = 10;
/** A worn or wrongly set burner gives so much of what it should (the project's own figure). */
const WEAK = 0.65;

export interface Burner {
  /** Power reaching the pot at full flame, W. */
  readonly fullW: number;
  readonly weak: boolean;
  knob: number;
  /** Seconds of full flame left in the bottle; infinite when it does not run out. */
  gasS: number;
  empty: boolean;
}

export function createBurner(kitchen: Kitchen, seed: number, faults: ReadonlySet<FaultId>): Burner {
  const band = BURNER_EFFICIENCY[kitchen.burner];
  const efficiency = between(band.low, band.high, chance(seed, 'burner'));
  const weak = faults.has('weak-burner');
  return {
    fullW: kitchen.burnerW * efficiency * (weak ? WEAK : 1),
    weak,
    knob: 0,
    gasS: Number.POSITIVE_INFINITY,
    empty: false,
  };
}

/** Power reaching the pot now, W. */
export const powerW = (burner: Burner): number =>
  burner.empty ? 0 : (burner.fullW * burner.knob) / KNOB_TOP;

/** Burns for so many seconds; an empty bottle puts the flame out with the knob still open. */
export function burn(burner: Burner, seconds: number): void {
  if (burner.empty || burner.knob === 0) return;
  burner.gasS -= (seconds * burner.knob) / KNOB_TOP;
  if (burner.gasS <= 0) burner.empty = true;
}

/** Turns the knob; turning it up on an empty bottle means that another one was put on. RangeError outside 0 to 10. */
export function turn(burner: Burner, knob: number): void {
  if (!(Number.isInteger(knob) && knob >= 0 && knob <= KNOB_TOP)) {
    throw new RangeError(`The knob goes from 0 to ${KNOB_TOP}, not ${knob}.`);
  }
  if (burner.empty && knob >= burner.knob) {
    burner.empty = false;
    burner.gasS = Number.POSITIVE_INFINITY;
  }
  burner.knob = knob;
}
