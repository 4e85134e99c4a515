/** The cooker: the pin in its lid, and the water under the rack. */

import type { Drawing } from '../spans.ts';
import { Canvas, checkShare } from './canvas.ts';
import type { PictureOptions } from './frame.ts';

export type PinState = 'up' | 'down';

/** The lid in section with its pin: standing high while there is pressure, flush and hanging below without. */
export function pinDrawing(state: PinState, { size, ascii }: PictureOptions): Drawing {
  const canvas = new Canvas({ ...size, ascii });
  const { width, height } = size;
  const full = ascii ? '#' : '█';
  const half = width > 20 ? 2 : 1;
  const middle = Math.floor(width / 2);
  const lidTop = Math.ceil(height * 0.6);
  const lidBottom = Math.min(height - 2, lidTop + (height > 8 ? 1 : 0));
  for (let row = lidTop; row <= lidBottom; row += 1) {
    canvas.text(0, row, (ascii ? '=' : '▒').repeat(width), 'plain');
    canvas.text(middle - half - 1, row, ' '.repeat(2 * half + 3), 'plain');
  }
  const shaft = full.repeat(2 * half - 1);
  const [headRow, endRow] =
    state === 'up' ? [lidTop - Math.floor(height / 2), lidBottom] : [lidTop - 1, height - 1];
  for (let row = headRow; row <= endRow; row += 1) canvas.text(middle - half + 1, row, shaft, 'accent');
  const head = state === 'up' ? full : ascii ? '_' : '▄';
  canvas.text(middle - half - 2, headRow, head.repeat(2 * half + 5), 'accent');
  return canvas.drawing();
}

export interface CookerState {
  /** Water depth as a share of the height inside; the rack stands at 0.3. */
  readonly water: number;
}

export const RACK_SHARE = 0.3;

/** The cooker in section: water, the rack, and what stands on it. A share outside 0 to 1 throws RangeError. */
export function cookerDrawing({ water }: CookerState, { size, ascii }: PictureOptions): Drawing {
  checkShare('water', water);
  const canvas = new Canvas({ ...size, ascii });
  const { width, height } = size;
  const [wall, floor, lid, wet, rack] = ascii ? ['|', '-', '=', '~', 'T'] : ['│', '─', '▄', '▒', '┬'];
  const corners = ascii ? '++' : '└┘';
  canvas.text(1, 0, lid.repeat(width - 2), 'strong');
  const inside = height - 2;
  const rackRow = height - 2 - Math.max(2, Math.round(inside * RACK_SHARE));
  for (let row = 1; row < height - 1; row += 1) {
    canvas.text(0, row, wall, 'plain');
    canvas.text(width - 1, row, wall, 'plain');
  }
  canvas.text(0, height - 1, `${corners[0]}${floor.repeat(width - 2)}${corners[1]}`, 'plain');
  const bag = ascii ? '[oo]' : '▐██▌';
  for (let row = 1; row < rackRow; row += 1) {
    for (let column = 2; column + bag.length < width; column += bag.length + 1)
      canvas.text(column, row, bag, 'grain');
  }
  canvas.text(1, rackRow, rack.repeat(width - 2), 'strong');
  const below = height - 2 - rackRow;
  // The space under the rack stands for RACK_SHARE of the height, the rest for what is above it.
  const depth =
    water <= RACK_SHARE
      ? Math.round((water / RACK_SHARE) * below)
      : below + 1 + Math.round(((water - RACK_SHARE) / (1 - RACK_SHARE)) * rackRow);
  const rows = Math.min(inside, water > 0 ? Math.max(1, depth) : 0);
  for (let row = height - 2; row > height - 2 - rows; row -= 1) {
    canvas.text(1, row, wet.repeat(width - 2), 'water');
    if (row === rackRow) canvas.text(1, row, (rack + wet).repeat(width).slice(0, width - 2), 'water');
  }
  return canvas.drawing();
}
