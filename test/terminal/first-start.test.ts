import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished, vi } from 'vitest';
import { newHome } from '../help/pty.ts';
import { terminal } from '../help/terminal.ts';

const freshHome = (): string => {
  const home = newHome(false);
  onTestFinished(() => rmSync(home, { recursive: true, force: true }));
  return home;
};
const settingsOf = (home: string) =>
  JSON.parse(readFileSync(join(home, 'settings.json'), 'utf8')) as {
    readonly kitchen?: Record<string, unknown>;
    readonly kitchenAsked?: boolean;
  };

it('a recipe that is named at the first start: the kitchen is asked about first, then comes its sheet', async () => {
  const home = freshHome();
  const pty = await terminal(['run', 'wheat-first-run'], { home }).ready();
  await pty.until('question 1 of');
  // The Enter that started the program may count as still held: the first of these two may be taken as its echo.
  await pty.press('enter');
  await pty.press('enter');
  await pty.until(/question [23] of/);
  await pty.press('esc');
  await pty.until('warnings, then begin');
  // Kept in the background: asking again at the next start is the worst that could come of it.
  await vi.waitFor(() => expect(settingsOf(home).kitchenAsked).toBe(true), { timeout: 10_000 });
});

it('line by line a person is asked too: yes keeps, an empty line leaves it assumed, a number changes, skip leaves the rest', async () => {
  const home = freshHome();
  const pty = terminal(['run', 'wheat-first-run', '--plain'], { home });
  await pty.until(/Units .*\[/);
  pty.type('yes\r');
  await pty.until(/How high above the sea/);
  pty.type('far up\r');
  await pty.until(/- Expected/);
  pty.type('1200 m\r');
  await pty.until(/open pot \[10 L\]/);
  pty.type('\r');
  await pty.until(/pressure cooker \[21 L\]/);
  pty.type('skip\r');
  await pty.until(/all there/);
  expect(settingsOf(home).kitchen).not.toHaveProperty('potL');
  expect(settingsOf(home)).toMatchObject({
    kitchenAsked: true,
    kitchen: { altitudeM: 1200, units: { pressure: 'psi' } },
  });
});
