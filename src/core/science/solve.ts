/** Roots of functions of one number inside a bracket. Throws when the bracket holds no sign change. */

export interface Bracket {
  readonly low: number;
  readonly high: number;
}

const MOST_STEPS = 200;

function ends(f: (x: number) => number, { low, high }: Bracket): readonly [number, number] {
  const atLow = f(low);
  const atHigh = f(high);
  if (Number.isFinite(atLow) && Number.isFinite(atHigh) && atLow * atHigh <= 0) return [atLow, atHigh];
  throw new RangeError(
    `There is no answer between ${low} and ${high}: the function is ${atLow} and ${atHigh} there.`,
  );
}

/**
 * Bisection: halves the bracket until it is narrower than `width` (or the numbers between run out).
 * Slow and certain; f must be continuous and change sign.
 */
export function bisect(f: (x: number) => number, bracket: Bracket, width = 0): number {
  const [atLow] = ends(f, bracket);
  if (atLow === 0) return bracket.low;
  let { low, high } = bracket;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const middle = 0.5 * (low + high);
    if (Math.abs(high - low) <= width || middle === low || middle === high) break;
    const value = f(middle);
    if (value === 0) return middle;
    if (value > 0 === atLow > 0) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

/**
 * Brent's method (Brent 1973, "Algorithms for Minimization without Derivatives", ch. 4): inverse quadratic
 * steps guarded by bisection. `width` is the absolute tolerance on the root.
 */
export function brent(f: (x: number) => number, bracket: Bracket, width = 0): number {
  let [fa, fb] = ends(f, bracket);
  let a = bracket.low;
  let b = bracket.high;
  let c = a;
  let fc = fa;
  let last = b - a;
  let before = last;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      last = b - a;
      before = last;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const tolerance = 2 * Number.EPSILON * Math.abs(b) + 0.5 * width;
    const half = 0.5 * (c - b);
    if (fb === 0 || Math.abs(half) <= tolerance) return b;
    if (Math.abs(before) < tolerance || Math.abs(fa) <= Math.abs(fb)) {
      last = half;
      before = half;
    } else {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const t = fa / fc;
        const r = fb / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(tolerance * q), Math.abs(before * q))) {
        before = last;
        last = p / q;
      } else {
        last = half;
        before = half;
      }
    }
    a = b;
    fa = fb;
    b += Math.abs(last) > tolerance ? last : Math.sign(half) * tolerance;
    fb = f(b);
  }
  return b;
}
