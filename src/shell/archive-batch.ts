/**
 * One batch out of an archive into a home. A batch is known by its first line, whatever it is called: the
 * same batch is never there twice, another one of the same name gets a free name, and nothing that is there
 * is changed but by lines added at its end.
 */
import { join } from 'node:path';
import { readBatchHeader } from '../core/batch/header.ts';
import type { JournalReading } from '../core/ports.ts';
import { sha256 } from './archive-format.ts';
import { overAllTheSame } from './batch-read.ts';
import { BATCH_ID } from './batches.ts';
import { createWhole, type FileLayer, nodeFiles, readStart, writeAll } from './files.ts';
import { encodeLine, type JournalScan, LONGEST_JOURNAL, scanJournal } from './journal-read.ts';
import { takeLock } from './lock.ts';

type Line = Readonly<Record<string, unknown>>;
const accept = (value: unknown): Line | null =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Line) : null;

/** The good lines of a journal that is in memory. */
export function scanBytes(bytes: Uint8Array): JournalScan<Line> {
  const memory: FileLayer = {
    ...nodeFiles,
    read: (_fd, into, position) => {
      const piece = bytes.subarray(position, position + into.length);
      into.set(piece);
      return piece.length;
    },
    facts: () => ({ size: bytes.length, identity: '', folder: false, changed: 0 }),
  };
  return scanJournal(memory, -1, accept);
}

/** Names a batch by its first line; a batch that was renamed on import still answers to its first name. */
function fingerprint({ header }: JournalReading<Line>): string {
  return typeof header?.origin === 'string' ? header.origin : sha256(Buffer.from(JSON.stringify(header)));
}

/** First lines are a few kB; one beyond this is damaged. */
const LONGEST_HEADER = 1 << 18;

/** Batches of the home by fingerprint. */
export function knownBatches(folder: string, files: FileLayer): Map<string, string> {
  const known = new Map<string, string>();
  if (files.look(folder)?.folder !== true) return known;
  for (const file of files.list(folder)) {
    const id = file.replace(/\.batch$/, '');
    if (id === file || !BATCH_ID.test(id)) continue;
    const start = readStart(files, join(folder, file), LONGEST_HEADER);
    const feed = start.indexOf(0x0a);
    const scan = scanBytes(feed < 0 ? start : start.subarray(0, feed + 1));
    if (scan.header) known.set(fingerprint(scan), id);
  }
  return known;
}

export type BatchMerge =
  | {
      readonly kind: 'added' | 'same' | 'continued';
      readonly id: string;
      /** What could not be read, or was not merged. */
      readonly says: readonly string[];
      /** What was done otherwise than one would think; nothing is missing for it. */
      readonly notes?: readonly string[];
    }
  | { readonly kind: 'refused'; readonly says: readonly string[] };

const texts = (lines: readonly Line[]): readonly string[] => lines.map(line => JSON.stringify(line));
const begins = (whole: readonly string[], start: readonly string[]): boolean =>
  start.length <= whole.length && start.every((text, index) => text === whole[index]);

function freeIdLike(id: string, folder: string, files: FileLayer): string {
  const week = id.slice(0, 4);
  for (let count = 0; ; count += 1) {
    const last = String.fromCharCode(97 + (count % 26));
    const free = `${week}${count < 26 ? '' : String.fromCharCode(96 + Math.floor(count / 26))}${last}`;
    if (files.look(join(folder, `${free}.batch`)) === null) return free;
  }
}

/** The whole journal anew under another name; where it came from, and its first name, stay in its first line. */
function renamed(scan: JournalScan<Line>, id: string, origin: string): Buffer {
  const formerId = scan.header?.formerId ?? scan.header?.id;
  const lines: Buffer[] = [];
  let sum = 0;
  for (const value of [{ ...scan.header, id, origin, formerId }, ...scan.entries]) {
    const line = encodeLine(value, sum);
    lines.push(line.bytes);
    sum = line.sum;
  }
  return Buffer.concat(lines);
}

/** Lines that the archive knows more than the home are added at the end of the home's file. */
function goOn(path: string, local: JournalScan<Line>, more: readonly Line[], files: FileLayer): boolean {
  const lock = takeLock(`${path}.lock`, files);
  if (!lock.held) return false;
  try {
    let { sum } = local;
    const lines = more.map(value => {
      const line = encodeLine(value, sum);
      sum = line.sum;
      return line.bytes;
    });
    const fd = files.open(path, 'updating');
    try {
      const feed = local.feedMissing ? [Buffer.from('\n')] : [];
      writeAll(files, fd, Buffer.concat([...feed, ...lines]), local.goodBytes);
      files.sync(fd);
    } finally {
      files.close(fd);
    }
    return true;
  } finally {
    lock.release();
  }
}

/** Merges a batch; `known` is kept up to date. Throws what the file layer throws. */
export function mergeBatch(
  folder: string,
  named: string,
  bytes: Uint8Array,
  known: Map<string, string>,
  files: FileLayer,
): BatchMerge {
  const scan = scanBytes(bytes);
  const header = readBatchHeader(scan.header);
  // One that is over is read past its damage here as it was there; any other ends before it.
  const isDamaged = scan.notices.some(({ kind }) => kind === 'damaged');
  const over = header && isDamaged ? overAllTheSame(Buffer.from(bytes), header) : null;
  const found = over?.says ?? scan.notices.map(({ says }) => says);
  const damage = found.map(says => `Batch ${named} in the archive: ${says}`);
  if (!header || header.id !== named) {
    return {
      kind: 'refused',
      says: [`Batch ${named} in the archive cannot be read: its first line is damaged.`],
    };
  }
  const origin = fingerprint(scan);
  const there = known.get(origin);
  if (there !== undefined) return meet(join(folder, `${there}.batch`), there, scan, damage, files);
  files.folder(folder);
  const path = join(folder, `${named}.batch`);
  if (files.look(path) === null) {
    const good = Buffer.from(over ? bytes : bytes.subarray(0, scan.goodBytes));
    createWhole(files, path, scan.feedMissing ? Buffer.concat([good, Buffer.from('\n')]) : good);
    known.set(origin, named);
    return { kind: 'added', id: named, says: damage };
  }
  const id = freeIdLike(named, folder, files);
  createWhole(files, join(folder, `${id}.batch`), renamed(scan, id, origin));
  known.set(origin, id);
  const note = `Your ${named} keeps its number, its bags and their labels. The archive has another batch of that number: that one is ${id} here, and only its bags need new labels: stovehand labels ${id}`;
  return { kind: 'added', id, says: damage, notes: [note] };
}

/** The same batch on both sides: the longer one holds the shorter, or they went apart. */
function meet(
  path: string,
  id: string,
  scan: JournalScan<Line>,
  damage: readonly string[],
  files: FileLayer,
): BatchMerge {
  const local = scanBytes(readStart(files, path, LONGEST_JOURNAL));
  const [here, away] = [texts(local.entries), texts(scan.entries)];
  if (begins(here, away)) return { kind: 'same', id, says: damage };
  if (!begins(away, here)) {
    const says = `Batch ${id} went on differently here and in the archive: yours is kept, the other left in the archive.`;
    return { kind: 'same', id, says: [says, ...damage] };
  }
  // Behind its last good line the home's file holds something that cannot be read: it is not written over.
  const spoiled = local.notices.some(({ kind }) => kind !== 'torn');
  if (spoiled || !goOn(path, local, scan.entries.slice(here.length), files)) {
    const why = spoiled ? 'its file here is damaged' : 'it is being run just now';
    return {
      kind: 'same',
      id,
      says: [`Batch ${id} goes further in the archive, but ${why}: it is left as it is.`, ...damage],
    };
  }
  return { kind: 'continued', id, says: damage };
}
