/**
 * Speaking through a program the system brings along. The only child process that this program starts by
 * itself (a page is opened when somebody asks): a fixed program with fixed arguments, no command interpreter,
 * and the sentence where it cannot be taken for an option.
 *
 * Sources: say(1), espeak-ng(1), the Speech Dispatcher manual for spd-say, .NET System.Speech.
 */

import { spawn } from 'node:child_process';
import { statSync } from 'node:fs';
import { posix, win32 } from 'node:path';
import { atMost } from '../core/text.ts';
import type { Environment } from './terminal-signals.ts';

export interface SpeechProgram {
  /** Full path, so that nothing in the current folder is ever started. */
  readonly program: string;
  readonly args: readonly string[];
  /** How the sentence reaches it: on its input, or as one more argument behind `--`. */
  readonly by: 'input' | 'argument';
}

interface Known {
  readonly name: string;
  readonly args: readonly string[];
  readonly by: SpeechProgram['by'];
}

const UNIX: readonly Known[] = [
  { name: 'spd-say', args: ['--wait', '--'], by: 'argument' },
  { name: 'espeak-ng', args: ['--stdin'], by: 'input' },
  { name: 'espeak', args: ['--stdin'], by: 'input' },
];
const MAC: readonly Known[] = [{ name: 'say', args: ['-f', '-'], by: 'input' }];
const WINDOWS_SCRIPT =
  'Add-Type -AssemblyName System.Speech; ' +
  '(New-Object System.Speech.Synthesis.SpeechSynthesizer).Speak([Console]::In.ReadToEnd())';

/** The first speech program there is, or null. `isFile` is a parameter so that all platforms can be tested. */
export function findSpeech(
  platform: NodeJS.Platform,
  env: Environment,
  isFile: (path: string) => boolean = isExecutable,
): SpeechProgram | null {
  if (platform === 'win32') {
    const root = env.SystemRoot ?? env.SYSTEMROOT ?? '';
    if (!win32.isAbsolute(root)) return null;
    const program = win32.join(root, 'System32', 'WindowsPowerShell', 'v1.0', 'powershell.exe');
    const args = ['-NoProfile', '-NonInteractive', '-Command', WINDOWS_SCRIPT];
    return isFile(program) ? { program, args, by: 'input' } : null;
  }
  const folders = (env.PATH ?? '').split(':').filter(folder => posix.isAbsolute(folder));
  for (const { name, args, by } of platform === 'darwin' ? [...MAC, ...UNIX] : UNIX) {
    const folder = folders.find(place => isFile(posix.join(place, name)));
    if (folder !== undefined) return { program: posix.join(folder, name), args, by };
  }
  return null;
}

function isExecutable(path: string): boolean {
  const stat = statSync(path, { throwIfNoEntry: false });
  return stat?.isFile() === true && (process.platform === 'win32' || (stat.mode & 0o111) !== 0);
}

/** Letters, digits and plain punctuation: what is left cannot hold a synthesiser's own commands. */
export function speakable(text: string): string {
  const plain = text
    .normalize('NFC')
    .replace(/[^\p{L}\p{M}\p{N} .,:?!'%°-]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/^-+/, '');
  return atMost(plain, 200);
}

export interface Speech {
  /** Says the sentence now, breaking off the one before. */
  speak(text: string): void;
  stop(): void;
}

/** A sentence takes seconds; a program that hangs longer is ended. */
const LONGEST_MS = 20_000;

/** A speaker for the program found. A program that fails stays silent: speech is never the only signal. */
export function createSpeech({ program, args, by }: SpeechProgram): Speech {
  let current: ReturnType<typeof spawn> | null = null;
  const stop = () => {
    // A program that never started has no number, and the signal would go to this program's own group.
    if (current?.pid) current.kill();
    current = null;
  };
  return {
    stop,
    speak: text => {
      stop();
      const says = speakable(text);
      if (says === '') return;
      const child = spawn(program, by === 'argument' ? [...args, says] : args, {
        stdio: [by === 'input' ? 'pipe' : 'ignore', 'ignore', 'ignore'],
        timeout: LONGEST_MS,
        shell: false,
        windowsHide: true,
      });
      current = child;
      const over = () => {
        if (current === child) current = null;
      };
      child.on('error', over);
      child.on('exit', over);
      child.unref();
      child.stdin?.on('error', over);
      child.stdin?.end(`${says}\n`);
    },
  };
}
