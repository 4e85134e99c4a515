/** A terminal that takes so many bytes a second and not one more, as over a bad line. */
import { readSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import pty from '@lydell/node-pty';
import { PROGRAM } from '../help/pty.ts';

export interface SlowTerminal {
  /** What has come through so far. */
  readonly seen: string;
  write(keys: string): void;
  /** Takes bytes until the text has come; resolves with the seconds it took by this clock. */
  until(text: string, most: number): Promise<number>;
  close(): void;
}

const SLICE_MS = 50;

export function openSlow(home: string, bytesPerSecond: number, columns: number, rows: number): SlowTerminal {
  const { PATH = '' } = process.env;
  const child = pty.spawn(process.execPath, [PROGRAM], {
    name: 'xterm-256color',
    cols: columns,
    rows,
    cwd: home,
    env: { PATH, HOME: home, TERM: 'xterm-256color', LANG: 'C.UTF-8', CI: 'false', STOVEHAND_HOME: home },
  });
  child.pause();
  // It has already asked for the first bytes, and they would be lost here.
  const { _handle: handle } = Reflect.get(child, '_socket') as { readonly _handle: { readStop(): void } };
  process.nextTick(() => handle.readStop());
  const fd = Number(Reflect.get(child, 'fd'));
  const block = Buffer.alloc(Math.max(1, Math.round((bytesPerSecond * SLICE_MS) / 1000)));
  let seen = '';
  const take = () => {
    try {
      seen += block.subarray(0, readSync(fd, block, 0, block.length, null)).toString('latin1');
    } catch {
      // Nothing to read just now.
    }
  };
  return {
    get seen() {
      return seen;
    },
    write: keys => child.write(keys),
    until: async (text, most) => {
      const began = performance.now();
      const from = seen.length;
      while (!seen.slice(from).includes(text)) {
        if (performance.now() - began > most * 1000) throw new Error(`Never came: ${JSON.stringify(text)}`);
        take();
        await pause(SLICE_MS);
      }
      return (performance.now() - began) / 1000;
    },
    close: () => child.kill('SIGKILL'),
  };
}
