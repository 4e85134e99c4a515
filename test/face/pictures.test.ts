import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { choicePictures, picturedChoices, sideBySide } from '../../src/face/pictures/choices.ts';
import { dialDrawing } from '../../src/face/pictures/dial.ts';
import { COMPACT } from '../../src/face/pictures/frame.ts';
import { handfulDrawing, kernelDrawing } from '../../src/face/pictures/kernel.ts';
import { towelDrawing } from '../../src/face/pictures/towel.ts';
import { ventDrawing } from '../../src/face/pictures/vent.ts';
import type { Drawing } from '../../src/face/spans.ts';
import { lines, picture, SCALES, sizeOf } from './pictures-kit.ts';

/** Share of the cells inked in either picture that differ in plain text, colour left out. */
function unlike(a: Drawing, b: Drawing): number {
  const [left, right] = [[...lines(a).join('')], [...lines(b).join('')]];
  const inked = left.filter((char, index) => char !== ' ' || right[index] !== ' ').length;
  return left.filter((char, index) => char !== right[index]).length / inked;
}

// A vent that never steamed and one that stopped are the same sight; they are never offered side by side.
const SAME_SIGHT = new Set(['none stopped']);

describe.each(picturedChoices().map(([ask, choices]) => ({ ask, choices })))('$ask', ({ ask, choices }) => {
  it.each(SCALES)('%s pictures have exactly their size', scale => {
    for (const ascii of [false, true]) {
      for (const choice of choices) {
        const drawn = lines(picture(ask, choice, scale, ascii));
        expect(drawn).toHaveLength(sizeOf[scale].height);
        for (const line of drawn) expect(stringWidth(line), line).toBe(sizeOf[scale].width);
        for (const line of ascii ? drawn : []) expect(line).toMatch(/^[ -~]*$/);
      }
    }
  });

  it.each(SCALES)('%s pictures are told apart without colour: a fifth of the inked cells differ', scale => {
    for (const ascii of [false, true]) {
      for (const [index, one] of choices.entries()) {
        for (const other of choices.slice(index + 1)) {
          if (SAME_SIGHT.has(`${one} ${other}`)) continue;
          const share = unlike(picture(ask, one, scale, ascii), picture(ask, other, scale, ascii));
          expect(share, `${one} and ${other}, plain ${ascii}`).toBeGreaterThanOrEqual(0.2);
        }
      }
    }
  });

  it('look as they did', async () => {
    const sheets = SCALES.flatMap(scale =>
      [false, true].map(ascii =>
        [
          choices.join(' | '),
          ...lines(
            sideBySide(
              choices.map(choice => picture(ask, choice, scale, ascii)),
              2,
            ),
          ).map(line => line.trimEnd()),
        ].join('\n'),
      ),
    );
    await expect(`${sheets.join('\n\n')}\n`).toMatchFileSnapshot(`./frames/pictures/${ask}.txt`);
  });
});

it('a picture that does not exist is no picture', () => {
  expect(choicePictures('kernel-centre', 'purple', 'compact', false)).toBeNull();
  expect(choicePictures('__proto__', 'toString', 'compact', false)).toBeNull();
  expect(choicePictures('burst', 'constructor', 'large', true)).toBeNull();
});

it('four compact pictures fit side by side in 60 columns', () => {
  const four = ['soaked', 'several', 'faint', 'dry'].map(choice =>
    picture('towel', choice, 'compact', false),
  );
  for (const line of lines(sideBySide(four, 2))) expect(stringWidth(line)).toBe(58);
});

it('pictures of unequal height are filled up below', () => {
  const both = lines(
    sideBySide([picture('bag', 'torn', 'compact', true), picture('bag', 'torn', 'large', true)], 1),
  );
  expect(both).toHaveLength(10);
  for (const line of both) expect(line).toHaveLength(44);
});

it('states out of range are refused by name', () => {
  const options = { size: COMPACT, ascii: false };
  expect(() => kernelDrawing({ core: 1.2 }, options)).toThrow('core is a share from 0 to 1, not 1.2.');
  expect(() => handfulDrawing({ burst: Number.NaN, seed: 1 }, options)).toThrow(RangeError);
  expect(() => towelDrawing({ wetness: -0.1, seed: 1 }, options)).toThrow('wetness');
  expect(() => ventDrawing({ steam: 0.5, phase: Number.POSITIVE_INFINITY }, options)).toThrow('phase');
  expect(() => dialDrawing({ kPa: Number.NaN, targetKPa: 100, maxKPa: 150 }, options)).toThrow('dial');
  expect(() => dialDrawing({ kPa: 10, targetKPa: 160, maxKPa: 150 }, options)).toThrow(RangeError);
});
