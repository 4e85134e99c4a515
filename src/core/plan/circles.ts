/**
 * How many equal circles and rectangles go into a circle. Circles: best known packings, as ratios of the
 * diameters (tables of circle packing, MEMORY; 1 to 9, 11, 13 and 19 have closed forms). Rectangles: rows
 * side by side, an arrangement a person can build, not the best there is.
 */

/** Smallest ratio of the outer to the inner diameter for each count, rising. */
const RATIOS: readonly (readonly [number, number])[] = [
  [1, 1],
  [2, 2],
  [2.1548, 3],
  [2.4143, 4],
  [2.7014, 5],
  [3, 7],
  [3.3048, 8],
  [3.6132, 9],
  [3.8131, 10],
  [3.9239, 11],
  [4.0297, 12],
  [4.2361, 13],
  [4.3285, 14],
  [4.5214, 15],
  [4.6155, 16],
  [4.7921, 17],
  [4.8638, 19],
  [5.1224, 20],
];

/** Circles of one diameter within another; the count stops at 20. */
export function circlesInCircle(innerM: number, outerM: number): number {
  const ratio = outerM / innerM;
  return RATIOS.reduce((most, [needed, count]) => (ratio >= needed - 1e-4 ? count : most), 0);
}

/** Rectangles in rows within a circle, with a gap between neighbours; 0 when not one fits. */
export function rectanglesInCircle(alongM: number, acrossM: number, gapM: number, outerM: number): number {
  const rows = Math.floor((outerM + gapM) / (acrossM + gapM) + 1e-9);
  let most = 0;
  for (let count = 1; count <= rows; count += 1) {
    const pitch = acrossM + gapM;
    const depth = count * pitch - gapM;
    let fit = 0;
    for (let row = 0; row < count; row += 1) {
      const edge = Math.max(Math.abs(row * pitch - depth / 2), Math.abs(row * pitch + acrossM - depth / 2));
      const chord = edge >= outerM / 2 ? 0 : 2 * Math.sqrt((outerM / 2) ** 2 - edge ** 2);
      fit += Math.max(0, Math.floor((chord + gapM) / (alongM + gapM) + 1e-9));
    }
    most = Math.max(most, fit);
  }
  return most;
}
