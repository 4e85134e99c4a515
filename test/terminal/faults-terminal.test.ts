import { spawnSync } from 'node:child_process';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { leaveAt, type Moment, momentsOf } from '../faults/crash-driver.ts';
import { createChance } from '../faults/fuzz.ts';
import { openSlow } from '../faults/slow-reader.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { openPty, PROGRAM } from '../help/pty.ts';
import { tempFolder } from '../help/temp-folder.ts';

/** A towel that lies 6 s instead of 20, so that the tests need not wait for it. */
const TOWEL_S = 6;
const sample = sampleHeader({ loads: [1] });
const header = {
  ...sample,
  recipe: { ...sample.recipe, drying: { ...sample.recipe.drying, towelS: TOWEL_S } },
};
const moments = momentsOf(header);
function momentOf(fits: (moment: Moment) => boolean): Moment {
  const found = moments.find(fits);
  if (!found) throw new Error('No such moment.');
  return found;
}
const lastAnswer = ({ events }: Moment): string => {
  const last = events.at(-1);
  return last?.type === 'answer' ? last.choice : '';
};
const towelLaid = momentOf(moment => lastAnswer(moment) === 'towel-laid');
const holding = momentOf(({ step }) => step === 'hold');

describe('a slow terminal', () => {
  it.each([
    [80, 24],
    [200, 60],
  ])('of %i x %i gets less than 1 kB for each second that is counted', async (columns, rows) => {
    const home = tempFolder();
    leaveAt(holding, home);
    const program = openPty([], { home, columns, rows, env: { STOVEHAND_TEST_CLOCK: '10' } });
    try {
      await program.until(/stayed at target/);
      await program.ready();
      await program.press('2');
      await program.until(/left of/);
      const from = program.written.length;
      const began = Date.now();
      await pause(3000);
      const ticks = (Date.now() - began) / 100;
      const perSecond = (program.written.length - from) / ticks;
      console.log(`${columns} x ${rows}: ${perSecond.toFixed(0)} bytes for each second counted in the hold`);
      expect(perSecond).toBeLessThan(1000);
    } finally {
      await program.close();
    }
  });

  it('that takes 1 kB a second hears the towel when it is due, and no more than a few seconds late', async () => {
    const home = tempFolder();
    leaveAt(towelLaid, home);
    const slow = openSlow(home, 1000, 80, 24);
    try {
      const first = await slow.until('Surface', 30);
      const bell = await slow.until('\u0007', 60);
      console.log(
        `at 1 kB/s the first frame took ${first.toFixed(1)} s, the bell came ${(first + bell).toFixed(1)} s after the start, due at ${TOWEL_S} s`,
      );
      expect(first + bell).toBeLessThan(TOWEL_S + 15);
    } finally {
      slow.close();
    }
  });
});

describe('a terminal that changes', () => {
  it('resized 150 times at once, through every absurd size, shows the run again and takes an answer', async () => {
    const home = tempFolder();
    leaveAt(
      momentOf(({ step }) => step === 'drain'),
      home,
    );
    const chance = createChance(150);
    const program = openPty([], { home });
    try {
      await program.until(/step \d+ of \d+/);
      await program.ready();
      for (let turn = 0; turn < 150; turn += 1) {
        program.resize(2 + chance.below(220), 2 + chance.below(70));
        if (turn % 10 === 0) await pause(5);
      }
      program.resize(80, 24);
      const screen = await program.until(
        ({ head, tools }) => /step \d+ of \d+/.test(head) && tools.includes('leave'),
      );
      expect(screen.lines.filter(line => /step \d+ of \d+/.test(line))).toHaveLength(1);
      await program.press('space');
      await program.until(/Surface/);
    } finally {
      await program.close();
    }
  });

  it('that breaks off in the middle of a paste hears keys again', async () => {
    const home = tempFolder();
    leaveAt(
      momentOf(({ step }) => step === 'drain'),
      home,
    );
    const program = openPty([], { home });
    try {
      await program.until(/step \d+ of \d+/);
      await program.ready();
      program.type('\u001b[200~1\r');
      await program.until(/Several keys at once/);
      await program.press('space');
      await program.until(/Surface/);
    } finally {
      await program.close();
    }
  });

  it.each([
    ['16 colours', { TERM: 'xterm', COLORTERM: '' }, /^(default|16:\d+)$/],
    ['NO_COLOR', { NO_COLOR: '1' }, /^default$/],
  ])('with %s uses no other', async (_, env, allowed) => {
    const home = tempFolder();
    leaveAt(holding, home);
    const program = openPty([], { home, columns: 120, rows: 40, env });
    try {
      await program.until(/stayed at target/);
      await program.ready();
      await program.press('2');
      await program.until(/left of/);
      const used = new Set<string>();
      for (let row = 0; row < 40; row += 1)
        for (const cell of program.cells(row)) used.add(cell.colour).add(cell.ground);
      expect([...used].filter(colour => !allowed.test(colour))).toEqual([]);
    } finally {
      await program.close();
    }
  });

  it('tmux: hung up and attached again, the batch has gone on', async context => {
    const session = `stovehand-${process.pid}`;
    const tmux = (...args: string[]) => spawnSync('tmux', ['-L', session, ...args], { encoding: 'utf8' });
    if (tmux('-V').status !== 0) {
      console.log('Skipped: there is no tmux.');
      context.skip();
      return;
    }
    const home = tempFolder();
    leaveAt(towelLaid, home);
    const seen = async (text: RegExp) => {
      for (let looks = 0; looks < 300; looks += 1) {
        if (text.test(tmux('capture-pane', '-p').stdout)) return;
        await pause(100);
      }
      throw new Error(`Never in tmux: ${text}\n${tmux('capture-pane', '-p').stdout}`);
    };
    try {
      tmux(
        'new-session',
        '-d',
        '-x',
        '80',
        '-y',
        '24',
        `CI=false STOVEHAND_HOME=${home} '${process.execPath}' '${PROGRAM}'`,
      );
      await seen(/step \d+ of \d+/);
      const client = openPty([], { home, command: ['tmux', '-L', session, 'attach'] });
      await client.until(/step \d+ of \d+/);
      client.kill('SIGHUP');
      await client.exit;
      await client.close();
      await seen(/lift it/);
      const again = openPty([], { home, command: ['tmux', '-L', session, 'attach'] });
      await again.until(/lift it/);
      await again.press('3');
      await again.until(/step \d+ of \d+[\s\S]*(Portion|Fill)/);
      again.kill('SIGHUP');
      await again.exit;
      await again.close();
    } finally {
      tmux('kill-server');
    }
  });
});
