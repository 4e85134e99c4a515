/**
 * Transient conduction in simple bodies that start uniform and meet a medium of another temperature through
 * a surface coefficient h. Biot number Bi = h L / k (infinite: the surface takes the medium's temperature),
 * Fourier number Fo = alpha t / L^2; L is the half-thickness or the radius. Textbook series (Carslaw & Jaeger;
 * Incropera ch. 5). Constant properties; products of series hold for a step of the medium only (for a moving
 * one see heat-penetration.ts).
 */
import { bessel, zerosOfJ0 } from './bessel.ts';
import { notNegative, positive, within } from './limits.ts';
import { brent } from './solve.ts';

export type Side = 'slab' | 'cylinder' | 'sphere';

/** Bodies by half dimensions in m. A bag is a brick, a jar a finite cylinder. */
export type Body =
  | { readonly shape: 'slab'; readonly halfThicknessM: number }
  | { readonly shape: 'cylinder'; readonly radiusM: number }
  | { readonly shape: 'sphere'; readonly radiusM: number }
  | { readonly shape: 'finite cylinder'; readonly radiusM: number; readonly halfHeightM: number }
  | {
      readonly shape: 'brick';
      readonly halfLengthM: number;
      readonly halfWidthM: number;
      readonly halfThicknessM: number;
    };

/** One factor of the product that a body's solution is. */
export interface Factor {
  readonly side: Side;
  readonly lengthM: number;
}

export interface Terms {
  /** Eigenvalues z_n, rising. */
  readonly z: Float64Array;
  /** Coefficients c_n at the centre. */
  readonly c: Float64Array;
}

/** Enough terms for full double precision at the centre from Fo = 0.001 on. */
export const SERIES_TERMS = 60;

/** From a grain of sand to a house: what lies outside is a mistake. */
const SMALLEST_M = 1e-4;
const LARGEST_M = 100;
/** Below this a body has no gradient inside, and the series of a sphere no digits. */
const LEAST_BIOT = 1e-6;

/** The sides a body is a product of. RangeError unless every dimension lies between 0.1 mm and 100 m. */
export function factors(body: Body): readonly Factor[] {
  const length = (lengthM: number): number =>
    within('Dimension of the body', lengthM, SMALLEST_M, LARGEST_M, 'm');
  switch (body.shape) {
    case 'slab':
      return [{ side: 'slab', lengthM: length(body.halfThicknessM) }];
    case 'cylinder':
    case 'sphere':
      return [{ side: body.shape, lengthM: length(body.radiusM) }];
    case 'finite cylinder':
      return [
        { side: 'cylinder', lengthM: length(body.radiusM) },
        { side: 'slab', lengthM: length(body.halfHeightM) },
      ];
    case 'brick':
      return [body.halfLengthM, body.halfWidthM, body.halfThicknessM].map(half => ({
        side: 'slab' as const,
        lengthM: length(half),
      }));
  }
}

/** First eigenvalues and centre coefficients. Bi from 1e-6 up to infinity (RangeError outside). */
export function seriesTerms(side: Side, biot: number, count: number = SERIES_TERMS): Terms {
  within('Biot number', biot, LEAST_BIOT, Number.POSITIVE_INFINITY, '');
  const z = eigenvalues(side, biot, count);
  return { z, c: z.map(value => coefficient(side, value)) };
}

function eigenvalues(side: Side, biot: number, count: number): Float64Array {
  const free = biot === Number.POSITIVE_INFINITY;
  switch (side) {
    case 'slab':
      return Float64Array.from({ length: count }, (_, n) =>
        free
          ? (n + 0.5) * Math.PI
          : brent(z => z * Math.sin(z) - biot * Math.cos(z), { low: n * Math.PI, high: (n + 0.5) * Math.PI }),
      );
    case 'cylinder': {
      const zeros = zerosOfJ0(count);
      if (free) return zeros;
      const balance = (z: number) => {
        const { j0, j1 } = bessel(z);
        return z * j1 - biot * j0;
      };
      return zeros.map((high, n) => brent(balance, { low: zeros[n - 1] ?? 0, high }));
    }
    case 'sphere': {
      const balance = (z: number) => (1 - biot) * Math.sin(z) - z * Math.cos(z);
      // z = 0 solves the first equation too; the wanted root lies above min(1, sqrt(Bi)).
      const first = 0.9 * Math.min(1, Math.sqrt(biot));
      return Float64Array.from({ length: count }, (_, n) =>
        free
          ? (n + 1) * Math.PI
          : brent(balance, { low: n === 0 ? first : n * Math.PI, high: (n + 1) * Math.PI }),
      );
    }
  }
}

function coefficient(side: Side, z: number): number {
  switch (side) {
    case 'slab':
      return (4 * Math.sin(z)) / (2 * z + Math.sin(2 * z));
    case 'cylinder': {
      const { j0, j1 } = bessel(z);
      return (2 * j1) / (z * (j0 * j0 + j1 * j1));
    }
    case 'sphere':
      return (4 * (Math.sin(z) - z * Math.cos(z))) / (2 * z - Math.sin(2 * z));
  }
}

export interface StepQuestion {
  readonly fourier: number;
  /** Infinity when absent. */
  readonly biot?: number;
  /** Share of the way from the centre to the surface, 0 (centre) to 1. */
  readonly position?: number;
}

/** Before this Fo the centre has not moved by 1e-15 of the step. */
const CENTRE_AWAKE = 0.003;
/** Off the centre the series needs this much for `SERIES_TERMS` to be exact. */
const LEAST_FOURIER = 0.001;

/**
 * Unaccomplished temperature change (T - T_medium) / (T_start - T_medium) of a slab, an infinite cylinder or
 * a sphere. Fo 0 and up at the centre, 0.001 and up elsewhere.
 */
export function theta(
  side: Side,
  { fourier, biot = Number.POSITIVE_INFINITY, position = 0 }: StepQuestion,
): number {
  notNegative('Fourier number', fourier, '');
  within('Position', position, 0, 1, '');
  if (position === 0 && fourier < CENTRE_AWAKE) return 1;
  if (fourier < LEAST_FOURIER)
    throw new RangeError(`Off the centre the Fourier number must be 0.001 or more, not ${fourier}.`);
  const { z, c } = seriesTerms(side, biot);
  return z.reduce(
    (sum, value, n) =>
      sum + (c[n] as number) * profile(side, value * position) * Math.exp(-value * value * fourier),
    0,
  );
}

function profile(side: Side, angle: number): number {
  if (side === 'slab') return Math.cos(angle);
  if (side === 'cylinder') return bessel(angle).j0;
  return angle === 0 ? 1 : Math.sin(angle) / angle;
}

export interface BodyStep {
  readonly body: Body;
  readonly diffusivityM2S: number;
  readonly seconds: number;
  /** Surface coefficient over conductivity, 1/m; infinity when absent. */
  readonly hOverK?: number;
}

/** Unaccomplished change at the centre of a body after a step of the medium: the product of its sides. */
export function centreTheta({
  body,
  diffusivityM2S,
  seconds,
  hOverK = Number.POSITIVE_INFINITY,
}: BodyStep): number {
  positive('Diffusivity', diffusivityM2S, 'm2/s');
  return factors(body).reduce((product, { side, lengthM }) => {
    const fourier = (diffusivityM2S * notNegative('Time', seconds, 's')) / lengthM ** 2;
    return product * theta(side, { fourier, biot: hOverK * lengthM });
  }, 1);
}
