/** Bags and jars: whole or torn, filled below or above the filter, seam, and how warm they are. */

import type { Drawing } from '../spans.ts';
import { Canvas } from './canvas.ts';
import type { PictureOptions, PictureSize } from './frame.ts';

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const lineSet = (ascii: boolean) =>
  ascii
    ? { across: '-', up: '|', corners: '++++', seam: '=', patch: '%', grain: 'oo', tear: '/\\' }
    : { across: '─', up: '│', corners: '┌┐╰╯', seam: '▀', patch: '▓', grain: '⢎⡱', tear: '╱╲' };

function fillGrain(canvas: Canvas, { left, right, bottom }: Box, fromRow: number): void {
  const [even = '', odd = ''] = lineSet(canvas.ascii).grain;
  for (let row = fromRow; row < bottom; row += 1) {
    const text = Array.from({ length: right - left - 1 }, (_, index) =>
      (index + row) % 2 === 0 ? even : odd,
    );
    canvas.text(left + 1, row, text.join(''), 'grain');
  }
}

function drawBagFilm(canvas: Canvas, { left, right, top, bottom }: Box): void {
  const { across, up, corners, seam } = lineSet(canvas.ascii);
  canvas.text(left, top, seam.repeat(right - left + 1), 'film');
  for (let row = top + 1; row < bottom; row += 1) {
    canvas.text(left, row, up, 'film');
    canvas.text(right, row, up, 'film');
  }
  canvas.text(left, bottom, `${corners[2]}${across.repeat(right - left - 1)}${corners[3]}`, 'film');
}

function patchOf({
  left,
  right,
  top,
  bottom,
}: Box): PictureSize & { readonly column: number; readonly row: number } {
  const width = Math.max(3, Math.round((right - left) / 3));
  const height = bottom - top > 6 ? 2 : 1;
  return {
    width,
    height,
    column: left + Math.ceil((right - left - width + 1) / 2),
    row: top + (bottom - top > 6 ? 2 : 1),
  };
}

function drawPatch(canvas: Canvas, box: Box): void {
  const { width, height, column, row } = patchOf(box);
  for (let line = 0; line < height; line += 1) {
    canvas.text(column, row + line, lineSet(canvas.ascii).patch.repeat(width), 'strong');
  }
}

function bagBox({ width, height }: PictureSize): Box {
  const side = Math.floor(width * 0.15);
  return { left: side, right: width - 1 - side, top: 0, bottom: height - 1 };
}

// The tear runs down the right half; the side is gone and grain lies beside the bag.
function drawTear(canvas: Canvas, { right, top, bottom }: Box): void {
  const { tear, grain } = lineSet(canvas.ascii);
  const column = right - Math.max(3, Math.round(canvas.width / 7));
  for (let row = top + 1; row <= bottom; row += 1) {
    canvas.text(column - 1, row, ' ', 'plain');
    canvas.text(column, row, tear[(row - top) % 2] ?? '', 'danger');
    canvas.text(column + 1, row, ' '.repeat(right - column), 'plain');
  }
  const heap = (from: number, row: number) => {
    const text = Array.from({ length: canvas.width - from }, (_, index) => grain[(index + row) % 2]);
    canvas.text(from, row, text.join(''), 'grain');
  };
  heap(column + 2, bottom);
  heap(right, bottom - 1);
}

export type BagState = 'intact' | 'torn';

/** A filled bag with its filter patch, whole or torn open and spilling. */
export function bagDrawing(state: BagState, { size, ascii }: PictureOptions): Drawing {
  const canvas = new Canvas({ ...size, ascii });
  const box = bagBox(size);
  drawBagFilm(canvas, box);
  fillGrain(canvas, box, Math.ceil(size.height / 2));
  drawPatch(canvas, box);
  if (state === 'torn') drawTear(canvas, box);
  return canvas.drawing();
}

export type FillState = 'below filter' | 'above filter';

/** How full the bag is against its filter patch: free cloth above the grain, or grain up over the patch. */
export function fillDrawing(state: FillState, { size, ascii }: PictureOptions): Drawing {
  const canvas = new Canvas({ ...size, ascii });
  const box = bagBox(size);
  drawBagFilm(canvas, box);
  fillGrain(canvas, box, state === 'above filter' ? 1 : Math.ceil(size.height / 2));
  drawPatch(canvas, box);
  return canvas.drawing();
}

export type SeamState = 'good' | 'failed';

/** The top of a bag seen close: one unbroken band, or a band that gapes where the film was folded. */
export function seamDrawing(state: SeamState, { size, ascii }: PictureOptions): Drawing {
  const canvas = new Canvas({ ...size, ascii });
  const { width, height } = size;
  const { across, up } = lineSet(ascii);
  const [fall, rise] = ascii ? ['\\', '/'] : ['╲', '╱'];
  const middle = Math.floor(width / 2);
  const gape = Math.max(2, Math.round(width * 0.14));
  const [first, last] = [1, Math.max(2, Math.floor(height / 2) - 1)];
  canvas.text(0, 0, across.repeat(width), 'film');
  for (let row = 1; row < height; row += 1) {
    canvas.text(0, row, up, 'film');
    canvas.text(width - 1, row, up, 'film');
    if (row >= first && row <= last) canvas.text(1, row, (ascii ? '#' : '█').repeat(width - 2), 'film');
  }
  if (state === 'good') return canvas.drawing();
  for (let row = 0; row < height; row += 1) {
    // The gap is a funnel: wide at the edge, and below the band two creases run apart again.
    const half = row <= last ? gape : gape - 1 + row - last;
    if (row <= last) canvas.text(middle - half, row, ' '.repeat(2 * half + 1), 'plain');
    if (middle - half < 1) continue;
    canvas.text(middle - half, row, row <= last ? fall : rise, 'danger');
    canvas.text(middle + half, row, row <= last ? rise : fall, 'danger');
  }
  return canvas.drawing();
}

export type JarState = 'intact' | 'cracked';

/** A jar of grain under its lid, whole or with a crack from the shoulder to the foot. */
export function jarDrawing(state: JarState, { size, ascii }: PictureOptions): Drawing {
  const canvas = new Canvas({ ...size, ascii });
  const box = bagBox(size);
  const { across, up, corners } = lineSet(ascii);
  const { left, right, bottom } = box;
  canvas.text(left + 1, 0, (ascii ? '=' : '▄').repeat(right - left - 1), 'strong');
  canvas.text(left + 1, 1, up, 'film');
  canvas.text(right - 1, 1, up, 'film');
  canvas.text(left, 2, ascii ? '/' : '╱', 'film');
  canvas.text(right, 2, ascii ? '\\' : '╲', 'film');
  for (let row = 3; row < bottom; row += 1) {
    canvas.text(left, row, up, 'film');
    canvas.text(right, row, up, 'film');
  }
  canvas.text(left, bottom, `${corners[2]}${across.repeat(right - left - 1)}${corners[3]}`, 'film');
  fillGrain(canvas, box, 3);
  if (state === 'cracked') drawCrack(canvas, box);
  return canvas.drawing();
}

// Strokes in one column join at their ends; the clear margin makes the crack stand out without colour.
function drawCrack(canvas: Canvas, { left, right, bottom }: Box): void {
  const { tear } = lineSet(canvas.ascii);
  const column = Math.floor((left + right) / 2) + 1;
  const margin = canvas.width > 20 ? '   ' : '  ';
  for (let row = 1; row <= bottom; row += 1) {
    canvas.text(column - margin.length, row, `${margin}${tear[row % 2]}${margin}`, 'danger');
  }
}

export type Warmth = 'warm' | 'room';

/** A bag beside a thermometer: heat rising and a high column, or still air and a low one. */
export function warmthDrawing(state: Warmth, { size, ascii }: PictureOptions): Drawing {
  const canvas = new Canvas({ ...size, ascii });
  const { width, height } = size;
  const tube = width - 2;
  const box = { left: 0, right: Math.round(width * 0.55), top: Math.floor(height / 2), bottom: height - 1 };
  drawBagFilm(canvas, box);
  fillGrain(canvas, box, box.top + 1);
  if (state === 'warm') {
    for (let row = 0; row < box.top; row += 1) {
      for (let column = 1; column < box.right; column += 2) {
        canvas.text(column + (row % 2), row, row % 2 === 0 ? '(' : ')', 'danger');
      }
    }
  }
  const { up } = lineSet(ascii);
  const [full, level] = [ascii ? '#' : '█', state === 'warm' ? 1 : Math.ceil(height * 0.65)];
  for (let row = 0; row < height - 1; row += 1) {
    canvas.text(
      tube - 1,
      row,
      `${up}${row >= level ? full : ' '}${up}`,
      row >= level && state === 'warm' ? 'danger' : 'plain',
    );
  }
  canvas.text(tube - 1, height - 1, ascii ? '(#)' : '▐█▌', state === 'warm' ? 'danger' : 'plain');
  return canvas.drawing();
}
