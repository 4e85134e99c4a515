import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { Grower, titleOf } from '../help/grower.ts';
import { terminal } from '../help/terminal.ts';

/** A second is an hour, so that a night is a few seconds. */
const FAST = { STOVEHAND_TEST_CLOCK: '3600' };

const journalOf = (home: string): string => {
  const folder = join(home, 'batches');
  const name = readdirSync(folder).find(entry => entry.endsWith('.batch')) ?? '';
  return readFileSync(join(folder, name), 'utf8');
};

it('one evening: a first run of wheat from home to done, by Space and 1 to 4 alone', async () => {
  const pty = terminal([], { env: FAST });
  await pty.ready();
  const grower = new Grower(pty);
  await grower.begins('Wheat, first run');
  grower.keys.length = 0;
  const titles: string[] = [];
  await grower.goesOnUntil(screen => {
    const title = titleOf(screen);
    if (titles.at(-1) !== title) titles.push(title);
    return title === 'Done';
  }, 'Done');

  expect(new Set(grower.keys)).toEqual(new Set(['space', '1', '2', '3']));
  expect(grower.screen.text).toContain('3 bags under way');
  expect(grower.screen.head).toContain('[TEST CLOCK x3600]');
  for (const title of ['Gear', 'Simmer', 'Vent', 'Hold', 'Cool', 'Inoculate'])
    expect(titles.join(' ')).toContain(title);
  const journal = journalOf(pty.home);
  expect(journal.match(/"type":"answer"/g)?.length ?? 0).toBeGreaterThanOrEqual(25);
  expect(journal).not.toContain('"type":"typed"');

  await grower.presses('q', 'What shall it be?');
  await grower.presses('q');
  expect(await pty.exit).toEqual({ code: 0, signal: 0 });
}, 180_000);
