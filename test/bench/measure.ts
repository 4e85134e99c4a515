/** What the parts of the bench share: a PTY without a picture of it, medians, and rows of the table. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import pty from '@lydell/node-pty';

export const PROGRAM =
  process.env.STOVEHAND_TEST_MAIN ?? fileURLToPath(new URL('../../dist/main.js', import.meta.url));

export interface Figure {
  readonly name: string;
  readonly figure: string;
  /** Against what, and how many times it; empty where there is no measure to compare with. */
  readonly ratio: string;
  readonly aim: string;
  /** Null where nothing is aimed at. */
  readonly met: boolean | null;
}

/** The value below which so much (0 to 1) of the sample lies. Throws RangeError for an empty sample. */
export function quantile(sample: readonly number[], part: number): number {
  const sorted = [...sample].sort((a, b) => a - b);
  const value = sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))];
  if (value === undefined) throw new RangeError('There is no quantile of nothing.');
  return value;
}
export const median = (sample: readonly number[]): number => quantile(sample, 0.5);

export interface Child {
  readonly pid: number;
  readonly startedAt: number;
  written(): string;
  write(bytes: string): void;
  /** Performance time at which the written text first met the pattern, looked for from `from` on. */
  seen(pattern: RegExp, from?: number): Promise<number>;
  readonly ended: Promise<number>;
  end(): Promise<void>;
}

export interface ChildOptions {
  readonly columns?: number;
  readonly rows?: number;
  readonly home?: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** A home in which the questions of the first start are behind. */
export function newHome(): string {
  const home = mkdtempSync(join(tmpdir(), 'stovehand-bench-'));
  writeFileSync(
    join(home, 'settings.json'),
    JSON.stringify({ kitchenAsked: true, kitchen: { altitudeM: 640, markedMaxKPa: 124, minimumWaterL: 2 } }),
  );
  return home;
}
export const dropHome = (home: string): void => rmSync(home, { recursive: true, force: true });

const PATIENCE_MS = 60_000;

/** Node with these words in a PTY; the clock starts just before the spawn. */
export function startNode(words: readonly string[], options: ChildOptions = {}): Child {
  const { columns = 80, rows = 24, home = tmpdir(), env = {} } = options;
  const startedAt = performance.now();
  const child = pty.spawn(process.execPath, [...words], {
    name: 'xterm-256color',
    cols: columns,
    rows,
    cwd: home,
    env: {
      PATH: process.env.PATH ?? '',
      HOME: home,
      TERM: 'xterm-256color',
      LANG: 'C.UTF-8',
      STOVEHAND_HOME: home,
      ...env,
    },
  });
  let written = '';
  const looking = new Set<() => void>();
  child.onData(data => {
    written += data;
    for (const look of [...looking]) look();
  });
  const ended = new Promise<number>(resolve => child.onExit(() => resolve(performance.now())));
  const seen = (pattern: RegExp, from = 0): Promise<number> =>
    new Promise((resolve, reject) => {
      const timer = setTimeout(
        () => reject(new Error(`Never saw ${pattern} in ${written.slice(-2000)}`)),
        PATIENCE_MS,
      );
      const look = () => {
        if (!pattern.test(written.slice(from))) return;
        clearTimeout(timer);
        looking.delete(look);
        resolve(performance.now());
      };
      looking.add(look);
      look();
    });
  return {
    pid: child.pid,
    startedAt,
    written: () => written,
    write: bytes => child.write(bytes),
    seen,
    ended,
    end: async () => {
      child.kill('SIGKILL');
      await ended;
    },
  };
}
