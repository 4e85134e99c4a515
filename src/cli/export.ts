/** `export`: everything of this home as one archive. */
import { resolve } from 'node:path';
import { exportArchive } from '../shell/archive.ts';
import { DIARY_FILE } from '../shell/diary.ts';
import { batchesText, countOf } from '../core/words/count.ts';
import { EXIT } from '../shell/failure.ts';
import type { Arguments } from './arguments.ts';
import { say, sayJson, sayNotices } from './record-out.ts';
import type { World } from './world.ts';
import { join } from 'node:path';

/** The parts of a home that an archive holds. */
export const archiveHome = ({ places }: World) => ({
  batches: places.batches,
  recipes: places.recipes,
  settings: places.settings,
  diary: join(places.home, DIARY_FILE),
});

export async function exportAll(said: Arguments, world: World): Promise<number> {
  const path = resolve(said.words[0] ?? '');
  const exported = await exportArchive(archiveHome(world), path, world.clock.sample().wall);
  sayNotices(exported.notices);
  if (said.json) sayJson({ path, ...exported });
  else
    say(
      `${batchesText(exported.batches)} and ${countOf(exported.recipes, 'recipe')} are in ${path} (${Math.ceil(exported.bytes / 1024)} kB).`,
    );
  return exported.notices.length === 0 ? EXIT.ok : EXIT.badFile;
}
