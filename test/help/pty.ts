/**
 * The built program in a real pseudo-terminal, drawn by a headless terminal. Nothing here sleeps for a
 * result: a probe is tried after every piece of output, and a probe that never comes true fails with the
 * last screen. Only the finger has a pace, because the program takes faster keys for a towel.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import pty from '@lydell/node-pty';
import xterm from '@xterm/headless';
import { SAME_KEY_MS, WIPE_MS } from '../../src/face/key-guard.ts';
import { keyBytes, meets, type Probe, readScreen, type ScreenText, type Stage } from './screen-text.ts';

/** The program under test; another build can be named while somebody is building this one. */
export const PROGRAM =
  process.env.STOVEHAND_TEST_MAIN ?? fileURLToPath(new URL('../../dist/main.js', import.meta.url));
const PATIENCE_MS = 20_000;
/** A little more than the program asks between two keys that are meant. */
const SPARE_MS = 60;

export interface PtyOptions {
  readonly columns?: number;
  readonly rows?: number;
  readonly env?: Readonly<Record<string, string>>;
  /** Folder of the batches; a fresh one, whose first questions were answered, when left out. */
  readonly home?: string;
  /** Another command than Node with the program, for stories that need a shell around it. */
  readonly command?: readonly [string, ...string[]];
}

export interface Exit {
  readonly code: number;
  readonly signal: number;
}

export interface Cell {
  readonly text: string;
  /** `default`, `16:n`, `256:n` or `rgb:n`. */
  readonly colour: string;
  readonly ground: string;
  readonly bold: boolean;
  readonly dim: boolean;
  readonly inverse: boolean;
}

export interface Pty extends Stage {
  readonly home: string;
  readonly pid: number;
  /** Everything the program has written, escape sequences and all. */
  readonly written: string;
  readonly exit: Promise<Exit>;
  /** Resolves when the program listens to keys. */
  ready(): Promise<Pty>;
  /** Bytes as they are, at once. */
  type(bytes: string): void;
  resize(columns: number, rows: number): void;
  lines(): readonly string[];
  cells(row: number): readonly Cell[];
  /** All cells of the first place where this text stands, or null. */
  cellsOf(text: string): readonly Cell[] | null;
  readonly bufferType: 'normal' | 'alternate';
  readonly cursorShown: boolean;
  readonly bracketedPaste: boolean;
  /** Whether anybody takes what the program writes; at first somebody does. */
  read(taken: boolean): void;
  kill(signal: NodeJS.Signals): void;
  /** Ends the program, if it still runs, and removes the home that was made for it. */
  close(): Promise<void>;
}

/**
 * Made from nothing, so that the terminal the tests are run in plays no part. CI is left out: with it set to
 * true nothing is drawn before the end, and with it set to anything no colour is used.
 */
function childEnv(home: string, more: Readonly<Record<string, string>>): Record<string, string> {
  const { PATH = '', TZ = 'Europe/Rome' } = process.env;
  return {
    PATH,
    TZ,
    HOME: home,
    TERM: 'xterm-256color',
    LANG: 'C.UTF-8',
    STOVEHAND_HOME: home,
    ...more,
  };
}

type BufferCell = NonNullable<
  ReturnType<NonNullable<ReturnType<xterm.Terminal['buffer']['active']['getLine']>>['getCell']>
>;

function colourOf(cell: BufferCell, of: 'fg' | 'bg'): string {
  const [number, rgb, palette] =
    of === 'fg'
      ? [cell.getFgColor(), cell.isFgRGB(), cell.isFgPalette()]
      : [cell.getBgColor(), cell.isBgRGB(), cell.isBgPalette()];
  if (rgb) return `rgb:${number}`;
  if (!palette) return 'default';
  return number < 16 ? `16:${number}` : `256:${number}`;
}

/** A folder of its own for a story. `asked`: whether the questions of the first start are behind. */
export function newHome(asked = true): string {
  const home = mkdtempSync(join(tmpdir(), 'stovehand-pty-'));
  if (asked)
    writeFileSync(
      join(home, 'settings.json'),
      JSON.stringify({
        kitchenAsked: true,
        kitchen: { altitudeM: 640, markedMaxKPa: 124, minimumWaterL: 2 },
      }),
    );
  return home;
}

/** Starts the program with these arguments. */
export function openPty(args: readonly string[] = [], options: PtyOptions = {}): Pty {
  const { columns = 80, rows = 24, env = {} } = options;
  const home = options.home ?? newHome();
  const [command, ...before] = options.command ?? [process.execPath, PROGRAM];
  const terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 2000 });
  const child = pty.spawn(command, [...before, ...args], {
    // It sets TERM, whatever the environment says.
    name: env.TERM ?? 'xterm-256color',
    cols: columns,
    rows,
    cwd: home,
    env: childEnv(home, env),
  });
  let written = '';
  let cursorShown = true;
  // A frame comes in pieces; between the marks of a synchronized update the screen is half old, half new.
  let drawing = false;
  let ended: Exit | null = null;
  const waiting = new Set<() => void>();
  const look = () => {
    for (const again of [...waiting]) again();
  };
  const cursor = (shown: boolean) => (parameters: (number | number[])[]) => {
    if (parameters.includes(25)) cursorShown = shown;
    if (parameters.includes(2026)) drawing = shown;
    return false;
  };
  terminal.parser.registerCsiHandler({ prefix: '?', final: 'h' }, cursor(true));
  terminal.parser.registerCsiHandler({ prefix: '?', final: 'l' }, cursor(false));
  terminal.onData(reply => {
    if (!ended) child.write(reply);
  });
  child.onData(data => {
    written += data;
    terminal.write(data, look);
  });
  const exit = new Promise<Exit>(resolve => {
    child.onExit(({ exitCode, signal }) => {
      // What was still on its way to the terminal is drawn first.
      terminal.write('', () => {
        ended = { code: exitCode, signal: signal ?? 0 };
        resolve(ended);
        look();
      });
    });
  });

  const lines = (): readonly string[] => {
    const { active } = terminal.buffer;
    return Array.from(
      { length: terminal.rows },
      (_, row) => active.getLine(active.baseY + row)?.translateToString(true) ?? '',
    );
  };
  const screen = (): ScreenText => readScreen(lines());
  const picture = () =>
    screen()
      .lines.map(line => `  |${line}`)
      .join('\n');

  const until = (probe: Probe, what = String(probe)): Promise<ScreenText> =>
    new Promise((resolve, reject) => {
      const seen = () => {
        if (drawing && !ended) return;
        const now = screen();
        if (!meets(now, probe)) return ended ? fail(`ended with ${JSON.stringify(ended)}`) : undefined;
        done();
        resolve(now);
      };
      const fail = (why: string) => {
        done();
        reject(new Error(`Never saw ${what}: ${why}. The last screen:\n${picture()}`));
      };
      const timer = setTimeout(() => fail('waited long enough'), PATIENCE_MS);
      const done = () => {
        clearTimeout(timer);
        waiting.delete(seen);
      };
      waiting.add(seen);
      seen();
    });

  const pressedAt = new Map<string, number>();
  let lastAt = Number.NEGATIVE_INFINITY;
  const press = async (key: string): Promise<void> => {
    const before = pressedAt.get(key) ?? Number.NEGATIVE_INFINITY;
    const early = Math.max(before + SAME_KEY_MS, lastAt + WIPE_MS) + SPARE_MS - performance.now();
    if (early > 0) await pause(early);
    lastAt = performance.now();
    pressedAt.set(key, lastAt);
    child.write(keyBytes(key));
  };

  const cells = (row: number): readonly Cell[] => {
    const line = terminal.buffer.active.getLine(terminal.buffer.active.baseY + row);
    return Array.from({ length: terminal.cols }, (_, column) => line?.getCell(column))
      .filter(cell => cell !== undefined)
      .map(cell => ({
        text: cell.getChars() || ' ',
        colour: colourOf(cell, 'fg'),
        ground: colourOf(cell, 'bg'),
        bold: cell.isBold() !== 0,
        dim: cell.isDim() !== 0,
        inverse: cell.isInverse() !== 0,
      }));
  };

  const self: Pty = {
    home,
    pid: child.pid,
    get written() {
      return written;
    },
    exit,
    screen,
    until,
    press,
    ready: async () => {
      await until(() => terminal.modes.bracketedPasteMode, 'the program listening to keys');
      return self;
    },
    type: bytes => child.write(bytes),
    resize: (width, height) => {
      terminal.resize(width, height);
      child.resize(width, height);
    },
    lines,
    cells,
    cellsOf: text => {
      for (const [row, line] of lines().entries()) {
        const column = line.indexOf(text);
        if (column >= 0) return cells(row).slice(column, column + text.length);
      }
      return null;
    },
    get bufferType() {
      return terminal.buffer.active.type;
    },
    get cursorShown() {
      return cursorShown;
    },
    get bracketedPaste() {
      return terminal.modes.bracketedPasteMode;
    },
    read: taken => (taken ? child.resume() : child.pause()),
    kill: signal => process.kill(child.pid, signal),
    close: async () => {
      if (!ended) child.kill('SIGKILL');
      await exit;
      terminal.dispose();
      if (options.home === undefined) rmSync(home, { recursive: true, force: true });
    },
  };
  return self;
}
