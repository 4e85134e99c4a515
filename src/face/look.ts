/**
 * How inks and symbols look on this terminal. Meaning is never carried by colour alone, so every look is
 * complete: without colour the same inks differ by weight, and the drawings by shape.
 *
 * Colours for an unknown ground are mid-tones that keep a contrast of 3:1 on white and on black alike
 * (WCAG 2.1, criterion 1.4.11); when the ground is known they are lighter or darker and reach 4.5:1.
 */

import type { Ink } from './spans.ts';

export type ColourDepth = 'none' | '16' | '256' | 'truecolor';
export type Ground = 'dark' | 'light' | 'unknown';

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

// A cut face is drawn on a ground of its own, so that a white core is white on a light terminal too.
const ON_FLESH: ReadonlySet<Ink> = new Set(['bran', 'flesh', 'core']);
const FLESH: Readonly<Record<Exclude<ColourDepth, 'none'>, string>> = {
  truecolor: '#8f6430',
  '256': 'ansi256(94)',
  '16': 'blackBright',
};
const ON_FLESH_HUES: Readonly<Record<Exclude<ColourDepth, 'none'>, Hues>> = {
  truecolor: { bran: '#5d3c12', flesh: '#b98a4e', core: '#ffffff' },
  '256': { bran: '58', flesh: '137', core: '231' },
  '16': { bran: 'black', flesh: 'black', core: 'whiteBright' },
};

type Hues = Partial<Record<Ink, string>>;

const TRUECOLOR: Readonly<Record<Ground, Hues>> = {
  unknown: {
    faint: '#808080',
    accent: '#2089b3',
    good: '#2f9150',
    watch: '#cb6a17',
    danger: '#dc4646',
    steam: '#6f8aa6',
    grain: '#a67c38',
    water: '#3a7fdc',
    cloth: '#8f78bb',
    film: '#3f9088',
  },
  dark: {
    faint: '#9a9a9a',
    accent: '#66c6e8',
    good: '#76cf8f',
    watch: '#f3a352',
    danger: '#ff8078',
    steam: '#b9cbdc',
    grain: '#d6ab67',
    water: '#79b2ff',
    cloth: '#bfadea',
    film: '#83d1c6',
  },
  light: {
    faint: '#666666',
    accent: '#0b6688',
    good: '#1c6e38',
    watch: '#96480a',
    danger: '#b32626',
    steam: '#4b637b',
    grain: '#7a551b',
    water: '#1f57a8',
    cloth: '#65509a',
    film: '#1f665f',
  },
};

const CUBE_256: Readonly<Record<Ground, Hues>> = {
  unknown: {
    faint: '244',
    accent: '31',
    good: '29',
    watch: '166',
    danger: '167',
    steam: '67',
    grain: '136',
    water: '32',
    cloth: '97',
    film: '66',
  },
  dark: {
    faint: '247',
    accent: '80',
    good: '114',
    watch: '215',
    danger: '210',
    steam: '152',
    grain: '179',
    water: '111',
    cloth: '183',
    film: '115',
  },
  light: {
    faint: '241',
    accent: '24',
    good: '22',
    watch: '94',
    danger: '124',
    steam: '60',
    grain: '58',
    water: '25',
    cloth: '97',
    film: '23',
  },
};

// Of the sixteen, only red and magenta can be read on black and on white in the common palettes; with an
// unknown ground the rest stays in the terminal's own foreground rather than risk an invisible word.
const SIXTEEN: Readonly<Record<Ground, Hues>> = {
  unknown: { watch: 'magenta', danger: 'red' },
  dark: {
    accent: 'cyanBright',
    good: 'greenBright',
    watch: 'yellowBright',
    danger: 'redBright',
    steam: 'cyan',
    grain: 'yellow',
    water: 'cyanBright',
    cloth: 'magentaBright',
    film: 'green',
  },
  light: { accent: 'blue', watch: 'magenta', danger: 'red', water: 'blue', cloth: 'magenta' },
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

const BY_DEPTH = { truecolor: TRUECOLOR, '256': CUBE_256, '16': SIXTEEN } as const;

function hueOf(colour: ColourDepth, ground: Ground, ink: Ink): string | undefined {
  if (colour === 'none') return undefined;
  const hues = ON_FLESH.has(ink) ? ON_FLESH_HUES[colour] : BY_DEPTH[colour][ground];
  const hue = hues[ink];
  return hue !== undefined && colour === '256' ? `ansi256(${hue})` : hue;
}

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
