/**
 * Effective thermal diffusivity of a bag or jar of moist grain, and touching bags as one body.
 *
 * No measurement at 100 to 121 C was found. Pure conduction would give 0.8 to 1.5e-7 m2/s and make every
 * common practice fail; moist mushroom substrate was measured at 2.0 to 3.1e-7; practice needs 2.2 to
 * 3.1e-7. The default is a calibration to habits and always goes with its band; a probe curve settles it for
 * a kind of bag (see ball.ts).
 */
import { type Body, factors } from './conduction.ts';
import { type Band, within } from './limits.ts';

/** m2/s: cautious for wet, packed or touching bags; fast for loose, well drained grain. */
export const EFFECTIVE_DIFFUSIVITY: Band = { low: 2.0e-7, likely: 3.0e-7, high: 4.5e-7 };

/** Plain conduction while cooling below 60 C, where vapour carries little heat, m2/s. */
export const COOLING_DIFFUSIVITY: Band = { low: 1.3e-7, likely: 1.6e-7, high: 2.0e-7 };

/** Conductivity that goes with a diffusivity in Biot numbers, W/mK: alpha rho cp of hydrated grain. */
export function effectiveConductivity(diffusivityM2S: number): number {
  return within('Diffusivity', diffusivityM2S, 1e-8, 1e-4, 'm2/s') * WET_HEAT_CAPACITY_J_M3K;
}
/** 700 kg/m3 x 2930 J/(kg K). */
export const WET_HEAT_CAPACITY_J_M3K = 700 * 2930;

/** Surface coefficient behind a bag's film and some air, W/m2K; infinity is the default, this an option. */
export const FILM_COEFFICIENT: Band = { low: 250, likely: 300, high: 500 };

/** How many touching bags lie along each side of the block. */
export interface Block {
  readonly alongLength: number;
  readonly alongWidth: number;
  readonly alongThickness: number;
}

/** The worst block that so many bags pressed together make: near a square across width and thickness. */
export function touchingBlock(count: number): Block {
  if (!Number.isInteger(count)) throw new RangeError(`The number of bags must be whole, not ${count}.`);
  within('Number of bags', count, 1, 100, '');
  const alongThickness = Math.ceil(Math.sqrt(count));
  return { alongLength: 1, alongWidth: Math.ceil(count / alongThickness), alongThickness };
}

/**
 * One body for bags or jars that touch: an upper bound on their heating time, since contact blocks steam only
 * in part. A jar's circle becomes its square. RangeError for bodies that are neither bag nor jar.
 */
export function mergeTouching(body: Body, block: Block): Body {
  const { alongLength, alongWidth, alongThickness } = block;
  for (const along of [alongLength, alongWidth, alongThickness]) {
    if (!Number.isInteger(along)) throw new RangeError(`The number of bags must be whole, not ${along}.`);
    within('Number of bags', along, 1, 100, '');
  }
  factors(body);
  if (alongLength * alongWidth * alongThickness === 1) return body;
  if (body.shape === 'brick') {
    return {
      shape: 'brick',
      halfLengthM: body.halfLengthM * alongLength,
      halfWidthM: body.halfWidthM * alongWidth,
      halfThicknessM: body.halfThicknessM * alongThickness,
    };
  }
  if (body.shape !== 'finite cylinder') {
    throw new RangeError(`Only bags (bricks) and jars (finite cylinders) can touch, not a ${body.shape}.`);
  }
  return {
    shape: 'brick',
    halfLengthM: body.halfHeightM * alongLength,
    halfWidthM: body.radiusM * alongWidth,
    halfThicknessM: body.radiusM * alongThickness,
  };
}
