/** The record and the diary of the real home. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { AfterServices, Today } from '../core/record/after.ts';
import { indexDiary } from '../core/record/bags.ts';
import { culturesOf, readBagId } from '../core/record/diary.ts';
import { type Change, improvedRecipe } from '../core/record/next-time.ts';
import { type RecordedBatch, recordedBatch, recordOf } from '../core/record/record.ts';
import { visible } from '../core/text.ts';
import { remindersWords } from '../core/words/next-time.ts';
import type { WallTime } from '../core/time.ts';
import { BATCH_ID, listBatches, readBatch } from '../shell/batches.ts';
import { DIARY_FILE, type Diary, openDiary } from '../shell/diary.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';
import { clockText, dayStamp } from '../face/format.ts';
import type { World } from './world.ts';

export { clockText as clockWords, dateText as dateWords } from '../face/format.ts';

const nowOf = (world: World): WallTime => world.clock.sample().wall;

export const diaryOf = (world: World): Diary =>
  openDiary({ path: join(world.places.home, DIARY_FILE), now: () => nowOf(world) });

/** Local midnights around an instant; days of daylight saving have 23 or 25 hours. */
export function dayAround(wall: WallTime): Today {
  const day = new Date(wall);
  day.setHours(0, 0, 0, 0);
  const start = day.getTime();
  day.setDate(day.getDate() + 1);
  return { start, end: day.getTime() };
}

/** `2026-11-25T23:42`, local: for tables. */
export const stampWords = (wall: WallTime): string => `${dayStamp(wall)}T${clockText(wall)}`;

/** Every batch that is over, with what could not be read. */
export function readRecord(world: World): { batches: readonly RecordedBatch[]; notices: readonly string[] } {
  const listed = listBatches(world.batches);
  const diary = diaryOf(world).read();
  const batches = recordOf(
    listed.flatMap(({ batch }) => (batch ? [batch] : [])),
    indexDiary(diary.entries),
  );
  const notices = listed.flatMap(({ id, says }) => says.map(line => `${id}: ${line}`));
  return { batches, notices: [...notices, ...diary.notices] };
}

/** The batch of that id with its bags. GrowerError when there is none or it cannot be read. */
export function wantedBatch(world: World, wanted: string): RecordedBatch {
  const id = wanted.trim().toLowerCase();
  const place = readBagId(id);
  const name = place ? place.batch : id;
  if (!BATCH_ID.test(name)) {
    throw new GrowerError(`"${visible(wanted)}" is no batch: they are called like 2648a.`, {
      tryThis: ['List them with: stovehand batches'],
      exitCode: EXIT.usage,
    });
  }
  const { batch, says } = readBatch(world.batches, name);
  if (!batch) {
    const isThere = existsSync(join(world.places.batches, `${name}.batch`));
    throw new GrowerError(
      isThere ? `Batch ${name} cannot be read. ${says.join(' ')}`.trim() : `There is no batch ${name} here.`,
      {
        tryThis: ['List them with: stovehand batches'],
        exitCode: EXIT.usage,
      },
    );
  }
  return recordedBatch(batch, indexDiary(diaryOf(world).read().entries));
}

export interface NextRecipe {
  readonly path: string;
  /** The same recipe was there already: nothing was written. */
  readonly wasThere: boolean;
}

/** Saves the changed recipe, unless it is there already, and points `again` at it. */
export async function saveNextRecipe(
  world: World,
  recorded: RecordedBatch,
  changes: readonly Change[],
): Promise<NextRecipe> {
  const { sameRecipe, saveRecipe } = await import('../shell/recipes.ts');
  const recipe = improvedRecipe(recorded, changes);
  const { units } = recorded.batch.header.kitchen;
  const folders = { shipped: world.shipped, own: world.places.recipes };
  const same = sameRecipe(recipe, units, folders);
  const path = same?.path ?? saveRecipe(recipe, units, folders);
  await world.settings.save({ lastRecipe: path });
  return { path, wasThere: same !== null };
}

/** What was saved where, and which changes it carries only as words. */
export function savedWords(
  { path, wasThere }: NextRecipe,
  changes: readonly Change[],
  runIt: string,
): string {
  return `${wasThere ? 'Already saved' : 'Saved'} as ${path}: ${runIt} runs it.${remindersWords(changes)}`;
}

const saying = (problem: unknown): string => (problem instanceof Error ? problem.message : String(problem));

/** What the screens may ask. */
export function openAfter(world: World): AfterServices {
  const diary = diaryOf(world);
  return {
    record: () => readRecord(world),
    batch: id => {
      try {
        return wantedBatch(world, id);
      } catch (problem) {
        if (problem instanceof GrowerError) return null;
        throw problem;
      }
    },
    cultures: () => [...culturesOf(diary.read().entries).values()],
    keep: (...events) => {
      try {
        return diary.add(...events);
      } catch (problem) {
        if (problem instanceof GrowerError) return [problem.message, ...problem.tryThis].join(' ');
        throw problem;
      }
    },
    today: () => dayAround(nowOf(world)),
    makePage: async (kind, id) => (await import('./pages.ts')).makePage(world, kind, id),
    openPage: async path => (await import('./pages.ts')).showPage(path),
    saveNext: async (recorded, changes) => {
      try {
        return savedWords(await saveNextRecipe(world, recorded, changes), changes, '"again"');
      } catch (problem) {
        return saying(problem);
      }
    },
  };
}
