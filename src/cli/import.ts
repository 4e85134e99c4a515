/** `import`: merges an archive into this home. */
import { resolve } from 'node:path';
import { mergeArchive, readArchive } from '../shell/archive-merge.ts';
import { listBatches } from '../shell/batches.ts';
import { batchesText, countOf } from '../core/words/count.ts';
import { EXIT } from '../shell/failure.ts';
import type { Arguments } from './arguments.ts';
import { archiveHome } from './export.ts';
import { say, sayJson, sayNotices } from './record-out.ts';
import { diaryOf } from './record-world.ts';
import type { World } from './world.ts';

export async function importAll(said: Arguments, world: World): Promise<number> {
  const bytes = readArchive(resolve(said.words[0] ?? ''));
  const target = { ...archiveHome(world), diaryStore: diaryOf(world), settingsStore: world.settings };
  const imported = await mergeArchive(bytes, target);
  const { added, continued, same, entries, recipes, sameRecipes, settings, notices, notes } = imported;
  // Summaries of what came in are made now, so that the record opens at once.
  if (added.length + continued.length > 0) listBatches(world.batches);
  sayNotices([...notices, ...notes]);
  if (said.json) sayJson(imported);
  else {
    const went = continued.length === 0 ? '' : `${batchesText(continued.length)} continued, `;
    const copies = sameRecipes === 0 ? '' : ` ${countOf(sameRecipes, 'recipe')} here already, word for word.`;
    say(
      `${batchesText(added.length)} added, ${went}${same} here already.`,
      `${countOf(entries, 'diary entry', 'diary entries')} and ${countOf(recipes.length, 'recipe')} added.${copies}`,
      ...(settings.length === 0 ? [] : [`Taken from its settings: ${settings.join(' and ')}.`]),
    );
  }
  return notices.length === 0 ? EXIT.ok : EXIT.badFile;
}
