/** The keys of some places, as lines of a help screen: a long explanation goes on in the next line. */
import { KEYMAP, type Place } from './keymap.ts';
import { wrapLines } from './wrap.ts';

export interface HelpLine {
  readonly id: string;
  /** Empty where the line goes on. */
  readonly shown: string;
  readonly says: string;
}

/** Columns that the keys themselves take. */
export const KEY_COLUMN = 9;

export const helpLines = (places: readonly Place[], width: number): readonly HelpLine[] =>
  places
    .flatMap(place => KEYMAP.filter(entry => entry.place === place))
    .flatMap(({ place, act, shown, says }) =>
      wrapLines(says, width - KEY_COLUMN).map((line, index) => ({
        id: `${place} ${act} ${index}`,
        shown: index === 0 ? shown : '',
        says: line,
      })),
    );

/** One page of them, round and round; `of` pages in all. */
export function helpPage(
  lines: readonly HelpLine[],
  page: number,
  rows: number,
): { readonly lines: readonly HelpLine[]; readonly at: number; readonly of: number } {
  const of = Math.max(1, Math.ceil(lines.length / Math.max(1, rows)));
  const at = page % of;
  return { lines: lines.slice(at * rows, (at + 1) * rows), at, of };
}
