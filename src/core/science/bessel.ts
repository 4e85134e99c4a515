/**
 * Bessel functions of the first kind, orders 0 and 1, and the zeros of J0.
 *
 * Miller's backward recurrence J[k-1] = 2k/x J[k] - J[k+1], scaled by J0 + 2 (J2 + J4 + ...) = 1
 * (Abramowitz & Stegun 9.12). Absolute error below 1e-14 for 0 <= x <= 1000; RangeError outside.
 */
import { within } from './limits.ts';

export interface Bessel {
  readonly j0: number;
  readonly j1: number;
}

/** J0(x) and J1(x) together: both fall out of one recurrence. */
export function bessel(x: number): Bessel {
  within('Argument of a Bessel function', x, 0, 1000, '');
  // Below this J0 = 1 - x^2/4 and J1 = x/2 are exact in double precision, and the recurrence would overflow.
  if (x < 1e-8) return { j0: 1, j1: x / 2 };
  const start = 2 * Math.ceil((x + 20 + 8 * Math.cbrt(x)) / 2);
  let above = 0;
  let here = 1e-300;
  let evens = 0;
  for (let order = start; order > 0; order -= 1) {
    if (order % 2 === 0) evens += here;
    const below = ((2 * order) / x) * here - above;
    above = here;
    here = below;
    if (Math.abs(here) > 1e200) {
      above *= 1e-200;
      here *= 1e-200;
      evens *= 1e-200;
    }
  }
  const scale = here + 2 * evens;
  return { j0: here / scale, j1: above / scale };
}

/** The first `count` zeros of J0: McMahon's guess (A&S 9.5.12) polished by Newton's method. */
export function zerosOfJ0(count: number): Float64Array {
  const zeros = new Float64Array(count);
  for (let n = 0; n < count; n += 1) {
    const beta = (n + 0.75) * Math.PI;
    const eighth = 1 / (8 * beta);
    let zero = beta + eighth * (1 - (124 / 3) * eighth * eighth);
    for (let step = 0; step < 4; step += 1) {
      const { j0, j1 } = bessel(zero);
      zero += j0 / j1;
    }
    zeros[n] = zero;
  }
  return zeros;
}
