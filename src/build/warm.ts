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
import { SAME_KEY_MS } from '../face/key-guard.ts';

const folder = resolve(process.argv[2] ?? 'dist');
/** The first recipe, its sheet, the first step, help, back, and out. */
const WALK = ['\r', ' ', '?', '\u001b', 'q', 'q'];
/** A screen that stands: nothing more comes within this time. */
const QUIET_MS = 300;

let written = () => {};
const stdout = Object.assign(
  new Writable({
    write: (_chunk, _encoding, done) => {
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

const quiet = (): Promise<void> =>
  new Promise(done => {
    let timer = setTimeout(done, QUIET_MS);
    written = () => {
      clearTimeout(timer);
      timer = setTimeout(done, QUIET_MS);
    };
  });

const home = mkdtempSync(join(tmpdir(), 'stovehand-build-'));
try {
  writeFileSync(join(home, 'settings.json'), JSON.stringify({ kitchenAsked: true }));
  const files: (readonly [file: string, loaded: Loaded])[] = [];
  const program = loadProgram(folder, (file, loaded) => files.push([file, loaded]));
  const ended = program.run(['--home', home], pathToFileURL(join(folder, '../recipes')));
  // As if the key that started the program had been this one.
  let before = '\r';
  for (const key of WALK) {
    await quiet();
    if (key === before) await pause(SAME_KEY_MS);
    before = key;
    stdin.write(key);
  }
  // Where another screen came than was thought, a little less is kept; that is no reason to have no program.
  const code = await Promise.race([ended, quiet()]);
  if (code) throw new Error(`The built program ended with ${code}.`);
  for (const [file, loaded] of files) writeFileSync(keptName(file), loaded.keep());
} finally {
  rmSync(home, { recursive: true, force: true });
}
process.exit();
