/** The recipes of an archive into a home, and where a recipe of the other home is found here. */
import { basename, dirname, join } from 'node:path';
import { type Part, RECIPE_PART, sha256 } from './archive-format.ts';
import { createWhole, type FileLayer, readStart } from './files.ts';

export interface MergedRecipes {
  readonly added: string[];
  /** File of the archive to file here that holds the same text. */
  readonly places: ReadonlyMap<string, string>;
}

const stemOf = (file: string): string => file.replace(/\.ya?ml$/, '');

/** Puts the archive's recipes into the folder, each text once; nothing that is there is written over. */
export function mergeRecipes(
  parts: readonly Part[],
  recipes: string,
  files: FileLayer,
  notes: string[],
): MergedRecipes {
  const fileOf = ({ name }: Part): string => RECIPE_PART.exec(name)?.[1] ?? '';
  // By stem, so that of identical copies the plain name comes first and is the one that stays.
  const wanted = parts
    .filter(({ name }) => RECIPE_PART.test(name))
    .sort((a, b) => (stemOf(fileOf(a)) < stemOf(fileOf(b)) ? -1 : 1));
  const places = new Map<string, string>();
  if (wanted.length === 0) return { added: [], places };
  files.folder(recipes);
  const here = new Map(
    files
      .list(recipes)
      .filter(file => /\.ya?ml$/i.test(file))
      .map(file => [sha256(readStart(files, join(recipes, file), 1 << 20)), file]),
  );
  const added: string[] = [];
  for (const part of wanted) {
    const file = fileOf(part);
    const sum = sha256(part.bytes);
    const same = here.get(sum);
    if (same !== undefined) {
      places.set(file, same);
      continue;
    }
    const ending = /\.ya?ml$/.exec(file)?.[0] ?? '.yaml';
    let free = file;
    for (let copy = 2; files.look(join(recipes, free)) !== null; copy += 1)
      free = `${stemOf(file)}-${copy}${ending}`;
    createWhole(files, join(recipes, free), part.bytes);
    here.set(sum, free);
    places.set(file, free);
    added.push(free);
    if (free !== file)
      notes.push(`A recipe ${file} is here already and differs: the one of the archive is ${free}.`);
  }
  return { added, places };
}

/** Where the last recipe of another home is in this one; empty when it is not. */
export function recipeHere(
  last: string,
  recipes: string,
  places: MergedRecipes['places'],
  files: FileLayer,
): string {
  if (!/[/\\]/.test(last)) return places.get(`${last}.yaml`)?.replace(/\.ya?ml$/, '') ?? last;
  const path = last.replaceAll('\\', '/');
  // A file that lay beside the other home came in no archive, and one of its name here is another.
  if (basename(dirname(path)) !== 'recipes') return '';
  const file = basename(path);
  const here = join(recipes, places.get(file) ?? file);
  return files.look(here) === null ? '' : here;
}
