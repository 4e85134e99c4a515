/**
 * How inks and symbols look on this terminal. Meaning is never carried by colour alone, so every look is
 * complete: without colour the same inks differ by weight, and the drawings by shape.
 */

import { type ColourDepth, FLESH, type Ground, hueOf, ON_FLESH } from './pictures/palette.ts';
import type { Ink } from './spans.ts';

export type { ColourDepth, Ground } from './pictures/palette.ts';

/** The part of Ink's Text props that a look decides. */
export interface InkStyle {
  readonly color?: string;
  readonly backgroundColor?: string;
  readonly bold?: true;
  readonly dimColor?: true;
  readonly inverse?: true;
}

export interface Symbols {
  readonly done: string;
  readonly now: string;
  readonly later: string;
  readonly warn: string;
  readonly bullet: string;
  readonly rule: string;
  readonly upright: string;
  readonly ellipsis: string;
  readonly times: string;
  readonly degree: string;
}

export interface Look {
  /** Only characters 32 to 126 may be drawn. */
  readonly ascii: boolean;
  readonly colour: ColourDepth;
  readonly inks: Readonly<Record<Ink, InkStyle>>;
  readonly symbols: Symbols;
}

export interface LookWishes {
  readonly colour: ColourDepth;
  readonly ground?: Ground;
  readonly ascii: boolean;
}

const WEIGHT: Readonly<Record<Ink, InkStyle>> = {
  plain: {},
  strong: { bold: true },
  faint: { dimColor: true },
  accent: { bold: true },
  good: {},
  watch: { bold: true },
  danger: { bold: true, inverse: true },
  steam: {},
  grain: {},
  bran: {},
  flesh: {},
  core: { bold: true },
  water: {},
  cloth: {},
  film: {},
};

const UNICODE: Symbols = {
  done: '✓',
  now: '›',
  later: '·',
  warn: '!',
  bullet: '·',
  rule: '─',
  upright: '│',
  ellipsis: '…',
  times: '×',
  degree: '°',
};

const PLAIN: Symbols = {
  done: 'x',
  now: '>',
  later: '.',
  warn: '!',
  bullet: '-',
  rule: '-',
  upright: '|',
  ellipsis: '...',
  times: 'x',
  degree: ' ',
};

function styleOf(colour: ColourDepth, ground: Ground, ink: Ink): InkStyle {
  const weight = WEIGHT[ink];
  const hue = hueOf(colour, ground, ink);
  if (hue === undefined || colour === 'none') return weight;
  if (ON_FLESH.has(ink)) return { color: hue, backgroundColor: FLESH[colour] };
  // A hue replaces dim (grey is already chosen to be readable) and inverse, but never takes weight away.
  return weight.bold ? { color: hue, bold: true } : { color: hue };
}

/** The look for a terminal of this colour depth and ground; `ascii` chooses symbols and drawings. */
export function lookFor({ colour, ground = 'unknown', ascii }: LookWishes): Look {
  const inks = Object.fromEntries(
    (Object.keys(WEIGHT) as Ink[]).map(ink => [ink, styleOf(colour, ground, ink)]),
  ) as Record<Ink, InkStyle>;
  return { ascii, colour, inks, symbols: ascii ? PLAIN : UNICODE };
}

export type Environment = Readonly<Record<string, string | undefined>>;

const FORCED: Readonly<Record<string, ColourDepth>> = {
  '0': 'none',
  false: 'none',
  '': '16',
  '1': '16',
  true: '16',
  '2': '256',
  '3': 'truecolor',
};

/**
 * How many colours may be used. A non-empty NO_COLOR wins over everything (no-color.org), then
 * FORCE_COLOR, then whether this is a terminal at all, COLORTERM and the terminal's name.
 */
export function colourDepth(env: Environment, isTTY: boolean): ColourDepth {
  if (env.NO_COLOR) return 'none';
  const forced = env.FORCE_COLOR;
  if (forced !== undefined) return FORCED[forced] ?? '16';
  const term = (env.TERM ?? '').toLowerCase();
  if (!isTTY || term === '' || term === 'dumb') return 'none';
  if (/^(truecolor|24bit)$/i.test(env.COLORTERM ?? '')) return 'truecolor';
  if (/-(direct|truecolor)$/.test(term)) return 'truecolor';
  if (/-256(color)?$/.test(term)) return '256';
  return /^vt(52|100|102|220)$|-m$|mono$/.test(term) ? 'none' : '16';
}

/** Light or dark ground, as far as the terminal says: COLORFGBG ("15;0"), or the Linux console. */
export function groundOf(env: Environment): Ground {
  const back = /;(\d+)$/.exec(env.COLORFGBG ?? '')?.[1];
  if (back !== undefined) return back === '7' || Number(back) > 8 ? 'light' : 'dark';
  return env.TERM === 'linux' ? 'dark' : 'unknown';
}
