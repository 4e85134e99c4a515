/** Reading an archive back into a home: merged, never doubled, nothing overwritten, every doubt named. */
import type { KitchenAnswers } from '../core/kitchen.ts';
import type { Settings, SettingsValues } from '../core/ports.ts';
import { visible } from '../core/text.ts';
import { culturesOf, type DiaryEntry, type DiaryEvent, bagId, readBagId } from '../core/record/diary.ts';
import type { ArchiveHome } from './archive.ts';
import { knownBatches, mergeBatch } from './archive-batch.ts';
import {
  BATCH_PART,
  DIARY_PART,
  LARGEST_ARCHIVE,
  type Part,
  SETTINGS_PART,
  unpackArchive,
} from './archive-format.ts';
import { type MergedRecipes, mergeRecipes, recipeHere } from './archive-recipes.ts';
import { type Diary, readDiaryBytes } from './diary.ts';
import { EXIT, GrowerError, reason } from './failure.ts';
import { type FileLayer, nodeFiles, readStart } from './files.ts';
import { checkSettings } from './settings.ts';

export interface Imported {
  readonly added: readonly string[];
  readonly continued: readonly string[];
  /** Batches that were here already. */
  readonly same: number;
  readonly entries: number;
  readonly recipes: readonly string[];
  /** Recipes whose very text is here already, be it under another name. */
  readonly sameRecipes: number;
  /** What the home had not said and took from the archive, in words. */
  readonly settings: readonly string[];
  /** What could not be read, or was not merged; empty when all of the archive is here now. */
  readonly notices: readonly string[];
  /** What was merged otherwise than one would think: under another name, or beside what is here. */
  readonly notes: readonly string[];
}

export interface ImportTarget extends ArchiveHome {
  readonly diaryStore: Diary;
  readonly settingsStore: Settings;
}

interface Tally {
  readonly added: string[];
  readonly continued: string[];
  same: number;
  readonly notices: string[];
  readonly notes: string[];
  /** Names in the archive of batches that are called otherwise here. */
  readonly renames: Map<string, string>;
}

function mergeBatches(parts: readonly Part[], target: ImportTarget, files: FileLayer): Tally {
  const tally: Tally = { added: [], continued: [], same: 0, notices: [], notes: [], renames: new Map() };
  const known = knownBatches(target.batches, files);
  for (const { name, bytes } of parts) {
    const named = BATCH_PART.exec(name)?.[1];
    if (!named) continue;
    const merged = mergeBatch(target.batches, named, bytes, known, files);
    tally.notices.push(...merged.says);
    if (merged.kind === 'refused') continue;
    tally.notes.push(...(merged.notes ?? []));
    if (merged.id !== named) tally.renames.set(named, merged.id);
    if (merged.kind === 'same') tally.same += 1;
    else tally[merged.kind].push(merged.id);
  }
  return tally;
}

/** An entry about a batch that is called otherwise here. */
function follow(entry: DiaryEntry, renames: ReadonlyMap<string, string>): DiaryEntry {
  const { event } = entry;
  if ('bag' in event) {
    const place = readBagId(event.bag);
    const to = place && renames.get(place.batch);
    return place && to
      ? { ...entry, event: { ...event, bag: bagId(to, place.number) } as DiaryEvent }
      : entry;
  }
  if (event.type !== 'warmth') return entry;
  return { ...entry, event: { ...event, batch: renames.get(event.batch) ?? event.batch } };
}

function mergeDiary(part: Part | undefined, tally: Tally, { diaryStore }: ImportTarget): number {
  if (!part) return 0;
  const { entries, notices } = readDiaryBytes(Buffer.from(part.bytes));
  tally.notices.push(...notices.map(says => `In the archive: ${says}`));
  const mine = culturesOf(diaryStore.read().entries);
  for (const [key, theirs] of culturesOf(entries)) {
    const here = mine.get(key);
    if (here && JSON.stringify(here) !== JSON.stringify(theirs)) {
      tally.notes.push(
        `The culture ${key} is described differently here and in the archive: the later description counts.`,
      );
    }
  }
  return diaryStore.merge(entries.map(entry => follow(entry, tally.renames))).length;
}

async function mergeSettings(
  part: Part | undefined,
  target: ImportTarget,
  files: FileLayer,
  { notices, notes }: Tally,
  places: MergedRecipes['places'],
): Promise<readonly string[]> {
  if (!part) return [];
  let theirs: SettingsValues;
  try {
    const checked = checkSettings(JSON.parse(Buffer.from(part.bytes).toString()));
    theirs = checked.values;
    notices.push(...checked.notices.map(says => `From the archive: ${says}`));
  } catch {
    notices.push('The settings in the archive cannot be read; yours are as they were.');
    return [];
  }
  const { values } = target.settingsStore;
  const kitchen: Record<string, unknown> = { ...values.kitchen };
  const differ: string[] = [];
  for (const [key, value] of Object.entries(theirs.kitchen)) {
    if (kitchen[key] === undefined) kitchen[key] = value;
    else if (JSON.stringify(kitchen[key]) !== JSON.stringify(value)) differ.push(key);
  }
  if (differ.length > 0)
    notes.push(`Your kitchen says otherwise than the archive and is kept: ${differ.join(', ')}.`);
  const next: SettingsValues = {
    ...values,
    kitchen: kitchen as KitchenAnswers,
    lastRecipe: values.lastRecipe || recipeHere(theirs.lastRecipe, target.recipes, places, files),
    kitchenAsked: values.kitchenAsked || theirs.kitchenAsked,
    lessonOffered: values.lessonOffered || theirs.lessonOffered,
  };
  if (next.lastRecipe === '' && theirs.lastRecipe !== '') {
    notes.push(
      `The last recipe was ${visible(theirs.lastRecipe)}, which is not in the archive: "again" runs the recipe of the last batch.`,
    );
  }
  if (JSON.stringify(next) !== JSON.stringify(values)) await target.settingsStore.save(next);
  return [
    ...(JSON.stringify(next.kitchen) === JSON.stringify(values.kitchen) ? [] : ['the kitchen']),
    ...(next.lastRecipe === values.lastRecipe ? [] : ['the last recipe']),
  ];
}

/** Merges the archive's bytes into the home. GrowerError when they are no archive or the disk fails. */
export async function mergeArchive(bytes: Uint8Array, target: ImportTarget): Promise<Imported> {
  const files = target.files ?? nodeFiles;
  const { parts, notices } = await unpackArchive(bytes);
  try {
    const tally = mergeBatches(parts, target, files);
    tally.notices.unshift(...notices);
    const part = (name: string): Part | undefined => parts.find(each => each.name === name);
    const entries = mergeDiary(part(DIARY_PART), tally, target);
    const recipes = mergeRecipes(parts, target.recipes, files, tally.notes);
    const settings = await mergeSettings(part(SETTINGS_PART), target, files, tally, recipes.places);
    const { added, continued, same, notices: missing, notes } = tally;
    return {
      added,
      continued,
      same,
      entries,
      recipes: recipes.added,
      sameRecipes: recipes.places.size - recipes.added.length,
      settings,
      notices: missing,
      notes,
    };
  } catch (problem) {
    if (problem instanceof GrowerError) throw problem;
    throw new GrowerError(`The import stopped: ${reason(problem)}.`, {
      tryThis: [
        'What was merged so far is kept, and nothing that was here has changed. Mend that, then import again.',
      ],
      exitCode: EXIT.cannotWrite,
      cause: problem,
    });
  }
}

/** Reads an archive file; GrowerError when it cannot be, or is larger than any archive. */
export function readArchive(path: string, files: FileLayer = nodeFiles): Buffer {
  try {
    const size = files.look(path)?.size ?? 0;
    if (size > LARGEST_ARCHIVE) {
      throw new GrowerError('This file is larger than any archive of Stovehand.', { exitCode: EXIT.badFile });
    }
    // Two letters tell whether the rest is worth its memory; a file that is none is refused by them as well.
    const start = readStart(files, path, 4);
    return start.toString('latin1', 0, 2) === 'PK' ? readStart(files, path, LARGEST_ARCHIVE) : start;
  } catch (problem) {
    if (problem instanceof GrowerError) throw problem;
    throw new GrowerError(`The archive ${path} could not be read: ${reason(problem)}.`, {
      exitCode: EXIT.badFile,
      cause: problem,
    });
  }
}
