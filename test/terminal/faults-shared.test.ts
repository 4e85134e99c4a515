import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { leaveAt, momentsOf } from '../faults/crash-driver.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { openPty, PROGRAM } from '../help/pty.ts';
import { tempFolder } from '../help/temp-folder.ts';

const isRoot = process.getuid?.() === 0;
const moments = momentsOf(sampleHeader({ loads: [1] }));
const draining = moments.find(({ step }) => step === 'drain');
if (!draining) throw new Error('No moment of draining.');

/** Runs a command line without a terminal; whatever goes wrong has to be a sentence. */
function told(
  args: readonly string[],
  options: { uid?: number; input?: string; env?: NodeJS.ProcessEnv } = {},
) {
  const { uid, input = '', env = process.env } = options;
  const ids = uid === undefined ? {} : { uid, gid: uid };
  const done = spawnSync(process.execPath, [PROGRAM, ...args], {
    input,
    env,
    encoding: 'utf8',
    timeout: 20_000,
    ...ids,
  });
  const text = `${done.stdout}${done.stderr}`;
  expect(text).not.toMatch(/mistake of its own|\n\s+at .*:\d+/);
  return { code: done.status, text };
}

describe('two copies and two people', () => {
  it('S10: a second copy watches, says so, takes no answer; when the first is killed the third runs', async () => {
    const home = tempFolder();
    leaveAt(draining, home);
    const first = openPty([], { home });
    await first.until(/step \d+ of \d+/);
    await first.ready();
    const second = openPty([], { home });
    await second.until(screen => screen.text.includes('[WATCHING]'), 'the mark of watching');
    await second.ready();
    await second.press('space');
    await second.until('answer there');
    await first.press('space');
    await first.until(/Surface/);
    await second.until(/Surface/);
    first.kill('SIGKILL');
    await first.close();
    await second.press('q');
    await second.exit;
    await second.close();
    const third = openPty([], { home });
    await third.until(/Surface/);
    expect(third.screen().text).not.toContain('WATCHING');
    await third.close();
  });

  it('a second copy in plain mode says that the batch is run elsewhere and changes nothing', async () => {
    const home = tempFolder();
    leaveAt(draining, home);
    const first = openPty([], { home });
    await first.until(/step \d+ of \d+/);
    const { text } = told(['--home', home, '--plain'], { input: '\n\n\n' });
    expect(text).toContain('Another Stovehand runs this batch');
    expect(first.screen().text).toContain('Drain');
    await first.close();
  });

  it.skipIf(!isRoot)('another person’s home is refused in a sentence', () => {
    const home = tempFolder();
    leaveAt(draining, home);
    chmodSync(home, 0o700);
    const readable = spawnSync(process.execPath, ['--version'], { uid: 65534, gid: 65534 }).status === 0;
    const seesProgram =
      readable && spawnSync(process.execPath, ['--check', PROGRAM], { uid: 65534 }).status === 0;
    if (!seesProgram) {
      console.log('Skipped: this folder is closed to other users.');
      return;
    }
    const env = { ...process.env, HOME: '/nonexistent' };
    for (const args of [
      ['batches'],
      ['kitchen'],
      ['recipes'],
      ['--plain'],
      ['record'],
      ['kitchen', 'altitude', '5 m'],
    ]) {
      const { code, text } = told(['--home', home, ...args], { uid: 65534, env });
      expect(code, text).not.toBe(1);
      if (code !== 0) expect(text).toMatch(/permission is refused/);
    }
  });

  it.skipIf(!isRoot)('another person’s batch in a shared home is refused or read, never harmed', () => {
    const shared = tempFolder();
    mkdirSync(join(shared, 'batches'), { recursive: true });
    leaveAt(draining, shared);
    chmodSync(shared, 0o777);
    chmodSync(join(shared, 'batches'), 0o777);
    const before = readdirSync(join(shared, 'batches'));
    const { code, text } = told(['--home', shared, '--plain'], { uid: 65534, input: '\n' });
    if (code !== 0) expect(text).toMatch(/permission is refused|Cannot find module/);
    expect(readdirSync(join(shared, 'batches')).filter(name => before.includes(name))).toEqual(before);
  });
});

describe('a home that cannot be written', () => {
  it.skipIf(!isRoot || process.platform !== 'linux')(
    'read-only: one sentence, listings still work',
    async context => {
      const disk = join(tempFolder(), 'disk');
      mkdirSync(disk);
      try {
        execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=2m', 'tmpfs', disk], { stdio: 'ignore' });
      } catch {
        console.log('Skipped: no small disk may be mounted here.');
        context.skip();
        return;
      }
      onTestFinished(() => void execFileSync('umount', ['-l', disk], { stdio: 'ignore' }));
      leaveAt(draining, disk);
      execFileSync('mount', ['-o', 'remount,ro', disk]);
      expect(told(['--home', disk, 'batches']).code).toBe(0);
      expect(told(['--home', disk, 'kitchen']).code).toBe(0);
      for (const args of [['--plain'], ['--plain', 'run', 'rye'], ['kitchen', 'altitude', '5 m']]) {
        const { code, text } = told(['--home', disk, ...args], { input: '1\n\nq\n' });
        expect(code, text).toBe(4);
        expect(text).toContain('can only be read');
      }
      const screen = openPty([], { home: disk });
      try {
        await screen.until(/can only be read/);
      } finally {
        await screen.close();
      }
    },
  );

  it.each([
    [
      'a file where the folder should be',
      (place: string) => writeFileSync(place, 'x'),
      /not a folder|already there/,
    ],
    ['nothing, under a folder that is a file', () => undefined, /not a folder|no such file|permission/],
  ])('%s', (_, make, says) => {
    const place = join(tempFolder(), 'home');
    make(place);
    const home = make.length === 1 ? place : '/dev/null/home';
    for (const args of [
      ['--plain', 'run', 'rye'],
      ['kitchen', 'altitude', '5 m'],
    ]) {
      const { code, text } = told(['--home', home, ...args], { input: 'q\n' });
      expect(code, text).toBe(4);
      expect(text).toMatch(says);
      expect(text.split('\n').filter(line => line !== '').length).toBeLessThan(5);
    }
    expect(dirname(place).startsWith(tmpdir())).toBe(true);
  });
});
