/** Sizes of filled containers: "18 x 11 x 8 cm", "9 cm wide, 12.5 cm high". */

import type { Parsed } from './quantity.ts';
import { LENGTH_UNITS, readUnits } from './quantity-units.ts';
import type { ContainerSize } from './recipe/recipe.ts';

export interface ReadSize {
  readonly size: ContainerSize;
  /** Two bare numbers were taken as width and height, which the person should confirm. */
  readonly guessed: boolean;
}

const EXPECTED =
  'a size with its unit, each side from 2 cm to 60 cm: three sides of a bag, such as 18 x 11 x 8 cm, or a jar as 9 cm wide, 12.5 cm high';
const NUMBER = String.raw`(?:(?:\d{1,4}\s+)?\d{1,4}\/\d{1,4}|\d{0,4}[¼½¾⅓⅔⅛]|\d{1,4}(?:[.,]\d{1,20})?)`;
const UNIT = `[a-z"'″′]{1,12}?`;
const SIDES = new RegExp(
  `^(${NUMBER})\\s*(${UNIT})?\\s*(?:x|×|\\*|by)\\s*(${NUMBER})\\s*(${UNIT})?(?:\\s*(?:x|×|\\*|by)\\s*(${NUMBER})\\s*(${UNIT})?)?$`,
  'i',
);
const WORDED = new RegExp(
  `^(${NUMBER})\\s*(${UNIT})?\\s+(wide|across|diameter|high|tall)\\s*(?:,|and|x|×|\\s)\\s*(${NUMBER})\\s*(${UNIT})?\\s+(wide|across|diameter|high|tall)$`,
  'i',
);
const isHeight = (word: string) => /^(high|tall)$/i.test(word);

/**
 * Reads the size of the filled part. Three sides make a brick, longest first whatever the order written;
 * a width and a height make an upright cylinder. Sides outside 2 to 60 cm are refused.
 */
export function parseSize(text: string): Parsed<ReadSize> {
  const plain = text.trim();
  const refused = { ok: false, expected: EXPECTED } as const;
  if (plain.length > 120) return refused;
  const worded = WORDED.exec(plain);
  if (worded) {
    const [, a = '', unitA = '', wordA = '', b = '', unitB = '', wordB = ''] = worded;
    const sides = metres([a, b], [unitA, unitB]);
    const [first, second] = sides ?? [];
    if (first === undefined || second === undefined || isHeight(wordA) === isHeight(wordB)) return refused;
    const [diameterM, heightM] = isHeight(wordA) ? [second, first] : [first, second];
    return { ok: true, value: { size: { shape: 'cylinder', diameterM, heightM }, guessed: false } };
  }
  const match = SIDES.exec(plain);
  if (!match) return refused;
  const [, a = '', unitA = '', b = '', unitB = '', c = '', unitC = ''] = match;
  const sides = c === '' ? metres([a, b], [unitA, unitB]) : metres([a, b, c], [unitA, unitB, unitC]);
  if (!sides) return refused;
  if (c === '') {
    const [diameterM = 0, heightM = 0] = sides;
    return { ok: true, value: { size: { shape: 'cylinder', diameterM, heightM }, guessed: true } };
  }
  const [lengthM = 0, widthM = 0, thicknessM = 0] = sides.toSorted((x, y) => y - x);
  return { ok: true, value: { size: { shape: 'brick', lengthM, widthM, thicknessM }, guessed: false } };
}

/** Each side with its own unit, or the last one given. */
function metres(numbers: readonly string[], units: readonly string[]): readonly number[] | null {
  const common = units.findLast(unit => unit !== '');
  if (common === undefined) return null;
  const sides: number[] = [];
  for (const [index, number] of numbers.entries()) {
    const reading = readUnits(`${number} ${units[index] || common}`, LENGTH_UNITS);
    if (!reading.ok || reading.value < 0.02 || reading.value > 0.6) return null;
    sides.push(reading.value);
  }
  return sides;
}
