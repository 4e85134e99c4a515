import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { readEntry } from '../../src/core/batch/entry.ts';
import { readBatchHeader } from '../../src/core/batch/header.ts';
import { replay } from '../../src/core/batch/replay.ts';
import type { Batch } from '../../src/core/batch/state.ts';
import { HOUR, MINUTE, SECOND } from '../../src/core/time.ts';
import { openBatch } from '../../src/shell/batches.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { type FileLayer, nodeFiles } from '../../src/shell/files.ts';
import { readJournal } from '../../src/shell/journal.ts';
import { sampleHeader, VARIANTS } from '../help/batch-kit.ts';
import { type Fault, faultyFiles } from '../help/faulty-files.ts';
import { tempFolder } from '../help/temp-folder.ts';
import { Evening } from './evening.ts';
import { createChance } from './fuzz.ts';
import { memoryFiles } from './memory-files.ts';

const FOLDER = '/home/batches';
const CODES = [
  'ENOSPC',
  'EDQUOT',
  'EIO',
  'EROFS',
  'EACCES',
  'ENOENT',
  'ESTALE',
  'ENOTCONN',
  'ENODEV',
  'EBADF',
];

/** The batch as another program would find it on the disk now. */
function kept(path: string, files: FileLayer): Batch {
  const { header, entries } = readJournal(path, readEntry, files);
  const known = readBatchHeader(header);
  if (!known) throw new Error('The header is gone.');
  return replay(
    known,
    entries.map(({ event }) => event),
  ).run.batch;
}

/** Everything of a batch but the mere passing of time, which is written in beats. */
const shown = ({ now, wall, hold, header, ...rest }: Batch) => ({ ...rest, ...hold, creditMs: 0 });

function expectKept(evening: Evening, disk: FileLayer): void {
  const onDisk = kept(evening.session.path, disk);
  expect(shown(evening.batch)).toEqual(shown(onDisk));
  expect(evening.batch.now - onDisk.now).toBeLessThanOrEqual(MINUTE);
}

describe('S4: nothing is shown that is not kept, whatever the disk does', () => {
  it('over 15 evenings with failing writes, syncs, cuts and names', () => {
    const chance = createChance(5);
    const headers = Object.values(VARIANTS);
    let failed = 0;
    let finished = 0;
    for (let night = 0; night < 15; night += 1) {
      const disk = memoryFiles();
      const faulty = faultyFiles(disk);
      const evening = new Evening({
        header: chance.pick(headers),
        folder: FOLDER,
        files: faulty.files,
        tickMs: 20 * SECOND,
      });
      for (let moves = 0; moves < 250 && evening.batch.finishedAt === null; moves += 1) {
        const breaks = chance.next() < 0.25;
        if (breaks) {
          const on = chance.pick(['write', 'write', 'sync', 'truncate', 'facts', 'look', 'open'] as const);
          const fault: Fault = {
            on,
            code: chance.pick(CODES),
            times: 1 + chance.below(6),
            ...(on === 'write' ? { bytes: chance.below(90) } : {}),
          };
          faulty.break(fault);
        }
        const before = evening.batch;
        evening.plannedMove();
        if (evening.session.trouble !== null) {
          failed += 1;
          expect(evening.session.trouble).toMatch(/^The batch could not be written: .*\.$/);
          expect(shown(evening.batch)).toEqual(shown(kept(evening.session.path, disk)));
        }
        expectKept(evening, disk);
        faulty.mend();
        if (breaks) {
          // The next tick writes again, and the trouble is over.
          evening.wait(20 * SECOND);
          expect(evening.session.trouble).toBeNull();
          expect(evening.batch.now).toBeGreaterThanOrEqual(before.now);
          expectKept(evening, disk);
        }
      }
      if (evening.batch.finishedAt !== null) finished += 1;
      evening.session.close();
      expect(disk.openCount).toBe(0);
    }
    console.log(`15 evenings on a failing disk: ${failed} failures seen, ${finished} batches finished`);
    expect(failed).toBeGreaterThan(50);
    expect(finished).toBeGreaterThan(12);
  });

  it('a pause during trouble stays a pause: its time is not held until the gauge is answered', () => {
    const disk = memoryFiles();
    const faulty = faultyFiles(disk);
    const evening = new Evening({ header: sampleHeader(), folder: FOLDER, files: faulty.files });
    evening.to('hold');
    evening.answer('at');
    evening.wait(10 * MINUTE);
    const held = evening.batch.hold.creditMs;
    faulty.break({ on: 'sync', code: 'EIO' });
    evening.wait(MINUTE);
    evening.clock.pass(2 * HOUR, { steady: 0 });
    evening.wait(MINUTE);
    expect(evening.answer('at')).toBeNull();
    expect(evening.batch.step).toBe('hold');
    faulty.mend();
    evening.wait(5 * SECOND);
    expect(evening.batch.away).not.toBeNull();
    expect(evening.batch.hold.creditMs).toBeLessThanOrEqual(held + 2 * MINUTE);
    expect(evening.answer('unknown')).toBeNull();
    expectKept(evening, disk);
    evening.session.close();
  });

  it('opening and beginning on a failing disk ends in one sentence and leaves no lock and no open file', () => {
    const disk = memoryFiles();
    const header0 = sampleHeader({ soak: false });
    const first = new Evening({ header: header0, folder: FOLDER, files: disk }).to('simmer');
    first.session.close();
    const { header } = first.batch;
    const operations = [
      'open',
      'read',
      'write',
      'sync',
      'truncate',
      'facts',
      'look',
      'rename',
      'link',
      'remove',
      'folder',
      'list',
      'syncFolder',
    ] as const;
    let refused = 0;
    for (const on of operations) {
      for (const code of ['ENOSPC', 'EIO', 'ENOENT', 'EACCES']) {
        for (let after = 0; after < 8; after += 1) {
          for (const work of ['open', 'begin'] as const) {
            const faulty = faultyFiles(disk);
            const names = disk.names();
            faulty.break({ on, code, after, times: 1 });
            try {
              if (work === 'open')
                openBatch({ folder: FOLDER, clock: first.clock, files: faulty.files }, first.id).close();
              else {
                const more = new Evening({ header, folder: FOLDER, files: faulty.files, clock: first.clock });
                more.session.close();
                disk.remove(more.session.path);
              }
            } catch (problem) {
              refused += 1;
              const said = `${work}, ${on} ${code} after ${after}`;
              expect(problem, said).toBeInstanceOf(GrowerError);
            }
            faulty.mend();
            // Whatever was left behind, the next opening is not taken for a second one.
            const again = openBatch({ folder: FOLDER, clock: first.clock, files: disk }, first.id);
            expect(again.role, `${work}, ${on} ${code} after ${after}`).toBe('running');
            again.close();
            for (const name of disk.names()) if (!names.includes(name)) disk.remove(name);
            expect(disk.openCount, `${work}, ${on} ${code} after ${after}`).toBe(0);
          }
        }
      }
    }
    expect(refused).toBeGreaterThan(80);
  });
});

const isRoot = process.getuid?.() === 0;

/** A small disk of its own, or null where none may be mounted. */
function smallDisk(kilobytes: number): string | null {
  if (!isRoot || process.platform !== 'linux') return null;
  const folder = join(tempFolder(), 'disk');
  mkdirSync(folder);
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${kilobytes}k`, 'tmpfs', folder], { stdio: 'ignore' });
  } catch {
    return null;
  }
  onTestFinished(() => void execFileSync('umount', ['-l', folder], { stdio: 'ignore' }));
  return folder;
}

describe('a real disk that fills up, turns read-only or goes away', () => {
  it('stands still while it is full and goes on when there is room', context => {
    const disk = smallDisk(1024);
    if (disk === null) {
      console.log('Skipped: a small disk can only be mounted by root on Linux.');
      context.skip();
      return;
    }
    const evening = new Evening({ header: sampleHeader(), folder: join(disk, 'batches') });
    evening.to('heat');
    const ballast = join(disk, 'ballast');
    for (let size = 1024; size > 0; size -= 1) {
      try {
        writeFileSync(ballast, Buffer.alloc(size * 1024));
        break;
      } catch {
        rmSync(ballast, { force: true });
      }
    }
    for (let tries = 0; tries < 200 && evening.session.trouble === null; tries += 1) {
      evening.answer('spurts');
    }
    expect(evening.session.trouble).toContain('the disk is full');
    evening.answer('steady');
    expect(evening.batch.step).toBe('heat');
    expectKept(evening, nodeFiles);
    rmSync(ballast);
    evening.wait(SECOND);
    expect(evening.session.trouble).toBeNull();
    expect(evening.answer('steady')).toBeNull();
    expect(evening.batch.step).toBe('vent');
    expectKept(evening, nodeFiles);
    evening.session.close();
    execFileSync('mount', ['-o', 'remount,ro', disk]);
    expect(() => evening.reopen()).toThrow(/^The batch could not be opened: the disk can only be read/);
    execFileSync('mount', ['-o', 'remount,rw', disk]);
    expect(evening.reopen().role).toBe('running');
    evening.session.close();
  });

  it('writes the file anew when its folder was removed during a batch', () => {
    const folder = join(tempFolder(), 'batches');
    const evening = new Evening({ header: sampleHeader(), folder });
    evening.to('portion');
    rmSync(folder, { recursive: true });
    const { cursor } = evening.batch;
    evening.answer('as-planned');
    expect(evening.batch.cursor).toBe(cursor);
    expect(evening.session.trouble).toContain('its file was removed');
    evening.wait(SECOND);
    expect(evening.session.trouble).toBeNull();
    expect(evening.answer('as-planned')).toBeNull();
    expectKept(evening, nodeFiles);
    evening.to('load');
    expectKept(evening, nodeFiles);
    evening.session.close();
  });

  it('does not write into a file that somebody put in the place of its own', () => {
    const folder = join(tempFolder(), 'batches');
    const evening = new Evening({ header: sampleHeader(), folder });
    evening.to('portion');
    const { path } = evening.session;
    renameSync(path, `${path}.away`);
    writeFileSync(path, 'something else');
    chmodSync(path, 0o600);
    evening.answer('as-planned');
    expect(evening.session.trouble).toContain('another program has changed its file');
    expect(readFileSync(path, 'utf8')).toBe('something else');
    rmSync(path);
    renameSync(`${path}.away`, path);
    evening.wait(SECOND);
    expect(evening.session.trouble).toBeNull();
    expect(evening.answer('as-planned')).toBeNull();
    expectKept(evening, nodeFiles);
    evening.session.close();
  });
});
