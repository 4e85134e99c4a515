/**
 * The field of a plot: a grid of cells on which lines and bands are set as braille dots (two by four to a
 * cell), or as one letter a cell in plain characters.
 */

import type { Ink } from '../spans.ts';

export interface AreaSize {
  readonly columns: number;
  readonly rows: number;
  readonly ascii: boolean;
}

/** Position in dots from the upper left; fractions are allowed. */
export interface Dot {
  readonly x: number;
  readonly y: number;
}

const DOT_BITS = [0x01, 0x08, 0x02, 0x10, 0x04, 0x20, 0x40, 0x80] as const;

export class PlotArea {
  readonly columns: number;
  readonly rows: number;
  readonly ascii: boolean;
  /** Dots across and down. */
  readonly across: number;
  readonly down: number;
  readonly #bits: Uint8Array;
  readonly #tints: Uint8Array;
  readonly #chars: (string | undefined)[];
  readonly #inks: (Ink | undefined)[];
  #tintInk: Ink = 'faint';

  constructor({ columns, rows, ascii }: AreaSize) {
    this.columns = columns;
    this.rows = rows;
    this.ascii = ascii;
    this.across = ascii ? columns : columns * 2;
    this.down = ascii ? rows : rows * 4;
    this.#bits = new Uint8Array(columns * rows);
    this.#tints = new Uint8Array(columns * rows);
    this.#chars = new Array(columns * rows);
    this.#inks = new Array(columns * rows);
  }

  /** Sets one dot; outside the field nothing happens. `letter` stands for it in plain characters. */
  dot(x: number, y: number, ink: Ink, letter: string): void {
    const [column, row] = [Math.floor(x), Math.floor(y)];
    if (column < 0 || row < 0 || column >= this.across || row >= this.down) return;
    if (this.ascii) {
      this.char(column, row, letter, ink);
      return;
    }
    const cell = (row >> 2) * this.columns + (column >> 1);
    this.#bits[cell] = (this.#bits[cell] ?? 0) | (DOT_BITS[2 * (row & 3) + (column & 1)] ?? 0);
    this.#inks[cell] = ink;
  }

  /** Sets one dot of a background; words and marks may be written over it. */
  tint(x: number, y: number, ink: Ink): void {
    const [column, row] = this.ascii ? [x, y] : [x >> 1, y >> 2];
    if (column < 0 || row < 0 || column >= this.columns || row >= this.rows) return;
    const cell = row * this.columns + column;
    this.#tints[cell] = (this.#tints[cell] ?? 0) | (this.ascii ? 1 : (DOT_BITS[2 * (y & 3) + (x & 1)] ?? 0));
    this.#tintInk = ink;
  }

  /** A line of dots; with `every` above 1 only each such dot is set. */
  line(from: Dot, to: Dot, ink: Ink, letter: string, every = 1): void {
    const steps = Math.max(1, Math.ceil(Math.max(Math.abs(to.x - from.x), Math.abs(to.y - from.y))));
    for (let step = 0; step <= steps; step += 1) {
      const x = from.x + ((to.x - from.x) * step) / steps;
      const y = from.y + ((to.y - from.y) * step) / steps;
      // Counted by column, so that a dotted line stays even however many short pieces it is made of.
      if (every === 1 || Math.floor(x) % every === 0) this.dot(x, y, ink, letter);
    }
  }

  /** A character of its own in a cell; it wins over dots. */
  char(column: number, row: number, char: string, ink: Ink): void {
    const cell = row * this.columns + column;
    this.#chars[cell] = char;
    this.#inks[cell] = ink;
  }

  isFree(column: number, row: number): boolean {
    if (column < 0 || row < 0 || column >= this.columns || row >= this.rows) return false;
    const cell = row * this.columns + column;
    return this.#bits[cell] === 0 && this.#chars[cell] === undefined;
  }

  cell(column: number, row: number): { readonly char: string; readonly ink: Ink } {
    const cell = row * this.columns + column;
    const own = this.#chars[cell];
    const tint = this.#tints[cell] ?? 0;
    const ink = this.#inks[cell] ?? (tint > 0 ? this.#tintInk : 'plain');
    if (own !== undefined) return { char: own, ink };
    if (this.ascii) return { char: tint > 0 ? ':' : ' ', ink };
    const bits = (this.#bits[cell] ?? 0) | tint;
    return { char: bits > 0 ? String.fromCharCode(0x2800 + bits) : ' ', ink };
  }
}
