/**
 * Recipes on disk: the shipped ones and the person's own. An own file hides a shipped one of the same file
 * name, so that a copy can be edited in peace. Saving never touches a file that is already there.
 */

import { basename, extname, join, resolve } from 'node:path';
import type { Units } from '../core/kitchen.ts';
import type { ParsedRecipe } from '../core/recipe/parse.ts';
import { excerpt } from '../core/recipe/problem.ts';
import type { Recipe } from '../core/recipe/recipe.ts';
import { nearest } from '../core/recipe/shape.ts';
import { recipeToYaml } from '../core/recipe/write.ts';
import { EXIT, GrowerError, reason } from './failure.ts';
import { createWhole, errorCode, type FileLayer, nodeFiles, readStart } from './files.ts';
import { readRecipeFile } from './recipe-file.ts';

export interface RecipeFolders {
  /** Comes with the program. */
  readonly shipped: string;
  /** The person's own; may not exist yet. */
  readonly own: string;
}

export interface RecipeEntry {
  /** File name without its ending: what `run NAME` takes. */
  readonly name: string;
  readonly path: string;
  readonly shipped: boolean;
  readonly parsed: ParsedRecipe;
}

export interface RecipeList {
  /** The person's own first, then the shipped ones, each by name. */
  readonly entries: readonly RecipeEntry[];
  /** One sentence for each folder that could not be read, or was cut short. */
  readonly notices: readonly string[];
}

const ENDINGS = ['.yaml', '.yml'];
/** More than a person keeps; a folder with more is not a recipe folder. */
const MOST_FILES = 300;
const SCHEMA = 'recipe.schema.json';

/** Every recipe there is, with its problems. Never throws. */
export function listRecipes(folders: RecipeFolders): RecipeList {
  const notices: string[] = [];
  const own = filesIn(folders.own, notices);
  const hidden = new Set(own.map(stem));
  const shipped = filesIn(folders.shipped, notices).filter(file => !hidden.has(stem(file)));
  const entry = (folder: string, file: string): RecipeEntry => ({
    name: stem(file),
    path: join(folder, file),
    shipped: folder === folders.shipped,
    parsed: readRecipeFile(join(folder, file), file),
  });
  return {
    entries: [
      ...own.map(file => entry(folders.own, file)),
      ...shipped.map(file => entry(folders.shipped, file)),
    ],
    notices,
  };
}

const stem = (file: string): string => basename(file, extname(file));
const isRecipeName = (file: string): boolean =>
  ENDINGS.includes(extname(file).toLowerCase()) && !file.startsWith('.');

function filesIn(folder: string, notices: string[]): readonly string[] {
  try {
    const files = nodeFiles.list(folder).filter(isRecipeName).sort();
    if (files.length > MOST_FILES)
      notices.push(`${excerpt(folder, 200)}: only the first ${MOST_FILES} recipes are listed.`);
    return files.slice(0, MOST_FILES);
  } catch (problem) {
    if (errorCode(problem) !== 'ENOENT') notices.push(`${excerpt(folder, 200)}: ${reason(problem)}.`);
    return [];
  }
}

/**
 * The recipe that `run` was asked for: a path (anything with a slash or a recipe's ending), or a name as
 * listed, whole or its beginning. GrowerError when there is none, or when a beginning fits several.
 */
export function findRecipe(wanted: string, folders: RecipeFolders, cwd: string): RecipeEntry {
  if (/[/\\]/.test(wanted) || isRecipeName(wanted)) {
    const path = resolve(cwd, wanted);
    if (/[/\\]/.test(wanted) || exists(path)) {
      return { name: stem(path), path, shipped: false, parsed: readRecipeFile(path, wanted) };
    }
  }
  const { entries } = listRecipes(folders);
  const plain = (isRecipeName(wanted) ? stem(wanted) : wanted).trim().toLowerCase();
  const title = ({ parsed }: RecipeEntry): string => (parsed.ok ? parsed.recipe.name.toLowerCase() : '');
  const exact = entries.find(each => each.name.toLowerCase() === plain || title(each) === plain);
  if (exact && plain !== '') return exact;
  const begins = plain === '' ? [] : entries.filter(each => each.name.toLowerCase().startsWith(plain));
  const [only, second] = begins;
  if (only && !second) return only;
  const names = entries.map(each => each.name);
  if (only) {
    throw new GrowerError(
      `Several recipes begin with "${excerpt(wanted)}": ${begins.map(each => excerpt(each.name)).join(', ')}.`,
      { tryThis: ['Write the whole name.'], exitCode: EXIT.usage },
    );
  }
  const near = nearest(plain, names);
  throw new GrowerError(`There is no recipe "${excerpt(wanted)}".`, {
    tryThis: [
      near === null ? 'List them with: stovehand recipes' : `Did you mean "${excerpt(near)}"?`,
      'Or name a file: stovehand run ./my-recipe.yaml',
    ],
    exitCode: EXIT.usage,
  });
}

function exists(path: string): boolean {
  try {
    return nodeFiles.look(path) !== null;
  } catch {
    // A name that cannot even be looked up is no file; the search by name goes on and ends in its own words.
    return false;
  }
}

/** A file name from a recipe's name: "Rye, six 1 kg bags" becomes "rye-six-1-kg-bags". */
export function fileStem(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 48)
    .replace(/^-+|-+$/g, '');
  // Device names that Windows keeps for itself.
  return plain === '' || /^(?:con|prn|aux|nul|com\d|lpt\d)$/.test(plain)
    ? `recipe-${plain || 'mine'}`
    : plain;
}

/** The listed recipe that says the same word for word, own or shipped; null when there is none. */
export function sameRecipe(recipe: Recipe, units: Units, folders: RecipeFolders): RecipeEntry | null {
  const text = recipeToYaml(recipe, units);
  const isSame = ({ parsed }: RecipeEntry): boolean =>
    parsed.ok && recipeToYaml(parsed.recipe, units) === text;
  return listRecipes(folders).entries.find(isSame) ?? null;
}

/**
 * Saves a recipe among the person's own under the first free name and returns its path. Whole or not at
 * all; nothing that exists is overwritten, and no shipped recipe hidden. GrowerError when it cannot be written.
 */
export function saveRecipe(
  recipe: Recipe,
  units: Units,
  folders: RecipeFolders,
  files: FileLayer = nodeFiles,
): string {
  const bytes = Buffer.from(recipeToYaml(recipe, units));
  const base = fileStem(recipe.name);
  try {
    files.folder(folders.own);
    bringSchema(folders, files);
    for (let copy = 1; copy < 1000; copy += 1) {
      const name = `${copy === 1 ? base : `${base}-${copy}`}.yaml`;
      if (exists(join(folders.shipped, name))) continue;
      const path = join(folders.own, name);
      if (files.look(path) === null && createUnder(files, path, bytes)) return path;
    }
  } catch (problem) {
    throw new GrowerError(`The recipe could not be saved in ${folders.own}: ${reason(problem)}.`, {
      tryThis: ['Nothing that was there has changed.'],
      exitCode: EXIT.cannotWrite,
      cause: problem,
    });
  }
  throw new GrowerError(`There are too many recipes named ${base} in ${folders.own}.`, {
    tryThis: ['Give the recipe another name.'],
    exitCode: EXIT.cannotWrite,
  });
}

/** Writes a draft and gives it its name in one step; false when somebody else took the name meanwhile. */
function createUnder(files: FileLayer, path: string, bytes: Uint8Array): boolean {
  const draft = `${path}.${process.pid}.new`;
  if (files.look(draft) !== null) files.remove(draft);
  createWhole(files, draft, bytes);
  try {
    files.link(draft, path);
  } catch (problem) {
    if (errorCode(problem) === 'EEXIST') return false;
    // Some disks (FAT, some network folders) know no second names: there the file is written in place.
    if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'].includes(errorCode(problem))) throw problem;
    createWhole(files, path, bytes);
  } finally {
    files.remove(draft);
  }
  return true;
}

/** Own recipes name the schema beside them; an editor that misses it only complains, so failing is no failure. */
function bringSchema(folders: RecipeFolders, files: FileLayer): void {
  const to = join(folders.own, SCHEMA);
  try {
    if (files.look(to) === null)
      createWhole(files, to, readStart(files, join(folders.shipped, SCHEMA), 1 << 18));
  } catch {
    return;
  }
}
