import { onTestFinished, expect, it } from 'vitest';
import { Grower, question, titleOf } from '../help/grower.ts';
import { newHome, type Pty } from '../help/pty.ts';
import { StoryClock } from '../help/story-clock.ts';
import { terminal } from '../help/terminal.ts';
import { rmSync } from 'node:fs';

const QUICK = 3600;
/** Slow enough that a start of the program is seconds of the story, not an hour of it. */
const SLOW = 30;

/** Kills the program as a power cut does, and starts it again on the same home. */
async function powerCut(pty: Pty, clock: StoryClock, pace = QUICK): Promise<Grower> {
  pty.kill('SIGKILL');
  expect((await pty.exit).signal).toBe(9);
  clock.pace(pace);
  const again = terminal([], { home: pty.home, env: clock.env, columns: 60, rows: 18 });
  await again.ready();
  return new Grower(again);
}

it('S4: killed in every step the moment its question is there, it comes back to that question', async () => {
  const home = newHome();
  onTestFinished(() => rmSync(home, { recursive: true, force: true }));
  const clock = new StoryClock(QUICK);
  let pty = terminal([], { home, env: clock.env, columns: 60, rows: 18 });
  await pty.ready();
  let grower = new Grower(pty);
  await grower.begins('Wheat, first run');

  const killed: string[] = [];
  let last = '';
  while (last !== 'Done') {
    const seen = await grower.goesOnUntil(screen => titleOf(screen) !== last, `a step after ${last}`);
    last = titleOf(seen);
    killed.push(last);
    if (last === 'Done') break;
    // Vent and hold are asked about below; here they pass between two starts.
    if (last === 'Vent' || last === 'Hold') continue;
    grower = await powerCut(pty, clock);
    pty = grower.stage as Pty;
    const back = await grower.sees(screen => titleOf(screen) !== '', 'the batch again');
    expect(titleOf(back)).toBe(last);
    expect(question(back)).toBe(question(seen));
    expect(back.head).toMatch(/TEST CLOCK.* \d{4}a .*step \d+ of 17/);
    for (const line of pty.lines()) expect(line.length).toBeLessThanOrEqual(60);
  }
  expect(killed).toContain('Inoculate');
  expect(killed.length).toBeGreaterThanOrEqual(15);
}, 300_000);

it('S3: killed in vent and in hold, it asks what the steam and the gauge did, and "don\'t know" counts nothing', async () => {
  const home = newHome();
  onTestFinished(() => rmSync(home, { recursive: true, force: true }));
  const clock = new StoryClock(QUICK);
  let pty = terminal([], { home, env: clock.env, columns: 60, rows: 18 });
  await pty.ready();
  let grower = new Grower(pty);
  await grower.begins('Wheat, first run');
  await grower.to('Heat');
  grower = await powerCut(pty, clock, SLOW);
  await grower.presses('2', screen => titleOf(screen) === 'Vent');

  grower = await powerCut(grower.stage as Pty, clock, SLOW);
  const vent = await grower.sees('Nobody watched');
  expect(titleOf(vent)).toBe('Vent');
  expect(vent.text).toContain('Did steam blow the whole time?');
  await grower.presses('3', screen => titleOf(screen).startsWith('Heat'));
  expect(grower.screen.text).toContain('steam');

  grower = await powerCut(grower.stage as Pty, clock, 600);
  await grower.presses('2', screen => titleOf(screen) === 'Vent');
  await grower.to('Climb');
  grower = await powerCut(grower.stage as Pty, clock, SLOW);
  await grower.presses('2', screen => titleOf(screen) === 'Hold');
  const whole = /left of (\S+ \S+)/.exec(grower.screen.text)?.[1];
  expect(whole).toBeDefined();

  pty = grower.stage as Pty;
  grower = await powerCut(pty, clock, SLOW);
  const hold = await grower.sees('What did the gauge do?');
  expect(titleOf(hold)).toBe('Hold');
  await grower.presses('4', 'What does the gauge show now?');
  expect(grower.screen.text).toContain('standing still');
  // A dip nobody can vouch for starts the hold again: Space does not answer it, and time stands.
  await grower.presses('space', 'This is a judgement');
  await grower.presses(
    '2',
    screen => screen.text.includes(`left of ${whole}`) && !screen.text.includes('standing still'),
  );
}, 180_000);
