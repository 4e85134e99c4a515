/**
 * Stands in for `new Intl.Segmenter()` inside Ink's text libraries, put there by `patches.ts`. The first use of
 * the real one loads ICU's break rules, a third of the time to the first frame, and then costs a call into ICU
 * for every frame. What a coach draws is plain: letters, rules, blocks and braille, each of them a cluster of
 * its own. Only text with anything else in it is handed to the real one, which is then made.
 */

/**
 * Characters that are one cell wide and never join a neighbour (Unicode UAX #29: none of them is Extend,
 * SpacingMark, Prepend, Hangul, Regional_Indicator or ZWJ; UAX #11: none is wide). Line feed and escape always
 * break. Checked against Intl.Segmenter and string-width in `test/build/segmenter.test.ts`.
 */
const SIMPLE =
  '\\u0020-\\u007e\\u00a1-\\u00ac\\u00ae-\\u02ff\\u2010-\\u2027\\u2030-\\u205e\\u2190-\\u2199\\u2500-\\u259f\\u2713\\u2800-\\u28ff';
const simpleClusters = new RegExp(`^[\\n\\u001b${SIMPLE}]*$`);
const simpleCells = new RegExp(`^[${SIMPLE}]*$`);

/** Whether every UTF-16 unit of the text is one cell and one cluster. */
export const isSimpleCells = (text: string): boolean => simpleCells.test(text);

let real: Intl.Segmenter | null = null;

class SimpleSegments {
  readonly #text: string;
  constructor(text: string) {
    this.#text = text;
  }
  *[Symbol.iterator](): Generator<Intl.SegmentData> {
    const input = this.#text;
    for (let index = 0; index < input.length; index += 1) {
      yield { segment: input.charAt(index), index, input };
    }
  }
  containing(index = 0): Intl.SegmentData | undefined {
    const input = this.#text;
    const at = Math.trunc(index);
    return at >= 0 && at < input.length ? { segment: input.charAt(at), index: at, input } : undefined;
  }
}

/** The part of Intl.Segmenter that Ink's libraries use, by grapheme. */
export const graphemeSegmenter = {
  segment(text: string): SimpleSegments | Intl.Segments {
    if (simpleClusters.test(text)) return new SimpleSegments(text);
    real ??= new Intl.Segmenter(undefined, { granularity: 'grapheme' });
    return real.segment(text);
  },
};

/** A regular expression of which ICU builds the sets only when something is really tested with it. */
export function lazyRegExp(source: string, flags: string): { test(text: string): boolean } {
  let made: RegExp | null = null;
  return {
    test: text => {
      made ??= new RegExp(source, flags);
      return made.test(text);
    },
  };
}
