/** Homes with batches in them, written as the program writes them but at once: driven through the real machine. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BatchEvent } from '../../src/core/batch/events.ts';
import type { Batch, BatchHeader } from '../../src/core/batch/state.ts';
import type { DiaryEntry, DiaryEvent } from '../../src/core/record/diary.ts';
import { DAY } from '../../src/core/time.ts';
import { encodeLine } from '../../src/shell/journal-read.ts';
import { BEGAN_WALL, type Sample, sampleHeader } from './batch-kit.ts';
import { Drive } from './batch-drive.ts';

/** A header as a home has it: ids of the shell are year, week and letters. */
export const homeHeader = (id: string, sample: Sample = {}, beganWall = BEGAN_WALL): BatchHeader => ({
  ...sampleHeader(sample),
  id,
  beganWall,
});

function lines(values: readonly unknown[]): Buffer {
  let sum = 0;
  return Buffer.concat(
    values.map(value => {
      const line = encodeLine(value, sum);
      sum = line.sum;
      return line.bytes;
    }),
  );
}

/** The bytes of a batch's journal. */
export const journalBytes = (header: BatchHeader, events: readonly BatchEvent[]): Buffer =>
  lines([
    { ...header, uptime: 1000, boot: 'b@m', stovehand: 'batch', version: 1 },
    ...events.map(event => ({ event, uptime: 1000 + event.t, boot: 'b@m' })),
  ]);

/** The bytes of a diary. */
export const diaryBytes = (entries: readonly DiaryEntry[]): Buffer =>
  lines([{ stovehand: 'diary', version: 1 }, ...entries]);

/** Entries a day apart, with names in order. */
export const diaryOf = (events: readonly DiaryEvent[], from = BEGAN_WALL + DAY): readonly DiaryEntry[] =>
  events.map((event, index) => ({
    id: `e${String(index).padStart(5, '0')}`,
    wall: from + index * DAY,
    event,
  }));

export interface DrivenBatch {
  readonly header: BatchHeader;
  readonly events: readonly BatchEvent[];
  readonly batch: Batch;
}

/** A batch as planned to its end, after what `trouble` does to it on the way. */
export function drivenBatch(
  header: BatchHeader,
  trouble: (drive: Drive) => void = () => undefined,
): DrivenBatch {
  const drive = new Drive(header);
  trouble(drive);
  drive.until(batch => batch.finishedAt !== null);
  return { header, events: drive.events, batch: drive.batch };
}

/** Puts journals and a diary into a home folder. */
export function fillHome(
  home: string,
  batches: readonly DrivenBatch[],
  entries: readonly DiaryEntry[] = [],
): void {
  mkdirSync(join(home, 'batches'), { recursive: true });
  for (const { header, events } of batches) {
    writeFileSync(join(home, 'batches', `${header.id}.batch`), journalBytes(header, events));
  }
  if (entries.length > 0) writeFileSync(join(home, 'diary.journal'), diaryBytes(entries));
}
