import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { GrowerError } from '../../src/shell/failure.ts';
import { createJournal, openJournal, readJournal } from '../../src/shell/journal.ts';
import { faultyFiles } from '../help/faulty-files.ts';
import { tempFolder } from '../help/temp-folder.ts';

interface Event {
  readonly n: number;
  readonly says?: string;
}
const accept = (value: unknown): Event | null =>
  typeof value === 'object' && value !== null && 'n' in value && typeof value.n === 'number'
    ? (value as Event)
    : null;
const anything = (value: unknown): unknown => value;

function begun(events: number, faulty = faultyFiles()) {
  const path = join(tempFolder(), 'batches', 'one.batch');
  const journal = createJournal<Event>(path, { name: 'Rye, six bags' }, faulty.files);
  for (let n = 1; n <= events; n += 1) journal.append({ n });
  return { path, journal, ...faulty };
}
const numbers = (path: string) => readJournal(path, accept).entries.map(({ n }) => n);

describe('journal', () => {
  it('gives back what was appended, header and events, to another reader and after opening again', () => {
    const { path, journal } = begun(0);
    const says = 'tab\t, feed\n, \u001b[2J, "quotes", \u0000, 🍄, \ud800';
    journal.append({ n: 1, says });
    expect(readJournal(path, accept)).toMatchObject({
      header: { stovehand: 'batch', version: 1, name: 'Rye, six bags' },
      entries: [{ n: 1, says }],
      notices: [],
    });
    journal.close();
    const again = openJournal(path, accept);
    expect(again.reading.notices).toEqual([]);
    again.journal.append({ n: 2 });
    expect(numbers(path)).toEqual([1, 2]);
    expect(readFileSync(path, 'utf8')).not.toContain('\u001b');
  });

  it('reads a journal of version 1 whose checksums another program computed', () => {
    // test/data/shell/journal-v1.batch: CRC-32 by Python's binascii.crc32, continued line by line [COMPUTED].
    const path = fileURLToPath(new URL('../data/shell/journal-v1.batch', import.meta.url));
    expect(readJournal(path, anything)).toEqual({
      header: { name: 'Rye, six bags', stovehand: 'batch', version: 1 },
      entries: [
        { did: 'heat off', at: 1200 },
        { did: 'note', says: 'café 🍄' },
      ],
      notices: [],
    });
  });

  it('syncs every event before it returns, and writes files only their owner can read', () => {
    const { path, journal, asked } = begun(0);
    asked.length = 0;
    journal.append({ n: 1 });
    expect(asked.indexOf('sync')).toBeGreaterThan(asked.indexOf('write'));
    expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(statSync(join(path, '..')).mode & 0o777).toBe(0o700);
  });

  it('never begins over a file that is there', () => {
    const { path } = begun(2);
    expect(() => createJournal(path, {})).toThrow(/already there/);
    expect(numbers(path)).toEqual([1, 2]);
  });

  it('refuses a file of a newer version for going on, and says so when reading', () => {
    const path = join(tempFolder(), 'new.batch');
    // {"stovehand":"batch","version":2} with CRC-32 by Python's binascii.crc32 [COMPUTED].
    writeFileSync(path, '{"stovehand":"batch","version":2}\tfc59b6a9\n{"n":1}\t00000000\n');
    const { header, entries, notices } = readJournal(path, accept);
    expect({ header, entries, kinds: notices.map(({ kind }) => kind) }).toEqual({
      header: null,
      entries: [],
      kinds: ['newer'],
    });
    const before = readFileSync(path);
    expect(() => openJournal(path, accept)).toThrow(/newer Stovehand/);
    expect(readFileSync(path)).toEqual(before);
  });

  it('says in one sentence that there is no such file', () => {
    const path = join(tempFolder(), 'none.batch');
    expect(() => readJournal(path, accept)).toThrow(GrowerError);
    expect(() => openJournal(path, accept)).toThrow(/no such file/);
  });
});

describe('a disk that fails', () => {
  it.each([
    ['full', 'write', 'ENOSPC', 'the disk is full'],
    ['full after a part of the line', 'write', 'ENOSPC', 'the disk is full', 7],
    ['failing', 'write', 'EIO', 'the disk reports an error'],
    ['read-only', 'write', 'EROFS', 'the disk can only be read'],
    ['failing to sync', 'sync', 'EIO', 'the disk reports an error'],
    ['full when syncing', 'sync', 'ENOSPC', 'the disk is full'],
  ] as const)(
    'when %s: the event is refused in words, the file is as before, a later try works',
    (...row) => {
      const [, on, code, says, bytes] = row;
      const { path, journal, ...disk } = begun(2);
      const before = readFileSync(path);
      disk.break({ on, code, ...(bytes === undefined ? {} : { bytes }) });
      expect(() => journal.append({ n: 3 })).toThrow(
        `The batch could not be written: ${says}. Nothing was lost`,
      );
      expect(journal.trouble).toContain(says);
      expect(readFileSync(path)).toEqual(before);
      expect(() => journal.append({ n: 3 })).toThrow(GrowerError);
      disk.mend();
      journal.append({ n: 3 });
      expect(journal.trouble).toBeNull();
      expect(numbers(path)).toEqual([1, 2, 3]);
    },
  );

  it('cuts the remains of a failed write before the next one when it could not be cut at once', () => {
    const { path, journal, ...disk } = begun(2);
    disk.break({ on: 'write', code: 'ENOSPC', bytes: 9 }, { on: 'truncate', code: 'EIO' });
    expect(() => journal.append({ n: 3, says: 'much longer than what comes next' })).toThrow(/disk is full/);
    // Reading now finds a torn line, and nothing that was refused.
    expect(readJournal(path, accept)).toMatchObject({
      entries: [{ n: 1 }, { n: 2 }],
      notices: [{ kind: 'torn' }],
    });
    expect(() => journal.append({ n: 4 })).toThrow(/reports an error/);
    disk.mend();
    journal.append({ n: 5 });
    expect(readJournal(path, accept)).toMatchObject({ entries: [{ n: 1 }, { n: 2 }, { n: 5 }], notices: [] });
  });

  it('goes on after writes that fall short without an error', () => {
    const disk = faultyFiles();
    const short = {
      ...disk.files,
      write: (fd: number, bytes: Uint8Array, at: number) => disk.files.write(fd, bytes.subarray(0, 3), at),
    };
    const path = join(tempFolder(), 'short.batch');
    const journal = createJournal<Event>(path, { name: 'x' }, short);
    journal.append({ n: 1 });
    expect(numbers(path)).toEqual([1]);
  });

  it('takes a write that makes no progress for an error instead of trying for ever', () => {
    const { journal, files } = begun(0);
    const stuck = { ...files, write: () => 0 };
    const path = join(journal.path, '..', 'stuck.batch');
    expect(() => createJournal(path, {}, stuck)).toThrow(/reports an error/);
    expect(readdirSync(join(path, '..'))).toEqual(['one.batch']);
  });

  it('leaves no half file behind when the first line cannot be written', () => {
    const folder = tempFolder();
    for (const on of ['write', 'sync', 'folder', 'open'] as const) {
      const disk = faultyFiles();
      disk.break({ on, code: 'ENOSPC' });
      expect(() => createJournal(join(folder, 'b.batch'), {}, disk.files)).toThrow(
        /could not be begun: the disk is full/,
      );
    }
    expect(readdirSync(folder)).toEqual([]);
  });

  it('notices that the folder was removed, and writes the whole batch anew at the next press', () => {
    const { path, journal } = begun(3);
    rmSync(join(path, '..'), { recursive: true });
    expect(() => journal.append({ n: 4 })).toThrow(/its file was removed/);
    journal.append({ n: 4 });
    expect(numbers(path)).toEqual([1, 2, 3, 4]);
    journal.append({ n: 5 });
    expect(numbers(path)).toEqual([1, 2, 3, 4, 5]);
  });

  it('does not write over a file that was put in the place of its own', () => {
    const { path, journal } = begun(3);
    copyFileSync(path, `${path}.copy`);
    rmSync(path);
    mkdirSync(path);
    expect(() => journal.append({ n: 4 })).toThrow(/another program has changed/);
    rmSync(path, { recursive: true });
    copyFileSync(`${path}.copy`, path);
    expect(() => journal.append({ n: 4 })).toThrow(/another program has changed/);
    expect(numbers(path)).toEqual([1, 2, 3]);
  });

  it('does not write behind what another program has appended or cut', () => {
    for (const change of [
      (s: Buffer) => Buffer.concat([s, Buffer.from('x')]),
      (s: Buffer) => s.subarray(0, -4),
    ]) {
      const { path, journal } = begun(3);
      const changed = change(readFileSync(path));
      writeFileSync(path, changed);
      expect(() => journal.append({ n: 4 })).toThrow(/another program has changed/);
      expect(readFileSync(path)).toEqual(changed);
    }
  });

  it('keeps what was read when the disk fails in the middle of reading, and does not cut the rest', () => {
    const { path, journal } = begun(4000);
    journal.close();
    const before = readFileSync(path);
    expect(before.length).toBeGreaterThan(70_000);
    const disk = faultyFiles();
    disk.break({ on: 'read', code: 'EIO', after: 1 });
    const { entries, notices } = readJournal(path, accept, disk.files);
    expect(entries.length).toBeGreaterThan(1000);
    expect(notices).toMatchObject([{ kind: 'unreadable', line: entries.length + 2 }]);
    disk.break({ on: 'read', code: 'EIO', after: 1 });
    expect(() => openJournal(path, accept, disk.files)).toThrow(/cannot be gone on with/);
    expect(readFileSync(path)).toEqual(before);
  });

  it('is not opened, and nothing is cut, when a damaged file cannot be kept aside', () => {
    const { path, journal } = begun(5);
    journal.close();
    const bytes = readFileSync(path);
    bytes[bytes.indexOf('{"n":3}') + 5] = 0x39;
    writeFileSync(path, bytes);
    const disk = faultyFiles();
    disk.break({ on: 'write', code: 'ENOSPC' });
    expect(() => openJournal(path, accept, disk.files)).toThrow(/could not be opened: the disk is full/);
    expect(readFileSync(path)).toEqual(bytes);
    expect(readdirSync(join(path, '..'))).toEqual(['one.batch']);
  });

  it('refuses what no reader would take back: a line beyond measure', () => {
    const { path, journal } = begun(1);
    expect(() => journal.append({ n: 2, says: 'x'.repeat(1 << 20) })).toThrow(/beyond all measure/);
    journal.append({ n: 2 });
    expect(numbers(path)).toEqual([1, 2]);
  });
});
