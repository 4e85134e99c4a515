import { renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { DAY, HOUR, MINUTE } from '../../src/core/time.ts';
import { leaveAt, momentsOf } from '../faults/crash-driver.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { openPty, PROGRAM, type Pty } from '../help/pty.ts';
import { tempFolder } from '../help/temp-folder.ts';

const PRELOAD = join(import.meta.dirname, '../faults/shift-preload.mjs');
const YEAR = 365 * DAY;

it('S6: real processes whose clock is set, asleep and started again: the lock is as long as it was', async () => {
  const home = tempFolder();
  const file = join(home, 'shift.json');
  const shift = (wall: number, uptime = 0) => {
    writeFileSync(`${file}.new`, JSON.stringify({ wall, uptime }));
    renameSync(`${file}.new`, file);
  };
  shift(0);
  const moment = momentsOf(sampleHeader({ loads: [1] })).find(({ step }) => step === 'cool');
  if (!moment) throw new Error('No moment of cooling.');
  leaveAt(moment, home);
  const open = () =>
    openPty([], {
      home,
      command: [process.execPath, '--import', PRELOAD, PROGRAM],
      env: { STOVEHAND_SHIFT_FILE: file, TZ: 'UTC' },
    });
  /** The lock is told as a clock time; what is left is that time less the clock the program believes in. */
  const doneAbout = (program: Pty) => /done about (.*)$/.exec(program.screen().head)?.[1];
  const program = open();
  await program.until(/step \d+ of \d+/);
  await program.ready();
  const first = doneAbout(program);
  expect(first).toBeDefined();

  // Ten years forward and back again while it runs: told, and nothing is shorter.
  shift(10 * YEAR);
  await program.until(/clock was set forward/);
  await program.until(/locked: pressure/);
  shift(0);
  await program.until(/clock was set back/);
  expect(doneAbout(program)).toBe(first);
  shift(-1 * HOUR);
  await program.until(({ head }) => !head.includes(first ?? '?'), 'clock times that follow the clock');
  shift(0);
  await program.until(({ head }) => head.includes(first ?? '?'), 'the clock times of before');

  // Killed, and opened with a clock a day ahead: the lock is still there.
  program.kill('SIGKILL');
  await program.close();
  shift(DAY);
  const second = open();
  await second.until(/locked: pressure/);
  await second.close();

  // Slept for 50 minutes of the pressure part by all clocks that go on: that much is served, and not the rest.
  shift(50 * MINUTE, 50 * MINUTE);
  const third = open();
  await third.until(/locked: pressure/);
  await third.close();
  shift(70 * MINUTE, 70 * MINUTE);
  const fourth = open();
  await fourth.until(/shut to cool/);
  await fourth.close();
});
