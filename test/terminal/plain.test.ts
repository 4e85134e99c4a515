import { spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { expect, it, onTestFinished } from 'vitest';
import { newHome, PROGRAM } from '../help/pty.ts';

interface Said {
  readonly out: string;
  readonly errors: string;
  readonly code: number | null;
}

/** The program with these lines on its standard input, which then ends. */
function piped(args: readonly string[], lines: readonly string[], home: string): Promise<Said> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [PROGRAM, ...args, '--plain', '--home', home], {
      env: { PATH: process.env.PATH ?? '', TZ: 'Europe/Rome', STOVEHAND_TEST_CLOCK: '3600' },
    });
    let [out, errors] = ['', ''];
    child.stdout.on('data', (bytes: Buffer) => {
      out += bytes.toString();
    });
    child.stderr.on('data', (bytes: Buffer) => {
      errors += bytes.toString();
    });
    child.on('error', reject);
    child.on('close', code => resolve({ out, errors, code }));
    child.stdin.end(`${lines.join('\n')}\n`);
  });
}

const home = (asked = true): string => {
  const made = newHome(asked);
  onTestFinished(() => rmSync(made, { recursive: true, force: true }));
  return made;
};

/** A whole batch of wheat; an empty line is Space, and `wait` holds the next line back until it is due. */
const EVENING: readonly string[] = [
  // gear, weight, simmer, kernels: translucent, none burst; drained; a towel after a wait: one or two faint spots
  ['', '', '', 'wait', '', '3', '1', '', '1', 'wait', '3'],
  // all bags filled, all sealed, water, lid; steady steam, vented, at target
  ['3', '2', '', '', '2', 'wait', '', '2'],
  // the hold wants the gauge answered each half hour; flame off, zero, pin down, lid open
  ['wait', '2', 'wait', '2', 'wait', '', 'wait', '1', 'wait', '2', 'wait', ''],
  // all whole, like the room, clean, all inoculated
  ['3', '2', '', '3'],
].flat();

it('the same evening by a pipe: lines are answers, and it comes to done', async () => {
  const { out, errors, code } = await piped(['run', 'wheat-first-run'], EVENING, home());
  expect(errors).toBe('');
  expect(code).toBe(0);
  expect(out).toContain('TEST CLOCK x3600');
  for (const words of [
    'Gear',
    'Simmer',
    'Vent',
    'Hold',
    'Cool, locked',
    'Inoculate',
    '3 bags under way',
    'Afterwards: stovehand bags',
  ])
    expect(out).toContain(words);
  // No refusal, no escape sequence, and nothing redrawn.
  expect(out).not.toMatch(/^- /m);
  expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f]/);
});

it('an answer that is too early is refused in words; the end of the input leaves the batch where it is', async () => {
  const kept = home();
  const first = await piped(['run', 'wheat-first-run'], ['', '', '', 'nonsense', '1'], kept);
  expect(first.code).toBe(0);
  expect(first.out).toContain('That line means nothing here.');
  expect(first.out).toMatch(/Batch \d{4}a goes on/);
  const second = await piped([], ['s', 'q'], kept);
  expect(second.code).toBe(0);
  expect(second.out).toMatch(/\[\d+ of \d+\] Simmer/);
});

it('by a pipe nobody is asked about the kitchen: it is said that values are assumed', async () => {
  const { out, code } = await piped(['run', 'wheat-first-run'], ['q'], home(false));
  expect(code).toBe(0);
  expect(out).toContain('usual values are assumed');
  expect(out).toContain('Gear');
});
