/**
 * A small canvas of character cells that shapes are painted on by a function of the point.
 *
 * Points are counted in squares: a cell is one wide and two high, so a circle stays a circle. Each cell is
 * looked at in eight places (two by four); solid paint becomes quarter blocks, line paint braille dots, and
 * texture one shading character. In plain characters the same paint becomes the nearest of `/\|-_.'#`.
 */

import { type Drawing, type Ink, type Span, span } from '../spans.ts';

/** Solid and line paint keep their edges; mist, dots and weave are textures of whole cells. */
export type Fill = 'solid' | 'line' | 'mist' | 'dots' | 'weave' | 'clear';

export interface Paint {
  readonly ink: Ink;
  readonly fill: Fill;
}

/** What is at a point, or null to leave what was there. `across` counts cells, `down` half cells. */
export type Shade = (across: number, down: number) => Paint | null;

interface Cell {
  readonly char: string;
  readonly ink: Ink;
}

const BLANK: Cell = { char: ' ', ink: 'plain' };

// Index: top left 1, top right 2, bottom left 4, bottom right 8.
const QUARTERS = [' ', '▘', '▝', '▀', '▖', '▌', '▞', '▛', '▗', '▚', '▐', '▜', '▄', '▙', '▟', '█'] as const;
const PLAIN_QUARTERS = [
  ' ',
  "'",
  "'",
  '"',
  '.',
  '#',
  '#',
  '#',
  '.',
  '#',
  '#',
  '#',
  '_',
  '#',
  '#',
  '#',
] as const;
// Sample order: left column top to bottom, then right column; the braille dot of each.
const BRAILLE_DOTS = [0x01, 0x02, 0x04, 0x40, 0x08, 0x10, 0x20, 0x80] as const;
const TEXTURES: Readonly<Record<'mist' | 'dots' | 'weave', readonly [string, string]>> = {
  mist: ['░', ':'],
  dots: ['·', '.'],
  weave: ['▒', '%'],
};

// Which samples each plain character covers, for choosing the one nearest to a line.
const STROKES: readonly (readonly [string, readonly number[]])[] = [
  ['|', [0, 1, 2, 3]],
  ['|', [4, 5, 6, 7]],
  ['-', [1, 5]],
  ['-', [2, 6]],
  ['_', [3, 7]],
  ["'", [0, 4]],
  ['/', [4, 5, 2, 3]],
  ['\\', [0, 1, 6, 7]],
  ['.', [3]],
  ['.', [7]],
  ["'", [0]],
  ["'", [4]],
  ['-', [1, 6]],
  ['-', [2, 5]],
];

function plainStroke(samples: readonly number[]): string {
  let best = '.';
  let bestScore = -1;
  for (const [char, cover] of STROKES) {
    const shared = cover.filter(sample => samples.includes(sample)).length;
    const score = shared / (cover.length + samples.length - shared);
    if (score > bestScore) [best, bestScore] = [char, score];
  }
  return best;
}

function commonest(paints: readonly Paint[]): Ink {
  const counts = new Map<Ink, number>();
  for (const { ink } of paints) counts.set(ink, (counts.get(ink) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 'plain';
}

function quarterIndex(samples: readonly number[]): number {
  const half = (first: number, second: number, bit: number) =>
    samples.includes(first) || samples.includes(second) ? bit : 0;
  return half(0, 1, 1) + half(4, 5, 2) + half(2, 3, 4) + half(6, 7, 8);
}

export class Canvas {
  readonly width: number;
  readonly height: number;
  readonly ascii: boolean;
  readonly #cells: Cell[];

  constructor({ width, height, ascii }: { width: number; height: number; ascii: boolean }) {
    this.width = width;
    this.height = height;
    this.ascii = ascii;
    this.#cells = Array.from({ length: width * height }, () => BLANK);
  }

  /** Puts characters from a cell on; what falls outside is left out. */
  text(column: number, row: number, characters: string, ink: Ink): void {
    [...characters].forEach((char, index) => {
      const x = column + index;
      if (x >= 0 && x < this.width && row >= 0 && row < this.height) {
        this.#cells[row * this.width + x] = { char, ink };
      }
    });
  }

  /** Paints every point; a cell whose points are all null keeps its character. */
  shade(shade: Shade): void {
    for (let row = 0; row < this.height; row += 1) {
      for (let column = 0; column < this.width; column += 1) {
        const cell = this.#paintedCell(column, row, shade);
        if (cell !== null) this.#cells[row * this.width + column] = cell;
      }
    }
  }

  drawing(): Drawing {
    return Array.from({ length: this.height }, (_, row) => {
      const spans: Span[] = [];
      for (const { char, ink } of this.#cells.slice(row * this.width, (row + 1) * this.width)) {
        const last = spans.at(-1);
        if (last?.ink === ink) spans[spans.length - 1] = span(last.text + char, ink);
        else spans.push(span(char, ink));
      }
      return spans;
    });
  }

  #paintedCell(column: number, row: number, shade: Shade): Cell | null {
    const byFill: Partial<Record<Fill, { paints: Paint[]; samples: number[] }>> = {};
    for (let sample = 0; sample < 8; sample += 1) {
      const paint = shade(column + 0.25 + 0.5 * Math.floor(sample / 4), 2 * row + 0.25 + 0.5 * (sample % 4));
      if (paint === null) continue;
      const group = byFill[paint.fill] ?? { paints: [], samples: [] };
      byFill[paint.fill] = group;
      group.paints.push(paint);
      group.samples.push(sample);
    }
    const { solid, line, clear } = byFill;
    if (solid !== undefined && solid.samples.length >= 2) {
      const ink = commonest(solid.paints);
      const index = quarterIndex(solid.samples.filter((_, place) => solid.paints[place]?.ink === ink));
      return { char: (this.ascii ? PLAIN_QUARTERS : QUARTERS)[index] ?? ' ', ink };
    }
    if (line !== undefined) {
      const dots = line.samples.reduce((sum, sample) => sum + (BRAILLE_DOTS[sample] ?? 0), 0);
      const char = this.ascii ? plainStroke(line.samples) : String.fromCodePoint(0x2800 + dots);
      return { char, ink: commonest(line.paints) };
    }
    for (const fill of ['weave', 'mist', 'dots'] as const) {
      const group = byFill[fill];
      if (group !== undefined && group.samples.length >= 4) {
        return { char: TEXTURES[fill][this.ascii ? 1 : 0], ink: commonest(group.paints) };
      }
    }
    return clear !== undefined && clear.samples.length >= 4
      ? { char: ' ', ink: commonest(clear.paints) }
      : null;
  }
}

/** A number 0 to 1 that depends on the whole numbers only: the same grain lies in the same place every time. */
export function scatter(seed: number, index: number): number {
  let mixed = (Math.imul(seed + 1, 0x9e3779b1) ^ Math.imul(index + 1, 0x85ebca6b)) >>> 0;
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0x2c1b3c6d) >>> 0;
  mixed = Math.imul(mixed ^ (mixed >>> 12), 0x297a2d39) >>> 0;
  return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
}

/** Refuses a share outside 0 to 1, naming it. */
export function checkShare(name: string, value: number): void {
  if (!(value >= 0 && value <= 1)) throw new RangeError(`${name} is a share from 0 to 1, not ${value}.`);
}
