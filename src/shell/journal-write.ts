/**
 * Appending to an open journal so that a failure leaves the file as it was: a write that fails, falls short
 * or cannot be synced is cut off again, now or at the latest before the next one. The same entry may then be
 * tried again.
 */

import { dirname } from 'node:path';
import type { Journal, JournalHeader, JournalKind } from '../core/ports.ts';
import { EXIT, GrowerError, plainCause, reason } from './failure.ts';
import { attempt, copyInto, errorCode, type FileLayer, writeAll } from './files.ts';
import { encodeLine, LONGEST_JOURNAL, LONGEST_LINE } from './journal-read.ts';

export interface OpenJournalFile {
  readonly fd: number;
  readonly path: string;
  readonly header: JournalHeader;
  /** Bytes of good lines; the file ends there. */
  readonly length: number;
  /** Checksum to continue from. */
  readonly sum: number;
}

/** How the name and the open file stand to one another. */
type Place = 'ours' | 'gone' | 'replaced';

export function createWriter<E>(files: FileLayer, file: OpenJournalFile): Journal<E> {
  const { path, header } = file;
  const kind = header.stovehand;
  let { fd, length, sum } = file;
  let trouble: string | null = null;
  /** The file may hold the remains of a failed write behind `length`. */
  let untidy = false;
  let open = true;

  const place = (): Place => {
    const named = files.look(path);
    if (named === null) return 'gone';
    return named.identity === files.facts(fd).identity ? 'ours' : 'replaced';
  };

  const tidy = () => {
    files.truncate(fd, length);
    untidy = false;
  };

  /** Writes the open file, which has lost its name, under that name again. */
  const restore = () => {
    files.folder(dirname(path));
    copyInto(files, fd, path);
    const again = files.open(path, 'updating');
    files.close(fd);
    fd = again;
  };

  const prepare = () => {
    if (untidy) tidy();
    if (files.facts(fd).size !== length) throw changedElsewhere(path, kind);
    if (trouble !== null && place() === 'gone') restore();
  };

  const write = (bytes: Buffer) => {
    untidy = true;
    writeAll(files, fd, bytes, length);
    files.sync(fd);
    // A file whose name is gone takes every write and is lost at the end.
    const where = place();
    if (where === 'gone') throw lostName(path, kind);
    if (where === 'replaced') throw changedElsewhere(path, kind);
    untidy = false;
  };

  return {
    path,
    header,
    get trouble() {
      return trouble;
    },
    append: entry => {
      if (!open) throw new Error('this journal is closed');
      const line = encodeLine(entry, sum);
      if (line.bytes.length > LONGEST_LINE || length + line.bytes.length > LONGEST_JOURNAL)
        throw tooLarge(kind);
      try {
        prepare();
        write(line.bytes);
      } catch (problem) {
        if (untidy) attempt(tidy);
        const failure = problem instanceof GrowerError ? problem : notWritten(problem, kind);
        trouble = failure.message;
        throw failure;
      }
      length += line.bytes.length;
      sum = line.sum;
      trouble = null;
    },
    close: () => {
      if (!open) return;
      open = false;
      if (untidy) attempt(tidy);
      // Every line is on disk already, and a program that ends must not fail over a disk that went away.
      attempt(() => files.close(fd));
    },
  };
}

function notWritten(problem: unknown, kind: JournalKind): GrowerError {
  const hint = plainCause(problem)?.tryThis ?? 'Check the disk.';
  const mend = ['ENOSPC', 'EDQUOT'].includes(errorCode(problem)) ? 'free some space' : 'mend that';
  return new GrowerError(
    `The ${kind} could not be written: ${reason(problem)}. Nothing was lost; ${mend} and press the key again.`,
    { tryThis: [hint], exitCode: EXIT.cannotWrite, cause: problem },
  );
}

function lostName(path: string, kind: JournalKind): GrowerError {
  return new GrowerError(
    `The ${kind} could not be written: its file was removed. Nothing was lost; press the key again to write it anew.`,
    { tryThis: [`The file was ${path}`], exitCode: EXIT.cannotWrite },
  );
}

function changedElsewhere(path: string, kind: JournalKind): GrowerError {
  return new GrowerError(`The ${kind} could not be written: another program has changed its file.`, {
    tryThis: [`Close that program, then start Stovehand again. The file is ${path}`],
    exitCode: EXIT.busyElsewhere,
  });
}

function tooLarge(kind: JournalKind): GrowerError {
  return new GrowerError(`The ${kind} could not be written: its file has grown beyond all measure.`, {
    tryThis: [
      kind === 'batch' ? 'End the batch and begin another one.' : 'Export it and begin another home.',
    ],
    exitCode: EXIT.cannotWrite,
  });
}
