import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const SRC = fileURLToPath(new URL('../src', import.meta.url));

interface Source {
  readonly file: string;
  readonly text: string;
  /** What is imported: a path inside `src`, or the name of a package. */
  readonly imports: readonly string[];
}

// Static, re-exporting and dynamic imports; a type import is an import as well.
const IMPORT =
  /(?:^|\n)\s*(?:import|export)\s[^;'"]*?from\s*['"]([^'"]+)['"]|(?:^|\n)import\s*['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)/g;

function read(): readonly Source[] {
  return readdirSync(SRC, { recursive: true, encoding: 'utf8' })
    .filter(name => /\.tsx?$/.test(name))
    .map(name => {
      const file = name.split(sep).join('/');
      const text = readFileSync(join(SRC, name), 'utf8');
      const imports = [...text.matchAll(IMPORT)].map(found => {
        const wanted = found[1] ?? found[2] ?? found[3] ?? '';
        if (!wanted.startsWith('.')) return wanted;
        return relative(SRC, join(SRC, dirname(name), wanted))
          .split(sep)
          .join('/');
      });
      return { file, text, imports };
    });
}

const SOURCES = read();
const packageOf = (wanted: string): string =>
  wanted.startsWith('node:') ? 'node:*' : (wanted.split('/')[0] ?? wanted);
const within =
  (...folders: string[]) =>
  (path: string): boolean =>
    folders.some(folder => path.startsWith(`${folder}/`));

/** What each layer may import besides itself: folders of `src`, and packages. */
const LAYERS: Readonly<
  Record<string, { readonly folders: readonly string[]; readonly packages: readonly string[] }>
> = {
  core: { folders: [], packages: ['zod', 'yaml', 'qrcode-generator'] },
  shell: { folders: ['core'], packages: ['node:*', 'conf', 'fflate', 'ical-generator', 'qrcode-generator'] },
  face: { folders: ['core'], packages: ['react', 'ink', 'ink-spinner'] },
};

/** Inside the core the left never imports the right; files of the root of `core` may be used by all. */
const RANKS: Readonly<Record<string, number>> = {
  science: 0,
  recipe: 1,
  plan: 2,
  batch: 3,
  estimate: 4,
  practice: 5,
  record: 5,
};
const placeIn = (path: string): number => RANKS[path.split('/')[1] ?? ''] ?? -1;

const mustNot = (from: string, to: string): string => `${from} must not import ${to}`;

describe('imports point one way', () => {
  it('there is something to look at', () => {
    expect(SOURCES.length).toBeGreaterThan(100);
    expect(SOURCES.flatMap(({ imports }) => imports).length).toBeGreaterThan(400);
  });

  it.each(Object.entries(LAYERS))('%s', (layer, { folders, packages }) => {
    const wrong = SOURCES.filter(({ file }) => file.startsWith(`${layer}/`)).flatMap(({ file, imports }) =>
      imports
        .filter(wanted =>
          /\.tsx?$/.test(wanted) ? !within(layer, ...folders)(wanted) : !packages.includes(packageOf(wanted)),
        )
        .map(wanted => mustNot(file, wanted)),
    );
    expect(wrong).toEqual([]);
  });

  it('core: science, recipe, plan, batch, estimate, then practice and record, each only what stands before it', () => {
    const wrong = SOURCES.filter(({ file }) => placeIn(file) >= 0 && file.startsWith('core/')).flatMap(
      ({ file, imports }) =>
        imports
          .filter(wanted => wanted.startsWith('core/') && placeIn(wanted) > placeIn(file))
          .map(wanted => mustNot(file, wanted)),
    );
    expect(wrong).toEqual([]);
  });

  it('every relative import names a file that is there', () => {
    const files = new Set(SOURCES.map(({ file }) => file));
    const lost = SOURCES.flatMap(({ file, imports }) =>
      imports
        .filter(wanted => /\.tsx?$/.test(wanted) && !files.has(wanted))
        .map(wanted => `${file} imports ${wanted}, which is not there`),
    );
    expect(lost).toEqual([]);
  });
});

/** Text without comments and strings, so that a word about a clock is no clock. */
const bare = (text: string): string =>
  text
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\/\/.*$/gm, '')
    .replace(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"/g, "''");

describe('the core has no clock, no chance and no machine', () => {
  const FORBIDDEN = [
    /\bDate\.now\b/,
    /\bnew Date\(/,
    /\bperformance\b/,
    /\bsetTimeout\b/,
    /\bsetInterval\b/,
    /\bsetImmediate\b/,
    /\bprocess\./,
    /\bMath\.random\b/,
    /\bglobalThis\b/,
    /\bfetch\(/,
  ];
  it.each(FORBIDDEN)('%s', pattern => {
    const wrong = SOURCES.filter(
      ({ file, text }) => file.startsWith('core/') && pattern.test(bare(text)),
    ).map(({ file }) => `${file} must not use ${pattern}`);
    expect(wrong).toEqual([]);
  });

  it('the test would notice', () => {
    expect(FORBIDDEN.some(pattern => pattern.test(bare('const now = Date.now();')))).toBe(true);
    expect(FORBIDDEN.some(pattern => pattern.test(bare("// Date.now\nconst says = 'new Date(';")))).toBe(
      false,
    );
  });
});
