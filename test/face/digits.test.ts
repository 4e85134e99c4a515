import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import {
  bigDigits,
  digitsWidth,
  fitDigitRows,
  fitDigits,
  LEAST_DIGIT_ROWS,
  MOST_DIGIT_ROWS,
} from '../../src/face/digits.ts';
import { type Drawing, rowText } from '../../src/face/spans.ts';

const lines = (drawing: Drawing) => drawing.map(rowText);
const ALL = '0123456789:-.° hmsCF';
const SIZES = Array.from(
  { length: MOST_DIGIT_ROWS - LEAST_DIGIT_ROWS + 1 },
  (_, index) => index + LEAST_DIGIT_ROWS,
);
const distance = (a: string, b: string) => [...a].filter((char, index) => char !== [...b][index]).length;

describe.each([false, true])('plain characters: %s', ascii => {
  it('every size has the rows asked for, all of the width promised', () => {
    for (const rows of SIZES) {
      for (const text of [...ALL, '1:59:08', '-4.5°C', '2h 30m 05s', '']) {
        const drawn = lines(bigDigits(text, { rows, ascii }));
        expect(drawn).toHaveLength(rows);
        for (const line of drawn) expect([...line]).toHaveLength(digitsWidth(text, rows, ascii));
      }
    }
  });

  it('every character drawn is one cell wide', () => {
    const used = SIZES.flatMap(rows => lines(bigDigits(ALL, { rows, ascii })).flatMap(line => [...line]));
    for (const char of new Set(used)) expect(stringWidth(char), char).toBe(1);
  });

  it('digits, space and minus share one width, so that a countdown never jumps', () => {
    for (const rows of SIZES) {
      expect(new Set([...'0123456789 -'].map(char => digitsWidth(char, rows, ascii))).size).toBe(1);
      expect(digitsWidth('1:11:11', rows, ascii)).toBe(digitsWidth('8:88:88', rows, ascii));
    }
  });

  it('no two characters look alike: at least a fifteenth of the inked cells differ', () => {
    for (const rows of SIZES) {
      const glyphs = [...'0123456789-'].map(char => lines(bigDigits(char, { rows, ascii })).join(''));
      for (const [index, glyph] of glyphs.entries()) {
        for (const other of glyphs.slice(index + 1)) {
          const inked = [...glyph].filter((char, place) => char !== ' ' || [...other][place] !== ' ').length;
          expect(distance(glyph, other) / inked, `\n${glyph}\n${other}`).toBeGreaterThanOrEqual(1 / 15);
        }
      }
    }
  });

  it('a colon is two separate dots with nothing between them', () => {
    for (const rows of SIZES) {
      const inked = lines(bigDigits(':', { rows, ascii })).map(line => line.trim());
      const runs = inked
        .join('\n')
        .split(/\n{2,}/)
        .filter(run => run.trim() !== '').length;
      const halves = inked.filter(line => /[▀▄█#o]/.test(line)).length;
      expect(runs >= 2 || halves >= 2, inked.join('|')).toBe(true);
      expect(inked.join('')).not.toBe('');
    }
  });

  it('a larger size is never narrower', () => {
    for (const [index, rows] of SIZES.entries()) {
      const next = SIZES[index + 1];
      if (next === undefined || (ascii && rows < 5)) continue;
      expect(digitsWidth('8:88', next, ascii)).toBeGreaterThanOrEqual(digitsWidth('8:88', rows, ascii));
    }
  });
});

it('strokes read from afar: at seven rows an upright is three cells wide', () => {
  const [, second = ''] = lines(bigDigits('0', { rows: 7 }));
  expect(second).toMatch(/^███ +███$/);
});

it('plain characters only when asked', () => {
  for (const rows of SIZES) {
    for (const line of lines(bigDigits('0123456789:-. hmsCF', { rows, ascii: true })))
      expect(line).toMatch(/^[ -~]*$/);
  }
});

describe('fitting', () => {
  it('takes the greatest size that fits both ways', () => {
    for (const [width, height] of [
      [60, 6],
      [80, 9],
      [160, 24],
      [36, 12],
    ] as const) {
      const rows = fitDigitRows('1:59:08', { width, height });
      if (rows === null) throw new Error('nothing fits');
      expect(digitsWidth('1:59:08', rows)).toBeLessThanOrEqual(width);
      expect(rows).toBeLessThanOrEqual(height);
      const next = rows + 1;
      expect(next > height || next > MOST_DIGIT_ROWS || digitsWidth('1:59:08', next) > width).toBe(true);
      expect(fitDigits('1:59:08', { width, height })).toHaveLength(rows);
    }
  });

  it('falls back to the plain text, cut to the width', () => {
    expect(lines(fitDigits('1:59:08', { width: 10, height: 5 }))).toEqual(['1:59:08']);
    expect(lines(fitDigits('1:59:08', { width: 80, height: 2 }))).toEqual(['1:59:08']);
    expect(lines(fitDigits('soon', { width: 80, height: 9 }))).toEqual(['soon']);
    expect(lines(fitDigits('1:59:08', { width: 4, height: 1 }))).toEqual(['1:59']);
  });
});

it('refuses sizes and characters it has not, saying which it has', () => {
  expect(() => bigDigits('1', { rows: 2 })).toThrow('Big digits have 3 to 24 rows, not 2.');
  expect(() => bigDigits('1', { rows: 25 })).toThrow(RangeError);
  expect(() => bigDigits('1', { rows: 4.5 })).toThrow(RangeError);
  expect(() => bigDigits('x', { rows: 5 })).toThrow('"x" has no big digit');
});

it('looks as it did', async () => {
  const parts = [3, 4, 5, 7, 9].flatMap(rows => [
    ...lines(bigDigits('01234', { rows })),
    '',
    ...lines(bigDigits('56789', { rows })),
    '',
    ...lines(bigDigits('1:59:08', { rows })),
    '',
  ]);
  const plain = [3, 5, 7].flatMap(rows => [...lines(bigDigits('0123456789', { rows, ascii: true })), '']);
  const text = [...parts, ...plain].map(line => line.trimEnd()).join('\n');
  expect(text).toContain('█▀▀█');
  await expect(text).toMatchFileSnapshot('./frames/pictures/digits.txt');
});
