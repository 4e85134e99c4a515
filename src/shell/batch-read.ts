/** A batch as its file leaves it, for looking at: read in one pass, nothing kept but where it ended. */
import { readEntry } from '../core/batch/entry.ts';
import { readBatchHeader } from '../core/batch/header.ts';
import { type Replaying, replaying } from '../core/batch/replay.ts';
import type { Batch, BatchHeader } from '../core/batch/state.ts';
import { readTickLine } from '../core/batch/tick-line.ts';
import type { JournalHeader, JournalReading } from '../core/ports.ts';
import { EXIT, GrowerError } from './failure.ts';
import type { FileLayer } from './files.ts';
import { walkJournal } from './journal.ts';
import { valueIn } from './journal-read.ts';

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
    const { batch } = (under ?? replaying(headerOf(path, reading))).end().run;
    return { id, path, batch, says: reading.notices.map(notice => notice.says) };
  } catch (problem) {
    if (!(problem instanceof GrowerError)) throw problem;
    return { id, path, batch: null, says: [problem.message] };
  }
}
