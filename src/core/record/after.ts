/** What the face may ask of the record and the diary. The shell gives it, tests fake it. */
import type { WallTime } from '../time.ts';
import type { CultureRecord, DiaryEntry, DiaryEvent } from './diary.ts';
import type { Change } from './next-time.ts';
import type { RecordedBatch } from './record.ts';

export interface Today {
  /** Local midnights before and after now. */
  readonly start: WallTime;
  readonly end: WallTime;
}

/** Files for the printer and the calendar. */
export type PageKind = 'labels' | 'card' | 'calendar';

export interface MadePage {
  /** Null when nothing was written. */
  readonly path: string | null;
  /** What was written, or why it could not be, in a sentence. */
  readonly says: string;
}

export interface AfterServices {
  /** Every batch that is over, oldest first; what could not be read is in `notices`. */
  readonly record: () => { readonly batches: readonly RecordedBatch[]; readonly notices: readonly string[] };
  /** One batch, finished or not; null when it cannot be read. */
  readonly batch: (id: string) => RecordedBatch | null;
  readonly cultures: () => readonly CultureRecord[];
  /** Keeps what was done to bags, on disk when this returns; the entries, or a sentence why not. */
  readonly keep: (...events: readonly DiaryEvent[]) => readonly DiaryEntry[] | string;
  readonly today: () => Today;
  /** Writes a page about a batch under a free name in the home's own folder of pages. */
  readonly makePage: (kind: PageKind, batch: string) => Promise<MadePage>;
  /** Opens a written page in the browser; a sentence either way. */
  readonly openPage: (path: string) => Promise<string>;
  /** Saves the recipe with these changes and makes it the one `again` runs; a sentence either way. */
  readonly saveNext: (recorded: RecordedBatch, changes: readonly Change[]) => Promise<string>;
}
