import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DEFAULT_KITCHEN } from '../../src/core/kitchen.ts';
import type { ParsedRecipe } from '../../src/core/recipe/parse.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { type FileLayer, nodeFiles } from '../../src/shell/files.ts';
import { readRecipeFile } from '../../src/shell/recipe-file.ts';
import {
  fileStem,
  findRecipe,
  listRecipes,
  type RecipeFolders,
  saveRecipe,
} from '../../src/shell/recipes.ts';

const shipped = fileURLToPath(new URL('../../recipes', import.meta.url));
const good = (name: string) =>
  `name: ${name}\ngrain: rye\ncontainers:\n  count: 2\n  fill: 1 kg\n  size: 18 x 11 x 8 cm\n`;
const { units } = DEFAULT_KITCHEN;

let home = '';
let folders: RecipeFolders = { shipped, own: '' };
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'stovehand-recipes-'));
  folders = { shipped, own: join(home, 'recipes') };
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

const put = (name: string, content: string | Uint8Array): string => {
  mkdirSync(folders.own, { recursive: true });
  const path = join(folders.own, name);
  writeFileSync(path, content);
  return path;
};
const saysOf = (parsed: ParsedRecipe) =>
  parsed.ok
    ? 'a recipe'
    : parsed.problems.map(({ file, line, column, says }) => `${file}:${line}:${column} ${says}`).join('\n');
const failure = (act: () => unknown): GrowerError => {
  try {
    act();
  } catch (problem) {
    if (problem instanceof GrowerError) return problem;
    throw problem;
  }
  throw new Error('it did not fail');
};

describe('listing', () => {
  it('lists the shipped recipes when there is no own folder', () => {
    const { entries, notices } = listRecipes(folders);
    expect(entries.map(({ name, shipped: comes, parsed }) => [name, comes, parsed.ok])).toEqual([
      ['millet-bags', true, true],
      ['rye-bags', true, true],
      ['sorghum-jars', true, true],
      ['wheat-first-run', true, true],
    ]);
    expect(notices).toEqual([]);
    expect(readdirSync(home)).toEqual([]);
  });

  it('lists own recipes first, hides the shipped one of the same name, and keeps broken ones with their problems', () => {
    put('rye-bags.yaml', good('Mine'));
    put('broken.yml', 'name: [\n');
    put('notes.txt', 'not a recipe');
    put('.hidden.yaml', good('Hidden'));
    const { entries } = listRecipes(folders);
    expect(entries.map(({ name, shipped: comes, parsed }) => [name, comes, parsed.ok])).toEqual([
      ['broken', false, false],
      ['rye-bags', false, true],
      ['millet-bags', true, true],
      ['sorghum-jars', true, true],
      ['wheat-first-run', true, true],
    ]);
  });

  it('says when the own folder is a file, and lists the rest', () => {
    writeFileSync(folders.own, '');
    const { entries, notices } = listRecipes(folders);
    expect(entries).toHaveLength(4);
    expect(notices).toEqual([`${folders.own}: a part of the path is not a folder.`]);
  });
});

describe('reading with suspicion', () => {
  it.each<[string, () => string, string]>([
    ['a missing file', () => join(home, 'none.yaml'), 'there is no such file or folder'],
    ['a folder', () => home, 'This is a folder, not a recipe file.'],
    ['a large file', () => put('large.yaml', 'x'.repeat(200_000)), 'larger than 32 kB'],
    [
      'a file just too large',
      () => put('large.yaml', `${good('A')}#${'x'.repeat(32 * 1024)}`),
      'larger than 32 kB',
    ],
    ['an endless device', () => '/dev/zero', 'not a regular file'],
    [
      'UTF-16',
      () => put('wide.yaml', Buffer.from(`\ufeff${good('A')}`, 'utf16le')),
      'UTF-16; save it as UTF-8',
    ],
    ['a name with NUL', () => 'a\0b.yaml', 'cannot be read'],
    [
      'a binary',
      () =>
        put(
          'binary.yaml',
          Uint8Array.from({ length: 5000 }, (_, at) => (at * 7919) % 256),
        ),
      'not UTF-8 text',
    ],
  ])('refuses %s', (_, path, words) => {
    const says = saysOf(readRecipeFile(path(), 'a.yaml'));
    expect(says).toContain(words);
    expect(says).toMatch(/^a\.yaml:\d+:\d+ /);
  });

  it('does not wait for somebody to write into a pipe', () => {
    const path = join(home, 'pipe.yaml');
    execFileSync('mkfifo', [path]);
    expect(saysOf(readRecipeFile(path))).toContain('not a regular file');
  });

  it('survives links in a circle and links to nothing', () => {
    const [one, two, three] = ['one.yaml', 'two.yaml', 'three.yaml'].map(name => join(home, name)) as [
      string,
      string,
      string,
    ];
    symlinkSync(two, one);
    symlinkSync(one, two);
    symlinkSync(join(home, 'nothing'), three);
    expect(saysOf(readRecipeFile(one))).toContain('its links lead in a circle');
    expect(saysOf(readRecipeFile(three))).toContain('there is no such file or folder');
  });

  // The superuser may read everything, so that refusal cannot be seen there.
  it.skipIf(process.getuid?.() === 0)('says when permission is refused', () => {
    const path = put('secret.yaml', good('A'));
    chmodSync(path, 0o000);
    expect(saysOf(readRecipeFile(path))).toContain('permission is refused');
  });

  it('places bytes that are not UTF-8, together with everything else', () => {
    // 0xe9 is "e acute" in Latin-1 and opens a sequence of three in UTF-8.
    const bytes = Buffer.concat([
      Buffer.from('name: Caf'),
      Buffer.from([0xe9]),
      Buffer.from(' A\ngrain: rey\ncontainers:\n  count: 2\n  fill: 1 kg\n  size: 18 x 11 x 8 cm\n'),
    ]);
    expect(saysOf(readRecipeFile(put('latin.yaml', bytes), 'latin.yaml'))).toMatch(
      /^latin\.yaml:1:10 These bytes are not UTF-8.*\nlatin\.yaml:2:8 grain: expected/,
    );
  });
});

describe('finding what to run', () => {
  beforeEach(() => {
    put('oats-try.yaml', good('Oats for the cellar'));
  });

  it.each([
    ['rye-bags', 'rye-bags'],
    ['RYE-bags', 'rye-bags'],
    ['rye-bags.yaml', 'rye-bags'],
    ['rye', 'rye-bags'],
    ['oats', 'oats-try'],
    ['Oats for the cellar', 'oats-try'],
    ['wheat, first run', 'wheat-first-run'],
  ])('finds %s', (wanted, name) => {
    expect(findRecipe(wanted, folders, home)).toMatchObject({ name, parsed: { ok: true } });
  });

  it('takes a path from where the person stands', () => {
    writeFileSync(join(home, 'here.yaml'), good('Here'));
    expect(findRecipe('here.yaml', folders, home).path).toBe(join(home, 'here.yaml'));
    expect(findRecipe('./here.yaml', folders, home).path).toBe(join(home, 'here.yaml'));
    expect(findRecipe('./here', folders, home).parsed.ok).toBe(false);
  });

  it('says what there is instead', () => {
    put('oats-two.yaml', good('Two'));
    expect(failure(() => findRecipe('oats', folders, home)).message).toBe(
      'Several recipes begin with "oats": oats-try, oats-two.',
    );
    const missing = failure(() => findRecipe('rye-bgs', folders, home));
    expect([missing.message, missing.tryThis[0]]).toEqual([
      'There is no recipe "rye-bgs".',
      'Did you mean "rye-bags"?',
    ]);
    for (const odd of ['', ' ', '\x1b[2J', '__proto__', '.yaml', 'x'.repeat(5000)]) {
      expect(failure(() => findRecipe(odd, folders, home)).message).toMatch(
        /^There is no recipe "[^\x00-\x1f]*"\.$/,
      );
    }
  });
});

describe('saving', () => {
  const { parsed } = findRecipe('rye-bags', { shipped, own: '' }, '/');
  if (!parsed.ok) throw new Error('the shipped recipe is broken');
  const { recipe } = parsed;

  it('writes a file that reads back, private to the person, with the schema beside it', () => {
    const path = saveRecipe(recipe, units, folders);
    expect(path).toBe(join(folders.own, 'rye-six-1-kg-bags.yaml'));
    expect(readRecipeFile(path)).toMatchObject({ ok: true, recipe, warnings: [] });
    expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(readdirSync(folders.own).sort()).toEqual(['recipe.schema.json', 'rye-six-1-kg-bags.yaml']);
    expect(readFileSync(join(folders.own, 'recipe.schema.json'), 'utf8')).toBe(
      readFileSync(join(shipped, 'recipe.schema.json'), 'utf8'),
    );
  });

  it('never overwrites: the next one gets the next name', () => {
    put('rye-six-1-kg-bags.yaml', 'precious');
    put('recipe.schema.json', '{}');
    expect(saveRecipe(recipe, units, folders)).toBe(join(folders.own, 'rye-six-1-kg-bags-2.yaml'));
    expect(readFileSync(join(folders.own, 'rye-six-1-kg-bags.yaml'), 'utf8')).toBe('precious');
    expect(readFileSync(join(folders.own, 'recipe.schema.json'), 'utf8')).toBe('{}');
  });

  const layer = (change: Partial<FileLayer>): FileLayer => ({ ...nodeFiles, ...change });
  const code = (name: string) => Object.assign(new Error(name), { code: name });

  it('keeps a file that somebody else made in the meantime', () => {
    let raced = false;
    const files = layer({
      link: (from, to) => {
        if (!raced) writeFileSync(to, 'theirs');
        raced = true;
        nodeFiles.link(from, to);
      },
    });
    expect(saveRecipe(recipe, units, folders, files)).toBe(join(folders.own, 'rye-six-1-kg-bags-2.yaml'));
    expect(readFileSync(join(folders.own, 'rye-six-1-kg-bags.yaml'), 'utf8')).toBe('theirs');
  });

  it('writes in place on a disk without second names', () => {
    const files = layer({
      link: () => {
        throw code('EPERM');
      },
    });
    put('rye-six-1-kg-bags.yaml', 'precious');
    const path = saveRecipe(recipe, units, folders, files);
    expect(path).toBe(join(folders.own, 'rye-six-1-kg-bags-2.yaml'));
    expect(readRecipeFile(path)).toMatchObject({ ok: true, recipe });
    expect(readdirSync(folders.own)).toHaveLength(3);
  });

  it('leaves nothing behind on a full disk, and says so', () => {
    put('recipe.schema.json', '{}');
    const files = layer({
      write: () => {
        throw code('ENOSPC');
      },
    });
    expect(failure(() => saveRecipe(recipe, units, folders, files)).message).toBe(
      `The recipe could not be saved in ${folders.own}: the disk is full.`,
    );
    expect(readdirSync(folders.own)).toEqual(['recipe.schema.json']);
  });

  it.each([
    ['Rye, six 1 kg bags', 'rye-six-1-kg-bags'],
    ['Seigle d’été', 'seigle-d-ete'],
    ['../../etc/passwd', 'etc-passwd'],
    ['日本', 'recipe-mine'],
    ['', 'recipe-mine'],
    ['CON', 'recipe-con'],
    ['-rf', 'rf'],
    [`a${' '.repeat(60)}b`, 'a-b'],
    ['x'.repeat(200), 'x'.repeat(48)],
  ])('names the file of "%s" %s', (name, stem) => {
    expect(fileStem(name)).toBe(stem);
  });
});
