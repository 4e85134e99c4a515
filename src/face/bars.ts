/** One-row bars: how far along something is, and how a value went. */

import { type Drawing, type Ink, span } from './spans.ts';

export interface BarOptions {
  /** Done share, 0 to 1. */
  readonly share: number;
  /** Width in cells, at least 3. */
  readonly width: number;
  readonly ascii?: boolean;
  readonly ink?: Ink;
}

const EIGHTHS = ['', '▏', '▎', '▍', '▌', '▋', '▊', '▉'] as const;

/** A bar in eighths of a cell (whole cells in plain characters). Throws RangeError outside 0 to 1 or under 3 cells. */
export function progressBar({ share, width, ascii = false, ink = 'accent' }: BarOptions): Drawing {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`A bar shows a share from 0 to 1, not ${share}.`);
  if (!Number.isInteger(width) || width < 3)
    throw new RangeError(`A bar is 3 or more whole cells wide, not ${width}.`);
  if (ascii) {
    const inside = width - 2;
    // Rounded down, so that a full bar means done and nothing less.
    const full = Math.floor(share * inside);
    return [[span('['), span('#'.repeat(full), ink), span('-'.repeat(inside - full), 'faint'), span(']')]];
  }
  const eighths = Math.floor(share * width * 8);
  const done = '█'.repeat(Math.floor(eighths / 8)) + (EIGHTHS[eighths % 8] ?? '');
  return [[span(done, ink), span('░'.repeat(width - done.length), 'faint')]];
}

export interface SparkOptions {
  readonly width: number;
  readonly ascii?: boolean;
  readonly ink?: Ink;
  /** Range shown; by default that of the values. */
  readonly from?: number;
  readonly to?: number;
}

const LEVELS = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'] as const;
const PLAIN_LEVELS = ['_', '.', ',', '-', '=', '+', '*', '#'] as const;

/**
 * The values as a row of columns, oldest left. More values than cells are averaged, fewer leave blanks at
 * the right. A value that is no number throws RangeError; no values give a blank row.
 */
export function sparkline(values: readonly number[], options: SparkOptions): Drawing {
  const { width, ascii = false, ink = 'accent' } = options;
  const bad = values.findIndex(value => !Number.isFinite(value));
  if (bad >= 0) throw new RangeError(`Value ${bad + 1} of the curve is no number: ${values[bad]}.`);
  const cells = Math.min(width, values.length);
  const means = Array.from({ length: cells }, (_, cell) => {
    const part = values.slice(
      Math.floor((cell * values.length) / cells),
      Math.max(
        Math.floor((cell * values.length) / cells) + 1,
        Math.floor(((cell + 1) * values.length) / cells),
      ),
    );
    return part.reduce((sum, value) => sum + value, 0) / part.length;
  });
  const from = options.from ?? Math.min(...means);
  const to = options.to ?? Math.max(...means);
  const levels = ascii ? PLAIN_LEVELS : LEVELS;
  const text = means.map(mean => {
    // A curve without height is drawn in the middle: neither low nor high.
    const share = to > from ? (mean - from) / (to - from) : 0.5;
    return levels[Math.min(7, Math.max(0, Math.floor(share * 8)))];
  });
  return [[span(text.join('').padEnd(width), ink)]];
}
