/** A towel after grain has lain on it: how wet the surface of the kernels still is. */

import type { Drawing } from '../spans.ts';
import { Canvas, checkShare, type Shade, scatter } from './canvas.ts';
import type { PictureOptions, PictureSize } from './frame.ts';

export interface TowelState {
  /** 0 dry, to 0.3 faint spots, to 0.8 wet spots, above that soaked through. */
  readonly wetness: number;
  readonly seed: number;
}

interface Spot {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

const FAINT = 0.3;
const SOAKED = 0.8;

// Places of wet spots as shares of the cloth, far enough apart that no two run into one.
const WET_PLACES = [
  [0.17, 0.26],
  [0.82, 0.72],
  [0.5, 0.5],
  [0.85, 0.2],
  [0.15, 0.78],
] as const;
const FAINT_PLACES = [
  [0.28, 0.3],
  [0.72, 0.7],
] as const;

function spotsFor(wetness: number, seed: number, { width, height }: PictureSize): Spot[] {
  if (wetness <= 0) return [];
  const faint = wetness <= FAINT;
  const places = faint ? FAINT_PLACES : WET_PLACES;
  const share = faint ? wetness / FAINT : 0.6 + (0.4 * (wetness - FAINT)) / (SOAKED - FAINT);
  const radius = Math.min(width - 2, 2 * height - 4) * (faint ? 0.24 : 0.15);
  const jitter = (index: number) => 0.06 * (scatter(seed, index) - 0.5);
  return places.slice(0, Math.ceil(share * places.length)).map(([x, y], index) => ({
    x: 1 + (x + jitter(2 * index)) * (width - 2),
    y: 2 + (y + jitter(2 * index + 1)) * (2 * height - 4),
    radius,
  }));
}

function drawCloth(canvas: Canvas, { width, height }: PictureSize): void {
  const [across, top, side, bottom, tassel] = canvas.ascii
    ? ['-', '++', '|', '++', '"']
    : ['─', '┌┐', '│', '└┘', '┬'];
  canvas.text(0, 0, `${top[0]}${across.repeat(width - 2)}${top[1]}`, 'cloth');
  for (let row = 1; row < height - 1; row += 1) {
    canvas.text(0, row, side, 'cloth');
    canvas.text(width - 1, row, side, 'cloth');
  }
  canvas.text(
    0,
    height - 1,
    `${bottom[0]}${(tassel + across).repeat(width).slice(0, width - 2)}${bottom[1]}`,
    'cloth',
  );
}

/**
 * The towel: dry cloth is empty, faint spots are pale and few, wet spots solid, and a soaked towel is dark
 * from edge to edge and drips. A share outside 0 to 1 throws RangeError.
 */
export function towelDrawing({ wetness, seed }: TowelState, { size, ascii }: PictureOptions): Drawing {
  checkShare('wetness', wetness);
  const canvas = new Canvas({ ...size, ascii });
  drawCloth(canvas, size);
  const { width, height } = size;
  if (wetness > SOAKED) {
    const [wet, drip] = ascii ? ['#', '!'] : ['▓', '▀'];
    for (let row = 1; row < height - 1; row += 1) canvas.text(1, row, wet.repeat(width - 2), 'water');
    for (let column = 2; column < width - 1; column += 3) canvas.text(column, height - 1, drip, 'water');
    return canvas.drawing();
  }
  const spots = spotsFor(wetness, seed, size);
  const fill = wetness <= FAINT ? 'mist' : 'solid';
  const shade: Shade = (across, down) =>
    spots.some(({ x, y, radius }) => ((across - x) / 1.15) ** 2 + (down - y) ** 2 <= radius ** 2)
      ? { ink: 'water', fill }
      : null;
  canvas.shade(shade);
  return canvas.drawing();
}
