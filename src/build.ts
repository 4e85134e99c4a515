/**
 * Builds `dist` with esbuild: the entry, the program in one file, its rarely used libraries in another, and
 * beside each the code that V8 made of it. With `--if-stale` it does nothing when `dist` is newer than every
 * source, so that starting the program again costs no build.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type BuildOptions, build } from 'esbuild';
import { late } from './build/late.ts';
import { libraries, librariesEntry } from './build/libraries.ts';
import { patches } from './build/patches.ts';
import { PARAMETERS } from './bundle.ts';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const outIndex = process.argv.indexOf('--out');
const out = outIndex < 0 ? join(root, 'dist') : (process.argv[outIndex + 1] ?? join(root, 'dist'));

function newest(path: string): number {
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return Math.max(stat.mtimeMs, ...readdirSync(path).map(name => newest(join(path, name))));
}

function isFresh(): boolean {
  const built = join(out, 'main.js');
  if (!existsSync(built)) return false;
  const since = statSync(built).mtimeMs;
  return [join(root, 'src'), join(root, 'package-lock.json')].every(path => newest(path) < since);
}

const common: BuildOptions = {
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  target: 'node22',
  charset: 'ascii',
  write: false,
  logLevel: 'warning',
};

/**
 * A file that `src/bundle.ts` loads: a function around everything, and every `import()` a call of `require`.
 * Templates become strings, in which everything beyond ASCII can be escaped.
 */
const wrapped: BuildOptions = {
  ...common,
  format: 'cjs',
  banner: { js: `(function (${PARAMETERS}) {` },
  footer: { js: '})' },
  supported: { 'dynamic-import': false, 'template-literal': false },
  // React's scheduler looks for a browser; the look alone makes Node load its own imitation of one.
  define: {
    'process.env.NODE_ENV': '"production"',
    'import.meta.url': 'moduleUrl',
    navigator: 'undefined',
  },
};

const escaped = (unit: string): string => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`;

/** One file in plain ASCII. What esbuild leaves as it is are regular expressions, where an escape is the same. */
async function textOf(options: BuildOptions): Promise<string> {
  const { outputFiles = [] } = await build(options);
  const [built] = outputFiles;
  if (built === undefined || outputFiles.length !== 1) throw new Error('The build made more than one file.');
  return built.text.replace(/[^\n\r\t -~]/g, escaped);
}

async function buildAll(): Promise<void> {
  const entry = await textOf({ ...common, format: 'esm', entryPoints: ['src/main.ts'] });
  const program = await textOf({
    ...wrapped,
    entryPoints: ['src/cli/run.ts'],
    jsx: 'automatic',
    plugins: [patches(), late(), libraries()],
  });
  const rest = await textOf({
    ...wrapped,
    stdin: { contents: librariesEntry, resolveDir: root },
    plugins: [late()],
  });
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  writeFileSync(join(out, 'stovehand.js'), program);
  writeFileSync(join(out, 'libraries.js'), rest);
  // Last: a build that was broken off is not fresh.
  writeFileSync(join(out, 'main.js'), entry, { mode: 0o755 });
  try {
    execFileSync(process.execPath, [join(root, 'src/build/warm.ts'), out], { stdio: 'pipe' });
  } catch (problem) {
    // Without the kept code the program is the same and starts later; test/terminal/start.test.ts is not so patient.
    const { stderr = '' } = problem as { readonly stderr?: unknown };
    console.error(`note: the code could not be kept, so starts take longer.\n${String(stderr)}`);
  }
}

if (!(process.argv.includes('--if-stale') && isFresh())) await buildAll();
