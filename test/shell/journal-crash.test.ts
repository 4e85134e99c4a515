import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { openJournal } from '../../src/shell/journal.ts';
import { tempFolder } from '../help/temp-folder.ts';

const WRITER = fileURLToPath(new URL('../help/append-forever.ts', import.meta.url));
const accept = (value: unknown) => value as { n: number };

/** Lets a writer run until it has vouched for so many events, kills it, and returns the last it vouched for. */
function killedWriter(path: string, vouched: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [WRITER, path], { stdio: ['ignore', 'pipe', 'inherit'] });
    let said = '';
    child.stdout.on('data', (bytes: Buffer) => {
      said += bytes.toString();
      if (said.split('\n').length > vouched) child.kill('SIGKILL');
    });
    child.on('error', reject);
    child.on('close', () => resolve(Number(said.split('\n').at(-2) ?? 0)));
  });
}

it('S4: every event vouched for before a kill -9 is in the file, and the batch goes on', async () => {
  const folder = tempFolder();
  for (const [run, vouched] of [1, 2, 3, 7, 20, 55, 150, 400].entries()) {
    const path = join(folder, `${run}.batch`);
    const last = await killedWriter(path, vouched);
    expect(last).toBeGreaterThanOrEqual(vouched);
    const { journal, reading, keptAside } = openJournal(path, accept);
    const numbers = reading.entries.map(({ n }) => n);
    expect(numbers).toEqual(numbers.map((_, index) => index + 1));
    expect(numbers.length).toBeGreaterThanOrEqual(last);
    expect(reading.notices.every(({ kind }) => kind === 'torn')).toBe(true);
    expect(keptAside).toBeNull();
    journal.append({ n: numbers.length + 1 });
    journal.close();
  }
});
