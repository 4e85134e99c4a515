/**
 * The commonest line of a journal, read without making a text or an object of it first. A batch writes hundreds of
 * ticks, and years of batches are listed at once. Whatever is not exactly as the program writes a tick is left to
 * the usual reading (`entry.ts`), which decides.
 */
import type { BatchEvent } from './events.ts';

export type Tick = Extract<BatchEvent, { type: 'tick' }>;

const codes = (text: string): Uint8Array => Uint8Array.from(text, letter => letter.charCodeAt(0));
const BEFORE_T = codes('{"event":{"type":"tick","t":');
const BEFORE_WALL = codes(',"wall":');
const BEFORE_UPTIME = codes('},"uptime":');
const BEFORE_BOOT = codes(',"boot":"');

const [ZERO, NINE, POINT, QUOTE, BACKSLASH, BRACE] = [0x30, 0x39, 0x2e, 0x22, 0x5c, 0x7d];
/** A count has fewer digits than this before its point, and a text fewer letters (`entry.ts`). */
const MOST_DIGITS = 16;
const MOST_LETTERS = 200;

/** The place behind this text, or -1 when it does not stand there. */
function past(line: Uint8Array, from: number, text: Uint8Array): number {
  if (from < 0) return -1;
  for (let place = 0; place < text.length; place += 1) {
    if (line[from + place] !== text[place]) return -1;
  }
  return from + text.length;
}

const isDigit = (byte: number | undefined): boolean => byte !== undefined && byte >= ZERO && byte <= NINE;

/** The place behind a number without sign and exponent, or -1. */
function pastNumber(line: Uint8Array, from: number): number {
  if (from < 0) return -1;
  let at = from;
  while (isDigit(line[at])) at += 1;
  const digits = at - from;
  if (digits === 0 || digits >= MOST_DIGITS || (digits > 1 && line[from] === ZERO)) return -1;
  if (line[at] !== POINT) return at;
  const point = at;
  at += 1;
  while (isDigit(line[at])) at += 1;
  return at > point + 1 ? at : -1;
}

/** The number between two places, as `Number` reads it: whole ones are small enough to be exact. */
function numberIn(line: Uint8Array, from: number, to: number): number {
  let value = 0;
  for (let at = from; at < to; at += 1) {
    const byte = line[at] ?? 0;
    if (byte === POINT) return Number(String.fromCharCode(...line.subarray(from, to)));
    value = value * 10 + (byte - ZERO);
  }
  return value;
}

/** The place behind a quoted text of plain letters whose first one stands at `from`, or -1. */
function pastText(line: Uint8Array, from: number): number {
  if (from < 0) return -1;
  for (let at = from; at < from + MOST_LETTERS; at += 1) {
    const byte = line[at] ?? 0;
    if (byte === QUOTE) return at + 1;
    if (byte < 0x20 || byte > 0x7e || byte === BACKSLASH) return -1;
  }
  return -1;
}

/** The tick in the JSON of a line, without its clocks; null when it is none, or is written in any other way. */
export function readTickLine(json: Uint8Array): Tick | null {
  const t = past(json, 0, BEFORE_T);
  const tEnd = pastNumber(json, t);
  const wall = past(json, tEnd, BEFORE_WALL);
  const wallEnd = pastNumber(json, wall);
  const uptimeEnd = pastNumber(json, past(json, wallEnd, BEFORE_UPTIME));
  const end = pastText(json, past(json, uptimeEnd, BEFORE_BOOT));
  if (end < 0 || json[end] !== BRACE || end + 1 !== json.length) return null;
  return { type: 'tick', t: numberIn(json, t, tEnd), wall: numberIn(json, wall, wallEnd) };
}
