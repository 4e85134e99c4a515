/** The batches of this home: begin one, open one to go on with, list them. */
import { join } from 'node:path';
import { type Entry, readEntry } from '../core/batch/entry.ts';
import { begin, step } from '../core/batch/machine.ts';
import { replay } from '../core/batch/replay.ts';
import type { BatchEvent } from '../core/batch/events.ts';
import type { Batch, BatchHeader } from '../core/batch/state.ts';
import type { Clock, JournalReading } from '../core/ports.ts';
import type { Session } from '../core/session.ts';
import { type ClockSample, elapsedBetween } from '../core/time.ts';
import { EXIT, explained, GrowerError } from './failure.ts';
import { type FileLayer, nodeFiles } from './files.ts';
import { createJournal, type OpenedJournal, openJournal, readJournal } from './journal.ts';
import { headerOf, type ListedBatch, overSession, readBatchFile } from './batch-read.ts';
import { warnOfClosedCooker } from './left-out.ts';
import { type Lock, takeLock } from './lock.ts';
import { runSession } from './session.ts';
import { openSummaries } from './summaries.ts';
import { watchSession } from './watch-session.ts';

const ENDING = '.batch';
/** `2648a`: year and ISO week of its beginning, and a letter. */
export const BATCH_ID = /^\d{4}[a-z]{1,3}$/;

export interface BatchesOptions {
  readonly folder: string;
  readonly clock: Clock;
  readonly files?: FileLayer;
  readonly gapMs?: number;
}

const pathOf = (folder: string, id: string): string => join(folder, `${id}${ENDING}`);

/** ISO 8601 week of an instant in local time, as `yyww`. */
export function yearWeek(wall: number): string {
  const day = new Date(wall);
  day.setHours(12, 0, 0, 0);
  day.setDate(day.getDate() + 3 - ((day.getDay() + 6) % 7));
  const first = new Date(day.getFullYear(), 0, 4, 12);
  const week =
    1 + Math.round(((day.getTime() - first.getTime()) / 86_400_000 - 3 + ((first.getDay() + 6) % 7)) / 7);
  return `${String(day.getFullYear() % 100).padStart(2, '0')}${String(week).padStart(2, '0')}`;
}

/** a, b ... z, aa, ab ...: the count in letters. */
function letters(index: number): string {
  const last = String.fromCharCode(97 + (index % 26));
  return index < 26 ? last : letters(Math.floor(index / 26) - 1) + last;
}

function ids({ folder, files = nodeFiles }: BatchesOptions): string[] {
  if (files.look(folder) === null) return [];
  return files
    .list(folder)
    .filter(name => name.endsWith(ENDING))
    .map(name => name.slice(0, -ENDING.length))
    .filter(id => BATCH_ID.test(id))
    .sort((a, b) => a.slice(0, 4).localeCompare(b.slice(0, 4)) || a.length - b.length || a.localeCompare(b));
}

function freeId(options: BatchesOptions, wall: number): string {
  const taken = new Set(ids(options));
  for (let index = 0; ; index += 1) {
    const id = yearWeek(wall) + letters(index);
    if (!taken.has(id)) return id;
  }
}

/** Begins a batch: its file is on disk when this returns. Throws GrowerError when it cannot be. */
export const beginBatch = (options: BatchesOptions, header: Omit<BatchHeader, 'id' | 'beganWall'>): Session =>
  explained('The batch could not be begun', () => begun(options, header));

function begun(options: BatchesOptions, header: Omit<BatchHeader, 'id' | 'beganWall'>): Session {
  const files = options.files ?? nodeFiles;
  const sample = options.clock.sample();
  const id = freeId(options, sample.wall);
  const path = pathOf(options.folder, id);
  const whole: BatchHeader = { ...header, id, beganWall: sample.wall };
  const lock = mustHold(takeLock(`${path}.lock`, files), id);
  try {
    const { uptime, boot } = sample;
    return runSession({
      run: begin(whole),
      clock: options.clock,
      journal: createJournal<Entry>(path, { ...whole, uptime, boot }, files),
      sample,
      notices: [],
      ...(options.gapMs === undefined ? {} : { gapMs: options.gapMs }),
      onClose: lock.release,
    });
  } catch (problem) {
    lock.release();
    throw problem;
  }
}

function mustHold(lock: Lock, id: string): Extract<Lock, { held: true }> {
  if (lock.held) return lock;
  throw new GrowerError(`Batch ${id} is being run by another Stovehand.`, { exitCode: EXIT.busyElsewhere });
}

const sayMisfit = (line: number): string =>
  `Line ${line} of the batch file does not fit what came before; it was left out.`;

/** What the clocks said at the last line; where it does not tell, another machine, of which nothing is certain. */
function lastSample({ wall }: Batch, { header, entries }: JournalReading<Entry>): ClockSample {
  const { uptime, boot } = entries.at(-1) ?? { uptime: header?.uptime, boot: header?.boot };
  const told = typeof uptime === 'number' && Number.isFinite(uptime) && typeof boot === 'string';
  return { wall, uptime: told ? uptime : 0, boot: told ? boot : '', steady: 0, process: '' };
}

const warnings = (files: FileLayer, keptAside: string, { notices }: JournalReading<Entry>): string[] =>
  notices.map(({ line }) => warnOfClosedCooker(files, keptAside, line)).filter(warning => warning !== null);

/**
 * Opens a batch to go on with it; when another program runs it, to watch it. Time since its last line is
 * taken as a gap: what counts of it is the machine's to say. Throws GrowerError.
 */
export const openBatch = (options: BatchesOptions, id: string): Session =>
  explained('The batch could not be opened', () => opened(options, id));

function opened(options: BatchesOptions, id: string): Session {
  const files = options.files ?? nodeFiles;
  const path = pathOf(options.folder, id);
  if (!BATCH_ID.test(id) || files.look(path) === null) {
    throw new GrowerError(`There is no batch ${id} here.`, {
      tryThis: ['List them with: stovehand batches'],
      exitCode: EXIT.usage,
    });
  }
  // There is nothing to go on with, so nothing is cut off for it.
  const seen = readBatchFile(path, id, files);
  if (seen.says.length > 0 && seen.batch && seen.batch.finishedAt !== null)
    return overSession(seen, seen.batch);
  const lock = takeLock(`${path}.lock`, files);
  if (!lock.held) {
    const reading = readJournal(path, readEntry, files);
    const notices = ['Another Stovehand runs this batch: this one only watches.'];
    return watchSession({ path, header: headerOf(path, reading), clock: options.clock, notices, files });
  }
  try {
    const { journal, reading, keptAside } = openJournal(path, readEntry, files);
    try {
      return goOn(options, { path, journal, reading, keptAside, onClose: lock.release });
    } catch (problem) {
      journal.close();
      throw problem;
    }
  } catch (problem) {
    lock.release();
    throw problem;
  }
}

interface Opened extends OpenedJournal<Entry> {
  readonly path: string;
  readonly onClose: () => void;
}

/** The batch as its journal left it, and the time since then on disk as a gap. */
function goOn(options: BatchesOptions, { path, journal, reading, keptAside, onClose }: Opened): Session {
  const files = options.files ?? nodeFiles;
  const header = headerOf(path, reading);
  const { run, misfits } = replay(
    header,
    reading.entries.map(entry => entry.event),
  );
  const before = lastSample(run.batch, reading);
  const sample = options.clock.sample();
  const { ms, claimed } = elapsedBetween(before, sample);
  const event: BatchEvent = {
    type: 'gap',
    why: 'restart',
    t: run.batch.now + ms,
    wall: sample.wall,
    ...(claimed === undefined ? {} : { claimedMs: claimed - ms }),
  };
  const gap = run.batch.finishedAt === null ? step(run, event) : null;
  if (gap?.ok) journal.append({ event, uptime: sample.uptime, boot: sample.boot });
  const notices = [
    ...(keptAside === null ? [] : warnings(files, keptAside, reading)),
    ...reading.notices.map(notice => notice.says),
    ...(keptAside === null ? [] : [`The whole file was kept as ${keptAside}.`]),
    ...misfits.map(({ index }) => sayMisfit(index + 2)),
  ];
  return runSession({
    run: gap?.ok ? gap.run : run,
    clock: options.clock,
    journal,
    sample,
    notices,
    ...(options.gapMs === undefined ? {} : { gapMs: options.gapMs }),
    onClose,
  });
}

/**
 * Every batch of the folder, oldest first; one that cannot be read says why and hides no other. Finished
 * batches come out of their summaries while their files are unchanged.
 */
export function listBatches(options: BatchesOptions): readonly ListedBatch[] {
  const files = options.files ?? nodeFiles;
  const here = ids(options);
  const summaries = openSummaries(options.folder, files);
  const listed = here.map((id): ListedBatch => {
    const path = pathOf(options.folder, id);
    const facts = files.look(path);
    const known = facts && summaries.find(id, facts);
    if (known) return { id, path, batch: known.batch, says: known.says };
    const read = readBatchFile(path, id, files);
    const { batch } = read;
    if (facts && batch && batch.finishedAt !== null)
      summaries.remember(id, facts, { batch, says: read.says });
    return read;
  });
  summaries.save(here);
  return listed;
}

/** One batch out of its own journal; one that cannot be read says why. */
export const readBatch = (options: BatchesOptions, id: string): ListedBatch =>
  readBatchFile(pathOf(options.folder, id), id, options.files ?? nodeFiles);
