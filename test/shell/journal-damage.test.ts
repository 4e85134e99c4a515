import { closeSync, openSync, readdirSync, readFileSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createJournal, openJournal, readJournal } from '../../src/shell/journal.ts';
import { tempFolder } from '../help/temp-folder.ts';

interface Event {
  readonly n: number;
  readonly says: string;
}
const accept = (value: unknown): Event | null =>
  typeof value === 'object' && value !== null && 'n' in value ? (value as Event) : null;

const EVENTS: readonly Event[] = Array.from({ length: 12 }, (_, n) => ({
  n,
  says: `reading ${n} · 16,2 psi 🍄`,
}));

function written(): { path: string; bytes: Buffer } {
  const path = join(tempFolder(), 'a.batch');
  const journal = createJournal<Event>(path, { name: 'Millet' });
  for (const event of EVENTS) journal.append(event);
  journal.close();
  return { path, bytes: readFileSync(path) };
}

/** The file holds these bytes: read it, go on with it, append, read again. */
function goOn(path: string, bytes: Buffer) {
  writeFileSync(path, bytes);
  const read = readJournal(path, accept);
  if (read.header === null) return { read, after: null, keptAside: null };
  const { journal, reading, keptAside } = openJournal(path, accept);
  expect(reading).toEqual(read);
  journal.append({ n: 99, says: 'goes on' });
  journal.close();
  return { read, after: readJournal(path, accept), keptAside };
}

describe('a journal cut at any byte', () => {
  it('gives a prefix of its events, says what is missing, and takes the next event', () => {
    const { path, bytes } = written();
    let whole = 0;
    for (let length = 0; length <= bytes.length; length += 1) {
      const cut = bytes.subarray(0, length);
      const feeds = cut.filter(byte => byte === 0x0a).length;
      const { read, after, keptAside } = goOn(path, cut);
      expect(read.entries).toEqual(EVENTS.slice(0, read.entries.length));
      // Every line that ended in its line feed was promised to the person.
      expect(read.entries.length).toBeGreaterThanOrEqual(feeds - 1);
      const clean = read.notices.length === 0;
      expect(clean || read.notices[0]?.kind === (length === 0 ? 'empty' : 'torn')).toBe(true);
      if (clean) whole += 1;
      if (after === null) continue;
      expect(keptAside).toBeNull();
      expect(after.entries).toEqual([...read.entries, { n: 99, says: 'goes on' }]);
      expect(after.notices).toEqual([]);
    }
    // With and without the last line feed, header included.
    expect(whole).toBe(2 * (EVENTS.length + 1));
  });
});

describe('a journal with flipped bits', () => {
  it('keeps the events before the damage, names the line, and loses no byte of the original', () => {
    const { path, bytes } = written();
    const lineAt = (place: number) => bytes.subarray(0, place).filter(byte => byte === 0x0a).length + 1;
    const place = fc.record({ at: fc.nat(bytes.length - 1), bit: fc.nat(7) });
    let damaged = 0;
    fc.assert(
      fc.property(place, ({ at, bit }) => {
        const flipped = Buffer.from(bytes);
        flipped[at] = (bytes[at] ?? 0) ^ (1 << bit);
        const line = lineAt(at);
        writeFileSync(path, flipped);
        const { header, entries, notices } = readJournal(path, accept);
        expect(header === null).toBe(line === 1);
        expect(entries).toEqual(EVENTS.slice(0, Math.max(0, line - 2)));
        expect(notices).toHaveLength(1);
        expect(notices[0]?.line).toBe(line);
        expect(notices[0]?.says).toContain(
          `line ${line}`.replace(/^l/, notices[0]?.kind === 'torn' ? 'l' : 'L'),
        );
        damaged += 1;
      }),
      { numRuns: 2000, seed: 2000 },
    );
    expect(damaged).toBe(2000);
  });

  it('copies the original aside before cutting, each time under a name of its own', () => {
    const { path, bytes } = written();
    const names: (string | null)[] = [];
    for (const text of ['reading 4', 'reading 7']) {
      const flipped = Buffer.from(bytes);
      flipped[bytes.indexOf(text)] = 0x52;
      const { read, after, keptAside } = goOn(path, flipped);
      const line = Number(text.at(-1)) + 2;
      expect(read.notices).toMatchObject([{ kind: 'damaged', line, leftOut: EVENTS.length + 1 - line }]);
      expect(read.notices[0]?.says).toContain(`Line ${line} of the batch file is damaged`);
      expect(after?.entries).toHaveLength(line - 1);
      expect(readFileSync(keptAside ?? '')).toEqual(flipped);
      names.push(keptAside);
    }
    expect(names).toEqual([`${path}.damaged`, `${path}.damaged-2`]);
  });

  it('finds a line that is missing, doubled or from another batch', () => {
    const { path, bytes } = written();
    const lines = bytes.toString().split('\n');
    const other = join(tempFolder(), 'b.batch');
    const journal = createJournal<Event>(other, { name: 'Rye' });
    journal.append({ n: 0, says: 'another' });
    const foreign = readFileSync(other, 'utf8').split('\n')[1] ?? '';
    const stories: [string, string[], number][] = [
      ['missing', lines.toSpliced(5, 1), 6],
      ['doubled', lines.toSpliced(5, 0, lines[4] ?? ''), 6],
      ['foreign', lines.toSpliced(5, 0, foreign), 6],
      ['blank', lines.toSpliced(5, 0, ''), 6],
      ['unknown event', lines.toSpliced(5, 0, '{"x":1}\t00000000'), 6],
    ];
    for (const [, changed, line] of stories) {
      writeFileSync(path, changed.join('\n'));
      const { entries, notices } = readJournal(path, accept);
      expect(entries).toEqual(EVENTS.slice(0, line - 2));
      expect(notices).toMatchObject([{ kind: 'damaged', line }]);
    }
  });

  it('stops at an event it does not know, as one from a later version', () => {
    const { path } = written();
    const choosy = (value: unknown) => (accept(value)?.n === 3 ? null : accept(value));
    expect(readJournal(path, choosy)).toMatchObject({ notices: [{ kind: 'damaged', line: 5, leftOut: 8 }] });
  });

  it('reads a copy whose line ends were changed by another system', () => {
    const { path, bytes } = written();
    writeFileSync(path, bytes.toString().replaceAll('\n', '\r\n'));
    expect(readJournal(path, accept)).toMatchObject({ entries: EVENTS, notices: [] });
  });
});

describe('a file that is no journal', () => {
  it('never makes reading throw, whatever its bytes', () => {
    const { path, bytes } = written();
    const header = bytes.subarray(0, bytes.indexOf(0x0a) + 1);
    const junk = fc.uint8Array({ maxLength: 400 });
    const texts = fc.string({ unit: 'binary', maxLength: 200 }).map(text => Buffer.from(text));
    fc.assert(
      fc.property(fc.oneof(junk, texts), fc.boolean(), (bytesAfter, headed) => {
        writeFileSync(path, headed ? Buffer.concat([header, bytesAfter]) : bytesAfter);
        const { entries, notices } = readJournal(path, accept);
        expect(entries).toEqual([]);
        expect(notices).toHaveLength(headed && bytesAfter.length === 0 ? 0 : 1);
      }),
      { numRuns: 1000, seed: 1 },
    );
  });

  it.each([
    ['zeros, as after a power cut', Buffer.alloc(5000)],
    ['a JSON array', Buffer.from('[]\t00000000\n')],
    ['one endless line', Buffer.alloc(3 << 20, 'x')],
    ['many empty lines', Buffer.alloc(100_000, '\n')],
  ])('is refused for going on when it holds %s, and is left as it is', (_, bytes) => {
    const path = join(tempFolder(), 'x.batch');
    writeFileSync(path, bytes);
    expect(readJournal(path, accept).header).toBeNull();
    expect(() => openJournal(path, accept)).toThrow(/cannot be gone on with/);
    expect(readFileSync(path)).toEqual(bytes);
    expect(readdirSync(join(path, '..'))).toEqual(['x.batch']);
  });

  it('reads 100 MB only as far as a batch can reasonably go, and does not go on with it', () => {
    const path = join(tempFolder(), 'big.batch');
    const fd = openSync(path, 'w');
    let sum = 0;
    const line = (json: string) => {
      sum = crc32(json, sum);
      writeSync(fd, `${json}\t${sum.toString(16).padStart(8, '0')}\n`);
    };
    line('{"stovehand":"batch","version":1}');
    const says = 'x'.repeat(1_000_000);
    for (let n = 0; n < 100; n += 1) line(JSON.stringify({ n, says }));
    closeSync(fd);
    const { entries, notices } = readJournal(path, accept);
    expect(entries.length).toBeGreaterThan(20);
    expect(entries.length).toBeLessThan(30);
    expect(notices).toMatchObject([{ kind: 'too large', line: entries.length + 1 }]);
    expect(() => openJournal(path, accept)).toThrow(/too large/);
  });
});
