import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { Grower, titleOf } from '../help/grower.ts';
import { PROGRAM, type Pty } from '../help/pty.ts';
import { terminal } from '../help/terminal.ts';

async function running(env: Record<string, string> = {}): Promise<{ pty: Pty; grower: Grower }> {
  const pty = terminal(['run', 'wheat-first-run'], { env });
  await pty.ready();
  const grower = new Grower(pty);
  await grower.sees('begin this batch');
  await grower.presses('space', 'all there');
  expect(pty.bufferType).toBe('alternate');
  expect(pty.cursorShown).toBe(false);
  return { pty, grower };
}

/** The terminal as it was: its own screen, cursor, pastes and title, and nothing of ours in its history. */
function expectGivenBack(pty: Pty): void {
  expect(pty.bufferType).toBe('normal');
  expect(pty.cursorShown).toBe(true);
  expect(pty.bracketedPaste).toBe(false);
  expect(pty.written.split('\u001b[?1049h')).toHaveLength(2);
  expect(pty.written.split('\u001b[?1049l')).toHaveLength(2);
  expect(pty.written).not.toContain('\u001b[3J');
  if (pty.written.includes('\u001b[22;0t')) expect(pty.written).toContain('\u001b[23;0t');
}

it('q asks first, says that the batch goes on, and gives the terminal back', async () => {
  const { pty, grower } = await running();
  await grower.leaves();
  expect(await pty.exit).toEqual({ code: 0, signal: 0 });
  expectGivenBack(pty);
  const said = pty.lines().filter(line => line.trim() !== '');
  expect(said).toHaveLength(1);
  expect(said[0]).toMatch(/^Batch \d{4}a goes on/);
});

it('Ctrl-C asks once, the second one leaves', async () => {
  const { pty, grower } = await running();
  await grower.presses('ctrl-c', 'Leave the coach?');
  await grower.presses('ctrl-c');
  expect((await pty.exit).code).toBe(0);
  expectGivenBack(pty);
});

it.each([
  ['SIGHUP', 129],
  ['SIGTERM', 143],
] as const)('%s ends it with code %i, the batch kept and the terminal given back', async (signal, code) => {
  const { pty } = await running();
  pty.kill(signal);
  expect((await pty.exit).code).toBe(code);
  expectGivenBack(pty);
  const again = terminal([], { home: pty.home });
  await again.ready();
  const back = await again.until(screen => titleOf(screen) === 'Gear', 'the same step');
  expect(back.head).not.toContain('WATCHING');
});

/** A fault planted into the program: from a signal on, some function of the platform throws. */
function planted(fault: string): Record<string, string> {
  const folder = mkdtempSync(join(tmpdir(), 'stovehand-fault-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, 'fault.mjs');
  writeFileSync(file, `process.on('SIGUSR2', () => { ${fault} });\n`);
  return { NODE_OPTIONS: `--import=${file}` };
}
const FAULTS = {
  'while drawing': "Date.prototype.getHours = () => { throw new Error('planted fault'); };",
  'while a key is handled':
    "const real = performance.now.bind(performance); performance.now = () => { if (/steady/.test(new Error().stack)) throw new Error('planted fault'); return real(); };",
  'in a timer': "setTimeout(() => { throw new Error('planted fault'); }, 0);",
};

it.each(Object.entries(FAULTS))(
  'a throw %s: the terminal given back, the stack and the journal told, code 1',
  async (_, fault) => {
    const { pty, grower } = await running(planted(fault));
    pty.kill('SIGUSR2');
    // A key draws, and is handled: whichever was waited for comes about.
    await grower.presses('?');
    expect((await pty.exit).code).toBe(1);
    expectGivenBack(pty);
    const text = pty.lines().join('\n');
    expect(text).toContain('planted fault');
    expect(text.replaceAll('\n', '')).toContain('Nothing that was recorded is lost');
    expect(text.replaceAll('\n', '')).toContain('.batch');
  },
);

it('Ctrl-Z gives the terminal to the shell, and fg brings the same screen back', async () => {
  const shell = terminal([], {
    command: ['bash', '--norc', '-i'],
    env: { PS1: 'shell> ', BASH_SILENCE_DEPRECATION_WARNING: '1' },
  });
  await shell.until('shell>');
  shell.type(`'${process.execPath}' '${PROGRAM}' run wheat-first-run; echo "left with $?"\r`);
  const grower = new Grower(shell);
  await grower.sees('begin this batch');
  await grower.presses('space', 'all there');
  await grower.presses('ctrl-z', /Stopped/);
  expect(shell.bufferType).toBe('normal');
  expect(shell.cursorShown).toBe(true);
  shell.type('fg\r');
  const back = await grower.sees('all there');
  expect(titleOf(back)).toBe('Gear');
  expect(shell.bufferType).toBe('alternate');
  expect(shell.cursorShown).toBe(false);
  await grower.presses('space', screen => titleOf(screen) === 'Weigh');
  await grower.presses('q', 'Leave the coach?');
  await grower.presses('ctrl-c', /Batch \d{4}a goes on/);
  expect(shell.bufferType).toBe('normal');
});

it('not a terminal: one sentence, code 6', async () => {
  const pty = terminal([], {
    command: ['sh', '-c', `'${process.execPath}' '${PROGRAM}' </dev/null; echo "code $?"`],
  });
  const screen = await pty.until(/code \d/);
  expect(screen.text).toMatch(/^This is not a terminal, so there is no full screen\.\n {2}Add --plain/);
  expect(screen.text).toContain('code 6');
  expect(pty.bufferType).toBe('normal');
  expect(pty.written).not.toContain('\u001b[?1049h');
});
