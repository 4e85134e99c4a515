import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DEFAULT_KITCHEN } from '../../src/core/kitchen.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { type FileLayer, nodeFiles } from '../../src/shell/files.ts';
import { readRecipeFile } from '../../src/shell/recipe-file.ts';
import {
  fileStem,
  findRecipe,
  listRecipes,
  type RecipeFolders,
  sameRecipe,
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

  it('finds a recipe that is there already, own or shipped, whatever its file is called', () => {
    expect(sameRecipe(recipe, units, folders)?.name).toBe('rye-bags');
    const changed = { ...recipe, holdS: recipe.holdS + 60 };
    expect(sameRecipe(changed, units, folders)).toBeNull();
    const path = saveRecipe(changed, units, folders);
    expect(sameRecipe(changed, units, folders)?.path).toBe(path);
  });

  it('never hides a shipped recipe under its own file name', () => {
    const named = { ...recipe, name: 'Rye bags' };
    expect(saveRecipe(named, units, folders)).toBe(join(folders.own, 'rye-bags-2.yaml'));
    expect(listRecipes(folders).entries.map(({ name }) => name)).toContain('rye-bags');
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
