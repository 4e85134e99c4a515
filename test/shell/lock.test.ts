import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, onTestFinished } from 'vitest';
import { nodeFiles } from '../../src/shell/files.ts';
import { type LockHolder, takeLock } from '../../src/shell/lock.ts';
import { beganByStat, type ProcessWatch, watchProcesses } from '../../src/shell/processes.ts';
import { faultyFiles } from '../help/faulty-files.ts';
import { tempFolder } from '../help/temp-folder.ts';

const TAKER = fileURLToPath(new URL('../help/take-lock.ts', import.meta.url));
const here: ProcessWatch = {
  boot: 'a1@pc',
  uptime: 10 * 3_600_000,
  space: 'pid:[1]',
  began: pid => (pid === 4000 ? '777' : pid === process.pid ? '555' : null),
};
const holder: LockHolder = {
  id: '00000000-aaaa-4aaa-8aaa-000000000001',
  pid: 4000,
  since: 1,
  boot: 'a1@pc',
  uptime: 3_600_000,
  began: '777',
  space: 'pid:[1]',
};
function lockedBy(change: Partial<LockHolder>): string {
  const path = join(tempFolder(), 'a.lock');
  writeFileSync(path, JSON.stringify({ ...holder, ...change }));
  return path;
}

describe('lock', () => {
  it('S10: is held by one, tells the second by whom, and is free after release', () => {
    const path = join(tempFolder(), 'batches', 'a.lock');
    const first = takeLock(path);
    expect(first.held).toBe(true);
    expect(statSync(path).mode & 0o777).toBe(0o600);
    const second = takeLock(path);
    expect(second).toMatchObject({ held: false, elsewhere: false, by: { pid: process.pid } });
    if (first.held) first.release();
    expect(readdirSync(join(path, '..'))).toEqual([]);
    expect(takeLock(path).held).toBe(true);
  });

  it.each([
    ['a process that runs', {}, 'alive'],
    ['a process that is gone', { pid: 4001 }, 'dead'],
    ['a number that another process has now', { began: '776' }, 'dead'],
    ['an earlier start of the machine', { boot: 'a0@pc' }, 'dead'],
    ['an estimated start, moved by setting the clock', { boot: '~5@pc' }, 'alive'],
    ['an estimated start with a longer uptime', { boot: '~5@pc', uptime: 20 * 3_600_000 }, 'dead'],
    ['another machine', { boot: 'a1@laptop', pid: 4001 }, 'elsewhere'],
    ['another container', { space: 'pid:[2]', pid: 4001 }, 'elsewhere'],
    ['a process whose beginning is not known', { began: '' }, 'alive'],
  ] as const)('of %s counts as %2$s', (_, change, state) => {
    const path = lockedBy(change);
    const lock = takeLock(path, nodeFiles, here);
    if (state === 'dead') {
      expect(lock.held).toBe(true);
      expect(JSON.parse(readFileSync(path, 'utf8'))).toMatchObject({ pid: process.pid, boot: 'a1@pc' });
      expect(readdirSync(join(path, '..'))).toEqual(['a.lock']);
    } else {
      expect(lock).toMatchObject({
        held: false,
        elsewhere: state === 'elsewhere',
        by: { ...holder, ...change },
      });
    }
  });

  it('that cannot be understood is left alone for a minute, then replaced', () => {
    for (const text of ['', '{"pid":', 'null', '{"id":"../../x","pid":4000}', '\u0000'.repeat(100)]) {
      const path = join(tempFolder(), 'a.lock');
      writeFileSync(path, text);
      expect(takeLock(path).held).toBe(false);
      utimesSync(path, 1, 1);
      expect(takeLock(path).held).toBe(true);
      expect(readdirSync(join(path, '..'))).toEqual(['a.lock']);
    }
  });

  it('survives a starter that died while it replaced a dead lock', () => {
    const path = lockedBy({ pid: 4001 });
    writeFileSync(`${path}.00000000`, JSON.stringify({ ...holder, pid: 4002, id: '11111111-1' }));
    expect(takeLock(path, nodeFiles, here).held).toBe(true);
    expect(readdirSync(join(path, '..'))).toEqual(['a.lock']);
  });

  it('waits for a starter that is just replacing a dead lock', () => {
    const path = lockedBy({ pid: 4001 });
    writeFileSync(`${path}.00000000`, JSON.stringify({ ...holder, id: '11111111-1' }));
    expect(takeLock(path, nodeFiles, here)).toMatchObject({ held: false, by: { pid: 4000 } });
    expect(JSON.parse(readFileSync(path, 'utf8'))).toMatchObject({ pid: 4001 });
  });

  it('does not remove on release what is not its own any more', () => {
    const path = join(tempFolder(), 'a.lock');
    const lock = takeLock(path);
    writeFileSync(path, JSON.stringify(holder));
    if (lock.held) lock.release();
    expect(existsSync(path)).toBe(true);
  });

  it('works on a disk without second names for files', () => {
    const disk = faultyFiles();
    disk.break({ on: 'link', code: 'EPERM' });
    const path = join(tempFolder(), 'a.lock');
    expect(takeLock(path, disk.files).held).toBe(true);
    expect(takeLock(path, disk.files).held).toBe(false);
    expect(readdirSync(join(path, '..'))).toEqual(['a.lock']);
  });
});

describe('many starters at once', () => {
  const starters = async (path: string, count: number) => {
    const children = Array.from({ length: count }, () =>
      spawn(process.execPath, [TAKER, path], { stdio: ['pipe', 'pipe', 'inherit'] }),
    );
    onTestFinished(() => {
      for (const child of children) child.kill('SIGKILL');
    });
    const lines = children.map(child => createInterface({ input: child.stdout })[Symbol.asyncIterator]());
    for (const line of lines) expect((await line.next()).value).toBe('ready');
    for (const child of children) child.stdin.write('go\n');
    return Promise.all(lines.map(async line => String((await line.next()).value)));
  };

  it('S10: exactly one wins a free lock', async () => {
    const answers = await starters(join(tempFolder(), 'a.lock'), 6);
    expect(answers.sort()).toEqual(['held', 'refused', 'refused', 'refused', 'refused', 'refused']);
  });

  it('S10: exactly one wins the lock of a dead holder', async () => {
    const real = watchProcesses();
    const path = join(tempFolder(), 'a.lock');
    // The process runs, but it began at another time: its number was given out again.
    const dead = { ...holder, pid: process.pid, boot: real.boot, space: real.space, began: '1' };
    writeFileSync(path, JSON.stringify(dead));
    const answers = await starters(path, 6);
    expect(answers.filter(answer => answer === 'held')).toHaveLength(1);
  });

  it('S10: two that find the same corpse in any interleaving of their file operations never both win', () => {
    // One starter is stopped before its n-th operation while another runs from beginning to end.
    let longest = 0;
    const last = 60;
    for (let stop = 1; stop < last; stop += 1) {
      const path = lockedBy({ pid: 4001 });
      let count = 0;
      let second: ReturnType<typeof takeLock> | null = null;
      const interrupted = new Proxy(nodeFiles, {
        get:
          (files, name) =>
          (...args: unknown[]) => {
            count += 1;
            if (count === stop) second = takeLock(path, nodeFiles, here);
            return Reflect.apply(Reflect.get(files, name), files, args);
          },
      });
      const first = takeLock(path, interrupted, here);
      longest = Math.max(longest, count);
      const held = [first, second].filter(lock => lock?.held === true).length;
      expect(held, `stopped before operation ${stop} of ${count}`).toBe(1);
    }
    expect(longest).toBeGreaterThan(15);
    expect(longest).toBeLessThan(last);
  });
});

describe('the beginning of a process', () => {
  it('is field 22 of its stat line, even when the name of the program is odd', () => {
    // Made after proc_pid_stat(5): pid (comm) state ppid ... starttime is the 22nd field.
    const line = (name: string, state: string) =>
      `77 (${name}) ${state} 1 77 77 0 -1 4194560 1 2 3 4 5 6 7 8 20 0 1 0 98765 1000 200`;
    expect(beganByStat(line('node', 'S'))).toBe('98765');
    expect(beganByStat(line('a) R 1 (b', 'R'))).toBe('98765');
    expect(beganByStat(line('node', 'Z'))).toBeNull();
    expect(beganByStat('')).toBe('');
  });

  it('is known for this process and null for one that is not there', () => {
    const watch = watchProcesses();
    expect(watch.began(process.pid)).not.toBeNull();
    expect(watch.began(2 ** 30)).toBeNull();
  });
});
