/** `record`, `compare` and `next`: what the batches have taught. */
import { trimmed } from '../core/quantity-format.ts';
import { outcomeOf } from '../core/record/bags.ts';
import { causesOf } from '../core/record/causes.ts';
import { compareBatches } from '../core/record/compare.ts';
import { costOf } from '../core/record/cost.ts';
import { recordTable, toCsv } from '../core/record/csv.ts';
import { forecast } from '../core/record/loss.ts';
import { changedAfter, nextTime } from '../core/record/next-time.ts';
import { GROUPINGS, overallRate, ratesBy } from '../core/record/rates.ts';
import { countOutcomes, type RecordedBatch } from '../core/record/record.ts';
import { causeEvidence } from '../core/words/causes.ts';
import { batchesText } from '../core/words/count.ts';
import { briefOutcomes } from '../core/words/done.ts';
import {
  changeEvidence,
  changeReason,
  changeWords,
  proposalWords,
  unchangedWords,
} from '../core/words/next-time.ts';
import {
  contrastWords,
  costWords,
  forecastLines,
  NO_COST,
  rateWords,
  uncountedWords,
} from '../core/words/record.ts';
import { EXIT } from '../shell/failure.ts';
import type { Arguments } from './arguments.ts';
import { aligned, say, sayJson, sayNotices, usage } from './record-out.ts';
import {
  dateWords,
  readRecord,
  savedWords,
  saveNextRecipe,
  stampWords,
  wantedBatch,
} from './record-world.ts';
import type { World } from './world.ts';
import { withDefaults } from '../core/kitchen.ts';

/** Everything kept of a batch, for other programs. */
function batchJson(recorded: RecordedBatch) {
  const { batch, bags, id } = recorded;
  const { recipe, numbers, beganWall } = batch.header;
  return {
    id,
    began: new Date(beganWall).toISOString(),
    recipe,
    numbers,
    steps: batch.times,
    readings: batch.readings,
    kernels: batch.kernels,
    towels: batch.towels,
    deviations: batch.deviations,
    hold: batch.hold,
    ventBreaks: batch.ventBreaks,
    endedEarly: batch.endedEarly,
    outcomes: countOutcomes(bags),
    bags: bags.map(bag => ({
      ...bag,
      outcome: outcomeOf(bag),
      hints:
        outcomeOf(bag) === 'lost'
          ? causesOf(batch, bag, bag.looks).map(cause => ({
              id: cause.id,
              says: causeEvidence(cause, batch.header.kitchen.units),
            }))
          : [],
    })),
  };
}

/** Total of a usual batch and the numbers of bags worth comparing. */
function usual(batches: readonly RecordedBatch[]): { kg: number; counts: readonly number[] } {
  const last = batches.at(-1)?.batch.header.recipe.containers;
  const kg = last ? last.count * last.fillKg : 0;
  const counts = last
    ? [...new Set([Math.max(1, Math.round(last.count / 2)), last.count, last.count * 2])]
    : [];
  return { kg, counts };
}

export function record(said: Arguments, world: World): number {
  const { batches, notices } = readRecord(world);
  sayNotices(notices);
  const { kg, counts } = usual(batches);
  const loss = forecast(batches, kg, counts);
  const cost = costOf(batches);
  if (said.options.csv) {
    process.stdout.write(toCsv(recordTable(batches, stampWords)));
    return EXIT.ok;
  }
  if (said.json) {
    const rates = Object.fromEntries(GROUPINGS.map(grouping => [grouping, ratesBy(grouping, batches)]));
    sayJson({
      version: 1,
      overall: overallRate(batches),
      rates,
      loss,
      cost,
      batches: batches.map(batchJson),
    });
    return EXIT.ok;
  }
  const { units } = withDefaults(world.settings.values.kitchen).kitchen;
  say(`${batchesText(batches.length)}: ${rateWords(overallRate(batches))}.`);
  for (const grouping of GROUPINGS) {
    const rates = ratesBy(grouping, batches);
    if (rates.length === 0) continue;
    say('', `By ${grouping}`, ...aligned(rates.map(rate => [`  ${rate.name}`, rateWords(rate)])));
    const contrast = contrastWords(rates);
    if (contrast !== '') say(`  ${contrast}`);
  }
  if (loss) say('', ...forecastLines(loss, units));
  const uncounted = uncountedWords(batches.flatMap(({ bags }) => bags));
  if (uncounted !== '') say('', uncounted);
  if (batches.length > 0) say('', cost ? costWords(cost) : NO_COST);
  if (batches.length > 0) {
    const rows = batches.slice(-10).map(({ id, batch, bags }) => {
      return [
        `  ${id}`,
        dateWords(batch.header.beganWall),
        batch.header.recipe.name,
        briefOutcomes(bags) || 'no bags',
      ];
    });
    say('', 'Last batches', ...aligned(rows));
  }
  return EXIT.ok;
}

export function compare(said: Arguments, world: World): number {
  const [left, right] = [wantedBatch(world, said.words[0] ?? ''), wantedBatch(world, said.words[1] ?? '')];
  const { units } = withDefaults(world.settings.values.kitchen).kitchen;
  if (left.id === right.id)
    throw usage(`A batch is not compared with itself: name another beside ${left.id}.`);
  const rows = compareBatches(left, right, units);
  if (said.json) sayJson({ left: left.id, right: right.id, rows });
  else
    say(
      ...aligned([
        ['', '', left.id, right.id],
        ...rows.map(row => [row.differs ? '*' : '', row.name, row.left, row.right]),
      ]),
      '* differs',
    );
  return EXIT.ok;
}

export async function next(said: Arguments, world: World): Promise<number> {
  const recorded = wantedBatch(world, said.words[0] ?? '');
  const origin = changedAfter(recorded.batch.header.recipe);
  const before = readRecord(world).batches.find(({ id }) => id === origin) ?? null;
  const changes = nextTime(recorded, before);
  const { units } = withDefaults(world.settings.values.kitchen).kitchen;
  const saved =
    said.options.save && changes.length > 0 ? await saveNextRecipe(world, recorded, changes) : null;
  if (said.json) {
    sayJson({
      batch: recorded.id,
      saved: saved?.path ?? null,
      changes: changes.map(change => ({
        id: change.id,
        before: change.before,
        after: change.after,
        says: changeWords(change, units),
        reason: changeReason(change),
        evidence: changeEvidence(change, units),
      })),
    });
    return EXIT.ok;
  }
  if (changes.length === 0) say(unchangedWords(recorded.bags));
  changes.forEach((change, index) => {
    say(
      `${trimmed(index + 1, 0)}. ${proposalWords(change, units)}`,
      `   Seen: ${changeEvidence(change, units)}`,
      `   Why:  ${changeReason(change)}`,
    );
  });
  if (saved !== null) say(savedWords(saved, changes, '"stovehand again"'));
  else if (changes.length > 0) say('Take them into a recipe of your own with: --save');
  return EXIT.ok;
}
