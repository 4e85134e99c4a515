/**
 * Glyph shapes of the big digits: bars on a grid of square points, for every size, and a thin line face
 * for plain characters at three and four rows, where bars of whole cells would close the openings.
 */

/** Measures of one size, in points. */
export interface Face {
  readonly width: number;
  readonly height: number;
  /** Stroke of uprights and of level bars. */
  readonly upright: number;
  readonly level: number;
  /** Points cut off an outer corner. */
  readonly cut: number;
}

export type Inside = (x: number, y: number) => boolean;
export interface Glyph {
  readonly width: number;
  readonly inside: Inside;
}

// a top, b upper right, c lower right, d bottom, e lower left, f upper left, g middle.
const BARS: Readonly<Record<string, string>> = {
  '0': 'abcdef',
  '2': 'abged',
  '3': 'abgcd',
  '4': 'fgbc',
  '5': 'afgcd',
  '6': 'afgecd',
  '8': 'abcdefg',
  '9': 'abfgcd',
  '-': 'g',
  C: 'afed',
  F: 'afge',
  ' ': '',
};

/** Measures for a height in rows; in plain characters a point is a whole cell, else half of one. */
export function faceFor(rows: number, ascii: boolean): Face {
  const upright = rows < 4 ? 1 : Math.round(rows * 0.34 + 0.5);
  // In plain characters a point is a whole cell, so a level bar of one point is already as heavy as two.
  const level = ascii ? Math.max(1, Math.floor(rows / 6)) : rows < 5 ? 1 : Math.max(2, upright - 1);
  return {
    width: rows < 4 ? 4 : Math.round(rows * 1.2 + 1),
    height: ascii ? rows : 2 * rows,
    upright,
    level,
    cut: ascii ? 0 : Math.max(0, Math.min(upright, level) - 1),
  };
}

function barsGlyph(char: string, bars: string, { width, height, upright, level, cut }: Face): Inside {
  const has = (bar: string) => bars.includes(bar);
  const middle = Math.floor((height - level) / 2);
  const right = width - upright;
  const bottom = height - level;
  const indent = char === '3' ? Math.floor(width / 4) : 0;
  const bar: Inside = (x, y) => {
    const left = x < upright;
    const rightmost = x >= right;
    // Six and nine end open, short of the corner, so that they are not taken for an eight from afar.
    if (has('a') && y < level && (char !== '6' || !rightmost)) return true;
    if (has('d') && y >= bottom && (char !== '9' || !left)) return true;
    if (has('g') && y >= middle && y < middle + level && x >= indent && (char !== 'F' || !rightmost))
      return true;
    if (y < middle + level && ((has('f') && left) || (has('b') && rightmost))) return true;
    return y >= middle && ((has('e') && left) || (has('c') && rightmost));
  };
  // An eight has a waist, or its middle bar is all that tells it from a nought.
  const waist = char === '8' ? Math.floor(upright / 3) : 0;
  return (x, y) => {
    if (y >= middle && y < middle + level && Math.min(x, width - 1 - x) < waist) return false;
    const corner = Math.min(x, width - 1 - x) + Math.min(y, height - 1 - y);
    return bar(x, y) && (corner >= cut || char === '-' || (char === '4' && y > middle));
  };
}

function oneGlyph({ width, height, upright, level }: Face): Inside {
  const stem = Math.floor((width - upright) / 2);
  const flag = Math.max(1, Math.round(width / 4));
  const foot = Math.max(1, Math.floor((width - upright) / 3));
  return (x, y) => {
    if (x >= stem && x < stem + upright) return true;
    if (x < stem)
      return (
        (x >= stem - flag && y >= stem - x && y < stem - x + level) ||
        (y >= height - level && x >= stem - foot)
      );
    return y >= height - level && x < stem + upright + foot;
  };
}

function sevenGlyph({ width, height, upright, level }: Face): Inside {
  const right = width - upright;
  const lean = Math.floor(right * 0.6);
  return (x, y) => {
    if (y < level) return true;
    const down = (y - level) / Math.max(1, height - 1 - level);
    const edge = right - Math.round(down * lean);
    return x >= edge && x < edge + upright;
  };
}

function dotsGlyph(char: string, { height, upright, level }: Face, ascii: boolean): Glyph {
  // Two dots must stay two dots at a glance, so they are never thinner than two points.
  const size = Math.max(upright, 2);
  const tall = Math.max(level, ascii ? 1 : Math.min(size, 2 * level));
  const side = Math.max(1, Math.floor(size / 2));
  const starts =
    char === '.'
      ? [height - tall]
      : [Math.round(height * 0.3 - tall / 2), Math.round(height * 0.72 - tall / 2)];
  return {
    width: size + 2 * side,
    inside: (x, y) => x >= side && x < side + size && starts.some(start => y >= start && y < start + tall),
  };
}

function degreeGlyph({ upright, level }: Face): Glyph {
  const width = 2 * upright + Math.max(1, upright - 1);
  const height = 3 * level;
  const ring: Inside = (x, y) => x < upright || x >= width - upright || y < level || y >= height - level;
  return { width, inside: (x, y) => x >= 0 && x < width && y < height && ring(x, y) };
}

function letterGlyph(char: string, { width, height, upright, level }: Face): Glyph {
  const wide = char === 'm' ? 3 * upright + 2 * Math.max(1, Math.floor(upright / 2)) : width;
  const low = Math.floor(height * 0.4);
  const right = wide - upright;
  const centre = Math.floor(right / 2);
  if (char === 's') {
    const thin = Math.max(1, Math.min(level, Math.floor((height - low) / 5)));
    // Three bars and two openings need five bars' height; where there is less, the letter is a tall one.
    const top = height - low < 5 * thin ? 0 : low;
    const middle = top + Math.floor((height - top - thin) / 2);
    return {
      width: wide,
      inside: (x, y) => {
        if (y < top) return false;
        if (y < top + thin || y >= height - thin || (y >= middle && y < middle + thin)) return true;
        return y < middle ? x < upright : x >= right;
      },
    };
  }
  const stem = char === 'h' ? 0 : low;
  return {
    width: wide,
    inside: (x, y) => {
      if (x < upright) return y >= stem;
      if (y < low) return false;
      return y < low + level || x >= right || (char === 'm' && x >= centre && x < centre + upright);
    },
  };
}

/** The glyph of a character, or undefined when it has none. */
export function glyphFor(char: string, face: Face, ascii: boolean): Glyph | undefined {
  const bars = BARS[char];
  if (bars !== undefined) return { width: face.width, inside: barsGlyph(char, bars, face) };
  if (char === '1') return { width: face.width, inside: oneGlyph(face) };
  if (char === '7') return { width: face.width, inside: sevenGlyph(face) };
  if (char === ':' || char === '.') return dotsGlyph(char, face, ascii);
  if (char === '°') return degreeGlyph(face);
  return 'hms'.includes(char) ? letterGlyph(char, face) : undefined;
}

const LINES: Readonly<Record<string, readonly [string, string, string]>> = {
  '0': [' _ ', '| |', '|_|'],
  '1': ['   ', ' /|', '  |'],
  '2': [' _ ', ' _|', '|_ '],
  '3': [' _ ', ' _|', ' _|'],
  '4': ['   ', '|_|', '  |'],
  '5': [' _ ', '|_ ', ' _|'],
  '6': [' _ ', '|_ ', '|_|'],
  '7': [' _ ', '  |', '  |'],
  '8': [' _ ', '|_|', '|_|'],
  '9': [' _ ', '|_|', ' _|'],
  '-': ['   ', '---', '   '],
  ' ': ['   ', '   ', '   '],
  ':': [' ', 'o', 'o'],
  '.': [' ', ' ', 'o'],
  '°': ['o', ' ', ' '],
  h: ['   ', '|_ ', '| |'],
  m: ['     ', ' _ _ ', '| | |'],
  s: ['  ', ' _', '_/'],
  C: [' _ ', '|  ', '|_ '],
  F: [' _ ', '|_ ', '|  '],
};

/** Three rows of a character in thin lines, or undefined when it has none. */
export const linesFor = (char: string): readonly [string, string, string] | undefined => LINES[char];
