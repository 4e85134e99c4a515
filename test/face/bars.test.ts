import stringWidth from 'string-width';
import { expect, it } from 'vitest';
import { progressBar, sparkline } from '../../src/face/bars.ts';
import { type Drawing, rowText } from '../../src/face/spans.ts';

const text = (drawing: Drawing) => drawing.map(rowText).join('\n');

it('fills in eighths of a cell', () => {
  expect(text(progressBar({ share: 0, width: 8 }))).toBe('░░░░░░░░');
  expect(text(progressBar({ share: 0.5, width: 8 }))).toBe('████░░░░');
  expect(text(progressBar({ share: 1 / 64, width: 8 }))).toBe('▏░░░░░░░');
  expect(text(progressBar({ share: 1, width: 8 }))).toBe('████████');
});

it('is full only when done, in both alphabets', () => {
  for (const ascii of [false, true]) {
    const almost = text(progressBar({ share: 0.9999, width: 40, ascii }));
    expect(almost).not.toBe(text(progressBar({ share: 1, width: 40, ascii })));
  }
});

it('never shrinks as the share grows, and keeps its width', () => {
  for (const ascii of [false, true]) {
    let before = -1;
    for (let share = 0; share <= 1; share += 0.001) {
      const bar = text(progressBar({ share, width: 17, ascii }));
      expect(stringWidth(bar)).toBe(17);
      const done = [...bar].filter(char => char === '█' || char === '#').length;
      expect(done).toBeGreaterThanOrEqual(before);
      before = done;
    }
  }
});

it('refuses what is no share and what is no width', () => {
  expect(() => progressBar({ share: 1.01, width: 8 })).toThrow('A bar shows a share from 0 to 1, not 1.01.');
  expect(() => progressBar({ share: Number.NaN, width: 8 })).toThrow(RangeError);
  expect(() => progressBar({ share: 0.5, width: 2 })).toThrow(RangeError);
});

it('a curve rises and falls with its values', () => {
  expect(text(sparkline([0, 1, 2, 3, 4, 5, 6, 7], { width: 8 }))).toBe('▁▂▃▄▅▆▇█');
  expect(text(sparkline([7, 0, 7], { width: 5 }))).toBe('█▁█  ');
  expect(text(sparkline([7, 0, 7], { width: 3, ascii: true }))).toBe('#_#');
  expect(text(sparkline([4, 4], { width: 2 }))).toBe('▅▅');
  expect(text(sparkline([], { width: 4 }))).toBe('    ');
});

it('averages what does not fit', () => {
  expect(text(sparkline([0, 0, 10, 10], { width: 2 }))).toBe('▁█');
  expect(text(sparkline([0, 10, 0, 10], { width: 2, from: 0, to: 10 }))).toBe('▅▅');
});

it('refuses a value that is no number, by its place', () => {
  expect(() => sparkline([1, Number.NaN], { width: 2 })).toThrow('Value 2 of the curve is no number: NaN.');
});
