/**
 * The face drawn by Ink into a headless terminal inside this process: true cells and sizes, no child, no
 * clock but the ones that are handed in. `press` moves the steady clock on, as a finger would.
 */
import { PassThrough, Writable } from 'node:stream';
import xterm from '@xterm/headless';
import { render } from 'ink';
import type { ReactElement } from 'react';
import { onTestFinished } from 'vitest';
import { App } from '../../src/face/app.tsx';
import type { Opening } from '../../src/face/places.tsx';
import { type Look, lookFor } from '../../src/face/look.ts';
import { keyBytes, meets, type Probe, readScreen, type ScreenText, type Stage } from './screen-text.ts';
import { type HandServices, handServices } from './services.ts';

export interface MountOptions {
  readonly columns?: number;
  readonly rows?: number;
  /** Called before each key, to move a clock on. */
  readonly beforeKey?: () => void;
}

export interface Mounted extends Stage {
  /** Bytes as they are, in one chunk. */
  type(bytes: string): Promise<void>;
  resize(columns: number, rows: number): Promise<void>;
  lines(): readonly string[];
  /** Everything written to the terminal. */
  readonly written: string;
  readonly left: Promise<unknown>;
}

const PLAIN = lookFor({ colour: 'none', ascii: false });
/** Turns of the event loop in which anything that can happen without time has happened. */
const TURNS = 400;
const turn = (): Promise<void> => new Promise(resolve => setImmediate(resolve));

export async function mount(node: ReactElement, options: MountOptions = {}): Promise<Mounted> {
  const { columns = 80, rows = 24, beforeKey = () => {} } = options;
  // There is no terminal driver here to turn a line feed into a new line.
  const terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true, convertEol: true });
  let written = '';
  const stdout = Object.assign(
    new Writable({
      write: (chunk: Buffer, _encoding, done) => {
        written += chunk.toString();
        terminal.write(chunk, done);
      },
    }),
    { isTTY: true, columns, rows },
  );
  const stdin = Object.assign(new PassThrough(), {
    isTTY: true,
    setRawMode: () => stdin,
    ref: () => stdin,
    unref: () => stdin,
  });
  const app = render(node, {
    stdout: stdout as unknown as NodeJS.WriteStream,
    stdin: stdin as unknown as NodeJS.ReadStream,
    interactive: true,
    alternateScreen: true,
    exitOnCtrlC: false,
    patchConsole: false,
    maxFps: 1000,
  });
  const left = app.waitUntilExit();
  left.catch(() => {});
  onTestFinished(() => {
    app.unmount();
    terminal.dispose();
  });
  const lines = (): readonly string[] => {
    const { active } = terminal.buffer;
    return Array.from(
      { length: terminal.rows },
      (_, row) => active.getLine(active.baseY + row)?.translateToString(true) ?? '',
    );
  };
  const screen = (): ScreenText => readScreen(lines());
  const until = async (probe: Probe, what = String(probe)): Promise<ScreenText> => {
    for (let turns = 0; turns < TURNS; turns += 1) {
      const now = screen();
      if (meets(now, probe)) return now;
      await turn();
    }
    throw new Error(
      `Never saw ${what}. The last screen:\n${screen()
        .lines.map(line => `  |${line}`)
        .join('\n')}`,
    );
  };
  const settle = async () => {
    for (let turns = 0; turns < 6; turns += 1) await turn();
  };
  const type = async (bytes: string) => {
    stdin.write(bytes);
    await settle();
  };
  await settle();
  return {
    screen,
    until,
    lines,
    get written() {
      return written;
    },
    left,
    type,
    press: async key => {
      beforeKey();
      await type(keyBytes(key));
    },
    resize: async (width, height) => {
      terminal.resize(width, height);
      Object.assign(stdout, { columns: width, rows: height });
      stdout.emit('resize');
      await settle();
    },
  };
}

export interface MountedApp extends Mounted {
  readonly services: HandServices;
}

/** The whole program on its first screen. */
export async function mountApp(
  opening: Opening,
  options: MountOptions & { readonly services?: HandServices; readonly look?: Look } = {},
): Promise<MountedApp> {
  const { services = handServices(), look = PLAIN } = options;
  const beforeKey = () => {
    services.steadyMs += 1000;
  };
  const mounted = await mount(<App look={look} services={services} opening={opening} />, {
    beforeKey,
    ...options,
  });
  return Object.defineProperties({ services }, Object.getOwnPropertyDescriptors(mounted)) as MountedApp;
}
