/**
 * The colours of the inks at each colour depth and on each ground.
 *
 * Colours for an unknown ground are mid-tones that keep a contrast of 3:1 on white and on black alike
 * (WCAG 2.1, criterion 1.4.11); when the ground is known they are lighter or darker and reach 4.5:1.
 */

import type { Ink } from '../spans.ts';

export type ColourDepth = 'none' | '16' | '256' | 'truecolor';
export type Ground = 'dark' | 'light' | 'unknown';

// A cut face is drawn on a ground of its own, so that a white core is white on a light terminal too.
export const ON_FLESH: ReadonlySet<Ink> = new Set(['bran', 'flesh', 'core']);
export const FLESH: Readonly<Record<Exclude<ColourDepth, 'none'>, string>> = {
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

const BY_DEPTH = { truecolor: TRUECOLOR, '256': CUBE_256, '16': SIXTEEN } as const;

/** Colour of an ink in Ink's notation, or undefined to leave the terminal's own. */
export function hueOf(colour: ColourDepth, ground: Ground, ink: Ink): string | undefined {
  if (colour === 'none') return undefined;
  const hues = ON_FLESH.has(ink) ? ON_FLESH_HUES[colour] : BY_DEPTH[colour][ground];
  const hue = hues[ink];
  return hue !== undefined && colour === '256' ? `ansi256(${hue})` : hue;
}
