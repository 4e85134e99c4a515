/**
 * The diary of the home: one journal of what happened to bags after their batches. Entries stand alone, so
 * a damaged line costs that line only. Held open, and its lock held, for the moment of an append.
 */
import { type DiaryEntry, type DiaryEvent, readDiaryEntry } from '../core/record/diary.ts';
import type { WallTime } from '../core/time.ts';
import { EXIT, GrowerError } from './failure.ts';
import { type FileLayer, nodeFiles, readStart } from './files.ts';
import { createJournal, openJournal, readJournal } from './journal.ts';
import { LONGEST_JOURNAL } from './journal-read.ts';
import { salvageLines, sayBadLines } from './journal-salvage.ts';
import { takeLock } from './lock.ts';

export const DIARY_FILE = 'diary.journal';

export interface DiaryOptions {
  readonly path: string;
  readonly now: () => WallTime;
  readonly files?: FileLayer;
  /** Makes the name of an entry; random unless a test says otherwise. */
  readonly newId?: () => string;
}

export interface DiaryReading {
  readonly entries: readonly DiaryEntry[];
  /** One sentence each: what could not be read. */
  readonly notices: readonly string[];
}

export interface Diary {
  readonly path: string;
  /** Everything kept; what cannot be read is named and the rest is there. Throws GrowerError. */
  read(): DiaryReading;
  /** Keeps events, on disk when this returns. Throws GrowerError. */
  add(...events: readonly DiaryEvent[]): readonly DiaryEntry[];
  /** Keeps entries of another diary that are not here yet, and returns those. Throws GrowerError. */
  merge(entries: readonly DiaryEntry[]): readonly DiaryEntry[];
}

const EMPTY: DiaryReading = { entries: [], notices: [] };

/** Every entry of the bytes that is whole by itself. */
export function salvageEntries(bytes: Buffer): { entries: DiaryEntry[]; badLines: readonly number[] } {
  const entries: DiaryEntry[] = [];
  const badLines = salvageLines(bytes, (value, number) => {
    const entry = number > 1 ? readDiaryEntry(value) : null;
    if (entry) entries.push(entry);
    return number === 1 || entry !== null;
  });
  return { entries, badLines };
}

/** Entries in a diary's bytes, wherever they come from. */
export function readDiaryBytes(bytes: Buffer): DiaryReading {
  const { entries, badLines } = salvageEntries(bytes);
  return { entries, notices: badLines.length === 0 ? [] : [sayBadLines('diary', badLines)] };
}

function readDiary(path: string, files: FileLayer): DiaryReading {
  if (files.look(path) === null) return EMPTY;
  const { entries, notices } = readJournal(path, readDiaryEntry, files, 'diary');
  if (!notices.some(({ kind }) => kind === 'damaged'))
    return { entries, notices: notices.map(({ says }) => says) };
  return readDiaryBytes(readStart(files, path, LONGEST_JOURNAL));
}

/** A line that is being written by another copy takes a moment, not seconds. */
const PATIENCE_MS = 20;
const ROUNDS = 50;
const pause = (): void => {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PATIENCE_MS);
};

function lockFor(path: string, files: FileLayer): { release(): void } {
  for (let round = 0; round < ROUNDS; round += 1) {
    const lock = takeLock(`${path}.lock`, files);
    if (lock.held) return lock;
    pause();
  }
  throw new GrowerError('Another Stovehand is writing the diary.', {
    tryThis: ['Try again in a moment.', `If none is running, remove ${path}.lock`],
    exitCode: EXIT.busyElsewhere,
  });
}

function append(
  path: string,
  files: FileLayer,
  choose: (known: readonly DiaryEntry[]) => readonly DiaryEntry[],
) {
  const lock = lockFor(path, files);
  try {
    const isNew = files.look(path) === null;
    const before = isNew ? EMPTY : readDiary(path, files);
    const added = choose(before.entries);
    if (added.length === 0) return added;
    const opened = isNew
      ? { journal: createJournal<DiaryEntry>(path, {}, files, 'diary'), entries: [] as readonly DiaryEntry[] }
      : openForGoingOn(path, files);
    try {
      // What stood behind a damaged line was cut off with it: it is written again.
      const there = new Set(opened.entries.map(({ id }) => id));
      for (const entry of before.entries) if (!there.has(entry.id)) opened.journal.append(entry);
      for (const entry of added) opened.journal.append(entry);
    } finally {
      opened.journal.close();
    }
    return added;
  } finally {
    lock.release();
  }
}

function openForGoingOn(path: string, files: FileLayer) {
  const { journal, reading } = openJournal(path, readDiaryEntry, files, 'diary');
  return { journal, entries: reading.entries };
}

/** The diary in that file; nothing is read or written yet. */
export function openDiary({
  path,
  now,
  files = nodeFiles,
  // Not from node:crypto, which takes longer to load than the first frame ought to wait.
  newId = () => Buffer.from(crypto.getRandomValues(new Uint8Array(8))).toString('hex'),
}: DiaryOptions): Diary {
  return {
    path,
    read: () => readDiary(path, files),
    add: (...events) => append(path, files, () => events.map(event => ({ id: newId(), wall: now(), event }))),
    merge: entries =>
      append(path, files, known => {
        const here = new Set(known.map(({ id }) => id));
        const fresh = new Map(entries.filter(({ id }) => !here.has(id)).map(entry => [entry.id, entry]));
        return [...fresh.values()];
      }),
  };
}
