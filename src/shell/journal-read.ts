/**
 * Reading a journal with suspicion. A line is a JSON object, a tab, eight hexadecimal digits and a line feed.
 * The digits are the CRC-32 of the JSON, continued from the line before, so that a flipped bit, a line that
 * is missing and a line of another batch are all found.
 */

import { crc32 } from 'node:zlib';
import type {
  JournalHeader,
  JournalKind,
  JournalNotice,
  JournalNoticeKind,
  JournalReading,
} from '../core/ports.ts';
import type { FileLayer } from './files.ts';

/** Recognises an event; null for anything else. */
export type Accept<E> = (value: unknown) => E | null;

/** Longest line and longest file that are read, bytes: a batch of days stays far below both. */
export const LONGEST_LINE = 1 << 20;
export const LONGEST_JOURNAL = 24 << 20;

const FEED = 0x0a;
const RETURN = 0x0d;
const TAB = 0x09;
const SUM_LENGTH = 9;

/** A line as it stands in the file, and the checksum to continue from. */
export function encodeLine(value: unknown, sumBefore: number): { bytes: Buffer; sum: number } {
  const json = Buffer.from(JSON.stringify(value));
  const sum = crc32(json, sumBefore);
  const tail = Buffer.from(`\t${sum.toString(16).padStart(8, '0')}\n`);
  return { bytes: Buffer.concat([json, tail]), sum };
}

/** The value on a line without its line feed, or null when the line is not whole. */
export function decodeLine(line: Buffer, sumBefore: number): { value: unknown; sum: number } | null {
  // A copy made on another system may have got carriage returns.
  const end = line.at(-1) === RETURN ? line.length - 1 : line.length;
  const split = end - SUM_LENGTH;
  if (split < 0 || line[split] !== TAB) return null;
  const json = line.subarray(0, split);
  const sum = crc32(json, sumBefore);
  if (line.toString('latin1', split + 1, end) !== sum.toString(16).padStart(8, '0')) return null;
  try {
    return { value: JSON.parse(json.toString()), sum };
  } catch {
    return null;
  }
}

/** The checksum that a line claims for itself, true or not; null when there is none. */
export function claimedSum(line: Buffer): number | null {
  const match = /\t([0-9a-f]{8})\r?$/.exec(line.toString('latin1', Math.max(0, line.length - 10)));
  return match?.[1] ? Number.parseInt(match[1], 16) : null;
}

function recogniseHeader(value: unknown, kind: JournalKind): JournalHeader | 'newer' | null {
  if (typeof value !== 'object' || value === null) return null;
  if (!('stovehand' in value) || value.stovehand !== kind || !('version' in value)) return null;
  if (value.version === 1) return { ...value, stovehand: kind, version: 1 };
  return typeof value.version === 'number' && value.version > 1 ? 'newer' : null;
}

/** What was read, and where writing may go on. */
export interface JournalScan<E> extends JournalReading<E> {
  /** Bytes up to the end of the last good line. */
  readonly goodBytes: number;
  /** The last good line has no line feed yet. */
  readonly feedMissing: boolean;
  readonly sum: number;
}

/**
 * Cuts the bytes of an open file into lines, holding one line and one block at a time. Ends early at the
 * longest journal, and with the beginning of a line that is too long.
 */
function* linesOf(files: FileLayer, fd: number): Generator<{ line: Buffer; fed: boolean; end: number }> {
  const block = Buffer.alloc(1 << 16);
  let rest: Buffer = Buffer.alloc(0);
  let position = 0;
  while (rest.length <= LONGEST_LINE) {
    if (position >= LONGEST_JOURNAL) return;
    const got = files.read(fd, block, position);
    if (got === 0) break;
    const start = position - rest.length;
    position += got;
    const bytes = Buffer.concat([rest, block.subarray(0, got)]);
    let from = 0;
    for (let feed = bytes.indexOf(FEED); feed >= 0; feed = bytes.indexOf(FEED, from)) {
      yield { line: bytes.subarray(from, feed), fed: true, end: start + feed + 1 };
      from = feed + 1;
    }
    rest = bytes.subarray(from);
  }
  if (rest.length > 0) yield { line: rest, fed: false, end: position };
}

/** Lines that begin after a position, for the count of what was left out; none past the longest journal. */
function countLines(files: FileLayer, fd: number, from: number): number {
  const block = Buffer.alloc(1 << 16);
  let count = 0;
  let last = FEED;
  for (let position = from; position < LONGEST_JOURNAL; ) {
    const got = files.read(fd, block, position);
    if (got === 0) break;
    const bytes = block.subarray(0, got);
    for (let feed = bytes.indexOf(FEED); feed >= 0; feed = bytes.indexOf(FEED, feed + 1)) count += 1;
    last = bytes[got - 1] ?? FEED;
    position += got;
  }
  return last === FEED ? count : count + 1;
}

const lines = (count: number) => (count === 1 ? '1 line' : `${count} lines`);

/** What a journal is called on screen. */
const FILE_NAMES: Readonly<Record<JournalKind, string>> = { batch: 'batch file', diary: 'diary' };

function say(of: JournalKind, kind: JournalNoticeKind, line: number, leftOut: number): JournalNotice {
  const file = FILE_NAMES[of];
  const says: Readonly<Record<JournalNoticeKind, string>> = {
    empty: `The ${file} is empty.`,
    torn: `The last line of the ${file}, line ${line}, was cut off while it was written and is left out.`,
    damaged: `Line ${line} of the ${file} is damaged: it and the ${lines(leftOut)} after it are left out.`,
    newer: `Line ${line} of the ${file} was written by a newer Stovehand: use that version to go on.`,
    'too large': `The ${file} is too large: it is read up to line ${line}.`,
    unreadable: `The disk reports an error at line ${line} of the ${file}: it is read up to there.`,
  };
  return { kind, line, leftOut, says: says[kind] };
}

/** Reads an open journal. Never throws, whatever the bytes and whatever the disk does. */
export function scanJournal<E>(
  files: FileLayer,
  fd: number,
  accept: Accept<E>,
  of: JournalKind = 'batch',
): JournalScan<E> {
  const entries: E[] = [];
  let header: JournalHeader | null = null;
  let goodBytes = 0;
  let feedMissing = false;
  let sum = 0;
  let number = 0;
  const done = (...notices: JournalNotice[]): JournalScan<E> => {
    return { header, entries, notices, goodBytes, feedMissing, sum };
  };
  const take = (value: unknown): boolean | 'newer' => {
    if (number > 1) {
      const entry = accept(value);
      if (entry !== null) entries.push(entry);
      return entry !== null;
    }
    const known = recogniseHeader(value, of);
    if (known === 'newer') return known;
    header = known;
    return known !== null;
  };
  try {
    for (const { line, fed, end } of linesOf(files, fd)) {
      number += 1;
      const decoded = decodeLine(line, sum);
      const taken = decoded !== null && take(decoded.value);
      if (taken === 'newer') return done(say(of, 'newer', number, countLines(files, fd, end)));
      if (!taken || decoded === null) {
        const last = !fed && end >= files.facts(fd).size;
        if (last) return done(say(of, 'torn', number, 0));
        return done(say(of, 'damaged', number, Math.max(0, countLines(files, fd, end) - (fed ? 0 : 1))));
      }
      sum = decoded.sum;
      goodBytes = end;
      feedMissing = !fed;
    }
    if (files.facts(fd).size > LONGEST_JOURNAL) return done(say(of, 'too large', number, 0));
  } catch {
    return done(say(of, 'unreadable', number + 1, 0));
  }
  return number === 0 ? done(say(of, 'empty', 1, 0)) : done();
}
