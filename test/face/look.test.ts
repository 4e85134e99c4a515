import { WriteStream } from 'node:tty';
import { describe, expect, it } from 'vitest';
import {
  type ColourDepth,
  colourDepth,
  type Ground,
  groundOf,
  type Look,
  lookFor,
} from '../../src/face/look.ts';
import type { Ink } from '../../src/face/spans.ts';

// Relative luminance and contrast ratio as defined in WCAG 2.1 ("relative luminance", "contrast ratio").
// MEMORY, checked below on the ratio of black to white (21) and of #767676 to white (4.54), both widely published.
type Rgb = readonly [number, number, number];
const fromHex = (hex: string): Rgb => [
  Number.parseInt(hex.slice(1, 3), 16),
  Number.parseInt(hex.slice(3, 5), 16),
  Number.parseInt(hex.slice(5, 7), 16),
];
const linear = (channel: number) =>
  channel / 255 <= 0.03928 ? channel / 255 / 12.92 : ((channel / 255 + 0.055) / 1.055) ** 2.4;
const luminance = ([red, green, blue]: Rgb) =>
  0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
const contrast = (a: Rgb, b: Rgb) => {
  const [light, dark] = [Math.max(luminance(a), luminance(b)), Math.min(luminance(a), luminance(b))];
  return (light + 0.05) / (dark + 0.05);
};

// The 256-colour palette as xterm's 256colres defines it (MEMORY): cube of six levels, then 24 greys.
const LEVELS = [0, 95, 135, 175, 215, 255];
const fromIndex = (index: number): Rgb => {
  if (index >= 232) return [8 + 10 * (index - 232), 8 + 10 * (index - 232), 8 + 10 * (index - 232)];
  const level = (place: number) => LEVELS[Math.floor((index - 16) / place) % 6] ?? 0;
  return [level(36), level(6), level(1)];
};

// xterm's default sixteen (MEMORY); the ones a look names.
const SIXTEEN: Readonly<Record<string, Rgb>> = {
  black: [0, 0, 0],
  red: [205, 0, 0],
  green: [0, 205, 0],
  yellow: [205, 205, 0],
  blue: [0, 0, 238],
  magenta: [205, 0, 205],
  cyan: [0, 205, 205],
  blackBright: [127, 127, 127],
  redBright: [255, 0, 0],
  greenBright: [0, 255, 0],
  yellowBright: [255, 255, 0],
  magentaBright: [255, 0, 255],
  cyanBright: [0, 255, 255],
  whiteBright: [255, 255, 255],
};

function rgbOf(color: string): Rgb {
  if (color.startsWith('#')) return fromHex(color);
  const index = /^ansi256\((\d+)\)$/.exec(color)?.[1];
  const rgb = index === undefined ? SIXTEEN[color] : fromIndex(Number(index));
  if (rgb === undefined) throw new Error(`no palette entry for ${color}`);
  return rgb;
}

const WHITE: Rgb = [255, 255, 255];
const BLACK: Rgb = [0, 0, 0];
const PAPER = fromHex('#f5efdc');
const SLATE = fromHex('#1e1e1e');
const coloured: readonly ColourDepth[] = ['16', '256', 'truecolor'];
const inksOf = (look: Look) => Object.entries(look.inks) as [Ink, Look['inks'][Ink]][];

it('computes published contrast ratios', () => {
  expect(contrast(BLACK, WHITE)).toBeCloseTo(21, 5);
  expect(contrast(fromHex('#767676'), WHITE)).toBeCloseTo(4.54, 2);
});

describe('contrast of every ink on the ground', () => {
  const leasts: readonly (readonly [Ground, number, readonly Rgb[]])[] = [
    ['unknown', 3, [WHITE, BLACK]],
    ['dark', 4.5, [BLACK, SLATE]],
    ['light', 4.5, [WHITE]],
    ['light', 3, [PAPER]],
  ];
  for (const [ground, least, backs] of leasts) {
    for (const colour of ['256', 'truecolor'] as const) {
      it(`${colour}, ${ground} ground: at least ${least}`, () => {
        const bare = inksOf(lookFor({ colour, ground, ascii: false })).filter(
          ([, style]) => style.color !== undefined && style.backgroundColor === undefined,
        );
        expect(bare.length).toBeGreaterThanOrEqual(10);
        for (const [ink, style] of bare) {
          for (const back of backs) {
            expect
              .soft(contrast(rgbOf(style.color ?? ''), back), `${ink} ${style.color}`)
              .toBeGreaterThanOrEqual(least);
          }
        }
      });
    }
  }

  it('sixteen colours: 3 on white and on black when the ground is unknown', () => {
    const bare = inksOf(lookFor({ colour: '16', ascii: false })).filter(
      ([, style]) => style.color !== undefined && style.backgroundColor === undefined,
    );
    expect(bare.map(([ink]) => ink)).toContain('danger');
    for (const [ink, style] of bare) {
      for (const back of [WHITE, BLACK]) {
        expect.soft(contrast(rgbOf(style.color ?? ''), back), ink).toBeGreaterThanOrEqual(3);
      }
    }
  });

  it('a white core stands out from the flesh it lies in, whatever the ground', () => {
    for (const colour of coloured) {
      const { color = '', backgroundColor = '' } = lookFor({ colour, ascii: false }).inks.core;
      expect(luminance(rgbOf(color))).toBeGreaterThan(0.9);
      expect(contrast(rgbOf(color), rgbOf(backgroundColor))).toBeGreaterThanOrEqual(3.5);
      for (const back of [WHITE, BLACK]) {
        expect(contrast(rgbOf(backgroundColor), back)).toBeGreaterThanOrEqual(3);
      }
    }
  });
});

describe('without colour', () => {
  it('names no colour at all', () => {
    for (const ground of ['dark', 'light', 'unknown'] as const) {
      for (const [, style] of inksOf(lookFor({ colour: 'none', ground, ascii: true }))) {
        expect(Object.keys(style)).not.toContain('color');
        expect(Object.keys(style)).not.toContain('backgroundColor');
      }
    }
  });

  it('still tells strong, faint and danger from plain text', () => {
    const { inks } = lookFor({ colour: 'none', ascii: false });
    expect(inks.plain).toEqual({});
    expect(inks.strong).toEqual({ bold: true });
    expect(inks.faint).toEqual({ dimColor: true });
    expect(inks.danger).toEqual({ bold: true, inverse: true });
  });

  it('keeps weight where a colour is added', () => {
    for (const colour of coloured) expect(lookFor({ colour, ascii: false }).inks.danger.bold).toBe(true);
  });
});

it('plain symbols are plain', () => {
  for (const symbol of Object.values(lookFor({ colour: 'none', ascii: true }).symbols)) {
    expect(symbol).toMatch(/^[ -~]+$/);
  }
});

describe('colour depth', () => {
  const cases: readonly (readonly [Record<string, string>, boolean, ColourDepth])[] = [
    [{ TERM: 'xterm-256color', COLORTERM: 'truecolor', NO_COLOR: '1' }, true, 'none'],
    [{ TERM: 'xterm-256color', NO_COLOR: '' }, true, '256'],
    [{ TERM: 'xterm-256color', NO_COLOR: '1', FORCE_COLOR: '3' }, true, 'none'],
    [{ TERM: 'dumb', FORCE_COLOR: '2' }, false, '256'],
    [{ TERM: 'xterm', FORCE_COLOR: '0' }, true, 'none'],
    [{ TERM: 'xterm', FORCE_COLOR: 'true' }, true, '16'],
    [{ TERM: 'xterm-256color' }, false, 'none'],
    [{}, true, 'none'],
    // terminfo (ncurses) gives this entry 256 colours.
    [{ TERM: 'screen-256color' }, true, '256'],
  ];
  it.each(cases)('%j, terminal %s: %s', (env, isTTY, depth) => {
    expect(colourDepth(env, isTTY)).toBe(depth);
  });

  // Node's own judgement of the same environments, as an independent second opinion.
  const bits: Readonly<Record<number, ColourDepth>> = { 1: 'none', 4: '16', 8: '256', 24: 'truecolor' };
  it.each([
    { TERM: 'dumb' },
    { TERM: 'linux' },
    { TERM: 'xterm' },
    { TERM: 'xterm-256color' },
    { TERM: 'xterm-256color', COLORTERM: 'truecolor' },
    { TERM: 'xterm-256color', COLORTERM: '24bit' },
    { TERM: 'xterm', FORCE_COLOR: '1' },
    { TERM: 'xterm', FORCE_COLOR: '2' },
    { TERM: 'xterm', FORCE_COLOR: '3' },
  ])('agrees with Node on %j', env => {
    expect(colourDepth(env, true)).toBe(bits[WriteStream.prototype.getColorDepth(env)]);
  });
});

it.each([
  [{ COLORFGBG: '15;0' }, 'dark'],
  [{ COLORFGBG: '0;15' }, 'light'],
  [{ COLORFGBG: '0;default;15' }, 'light'],
  [{ COLORFGBG: '0;7' }, 'light'],
  [{ COLORFGBG: '12;8' }, 'dark'],
  [{ TERM: 'linux' }, 'dark'],
  [{ TERM: 'xterm-256color' }, 'unknown'],
] as const)('ground of %j is %s', (env, ground) => {
  expect(groundOf(env)).toBe(ground);
});
