/**
 * One append-only file for each batch: a header line, then one event a line, each on disk before the screen
 * shows its effect. Only the program that holds the batch's lock may open it for writing.
 */

import { dirname } from 'node:path';
import type { Journal, JournalHeader, JournalKind, JournalReading } from '../core/ports.ts';
import { EXIT, explained, GrowerError } from './failure.ts';
import { createWhole, type FileLayer, keepAside, nodeFiles, writeAll } from './files.ts';
import {
  type Accept,
  encodeLine,
  type JournalScan,
  type LineScan,
  scanJournal,
  scanLines,
} from './journal-read.ts';
import { createWriter } from './journal-write.ts';

/** What the batch wants kept in its first line. */
export type HeaderExtras = Readonly<Record<string, unknown>>;

/** Begins a new journal. Throws GrowerError when the file is there already or cannot be written. */
export function createJournal<E>(
  path: string,
  extras: HeaderExtras,
  files: FileLayer = nodeFiles,
  kind: JournalKind = 'batch',
): Journal<E> {
  const header: JournalHeader = { ...extras, stovehand: kind, version: 1 };
  const { bytes, sum } = encodeLine(header, 0);
  return explained(`The ${kind} could not be begun`, () => {
    files.folder(dirname(path));
    createWhole(files, path, bytes);
    const fd = files.open(path, 'updating');
    return createWriter<E>(files, { fd, path, header, length: bytes.length, sum });
  });
}

/** Reads a journal that another program may be writing. Throws GrowerError when there is no such file. */
export function readJournal<E>(
  path: string,
  accept: Accept<E>,
  files: FileLayer = nodeFiles,
  kind: JournalKind = 'batch',
): JournalReading<E> {
  return explained(`The ${kind} file could not be read`, () => {
    const fd = files.open(path, 'reading');
    try {
      const { header, entries, notices } = scanJournal(files, fd, accept, kind);
      return { header, entries, notices };
    } finally {
      files.close(fd);
    }
  });
}

/**
 * Goes through the journal of a batch line by line (see `scanLines`), keeping nothing of it. Throws GrowerError
 * when there is no such file.
 */
export function walkJournal(
  path: string,
  take: (json: Buffer, header: JournalHeader) => boolean,
  files: FileLayer = nodeFiles,
): LineScan {
  return explained('The batch file could not be read', () => {
    const fd = files.open(path, 'reading');
    try {
      return scanLines(files, fd, take);
    } finally {
      files.close(fd);
    }
  });
}

/** A journal opened for going on with its batch, and what it held. */
export interface OpenedJournal<E> {
  readonly journal: Journal<E>;
  readonly reading: JournalReading<E>;
  /** Where the whole file was copied before a damaged part was cut off; null when nothing was cut. */
  readonly keptAside: string | null;
}

/**
 * Opens a journal for writing behind its last good line. A torn last line is cut off; before anything else
 * is cut off, the file is copied aside. Throws GrowerError when the header cannot be read, when the file
 * comes from a newer version, and when the disk fails.
 */
export function openJournal<E>(
  path: string,
  accept: Accept<E>,
  files: FileLayer = nodeFiles,
  kind: JournalKind = 'batch',
): OpenedJournal<E> {
  return explained(`The ${kind} file could not be opened`, () => {
    const fd = files.open(path, 'updating');
    try {
      const scan = scanJournal(files, fd, accept, kind);
      const header = headerToGoOnWith(path, scan);
      const damaged = scan.notices.some(({ kind }) => kind !== 'torn');
      const keptAside = damaged ? keepAside(files, path, 'damaged') : null;
      const length = cutAndFeed(files, fd, scan);
      const journal = createWriter<E>(files, { fd, path, header, length, sum: scan.sum });
      return { journal, reading: { header, entries: scan.entries, notices: scan.notices }, keptAside };
    } catch (problem) {
      files.close(fd);
      throw problem;
    }
  });
}

/** Ends the file behind its last good line, with a line feed; returns its length. */
function cutAndFeed<E>(files: FileLayer, fd: number, { goodBytes, feedMissing }: JournalScan<E>): number {
  if (files.facts(fd).size > goodBytes) files.truncate(fd, goodBytes);
  if (feedMissing) writeAll(files, fd, Buffer.from('\n'), goodBytes);
  files.sync(fd);
  return feedMissing ? goodBytes + 1 : goodBytes;
}

/** What was read of a newer or failing file is good for looking, but going on would destroy the rest. */
function headerToGoOnWith<E>(path: string, { header, notices }: JournalScan<E>): JournalHeader {
  const hopeless = notices.find(({ kind }) => kind !== 'torn' && kind !== 'damaged');
  if (header !== null && hopeless === undefined) return header;
  const why = hopeless?.says ?? 'Its first line, which says what batch it is, is damaged.';
  throw new GrowerError(`The batch file ${path} cannot be gone on with. ${why}`, {
    tryThis: ['It is left as it is. Begin another batch, or put back a copy of the file.'],
    exitCode: EXIT.badFile,
  });
}
