/** The built program's commands in a home with two finished batches. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { DAY } from '../../src/core/time.ts';
import { PROGRAM } from './pty.ts';
import { drivenBatch, fillHome, homeHeader } from './record-home.ts';
import { tempFolder } from './temp-folder.ts';

export const BEGAN = Date.UTC(2026, 9, 16, 18);

/** A home with two batches, and the program in it; `out` is where it is started. */
export function started() {
  const folder = tempFolder();
  const home = join(folder, 'home');
  fillHome(home, [
    drivenBatch(homeHeader('2642a', { soak: false, loads: [3] }, BEGAN), drive =>
      drive.to('vent').answer('stopped'),
    ),
    drivenBatch(homeHeader('2643a', { jars: true, loads: [2] }, BEGAN + 7 * DAY)),
  ]);
  return (...args: readonly string[]) => {
    const clock = `1@${BEGAN + 20 * DAY}`;
    const done = spawnSync(process.execPath, ['--no-warnings', PROGRAM, '--home', home, ...args], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, STOVEHAND_TEST_CLOCK: clock },
    });
    return { out: done.stdout, err: done.stderr, code: done.status, folder, home };
  };
}
