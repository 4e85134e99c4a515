/**
 * The types in which core, shell and face meet. The shell implements them on real clocks and files, tests
 * implement them by hand, the face and the core only see what is written here.
 */

import type { AlertWishes, KitchenAnswers } from './kitchen.ts';
import type { ClockSample } from './time.ts';

/** Samples the clocks of the machine and ticks once a second for as long as anybody listens. */
export interface Clock {
  sample(): ClockSample;
  /** Calls the listener at every tick; the answer stops it. After sleep, hours are one tick. */
  onTick(listener: (now: ClockSample) => void): () => void;
}

/** A journal is one batch, or the diary of all bags after their batches. */
export type JournalKind = 'batch' | 'diary';

/** First line of a journal; further keys are the batch's own and come back as they were written. */
export interface JournalHeader {
  readonly stovehand: JournalKind;
  readonly version: 1;
  readonly [key: string]: unknown;
}

export type JournalNoticeKind = 'empty' | 'torn' | 'damaged' | 'newer' | 'too large' | 'unreadable';

/** What was found wrong in a journal, in one sentence fit for the screen. */
export interface JournalNotice {
  readonly kind: JournalNoticeKind;
  /** 1-based line at which reading ended. */
  readonly line: number;
  /** Lines after that one that were left out. */
  readonly leftOut: number;
  readonly says: string;
}

/** What a journal holds up to its first unreadable line; `header` is null when not even that is readable. */
export interface JournalReading<E> {
  readonly header: JournalHeader | null;
  readonly entries: readonly E[];
  readonly notices: readonly JournalNotice[];
}

/** A batch's file, open for writing by the one program that holds its lock. */
export interface Journal<E> {
  readonly path: string;
  readonly header: JournalHeader;
  /** Why the last append failed; null when the last one is safely on disk. */
  readonly trouble: string | null;
  /**
   * Returns once the entry is on disk. On failure throws, having left the file as it was; the same entry
   * may be appended again later.
   */
  append(entry: E): void;
  close(): void;
}

/** What the program keeps between batches; nothing of a running batch is kept here. */
export interface SettingsValues {
  readonly kitchen: KitchenAnswers;
  /** File or name of the recipe last run; empty when none was. */
  readonly lastRecipe: string;
  /** The first questions about the kitchen were asked, answered or not. */
  readonly kitchenAsked: boolean;
  /** The first-run lesson was offered, taken or not. */
  readonly lessonOffered: boolean;
}

export interface Settings {
  readonly values: SettingsValues;
  /** One sentence for each key that was ignored, or for a file that was set aside. */
  readonly notices: readonly string[];
  /** Keeps the change; rejects when it could not be written, and then the values are as before. */
  save(change: Partial<SettingsValues>): Promise<void>;
}

/** wanted: an answer is due now. soon: within a minute or so. well: as planned. danger: act at once. */
export type AlertKind = 'wanted' | 'soon' | 'well' | 'danger';

export interface Alert {
  readonly kind: AlertKind;
  readonly says: string;
}

/** What the window's title and progress bar show while nobody looks at the window itself. */
export interface Outward {
  readonly title: string;
  /** 0 to 1; null when there is nothing to measure. */
  readonly progress: number | null;
}

/** Makes itself heard and seen outside the window, as far as the person wishes. */
export interface Alerter {
  /** Rings, notifies and speaks now, and again until answered. A newer alert replaces the last. */
  raise(alert: Alert): void;
  /** The person did something: silence. */
  answered(): void;
  show(outward: Outward): void;
  wish(wishes: AlertWishes): void;
  /** Silence, and the window's title and progress given back. */
  close(): void;
}
