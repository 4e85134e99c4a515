/**
 * The modes of a body at its centre, apart from its diffusivity: what `heat-penetration.ts` advances.
 *
 * Products of the series of the sides, slowest first. The modes that are left out are replaced by two whose
 * weights make the sum of c (the answer to a jump of the chamber) and the sum of c / kappa (the answer to a
 * ramp) exact, so that the start is exact and a ramp carries no truncation error.
 */
import { type Body, type Factor, factors, seriesTerms, type Terms } from './conduction.ts';

export interface Modes {
  /** Decay constants over the diffusivity, 1/m2, rising; the last two stand for all that was left out. */
  readonly kappa: Float64Array;
  /** Weights at the centre. */
  readonly weight: Float64Array;
  /** Lag of the centre behind a long ramp, times diffusivity over slope, m2: the sum of c / kappa of all modes. */
  readonly lagM2: number;
}

/** Modes kept of a brick, of a finite cylinder, and of a body with one side. */
const KEPT = { 1: 60, 2: 400, 3: 1200 } as const;
/** Terms of each side in the lag of a product; the last is halved, which leaves an error of order n^-4. */
const LAG_TERMS = 60;

/**
 * A body's modes for a surface with h / k in 1/m (infinity: the surface takes the chamber's temperature).
 * RangeError unless every dimension lies between 0.1 mm and 100 m; a body may be as flat or as long as it likes.
 */
export function modesOf(body: Body, hOverK: number): Modes {
  const sides = felt(factors(body), hOverK);
  const lagM2 = lagOf(sides, hOverK);
  const { kappa, weight } = keptModes(sides, hOverK);
  return close(kappa, weight, lagM2);
}

/**
 * A side whose slowest mode is this many times slower than another's has not yet begun to tell at the centre
 * when that other has long decided: with it or without it the answers to a step agree to 1e-6, and it would
 * need more modes than are kept.
 */
const UNFELT = 110;

/** The sides that tell at the centre; the thinnest always does. */
function felt(sides: readonly Factor[], hOverK: number): readonly Factor[] {
  const slowest = sides.map(side => sideModes(side, hOverK, 1).kappa[0] as number);
  const decides = Math.max(...slowest);
  return sides.filter((_, index) => (slowest[index] as number) * UNFELT >= decides);
}

interface Plain {
  readonly kappa: number[];
  readonly weight: number[];
}

function keptModes(sides: readonly Factor[], hOverK: number): Plain {
  const highest = cutoff(sides);
  const lists = sides.map(side =>
    sideModes(side, hOverK, Math.ceil((Math.sqrt(highest) * side.lengthM) / Math.PI) + 1),
  );
  let modes: [number, number][] = [[0, 1]];
  for (const { kappa, weight } of lists) {
    const grown: [number, number][] = [];
    for (const [sum, product] of modes) {
      for (let n = 0; n < kappa.length; n += 1) {
        const total = sum + (kappa[n] as number);
        if (total > highest && (n > 0 || sum > 0)) break;
        grown.push([total, product * (weight[n] as number)]);
      }
    }
    modes = grown;
  }
  modes.sort(([a], [b]) => a - b);
  return { kappa: modes.map(([value]) => value), weight: modes.map(([, value]) => value) };
}

/** The decay constant below which about the wanted number of modes lies (Weyl's count of an ellipsoid's octant). */
function cutoff(sides: readonly Factor[]): number {
  const size = sides.reduce((product, { lengthM }) => product * lengthM, 1);
  if (sides.length === 1) return ((KEPT[1] * Math.PI) / size) ** 2;
  if (sides.length === 2) return (4 * Math.PI * KEPT[2]) / size;
  return ((6 * Math.PI ** 2 * KEPT[3]) / size) ** (2 / 3);
}

function sideModes({ side, lengthM }: Factor, hOverK: number, count: number): Plain {
  const { z, c }: Terms = seriesTerms(side, hOverK * lengthM, count);
  return { kappa: Array.from(z, value => (value / lengthM) ** 2), weight: Array.from(c) };
}

function close(kappa: readonly number[], weight: readonly number[], lagM2: number): Modes {
  let jump = 1;
  let ramp = lagM2;
  kappa.forEach((value, n) => {
    jump -= weight[n] as number;
    ramp -= (weight[n] as number) / value;
  });
  const last = kappa.at(-1) as number;
  const near = 1.5 * last;
  const far = 4 * last;
  const farWeight = (jump / near - ramp) / (1 / near - 1 / far);
  return {
    kappa: Float64Array.from([...kappa, near, far]),
    weight: Float64Array.from([...weight, jump - farWeight, farWeight]),
    lagM2,
  };
}

/**
 * Sum of c / kappa over all modes. One side: closed, L^2/2 (slab), R^2/4 (cylinder), R^2/6 (sphere), each
 * times 1 + 2/Bi. Products: one slab is summed in closed form, the other sides by their series.
 */
function lagOf(sides: readonly Factor[], hOverK: number): number {
  const [first, ...others] = sides as readonly [Factor, ...Factor[]];
  if (others.length === 0) {
    const share = { slab: 2, cylinder: 4, sphere: 6 }[first.side];
    return (first.lengthM ** 2 / share) * (1 + 2 / (hOverK * first.lengthM));
  }
  // The thinnest slab is the one to close: its neglected terms would be the largest.
  const slabs = sides.filter(({ side }) => side === 'slab');
  const closed = slabs.reduce((thin, slab) => (slab.lengthM < thin.lengthM ? slab : thin));
  const series = sides.filter(side => side !== closed).map(side => sideModes(side, hOverK, LAG_TERMS));
  return seriesLag(series, 0, 1, rate => slabTransform(closed.lengthM, hOverK, rate));
}

function seriesLag(
  series: readonly Plain[],
  rate: number,
  weight: number,
  rest: (rate: number) => number,
): number {
  const [side, ...others] = series;
  if (side === undefined) return weight * rest(rate);
  return side.kappa.reduce((sum, kappa, n) => {
    const share = n === side.kappa.length - 1 ? 0.5 : 1;
    return sum + seriesLag(others, rate + kappa, weight * share * (side.weight[n] as number), rest);
  }, 0);
}

/** Integral over time (in 1/m2 units) of a slab's centre answer times exp(-rate t). */
function slabTransform(lengthM: number, hOverK: number, rate: number): number {
  const q = lengthM * Math.sqrt(rate);
  const film = hOverK === Number.POSITIVE_INFINITY ? 0 : (q / (hOverK * lengthM)) * Math.sinh(q);
  return (1 - 1 / (Math.cosh(q) + film)) / rate;
}
