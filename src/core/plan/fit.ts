/** How many filled containers go into the cooker at once, how they stand, and so how many loads a batch takes. */
import type { Kitchen } from '../kitchen.ts';
import { containerVolumeL } from '../recipe/body.ts';
import type { Containers } from '../recipe/recipe.ts';
import { circlesInCircle, rectanglesInCircle } from './circles.ts';

/** Left free under the lid, and the lowest a rack stands, m (common practice, no source). */
const UNDER_LID_M = 0.03;
const RACK_M = 0.02;
/** Between the water and what stands over it. */
const OVER_WATER_M = 0.01;
/** Room that steam needs between two bags, m; none where they are pressed together. */
const GAP_M = 0.005;
/** Glass around the grain of a jar, and shoulder, lid and headspace over it, m (estimate). */
const GLASS_M = 0.008;
const OVER_GRAIN_M = 0.04;

/** Height over the water and rack that containers may fill, m; never below zero. */
export function freeHeightM(kitchen: Kitchen, waterL: number): number {
  const area = (Math.PI / 4) * kitchen.cookerInnerDiameterM ** 2;
  const floorM = Math.max(RACK_M, waterL / 1000 / area + OVER_WATER_M);
  return Math.max(0, kitchen.cookerInnerHeightM - floorM - UNDER_LID_M);
}

/** How containers stand in one load. */
export interface Standing {
  readonly layers: number;
  readonly inLayer: number;
  /** Side that stands upright, m. */
  readonly uprightM: number;
}

export interface Fit {
  /** Containers at once; 0 when not even one fits. */
  readonly perLoad: number;
  /** Null when nothing fits, or when the volume holds fewer than would stand. */
  readonly standing: Standing | null;
  readonly freeHeightM: number;
  /** What stops even one: its height under the lid, its width within the wall, or the vessel's volume. */
  readonly stops: 'height' | 'width' | 'volume' | null;
}

/** All that fit at once: jars stand upright, bags on whichever side holds most. */
export function fitIn(containers: Containers, kitchen: Kitchen, waterL: number): Fit {
  const free = freeHeightM(kitchen, waterL);
  const wide = kitchen.cookerInnerDiameterM;
  const ways = standings(containers, wide).map(way => ({
    ...way,
    layers: Math.floor(free / way.uprightM + 1e-9),
  }));
  const best = ways.reduce<Standing | null>(
    (most, way) => (count(way) > (most === null ? 0 : count(most)) ? way : most),
    null,
  );
  if (best !== null) {
    // Sides and volume are said apart: what the volume does not hold, no arrangement does.
    const byVolume = Math.floor((kitchen.cookerL - waterL) / containerVolumeL(containers.size) + 1e-9);
    const perLoad = Math.max(0, Math.min(count(best), byVolume));
    return {
      perLoad,
      standing: perLoad < count(best) ? null : best,
      freeHeightM: free,
      stops: perLoad === 0 ? 'volume' : null,
    };
  }
  const narrow = ways.every(({ inLayer }) => inLayer === 0);
  return { perLoad: 0, standing: null, freeHeightM: free, stops: narrow ? 'width' : 'height' };
}

const count = ({ layers, inLayer }: Standing): number => layers * inLayer;

function standings({ size, touching }: Containers, wideM: number): readonly Omit<Standing, 'layers'>[] {
  if (size.shape === 'cylinder') {
    return [
      {
        uprightM: size.heightM + OVER_GRAIN_M,
        inLayer: circlesInCircle(size.diameterM + GLASS_M, wideM),
      },
    ];
  }
  const { lengthM, widthM, thicknessM } = size;
  const gap = touching ? 0 : GAP_M;
  const on = (uprightM: number, a: number, b: number) => ({
    uprightM,
    inLayer: Math.max(rectanglesInCircle(a, b, gap, wideM), rectanglesInCircle(b, a, gap, wideM)),
  });
  return [on(widthM, lengthM, thicknessM), on(thicknessM, lengthM, widthM), on(lengthM, widthM, thicknessM)];
}

/** Even loads, the fuller ones first. Where not even one fits, one in each: the plan says why not. */
export function splitLoads(total: number, perLoad: number): readonly number[] {
  const loads = Math.max(1, Math.ceil(total / Math.max(1, perLoad)));
  return Array.from(
    { length: loads },
    (_, index) => Math.floor(total / loads) + (index < total % loads ? 1 : 0),
  );
}
