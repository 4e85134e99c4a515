/** A bag weeks later: how far the white has come, and what a contaminated one looks like. */

import type { Drawing, Ink } from '../spans.ts';
import { Canvas, scatter } from './canvas.ts';
import type { PictureOptions } from './frame.ts';

export type GrowthPicture =
  | 'colonising'
  | 'shaken'
  | 'done'
  | 'contaminated'
  | 'green'
  | 'black'
  | 'sour'
  | 'other'
  | 'used'
  | 'discarded';

interface Mark {
  readonly char: string;
  readonly ink: Ink;
}
type At = (across: number, down: number, index: number) => Mark;

const marks = (ascii: boolean) => ({
  grain: { char: ascii ? 'o' : '∘', ink: 'grain' } as Mark,
  // Half tones let the ground of the flesh shine through: solid white would be nothing on a light terminal.
  white: { char: ascii ? '#' : '▒', ink: 'core' } as Mark,
  mould: { char: ascii ? '%' : '█', ink: 'good' } as Mark,
  dark: { char: ascii ? '@' : '●', ink: 'danger' } as Mark,
  water: { char: ascii ? '~' : '≈', ink: 'water' } as Mark,
  what: { char: '?', ink: 'watch' } as Mark,
  none: { char: ' ', ink: 'plain' } as Mark,
});

/** What is at a place of the filling; `across` and `down` run from 0 to 1. */
function filling(state: GrowthPicture, ascii: boolean): At {
  const { grain, white, mould, dark, water, what, none } = marks(ascii);
  const near = (x: number, y: number, radius: number) => (across: number, down: number) =>
    Math.hypot(across - x, down - y) < radius;
  const patch = near(0.65, 0.45, 0.33);
  switch (state) {
    case 'colonising': {
      const first = near(0.2, 0.15, 0.5);
      return (across, down) => (first(across, down) ? white : grain);
    }
    case 'shaken':
      return (_across, _down, index) => (scatter(7, index) < 0.4 ? white : grain);
    case 'done':
      return () => white;
    case 'contaminated':
      return (across, down) => (patch(across, down) ? dark : grain);
    case 'green':
      return (across, down) => (patch(across, down) ? mould : white);
    case 'black':
      // Pin mould: dark heads all over, where green mould sits in one patch.
      return (_across, _down, index) => (scatter(3, index) < 0.4 ? dark : white);
    case 'sour':
      return (_across, down) => (down > 0.5 ? water : grain);
    case 'other':
      return (across, down) => (patch(across, down) ? what : grain);
    case 'used':
      return () => none;
    case 'discarded':
      return (across, down) =>
        Math.abs(across - down) < 0.14 || Math.abs(across + down - 1) < 0.14 ? dark : none;
  }
}

/** The bag in that state. */
export function growthDrawing(state: GrowthPicture, { size, ascii }: PictureOptions): Drawing {
  const canvas = new Canvas({ ...size, ascii });
  const { width, height } = size;
  const side = Math.floor(width * 0.12);
  const [left, right, bottom] = [side, width - 1 - side, height - 1];
  const [seam, up, across, corners] = ascii ? ['=', '|', '-', '++'] : ['▀', '│', '─', '╰╯'];
  canvas.text(left, 0, seam.repeat(right - left + 1), 'film');
  canvas.text(left, bottom, `${corners[0]}${across.repeat(right - left - 1)}${corners[1]}`, 'film');
  const [columns, rows] = [right - left - 1, bottom - 1];
  const at = filling(state, ascii);
  for (let row = 0; row < rows; row += 1) {
    canvas.text(left, row + 1, up, 'film');
    canvas.text(right, row + 1, up, 'film');
    for (let column = 0; column < columns; column += 1) {
      const { char, ink } = at((column + 0.5) / columns, (row + 0.5) / rows, row * columns + column);
      canvas.text(left + 1 + column, row + 1, char, ink);
    }
  }
  return canvas.drawing();
}
