/** Everything of a home as one archive. How it is read back is in `archive-merge.ts`, what it looks like in `archive-format.ts`. */
import { join } from 'node:path';
import { visible } from '../core/text.ts';
import type { WallTime } from '../core/time.ts';
import {
  BATCH_PART,
  DIARY_PART,
  packArchive,
  type Part,
  RECIPE_PART,
  SETTINGS_PART,
} from './archive-format.ts';
import { EXIT, GrowerError, reason } from './failure.ts';
import { createWhole, type FileLayer, nodeFiles, readStart } from './files.ts';
import { LONGEST_JOURNAL } from './journal-read.ts';

export interface ArchiveHome {
  readonly batches: string;
  readonly diary: string;
  readonly recipes: string;
  readonly settings: string;
  readonly files?: FileLayer;
}

export interface Exported {
  readonly batches: number;
  readonly recipes: number;
  readonly bytes: number;
  /** One sentence for each part that could not be read and is not in the archive. */
  readonly notices: readonly string[];
}

interface Wanted {
  readonly name: string;
  readonly path: string;
}

function wantedParts(
  { batches, diary, recipes, settings }: ArchiveHome,
  files: FileLayer,
): readonly Wanted[] {
  const within = (folder: string, prefix: string, known: RegExp): readonly Wanted[] => {
    if (files.look(folder)?.folder !== true) return [];
    return files
      .list(folder)
      .map(file => ({ name: `${prefix}/${file}`, path: join(folder, file) }))
      .filter(({ name }) => known.test(name))
      .sort((a, b) => (a.name < b.name ? -1 : 1));
  };
  const single = (name: string, path: string): readonly Wanted[] =>
    files.look(path) === null ? [] : [{ name, path }];
  return [
    ...within(batches, 'batches', BATCH_PART),
    ...single(DIARY_PART, diary),
    ...within(recipes, 'recipes', RECIPE_PART),
    ...single(SETTINGS_PART, settings),
  ];
}

/** Recipes whose file name no other system could be trusted with. */
function oddRecipes({ recipes }: ArchiveHome, files: FileLayer): string[] {
  if (files.look(recipes)?.folder !== true) return [];
  return files
    .list(recipes)
    .filter(file => /\.ya?ml$/i.test(file) && !file.startsWith('.') && !RECIPE_PART.test(`recipes/${file}`))
    .map(file => `The recipe ${visible(file)} is not in the archive: its name holds unusual characters.`);
}

/** The archive's bytes. A file that cannot be read is named and left out; the others go in. */
export async function makeArchive(
  home: ArchiveHome,
  now: WallTime,
): Promise<{ bytes: Uint8Array; parts: readonly Part[]; notices: string[] }> {
  const files = home.files ?? nodeFiles;
  const notices = oddRecipes(home, files);
  const parts: Part[] = [];
  for (const { name, path } of wantedParts(home, files)) {
    try {
      parts.push({ name, bytes: readStart(files, path, LONGEST_JOURNAL) });
    } catch (problem) {
      notices.push(`${path} is not in the archive: ${reason(problem)}.`);
    }
  }
  return { bytes: await packArchive(parts, now), parts, notices };
}

/** Writes the archive to a new file. GrowerError when the file is there already or cannot be written. */
export async function exportArchive(home: ArchiveHome, path: string, now: WallTime): Promise<Exported> {
  const files = home.files ?? nodeFiles;
  const { bytes, parts, notices } = await makeArchive(home, now);
  try {
    createWhole(files, path, bytes);
  } catch (problem) {
    throw new GrowerError(`The archive could not be written to ${path}: ${reason(problem)}.`, {
      tryThis: ['An export never replaces a file: give another name, or move the old one away.'],
      exitCode: EXIT.cannotWrite,
      cause: problem,
    });
  }
  return {
    batches: parts.filter(({ name }) => BATCH_PART.test(name)).length,
    recipes: parts.filter(({ name }) => RECIPE_PART.test(name)).length,
    bytes: bytes.length,
    notices,
  };
}
