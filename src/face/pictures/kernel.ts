/** Kernels cut across and a handful of whole ones: what the person looks for while the grain simmers. */

import type { Drawing } from '../spans.ts';
import { Canvas, checkShare, type Shade, scatter } from './canvas.ts';
import type { PictureOptions, PictureSize } from './frame.ts';

export interface KernelState {
  /** Chalky white part of the cut face: 0 translucent through, 1 white to the skin. */
  readonly core: number;
}

const inEllipse = (x: number, y: number, rx: number, ry: number) => (x / rx) ** 2 + (y / ry) ** 2 <= 1;

// Below this share the core is a line of one row, which is what "a thin white line" looks like.
const LINE_CORE = 0.02;

/**
 * A cut kernel seen large. The white core is solid and grows from a line; a kernel without a core is clear
 * and carries two glints, as glassy flesh does. `core` outside 0 to 1 throws RangeError.
 */
export function kernelDrawing({ core }: KernelState, { size, ascii }: PictureOptions): Drawing {
  checkShare('core', core);
  const canvas = new Canvas({ ...size, ascii });
  const [middleX, middleY] = [size.width / 2, size.height];
  const [rx, ry] = [size.width / 2, size.height - 0.25];
  const [innerX, innerY] = [rx - 1.2, ry - 1.05];
  const hasCore = core > LINE_CORE;
  const coreX = innerX * (0.55 + 0.33 * core);
  const coreY = Math.max(0.55, innerY * 0.78 * core);
  const wholeCell = (column: number, row: number) =>
    [column, column + 1].every(x =>
      [2 * row, 2 * row + 2].every(y => inEllipse(x - middleX, y - middleY, rx, ry)),
    );
  const shade: Shade = (across, down) => {
    const [x, y] = [across - middleX, down - middleY];
    if (!inEllipse(x, y, rx, ry)) return null;
    // A cell on the outline shows the terminal's ground behind it, so all of the kernel in it is skin.
    if (!wholeCell(Math.floor(across), Math.floor(down / 2))) return { ink: 'grain', fill: 'solid' };
    if (!inEllipse(x, y, innerX, innerY)) return { ink: 'bran', fill: 'solid' };
    if (inEllipse(x, y, coreX, coreY) && hasCore) return { ink: 'core', fill: 'solid' };
    return { ink: 'flesh', fill: hasCore ? 'mist' : 'clear' };
  };
  canvas.shade(shade);
  if (!hasCore) drawGlints(canvas, size);
  return canvas.drawing();
}

// Two strokes that lean like light on glass, left of the middle of the face.
function drawGlints(canvas: Canvas, { width, height }: PictureSize): void {
  const first = Math.floor(height / 4);
  const last = first + Math.floor(height / 2) - 1;
  const stroke = canvas.ascii ? '/' : '╱';
  for (let row = first; row <= last; row += 1) {
    const column = Math.round(width * 0.4) + Math.floor(height / 2) - row - 1;
    canvas.text(column, row, stroke.repeat(height > 8 ? 2 : 1), 'core');
    if (row < last) canvas.text(column + (height > 8 ? 4 : 2), row, stroke, 'core');
  }
}

export interface HandfulState {
  /** Share of the kernels that have split open. */
  readonly burst: number;
  readonly seed: number;
}

interface Stamp {
  readonly whole: readonly string[];
  readonly burst: readonly string[];
}

const SMALL: readonly [Stamp, Stamp] = [
  { whole: ['▗▄▖', '▝▀▘'], burst: ['▚▒▞', '▞▒▚'] },
  { whole: ['.-.', "'-'"], burst: ['\\#/', '/#\\'] },
];
const BIG: readonly [Stamp, Stamp] = [
  { whole: [' ▄▄▄ ', '▐███▌', ' ▀▀▀ '], burst: ['▜▖▒▗▛', '░▒▒▒░', '▟▘▒▝▙'] },
  { whole: [' ___ ', '(   )', " '-' "], burst: ['\\,#,/', '%###%', "/'#'\\"] },
];

/**
 * A handful of kernels, whole ones closed and round, burst ones torn open with the starch showing. The
 * same seed always bursts the same kernels first. A share outside 0 to 1 throws RangeError.
 */
export function handfulDrawing({ burst, seed }: HandfulState, { size, ascii }: PictureOptions): Drawing {
  checkShare('burst', burst);
  const canvas = new Canvas({ ...size, ascii });
  const stamps = size.height > 8 ? BIG : SMALL;
  const { whole, burst: open } = stamps[ascii ? 1 : 0];
  const [wide, high] = [(whole[0] ?? '').length, whole.length];
  const columns = Math.floor((size.width + 1) / (wide + 1));
  const rows = Math.floor(size.height / high);
  const left = Math.floor((size.width - columns * (wide + 1) + 1) / 2);
  const top = Math.floor((size.height - rows * high) / 2);
  const order = Array.from({ length: columns * rows }, (_, index) => index).sort(
    (a, b) => scatter(seed, a) - scatter(seed, b),
  );
  const opened = new Set(order.slice(0, burst > 0 ? Math.max(1, Math.round(burst * order.length)) : 0));
  for (const place of order) {
    const x = left + (place % columns) * (wide + 1);
    const y = top + Math.floor(place / columns) * high;
    (opened.has(place) ? open : whole).forEach((line, row) => {
      [...line].forEach((char, index) => {
        const starch = opened.has(place) && /[▒░#%]/.test(char);
        canvas.text(x + index, y + row, char, starch ? 'core' : 'grain');
      });
    });
  }
  return canvas.drawing();
}
