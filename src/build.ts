/**
 * Builds `dist` with esbuild: one entry, split chunks, React's production build. With `--if-stale` it does
 * nothing when `dist` is newer than every source, so that starting the program again costs no build.
 */
import { existsSync, mkdirSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { BANNER, withoutBuiltinImports } from './build/builtins.ts';
import { patches } from './build/patches.ts';

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

if (!(process.argv.includes('--if-stale') && isFresh())) {
  rmSync(out, { recursive: true, force: true });
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: ['src/main.ts'],
    outdir: out,
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node22',
    jsx: 'automatic',
    plugins: [patches()],
    // React's scheduler looks for a browser; the look alone makes Node load its own imitation of one.
    define: { 'process.env.NODE_ENV': '"production"', navigator: 'undefined' },
    // Ink only loads its developer tools when DEV is set, and they are not installed.
    external: ['react-devtools-core'],
    banner: { js: BANNER },
    write: false,
    logLevel: 'warning',
  });
  mkdirSync(out, { recursive: true });
  for (const { path, text } of outputFiles) {
    // The entry has to run on a Node that is too old, at least as far as to say so.
    const isEntry = path === join(out, 'main.js');
    writeFileSync(path, isEntry ? text : withoutBuiltinImports(text, path), {
      mode: isEntry ? 0o755 : 0o644,
    });
  }
}
