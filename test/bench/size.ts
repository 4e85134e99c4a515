/** What an installation holds, and whether anybody knows something against it. */
import { spawnSync } from 'node:child_process';
import { existsSync, lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Figure } from './measure.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

interface Weight {
  readonly files: number;
  readonly bytes: number;
}

/** Of a folder; `without`: what inside it is counted elsewhere. */
function weigh(folder: string, without = ''): Weight {
  let [files, bytes] = [0, 0];
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory() && entry.name !== without) {
      const inside = weigh(path, without);
      files += inside.files;
      bytes += inside.bytes;
    } else if (entry.isFile()) {
      files += 1;
      bytes += lstatSync(path).size;
    }
  }
  return { files, bytes };
}
const sum = (weights: readonly Weight[]): Weight => ({
  files: weights.reduce((all, { files }) => all + files, 0),
  bytes: weights.reduce((all, { bytes }) => all + bytes, 0),
});

/** Folders of the packages that are installed, by the lock file. */
function packages(dev: boolean): readonly string[] {
  const lock = JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')) as {
    packages: Readonly<Record<string, { readonly dev?: boolean }>>;
  };
  return Object.entries(lock.packages)
    .filter(([path, entry]) => path !== '' && (entry.dev === true) === dev)
    .map(([path]) => join(ROOT, path))
    .filter(existsSync);
}

function audited(): string {
  const words = ['audit', '--json'];
  const { stdout } = spawnSync('npm', words, { cwd: ROOT, encoding: 'utf8', timeout: 60_000 });
  try {
    const { metadata } = JSON.parse(stdout) as {
      metadata?: { vulnerabilities?: Readonly<Record<string, number>> };
    };
    const total = metadata?.vulnerabilities?.total;
    return total === undefined ? 'the registry did not answer' : `${total} known`;
  } catch {
    return 'npm did not answer';
  }
}

export function size(): readonly Figure[] {
  const row = (name: string, { files, bytes }: Weight, ratio = ''): Figure => ({
    name,
    figure: `${(bytes / 1e6).toFixed(1)} MB in ${files} files`,
    ratio,
    aim: '',
    met: null,
  });
  const [run, build] = [packages(false), packages(true)];
  const weightOf = (folders: readonly string[]) => sum(folders.map(folder => weigh(folder, 'node_modules')));
  return [
    row('dist, all that runs', weigh(join(ROOT, 'dist'))),
    row('packages in it', weightOf(run), `${run.length} packages`),
    row('packages to build and test', weightOf(build), `${build.length} packages, Node among them`),
    { name: 'npm audit', figure: audited(), ratio: '', aim: '', met: null },
  ];
}
