/**
 * Walks through the first screens of a built program, in a home that is thrown away and on a terminal that is
 * none, and keeps the code that V8 made on the way beside the built files. What it does not reach is compiled
 * when it is first used, as ever.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { PassThrough, Writable } from 'node:stream';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import v8 from 'node:v8';
import { keptName, type Loaded, loadProgram } from '../bundle.ts';
import { SAME_KEY_MS, WIPE_MS } from '../face/key-guard.ts';

const folder = resolve(process.argv[2] ?? 'dist');
/** Of a program that stands still, the build does not wait for ever. */
const PATIENCE_MS = 30_000;

/** What is waited for, and the key that is pressed then. */
const WALK: readonly (readonly [seen: RegExp, key: string])[] = [
  [/wheat|Wheat/, '\r'],
  [/begin this batch/, ' '],
  [/all there/, '?'],
  [/Esc back/, 'x'],
  [/all there/, 'q'],
  [/Leave the coach/, 'q'],
];

let screen = '';
let written = () => {};
const stdout = Object.assign(
  new Writable({
    write: (chunk: Buffer, _encoding, done) => {
      screen += chunk.toString();
      written();
      done();
    },
  }),
  { isTTY: true, columns: 80, rows: 24 },
);
const stdin = Object.assign(new PassThrough(), {
  isTTY: true,
  setRawMode: () => stdin,
  ref: () => stdin,
  unref: () => stdin,
});
// On a slow machine the walk takes so long that the program sets flags, and code made after that would be of no use.
Object.assign(v8, { setFlagsFromString: () => {} });
Object.defineProperty(process, 'stdout', { value: stdout });
Object.defineProperty(process, 'stdin', { value: stdin });

const seen = (pattern: RegExp): Promise<void> =>
  new Promise(done => {
    written = () => {
      if (pattern.test(screen)) done();
    };
    written();
  });

const home = mkdtempSync(join(tmpdir(), 'stovehand-build-'));
const timer = setTimeout(() => {
  throw new Error(`The built program stands still at:\n${screen.slice(-2000)}`);
}, PATIENCE_MS);
try {
  writeFileSync(join(home, 'settings.json'), JSON.stringify({ kitchenAsked: true }));
  const files: (readonly [file: string, loaded: Loaded])[] = [];
  const program = loadProgram(folder, (file, loaded) => files.push([file, loaded]));
  const ended = program.run(['--home', home], pathToFileURL(join(folder, '../recipes')));
  // As if the key that started the program had been this one.
  let before = '\r';
  for (const [pattern, key] of WALK) {
    await seen(pattern);
    await pause(key === before ? SAME_KEY_MS : WIPE_MS);
    before = key;
    screen = '';
    stdin.write(key);
  }
  const code = await ended;
  if (code !== 0) throw new Error(`The built program ended with ${code}.`);
  for (const [file, loaded] of files) writeFileSync(keptName(file), loaded.keep());
} finally {
  clearTimeout(timer);
  rmSync(home, { recursive: true, force: true });
}
