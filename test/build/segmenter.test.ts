/**
 * The stand-in for Intl.Segmenter against the real one (ICU, Unicode UAX #29), and its widths against
 * string-width from npm, unpatched as it is in node_modules.
 */
import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { graphemeSegmenter, isSimpleCells, lazyRegExp } from '../../src/build/segmenter.ts';

const real = new Intl.Segmenter(undefined, { granularity: 'grapheme' });
const ours = (text: string) =>
  [...graphemeSegmenter.segment(text)].map(({ segment, index }) => [segment, index]);
const theirs = (text: string) => [...real.segment(text)].map(({ segment, index }) => [segment, index]);

const SIMPLE = Array.from({ length: 0xffff }, (_, code) => String.fromCharCode(code)).filter(isSimpleCells);

describe('characters that are called simple', () => {
  it('are those that the coach draws with', () => {
    expect(SIMPLE.length).toBeGreaterThan(900);
    for (const drawn of 'Rye ½ °C · … › ─ │ █ ▄ ▀ ⡠ ⣿ ✓ ← ↑ → ↓ ü é') expect(SIMPLE).toContain(drawn);
  });

  it('are each one cell wide', () => {
    expect(SIMPLE.filter(character => stringWidth(character) !== 1)).toEqual([]);
  });

  it('never join a neighbour, not even one another', () => {
    const joined = SIMPLE.filter(character => theirs(`a${character}${character}b`).length !== 4);
    expect(joined).toEqual([]);
    const all = SIMPLE.join('');
    expect(theirs(all)).toHaveLength(all.length);
    const backwards = SIMPLE.toReversed().join('');
    expect(theirs(backwards)).toHaveLength(backwards.length);
  });
});

describe('any text', () => {
  const text = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 40 }),
    fc.string({ unit: 'binary', maxLength: 40 }),
    fc.string({
      unit: fc.constantFrom(...'aé─█\u001b\n\r\u0301\u200d', '👩‍🌾', '🇮', '한', '\u1100', '\u1161'),
      maxLength: 20,
    }),
  );

  it('is cut into the same clusters as by the real one', () => {
    fc.assert(
      fc.property(text, sample => {
        expect(ours(sample)).toEqual(theirs(sample));
      }),
      { numRuns: 2000 },
    );
  });

  it('has the same cluster at an index', () => {
    fc.assert(
      fc.property(text, fc.integer({ min: -1, max: 45 }), (sample, index) => {
        const ask = (of: { containing(index?: number): Intl.SegmentData | undefined }) => {
          const found = of.containing(index);
          return found ? { segment: found.segment, index: found.index, input: found.input } : undefined;
        };
        expect(ask(graphemeSegmenter.segment(sample))).toEqual(ask(real.segment(sample)));
      }),
      { numRuns: 1000 },
    );
  });

  it('that is called simple is as wide as it is long', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...SIMPLE), { maxLength: 60 }), characters => {
        const sample = characters.join('');
        expect(isSimpleCells(sample)).toBe(true);
        expect(stringWidth(sample)).toBe(sample.length);
      }),
      { numRuns: 500 },
    );
  });
});

it('a late regular expression finds what an early one finds', () => {
  const late = lazyRegExp('^\\p{RGI_Emoji}$', 'v');
  for (const [sample, is] of [
    ['👩‍🌾', true],
    ['🇮🇹', true],
    ['█', false],
    ['', false],
  ] as const) {
    expect(late.test(sample)).toBe(is);
  }
});
