/** A batch as its file leaves it, for looking at: read in one pass, nothing kept but where it ended. */
import { readEntry } from '../core/batch/entry.ts';
import { readBatchHeader } from '../core/batch/header.ts';
import { type Replaying, replaying } from '../core/batch/replay.ts';
import type { Batch, BatchHeader } from '../core/batch/state.ts';
import { readTickLine } from '../core/batch/tick-line.ts';
import type { JournalHeader, JournalReading } from '../core/ports.ts';
import type { Session } from '../core/session.ts';
import { EXIT, GrowerError } from './failure.ts';
import { type FileLayer, readStart } from './files.ts';
import { walkJournal } from './journal.ts';
import { LONGEST_JOURNAL, valueIn } from './journal-read.ts';
import { salvageLines, sayBadLines } from './journal-salvage.ts';

export interface ListedBatch {
  readonly id: string;
  readonly path: string;
  /** Null when the file cannot be read; `says` tells why. */
  readonly batch: Batch | null;
  readonly says: readonly string[];
}

/** The batch in a journal's first line. Throws GrowerError when there is none. */
export function headerOf(path: string, reading: Pick<JournalReading<unknown>, 'header'>): BatchHeader {
  const header = readBatchHeader(reading.header);
  if (header) return header;
  throw new GrowerError(`The batch file ${path} does not begin like one: its first line is damaged.`, {
    tryThis: ['It is left as it is. Put back a copy of it, or begin another batch.'],
    exitCode: EXIT.badFile,
  });
}

/**
 * A batch that is over, read past its damaged lines: most lines are beats, and without one of them the rest means
 * the same. Null when the end is not reached so; then only what stands before the damage is known.
 */
export function overAllTheSame(
  bytes: Buffer,
  header: BatchHeader,
): Pick<ListedBatch, 'batch' | 'says'> | null {
  const under = replaying(header);
  const bad = salvageLines(bytes, (value, number) => {
    const event = number > 1 ? readEntry(value)?.event : undefined;
    if (event) under.take(event);
    return number === 1 || event !== undefined;
  });
  const { batch } = under.end().run;
  return batch.finishedAt === null ? null : { batch, says: [sayBadLines('batch file', bad)] };
}

/** One batch out of its own journal; one that cannot be read says why. */
export function readBatchFile(path: string, id: string, files: FileLayer): ListedBatch {
  try {
    let under: Replaying | null = null;
    const take = (json: Buffer, first: JournalHeader): boolean => {
      const event = readTickLine(json) ?? readEntry(valueIn(json))?.event;
      if (!event) return false;
      const header = under ? null : readBatchHeader(first);
      if (header) under = replaying(header);
      under?.take(event);
      return true;
    };
    const reading = walkJournal(path, take, files);
    const header = headerOf(path, reading);
    const { batch } = (under ?? replaying(header)).end().run;
    const isDamaged = reading.notices.some(({ kind }) => kind === 'damaged');
    const over =
      isDamaged && batch.finishedAt === null
        ? overAllTheSame(readStart(files, path, LONGEST_JOURNAL), header)
        : null;
    return { id, path, ...(over ?? { batch, says: reading.notices.map(({ says }) => says) }) };
  } catch (problem) {
    if (!(problem instanceof GrowerError)) throw problem;
    return { id, path, batch: null, says: [problem.message] };
  }
}

/** A session of a batch that is over and whose file is damaged: there to be looked at, and nothing is written. */
export function overSession({ path, says }: ListedBatch, batch: Batch): Session {
  return {
    run: { batch, past: [] },
    role: 'running',
    notices: says,
    trouble: null,
    path,
    subscribe: () => () => undefined,
    send: () => ({ code: 'finished' }),
    close: () => undefined,
  };
}
