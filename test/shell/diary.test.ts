import { execFile } from 'node:child_process';
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DiaryEvent } from '../../src/core/record/diary.ts';
import { openDiary, readDiaryBytes } from '../../src/shell/diary.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { faultyFiles } from '../help/faulty-files.ts';
import { someDiary } from '../help/record-history.ts';
import { diaryBytes, diaryOf } from '../help/record-home.ts';
import { tempFolder } from '../help/temp-folder.ts';

const looked = (number: number): DiaryEvent => ({ type: 'looked', bag: `2613a-${number}` });
const open = (path: string) => openDiary({ path, now: () => 1_800_000_000_000 });

describe('the diary on disk', () => {
  it('is empty before anything was said, and private afterwards', () => {
    const path = join(tempFolder(), 'home', 'diary.journal');
    const diary = open(path);
    expect(diary.read()).toEqual({ entries: [], notices: [] });
    diary.add(looked(1));
    expect(diary.read().entries.map(({ event }) => event)).toEqual([looked(1)]);
    if (process.platform !== 'win32') expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(readdirSync(join(path, '..'))).toEqual(['diary.journal']);
  });

  it('keeps everything in order, over many openings', () => {
    const path = join(tempFolder(), 'diary.journal');
    for (let number = 1; number <= 5; number += 1) open(path).add(looked(number), looked(number));
    const { entries, notices } = open(path).read();
    expect(notices).toEqual([]);
    expect(entries).toHaveLength(10);
    expect(new Set(entries.map(({ id }) => id)).size).toBe(10);
  });

  it('a damaged line costs that line, is named, and the next entry mends the file with a copy kept', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5 }), fc.nat(), (victim, where) => {
        const folder = tempFolder();
        const path = join(folder, 'diary.journal');
        const entries = diaryOf([1, 2, 3, 4, 5].map(looked));
        const lines = diaryBytes(entries).toString().split('\n');
        const line = lines[victim] ?? '';
        const at = where % (line.length - 10);
        lines[victim] = `${line.slice(0, at)}${line[at] === '#' ? '~' : '#'}${line.slice(at + 1)}`;
        writeFileSync(path, lines.join('\n'));
        const left = entries.filter((_, index) => index !== victim - 1);
        const reading = open(path).read();
        expect(reading.entries).toEqual(left);
        expect(reading.notices).toEqual([
          `Line ${victim + 1} of the diary is damaged and left out; the rest is kept.`,
        ]);
        open(path).add(looked(9));
        expect(open(path).read().notices).toEqual([]);
        expect(
          open(path)
            .read()
            .entries.map(({ event }) => event),
        ).toEqual([...left.map(({ event }) => event), looked(9)]);
        expect(readdirSync(folder).some(name => name.includes('damaged'))).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  it('cut at any byte it holds its first entries', () => {
    const entries = diaryOf([1, 2, 3, 4].map(looked));
    const bytes = diaryBytes(entries);
    for (let length = 0; length <= bytes.length; length += 1) {
      const read = readDiaryBytes(bytes.subarray(0, length)).entries;
      expect(read).toEqual(entries.slice(0, read.length));
    }
    expect(readDiaryBytes(bytes).notices).toEqual([]);
  });

  it('any bytes at all are read without a throw', () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 400 }),
        bytes => readDiaryBytes(Buffer.from(bytes)).entries.length === 0,
      ),
    );
  });

  it('merging adds what is not there, once, and is the same in any order', () => {
    fc.assert(
      fc.property(someDiary('2613a'), someDiary('2614a'), (mine, theirs) => {
        const [here, there] = [open(join(tempFolder(), 'd.journal')), open(join(tempFolder(), 'd.journal'))];
        here.merge(mine);
        expect(here.merge(theirs)).toHaveLength(theirs.length);
        expect(here.merge([...theirs, ...mine])).toEqual([]);
        there.merge(theirs);
        there.merge(mine);
        const byId = (diary: typeof here) => [...diary.read().entries].sort((a, b) => (a.id < b.id ? -1 : 1));
        expect(byId(here)).toEqual(byId(there));
      }),
      { numRuns: 30 },
    );
  });

  it('several programs writing at once lose nothing', async () => {
    const path = join(tempFolder(), 'diary.journal');
    const program = join(import.meta.dirname, '..', 'help', 'diary-writer.ts');
    await Promise.all(
      [1, 2, 3].map(name => promisify(execFile)(process.execPath, [program, path, String(name), '8'])),
    );
    const { entries, notices } = open(path).read();
    expect(notices).toEqual([]);
    expect(entries).toHaveLength(24);
  });

  it('a disk that fails is told in a sentence and nothing is half kept', () => {
    const path = join(tempFolder(), 'diary.journal');
    open(path).add(looked(1));
    const before = readFileSync(path);
    const faulty = faultyFiles();
    const diary = openDiary({ path, now: () => 1, files: faulty.files });
    faulty.break({ on: 'write', code: 'ENOSPC', after: 1, bytes: 5 });
    expect(() => diary.add(looked(2))).toThrow(GrowerError);
    faulty.mend();
    expect(readFileSync(path)).toEqual(before);
    diary.add(looked(3));
    expect(diary.read().entries).toHaveLength(2);
  });
});
