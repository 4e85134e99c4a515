/** The keys of some places, as lines of a help screen: a long explanation goes on in the next line. */
import type { Batch } from '../core/batch/state.ts';
import { KEYMAP, type Place } from './keymap.ts';
import type { Regions } from './regions.ts';
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

/** One page of the help over a batch; its own title takes a row. */
export function runHelp(batch: Batch, { body }: Regions, page: number): HelpPage {
  const isOver = batch.finishedAt !== null && !batch.header.practice;
  const here: readonly Place[] = batch.header.practice ? ['practice', 'run'] : isOver ? ['done'] : ['run'];
  return helpPage(helpLines([...here, 'everywhere'], body.width), page, body.height - 1);
}

export interface HelpPage {
  readonly lines: readonly HelpLine[];
  readonly at: number;
  readonly of: number;
}

/** One page of them, round and round; `of` pages in all. */
export function helpPage(lines: readonly HelpLine[], page: number, rows: number): HelpPage {
  const of = Math.max(1, Math.ceil(lines.length / Math.max(1, rows)));
  const at = page % of;
  return { lines: lines.slice(at * rows, (at + 1) * rows), at, of };
}
