/** Four weeks after a batch, in the built program: what is due, what became of the bags, a culture, the next batch. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { DAY } from '../../src/core/time.ts';
import { Grower, titleOf } from '../help/grower.ts';
import { PROGRAM } from '../help/pty.ts';
import { drivenBatch, fillHome, homeHeader } from '../help/record-home.ts';
import { tempFolder } from '../help/temp-folder.ts';
import { terminal } from '../help/terminal.ts';

/** Only a day of the calendar depends on when the test is run. */
const BEGAN = Date.now() - 28 * DAY;

/** A home whose first questions were answered. */
function newHomeFolder(): string {
  const folder = tempFolder();
  writeFileSync(join(folder, 'settings.json'), JSON.stringify({ kitchenAsked: true }));
  return folder;
}

it('from what is due to the next batch, which another home begins as well', async () => {
  const home = newHomeFolder();
  fillHome(home, [
    drivenBatch(homeHeader('2642a', { soak: false, loads: [3] }, BEGAN), drive =>
      drive.to('vent').answer('stopped'),
    ),
  ]);

  const program = terminal([], { home });
  await program.ready();
  const grower = new Grower(program);
  await grower.presses('d', 'is it done? · 2642a oyster · bags 1, 2, 3');
  await grower.presses('space', 'Bag 2642a-1');
  await grower.presses('4', 'What does it look like through the film?');
  await grower.presses('2', /vent: the steam broke\s+off once/);
  await grower.presses('space', 'Bag 2642a-2');
  await grower.presses('3', 'Bag 2642a-3');
  await grower.presses('3', 'Noted, and kept:');
  await grower.presses('space', 'throw away · 2642a oyster · bag 1');
  await grower.presses('q', 'What shall it be?');

  await grower.presses('b', 'Newest first');
  await grower.presses('g', 'Bags of 2642a');
  await grower.presses('c', 'A culture for your list');
  await grower.presses('space', 'What is it given as?');
  await grower.presses('1', 'Where is it from?');
  await grower.presses('space', 'When was it made, or bought?');
  // Older than the bags, as a culture that was given to them has to be.
  for (const days of [7, 14, 21, 28, 35]) await grower.presses('left', `${days} days ago`);
  await grower.presses('space', /oyster-\d{4} is in your list/);
  await grower.presses('space', 'Bag 2642a-2');
  await grower.presses('q', 'Bags of 2642a');
  await grower.presses('q', 'Newest first');
  await grower.presses('n', 'Vent for 12 min instead of 10 min.');
  await grower.presses('space', '"again"');
  await grower.presses('q', 'Newest first');
  await grower.presses('q', 'What shall it be?');
  await grower.presses('q');
  expect((await program.exit).code).toBe(0);

  const archive = join(tempFolder(), 'all.zip');
  const command = (where: string, ...words: readonly string[]): string =>
    execFileSync(process.execPath, [PROGRAM, '--home', where, ...words], { encoding: 'utf8' });
  command(home, 'export', archive);
  const other = newHomeFolder();
  expect(command(other, 'import', archive)).toContain('1 batch added');
  expect(command(other, 'cultures')).toMatch(/oyster-\d{4} +oyster +liquid culture +own +20\d\d-\d\d-\d\d/);
  expect(command(other, 'bags', '2642a')).toMatch(/2642a-1 +contaminated, black .*oyster-\d{4}/);
  const again = terminal(['again'], { home: other });
  const started = await again.ready();
  expect(titleOf(started.screen())).toBe('Gear');
  expect(started.screen().head).toContain('Rye in bags (after 2642a)');
});
