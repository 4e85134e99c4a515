/**
 * A recipe's containers as bodies that steam heats: dimensions, the block that touching ones make, and how
 * fast heat goes into them. The plan, the running estimate and the practice all ask here.
 */
import type { Kitchen } from '../kitchen.ts';
import type { Body } from '../science/conduction.ts';
import { EFFECTIVE_DIFFUSIVITY, mergeTouching, touchingBlock } from '../science/diffusivity.ts';
import type { Band } from '../science/limits.ts';
import { type Containers, containerKey, type ContainerSize } from './recipe.ts';

/** Volume of a filled container, L. */
export const containerVolumeL = (size: ContainerSize): number =>
  1000 *
  (size.shape === 'brick'
    ? size.lengthM * size.widthM * size.thicknessM
    : (Math.PI / 4) * size.diameterM ** 2 * size.heightM);

/** A filled container by its half dimensions; `fill` times the planned grain makes it so much thicker or higher. */
export function bodyOfSize(size: ContainerSize, fill = 1): Body {
  return size.shape === 'brick'
    ? {
        shape: 'brick',
        halfLengthM: size.lengthM / 2,
        halfWidthM: size.widthM / 2,
        halfThicknessM: (size.thicknessM * fill) / 2,
      }
    : { shape: 'finite cylinder', radiusM: size.diameterM / 2, halfHeightM: (size.heightM * fill) / 2 };
}

/** The body whose centre is the last to get hot: one container, or all of a load (1 to 100) pressed together. */
export function heatedBody(
  { size, touching }: Pick<Containers, 'size' | 'touching'>,
  inLoad: number,
  fill = 1,
): Body {
  const one = bodyOfSize(size, fill);
  return touching ? mergeTouching(one, touchingBlock(Math.max(1, inLoad))) : one;
}

/** One probe in one container says this much about another, in another packing (estimate). */
const MEASURED_SPREAD = 0.15;

/** The band around a diffusivity that was measured, m2/s. */
export const measuredBand = (m2S: number): Band => ({
  low: m2S * (1 - MEASURED_SPREAD),
  likely: m2S,
  high: m2S * (1 + MEASURED_SPREAD),
});

export interface KnownDiffusivity {
  /** m2/s; low is the cautious one. */
  readonly m2S: Band;
  /** `yours`: measured by the person in this kind of container. */
  readonly source: 'band' | 'yours';
}

/** The person's own diffusivity for this kind of container, or the band of common practice. */
export function diffusivityFor(
  containers: Containers,
  { measuredDiffusivity }: Pick<Kitchen, 'measuredDiffusivity'>,
): KnownDiffusivity {
  const measured = measuredDiffusivity[containerKey(containers)];
  return measured === undefined
    ? { m2S: EFFECTIVE_DIFFUSIVITY, source: 'band' }
    : { m2S: measuredBand(measured), source: 'yours' };
}
