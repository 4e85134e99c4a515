/** `show`: everything kept of one batch. */
import { formatDuration, formatPressure } from '../core/quantity-format.ts';
import { indexDiary } from '../core/record/bags.ts';
import { recordedBatch } from '../core/record/record.ts';
import { visible } from '../core/text.ts';
import { batchStory, endEstimates } from '../core/words/batch-story.ts';
import { dateText, wallOf, whenText } from '../face/format.ts';
import { listBatches } from '../shell/batches.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';
import type { Arguments } from './arguments.ts';
import { stateOf } from './listings.ts';
import { aligned, say, sayJson, sayNotices } from './record-out.ts';
import { diaryOf } from './record-world.ts';
import type { World } from './world.ts';

export function show({ words: [wanted = ''], json }: Arguments, world: World): number {
  const id = wanted.trim().toLowerCase();
  const found = listBatches(world.batches).find(batch => batch.id === id);
  if (!found) {
    throw new GrowerError(`There is no batch "${visible(wanted)}" here.`, {
      tryThis: ['List them with: stovehand batches'],
      exitCode: EXIT.usage,
    });
  }
  const { batch, says } = found;
  sayNotices(says);
  if (!batch) return EXIT.badFile;
  const diary = diaryOf(world).read();
  sayNotices(diary.notices);
  const recorded = recordedBatch(batch, indexDiary(diary.entries));
  if (json) {
    sayJson({ ...batch, bags: recorded.bags, estimates: endEstimates(batch) });
    return EXIT.ok;
  }
  const { recipe, numbers, kitchen, beganWall, formerId } = batch.header;
  say(
    `${id}  ${recipe.name}, begun ${dateText(beganWall)}: ${stateOf(batch)}`,
    ...(formerId === undefined ? [] : [`imported; where it came from it is called ${formerId}`]),
    `gauge ${formatPressure(numbers.targetKPa, kitchen.units)}, vent ${formatDuration(numbers.ventS)}, hold ${formatDuration(numbers.holdS)}`,
  );
  // A batch goes over midnight, and is looked at on any day: every clock time carries its own.
  const telling = { units: kitchen.units, clock: (t: number) => whenText(wallOf(batch, t), 0) };
  for (const { title, rows } of batchStory(recorded, telling))
    say('', title, ...aligned(rows).map(line => `  ${line}`));
  return EXIT.ok;
}
