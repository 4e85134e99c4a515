/** How many filled containers go into the cooker at once, and so how many loads a batch takes. */
import type { Kitchen } from '../kitchen.ts';
import type { Containers } from '../recipe/recipe.ts';

/** Left free under the lid and below the rack, m (common practice, no source). */
const UNDER_LID_M = 0.03;
const RACK_M = 0.02;
/** Soft bags give way and can be leaned: share of the space over the rack they may take (estimate). */
const BAG_SHARE = 0.7;

export const containerVolumeL = ({ size }: Containers): number =>
  1000 *
  (size.shape === 'brick'
    ? size.lengthM * size.widthM * size.thicknessM
    : (Math.PI / 4) * size.diameterM ** 2 * size.heightM);

/** Circles of one diameter in a larger circle: best known counts, ratio of diameters to number (packing tables, MEMORY). */
const CIRCLES: readonly (readonly [number, number])[] = [
  [1, 1],
  [2, 2],
  [2.1547, 3],
  [2.4142, 4],
  [2.7013, 5],
  [3, 7],
  [3.3048, 8],
  [3.6131, 9],
  [3.8132, 10],
  [3.9238, 11],
  [4.0296, 12],
];

function circlesWithin(ratio: number): number {
  return CIRCLES.reduce((most, [needed, count]) => (ratio >= needed - 1e-9 ? count : most), 0);
}

/** Height over the water and rack that containers may fill, m; never below zero. */
export function freeHeightM(kitchen: Kitchen, waterL: number): number {
  const area = (Math.PI / 4) * kitchen.cookerInnerDiameterM ** 2;
  const waterM = waterL / 1000 / area;
  return Math.max(0, kitchen.cookerInnerHeightM - Math.max(RACK_M, waterM + 0.01) - UNDER_LID_M);
}

/** Containers that fit at once; 0 when not even one does. Jars stand in rings and layers, bags by volume. */
export function containersPerLoad(containers: Containers, kitchen: Kitchen, waterL: number): number {
  const height = freeHeightM(kitchen, waterL);
  const { size } = containers;
  if (size.shape === 'cylinder') {
    const layers = Math.floor((height + 1e-9) / size.heightM);
    return layers * circlesWithin(kitchen.cookerInnerDiameterM / size.diameterM);
  }
  const sides = [size.lengthM, size.widthM, size.thicknessM].sort((a, b) => a - b);
  const [least = 0, middle = 0] = sides;
  // A bag may stand or lie, but its two smaller sides must pass the mouth together.
  if (least > height || Math.hypot(least, middle) > kitchen.cookerInnerDiameterM) return 0;
  const spaceL = 1000 * height * (Math.PI / 4) * kitchen.cookerInnerDiameterM ** 2 * BAG_SHARE;
  return Math.floor(spaceL / containerVolumeL(containers) + 1e-9);
}

/** Even loads, the fuller ones first. A cooker that holds none still gets one load: the plan says why not. */
export function splitLoads(count: number, perLoad: number): readonly number[] {
  const loads = Math.max(1, Math.ceil(count / Math.max(1, perLoad)));
  return Array.from(
    { length: loads },
    (_, index) => Math.floor(count / loads) + (index < count % loads ? 1 : 0),
  );
}
