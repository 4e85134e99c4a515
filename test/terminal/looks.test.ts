import { expect, it } from 'vitest';
import { Grower, titleOf } from '../help/grower.ts';
import type { Cell } from '../help/pty.ts';
import { terminal } from '../help/terminal.ts';

const FAST = { STOVEHAND_TEST_CLOCK: '3600' };

/** A batch at the picture of cut kernels, where every ink of a judgement is on the screen. */
async function atKernels(env: Record<string, string>) {
  const pty = terminal(['run', 'wheat-first-run'], { env: { ...FAST, ...env } });
  await pty.ready();
  const grower = new Grower(pty);
  await grower.sees('begin this batch');
  await grower.presses('space', 'all there');
  await grower.goesOnUntil(screen => screen.answers.includes('1 white core'), 'the cut kernels');
  await grower.presses('p', /white core/);
  return { pty, grower };
}
const inks = (rows: readonly (readonly Cell[])[]): ReadonlySet<string> =>
  new Set(rows.flat().flatMap(({ colour, ground }) => [colour, ground]));

it.each([
  ['16 colours', { TERM: 'xterm', COLORFGBG: '15;0' }, /^(default|16:\d+)$/],
  ['256 colours', { TERM: 'xterm-256color' }, /^(default|16:\d+|256:\d+)$/],
  ['true colour', { TERM: 'xterm-256color', COLORTERM: 'truecolor' }, /^(default|rgb:\d+)$/],
] as const)(
  'with %s: the accent is coloured, nothing else than these colours is used',
  async (_, env, allowed) => {
    const { pty } = await atKernels(env);
    const used = inks(pty.lines().map((_, row) => pty.cells(row)));
    expect([...used].filter(ink => !allowed.test(ink))).toEqual([]);
    expect(used.size).toBeGreaterThanOrEqual(4);
    // The key of an answer is in the accent and bold: it is found without colour as well.
    const key = pty.cells(pty.lines().findLastIndex(line => line.includes('1 white core')))[1];
    expect(key?.text).toBe('1');
    expect(key?.bold).toBe(true);
    expect(key?.colour).not.toBe('default');
  },
);

it('NO_COLOR: not one colour code is written, and the screen says the same', async () => {
  const { pty, grower } = await atKernels({ NO_COLOR: '1', COLORTERM: 'truecolor' });
  // ECMA-48 SGR: 30 to 49 and 90 to 107 are colours; weight and inverse are not.
  const codes = [...pty.written.matchAll(/\u001b\[([\d;:]*)m/g)].flatMap(([, codes = '']) =>
    codes.split(/[;:]/),
  );
  expect(codes.filter(code => /^(3\d|4\d|9\d|10[0-7])$/.test(code) && !/^(39|49)$/.test(code))).toEqual([]);
  expect(codes).toContain('1');
  expect(grower.screen.text).toContain('translucent');
});

it('a terminal that is made too small says so, keeps the batch, and shows it again', async () => {
  const pty = terminal(['run', 'wheat-first-run']);
  await pty.ready();
  const grower = new Grower(pty);
  await grower.sees('begin this batch');
  await grower.presses('space', 'all there');
  pty.resize(59, 24);
  await grower.sees('Too small: 60 x 18 is the least.');
  await grower.presses('space');
  pty.resize(120, 40);
  const wide = await grower.sees(
    screen => titleOf(screen).includes('Gear') && /Inoculate/.test(screen.text),
    'the steps beside the question',
  );
  // The key that nobody could see an answer to was none.
  expect(wide.answers).toContain('Space all there');
  for (const line of pty.lines()) expect(line.length).toBeLessThanOrEqual(120);
  pty.resize(60, 18);
  const narrow = await grower.sees(screen => titleOf(screen) === 'Gear', 'the question alone');
  expect(narrow.lines).toHaveLength(18);
  expect(narrow.tools).toContain('leave');
  await grower.presses('space', screen => titleOf(screen) === 'Weigh');
});
