import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../src/core/batch/entry.ts';
import { readJournal } from '../../src/shell/journal.ts';
import { leaveAt, momentsOf } from '../faults/crash-driver.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { openPty } from '../help/pty.ts';
import { tempFolder } from '../help/temp-folder.ts';

/** A home whose batch has just begun its lock, with speech wished for and a speech program that writes it down. */
function lockedHome() {
  const home = tempFolder();
  const tools = join(home, 'tools');
  const spoken = join(home, 'spoken.txt');
  mkdirSync(tools);
  writeFileSync(join(tools, 'espeak-ng'), `#!/bin/sh\nwhile read line; do echo "$line" >> ${spoken}; done\n`);
  chmodSync(join(tools, 'espeak-ng'), 0o755);
  const alerts = { bell: true, terminal: true, speech: true, quietFromMin: 0, quietToMin: 0 };
  writeFileSync(join(home, 'settings.json'), JSON.stringify({ kitchen: { alerts }, kitchenAsked: true }));
  const moment = momentsOf(sampleHeader({ loads: [1] })).find(({ step }) => step === 'cool');
  if (!moment) throw new Error('No moment of a lock.');
  leaveAt(moment, home);
  return { home, tools, spoken };
}

const PATIENCE_MS = 90_000;
async function comes(what: string, there: () => boolean): Promise<void> {
  const until = performance.now() + PATIENCE_MS;
  while (!there()) {
    if (performance.now() > until) throw new Error(`Never came: ${what}`);
    await pause(100);
  }
}

const said = (spoken: string): string => (existsSync(spoken) ? readFileSync(spoken, 'utf8') : '');
const entriesIn = (home: string) => readJournal(join(home, 'batches', '2613a.batch'), readEntry).entries;

describe('a terminal that takes nothing', () => {
  it('the lock counts down, its end is spoken, and the screen is right when it takes again', async () => {
    const { home, tools, spoken } = lockedHome();
    // Slow enough that what lies between program and terminal is full long before the lock is over.
    const env = { STOVEHAND_TEST_CLOCK: '400', PATH: tools };
    const program = openPty([], { home, columns: 200, rows: 60, env });
    try {
      await program.until(/locked/i);
      program.read(false);
      const before = entriesIn(home).length;
      await comes('the end of the lock, spoken', () => /gauge/i.test(said(spoken)));
      await comes('what it kept meanwhile', () => entriesIn(home).length > before + 3);
      expect(entriesIn(home).some(({ event }) => event.type === 'gap' && event.why === 'asleep')).toBe(false);
      program.read(true);
      await program.until(
        ({ text, answers }) => answers.includes('1 at zero') && !text.includes('locked: pressure'),
      );
    } finally {
      await program.close();
    }
  });

  it('a program that is told to end ends all the same', async () => {
    const { home, tools } = lockedHome();
    const env = { STOVEHAND_TEST_CLOCK: '600', PATH: tools };
    const program = openPty([], { home, columns: 200, rows: 60, env });
    try {
      await program.until(/locked/i);
      program.read(false);
      const { length } = entriesIn(home);
      await comes('a minute of the story', () => entriesIn(home).length > length + 20);
      program.kill('SIGTERM');
      await comes('its end', () => !existsSync(`/proc/${program.pid}/exe`));
      program.read(true);
      expect((await program.exit).code).toBe(143);
    } finally {
      await program.close();
    }
  });
});
