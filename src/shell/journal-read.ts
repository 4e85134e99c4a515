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
const BLOCK = 1 << 16;

/** A line as it stands in the file, and the checksum to continue from. */
export function encodeLine(value: unknown, sumBefore: number): { bytes: Buffer; sum: number } {
  const json = Buffer.from(JSON.stringify(value));
  const sum = crc32(json, sumBefore);
  const tail = Buffer.from(`\t${sum.toString(16).padStart(8, '0')}\n`);
  return { bytes: Buffer.concat([json, tail]), sum };
}

/** Hexadecimal digit by its byte; -1 for any other byte. Only lower case is ever written. */
const DIGITS = Int8Array.from({ length: 256 }, (_, byte) =>
  byte === 0x30 ? 0 : '0123456789abcdef'.indexOf(String.fromCharCode(byte)),
);

/** Whether the eight digits that begin there say this sum. */
function says(line: Uint8Array, from: number, sum: number): boolean {
  for (let place = 0; place < 8; place += 1) {
    if (DIGITS[line[from + place] ?? 0] !== ((sum >>> (28 - 4 * place)) & 15)) return false;
  }
  return true;
}

/** The JSON on a line, which stands there without its line feed, or null when the line is not whole. */
function wholeJson(bytes: Buffer, from: number, to: number, sumBefore: number): WholeJson | null {
  // A copy made on another system may have got carriage returns.
  const end = bytes[to - 1] === RETURN ? to - 1 : to;
  const split = end - SUM_LENGTH;
  if (split < from || bytes[split] !== TAB) return null;
  const json = bytes.subarray(from, split);
  const sum = crc32(json, sumBefore);
  return says(bytes, split + 1, sum) ? { json, sum } : null;
}
interface WholeJson {
  readonly json: Buffer;
  readonly sum: number;
}

/** The value in a JSON text; undefined, which no JSON text means, when it is none. */
export function valueIn(json: Buffer): unknown {
  try {
    return JSON.parse(json.toString());
  } catch {
    return undefined;
  }
}

/** The value on a line without its line feed, or null when the line is not whole. */
export function decodeLine(line: Buffer, sumBefore: number): { value: unknown; sum: number } | null {
  const whole = wholeJson(line, 0, line.length, sumBefore);
  const value = whole === null ? undefined : valueIn(whole.json);
  return whole === null || value === undefined ? null : { value, sum: whole.sum };
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
 * Takes the line that stands from here to there without its line feed, whether it had one, and where it ends in
 * the file; false ends the reading.
 */
type TakeLine = (bytes: Buffer, from: number, to: number, fed: boolean, end: number) => boolean;

/**
 * Cuts the bytes of an open file into lines, holding one line and one block at a time; a line is only good while
 * it is taken. Ends early at the longest journal, and with the beginning of a line that is too long.
 */
function eachLine(files: FileLayer, fd: number, take: TakeLine): void {
  let block = Buffer.alloc(BLOCK);
  /** Bytes at the block's beginning that are a line begun. */
  let rest = 0;
  let position = 0;
  while (rest <= LONGEST_LINE) {
    if (position >= LONGEST_JOURNAL) return;
    if (block.length - rest < BLOCK / 2) block = Buffer.concat([block], block.length * 2);
    const got = files.read(fd, block.subarray(rest), position);
    if (got === 0) break;
    const start = position - rest;
    position += got;
    const bytes = block.subarray(0, rest + got);
    let from = 0;
    for (let feed = bytes.indexOf(FEED); feed >= 0; feed = bytes.indexOf(FEED, from)) {
      if (!take(bytes, from, feed, true, start + feed + 1)) return;
      from = feed + 1;
    }
    block.copyWithin(0, from, rest + got);
    rest = rest + got - from;
  }
  if (rest > 0) take(block, 0, rest, false, position);
}

/** Lines that begin after a position, for the count of what was left out; none past the longest journal. */
function countLines(files: FileLayer, fd: number, from: number): number {
  const block = Buffer.alloc(BLOCK);
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

export type LineScan = Omit<JournalScan<never>, 'entries'>;

/**
 * Goes through the lines of an open journal as far as they can be read; `take` gets the JSON of each line but the
 * first, good only for the moment, and says whether it is an entry. `take` must not throw; nothing else does,
 * whatever the bytes and whatever the disk does.
 */
export function scanLines(
  files: FileLayer,
  fd: number,
  take: (json: Buffer, header: JournalHeader) => boolean,
  of: JournalKind = 'batch',
): LineScan {
  let header: JournalHeader | null = null;
  let goodBytes = 0;
  let feedMissing = false;
  let sum = 0;
  let number = 0;
  let notice: JournalNotice | null = null;
  const takeJson = (json: Buffer): boolean | 'newer' => {
    if (header !== null) return take(json, header);
    const known = recogniseHeader(valueIn(json), of);
    if (known === null || known === 'newer') return known ?? false;
    header = known;
    return true;
  };
  /** What is wrong with a line that was not taken. */
  const sayWrong = (fed: boolean, end: number): JournalNotice =>
    !fed && end >= files.facts(fd).size
      ? say(of, 'torn', number, 0)
      : say(of, 'damaged', number, Math.max(0, countLines(files, fd, end) - (fed ? 0 : 1)));
  try {
    eachLine(files, fd, (bytes, from, to, fed, end) => {
      number += 1;
      const whole = wholeJson(bytes, from, to, sum);
      const taken = whole !== null && takeJson(whole.json);
      if (taken === 'newer') notice = say(of, 'newer', number, countLines(files, fd, end));
      else if (!taken || whole === null) notice = sayWrong(fed, end);
      else {
        sum = whole.sum;
        goodBytes = end;
        feedMissing = !fed;
      }
      return notice === null;
    });
    if (notice === null && files.facts(fd).size > LONGEST_JOURNAL) notice = say(of, 'too large', number, 0);
  } catch {
    notice = say(of, 'unreadable', number + 1, 0);
  }
  if (number === 0) notice ??= say(of, 'empty', 1, 0);
  return { header, notices: notice === null ? [] : [notice], goodBytes, feedMissing, sum };
}

/** Reads an open journal. Never throws, whatever the bytes and whatever the disk does. */
export function scanJournal<E>(
  files: FileLayer,
  fd: number,
  accept: Accept<E>,
  of: JournalKind = 'batch',
): JournalScan<E> {
  const entries: E[] = [];
  const take = (json: Buffer): boolean => {
    const value = valueIn(json);
    const entry = value === undefined ? null : accept(value);
    if (entry !== null) entries.push(entry);
    return entry !== null;
  };
  return { ...scanLines(files, fd, take, of), entries };
}
