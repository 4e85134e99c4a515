/**
 * The one number that matters, big enough for three metres. Digits, spaces and signs of one size share one
 * width, so that nothing jumps as a countdown runs.
 */

import { type Face, faceFor, type Glyph, glyphFor, linesFor } from './pictures/digit-glyphs.ts';
import { type Drawing, type Ink, type Row, span } from './spans.ts';

export interface DigitOptions {
  /** Height in rows, 3 to 24. */
  readonly rows: number;
  readonly ascii?: boolean;
  readonly ink?: Ink;
}

export interface DigitSpace {
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
  readonly ink?: Ink;
}

export const LEAST_DIGIT_ROWS = 3;
export const MOST_DIGIT_ROWS = 24;

const unknownChar = (char: string) =>
  new RangeError(`"${char}" has no big digit; 0 to 9, space and : - . ° h m s C F have one.`);

function checkRows(rows: number): void {
  if (!Number.isInteger(rows) || rows < LEAST_DIGIT_ROWS || rows > MOST_DIGIT_ROWS) {
    throw new RangeError(`Big digits have ${LEAST_DIGIT_ROWS} to ${MOST_DIGIT_ROWS} rows, not ${rows}.`);
  }
}

const isThin = (rows: number, ascii: boolean) => ascii && rows < 5;

function gapOf(rows: number, ascii: boolean): number {
  return isThin(rows, ascii) ? 1 : Math.max(1, Math.round(rows / 3.5));
}

function glyphsOf(text: string, face: Face, ascii: boolean): Glyph[] {
  return [...text].map(char => {
    const glyph = glyphFor(char, face, ascii);
    if (glyph === undefined) throw unknownChar(char);
    return glyph;
  });
}

function thinRows(text: string, rows: number): string[] {
  const glyphs = [...text].map(char => {
    const lines = linesFor(char);
    if (lines === undefined) throw unknownChar(char);
    return lines;
  });
  const lines = [0, 1, 2].map(row => glyphs.map(glyph => glyph[row] ?? '').join(' '));
  return [...lines, ...Array.from({ length: rows - 3 }, () => ' '.repeat(lines[0]?.length ?? 0))];
}

const HALVES = [' ', '▀', '▄', '█'] as const;

function glyphRow(glyph: Glyph, row: number, ascii: boolean): string {
  let text = '';
  for (let x = 0; x < glyph.width; x += 1) {
    if (ascii) text += glyph.inside(x, row) ? '#' : ' ';
    else text += HALVES[(glyph.inside(x, 2 * row) ? 1 : 0) + (glyph.inside(x, 2 * row + 1) ? 2 : 0)] ?? ' ';
  }
  return text;
}

/** Blanks at the end stay plain: nothing is written for them, second after second, where nothing follows. */
function digitRow(text: string, ink: Ink): Row {
  const inked = text.trimEnd();
  return inked === text ? [span(text, ink)] : [span(inked, ink), span(text.slice(inked.length))];
}

/** The text in big digits of exactly `rows` rows. Throws RangeError for a height or character it has not. */
export function bigDigits(text: string, { rows, ascii = false, ink = 'strong' }: DigitOptions): Drawing {
  checkRows(rows);
  if (isThin(rows, ascii)) return thinRows(text, rows).map(line => digitRow(line, ink));
  const glyphs = glyphsOf(text, faceFor(rows, ascii), ascii);
  const gap = ' '.repeat(gapOf(rows, ascii));
  return Array.from({ length: rows }, (_, row) =>
    digitRow(glyphs.map(glyph => glyphRow(glyph, row, ascii)).join(gap), ink),
  );
}

/** Width in cells of `bigDigits(text, {rows, ascii})`, without drawing it. */
export function digitsWidth(text: string, rows: number, ascii = false): number {
  checkRows(rows);
  const count = [...text].length;
  const inks = isThin(rows, ascii)
    ? (thinRows(text, rows)[0]?.length ?? 0) - Math.max(0, count - 1)
    : glyphsOf(text, faceFor(rows, ascii), ascii).reduce((sum, glyph) => sum + glyph.width, 0);
  return inks + Math.max(0, count - 1) * gapOf(rows, ascii);
}

/** Whether every character of the text has a big digit. */
export const hasBigDigits = (text: string): boolean => [...text].every(char => linesFor(char) !== undefined);

/**
 * The text as large as the space allows: the greatest height that fits both ways, or the plain text (cut
 * to the width) when no size fits or a character has no big digit. Give it the widest text the countdown
 * will show, by way of `bigDigits` and the height found, if the size must not change either.
 */
export function fitDigits(
  text: string,
  { width, height, ascii = false, ink = 'strong' }: DigitSpace,
): Drawing {
  const rows = fitDigitRows(text, { width, height, ascii });
  return rows === null
    ? [[span([...text].slice(0, Math.max(0, width)).join(''), ink)]]
    : bigDigits(text, { rows, ascii, ink });
}

/** The greatest height in rows at which the text fits, or null when only plain text does. */
export function fitDigitRows(
  text: string,
  { width, height, ascii = false }: Omit<DigitSpace, 'ink'>,
): number | null {
  if (!hasBigDigits(text)) return null;
  for (let rows = Math.min(MOST_DIGIT_ROWS, Math.floor(height)); rows >= LEAST_DIGIT_ROWS; rows -= 1) {
    if (digitsWidth(text, rows, ascii) <= width) return rows;
  }
  return null;
}
