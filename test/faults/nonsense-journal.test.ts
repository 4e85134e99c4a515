import { describe, expect, it } from 'vitest';
import { readEntry } from '../../src/core/batch/entry.ts';
import { readBatchHeader } from '../../src/core/batch/header.ts';
import { scheduleOf } from '../../src/core/batch/schedule.ts';
import { wantedNow } from '../../src/core/batch/wanted.ts';
import { countOf } from '../../src/core/batch/countdown.ts';
import type { Batch, BatchHeader } from '../../src/core/batch/state.ts';
import { askWords } from '../../src/core/words/asks.ts';
import { tellingOf } from '../../src/face/format.ts';
import { answersOf, countShown, picturesOf } from '../../src/face/run-view.ts';
import { runHead } from '../../src/face/screens/run.tsx';
import { listBatches, openBatch } from '../../src/shell/batches.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { encodeLine } from '../../src/shell/journal-read.ts';
import { openAsk } from '../../src/core/batch/lockout.ts';
import { choicesOf } from '../../src/core/batch/steps.ts';
import { straightThrough } from '../help/batch-drive.ts';
import { VARIANTS } from '../help/batch-kit.ts';
import { utcMinute } from '../help/plan-kit.ts';
import { createChance, eachMangled, EVIL_TEXTS, mangled, steering } from './fuzz.ts';
import { memoryFiles } from './memory-files.ts';
import { createTrickClock } from './trick-clock.ts';

const FOLDER = '/home/batches';
const ID = '2613a';
const PATH = `${FOLDER}/${ID}.batch`;
const ROUNDS = 2000;

/** Lines whose checksums are right, whatever stands on them. */
function journalOf(values: readonly unknown[]): Buffer {
  let sum = 0;
  const lines = values.map(value => {
    const line = encodeLine(value, sum);
    sum = line.sum;
    return line.bytes;
  });
  return Buffer.concat(lines);
}

const BOOT = { uptime: 7_200_000, boot: 'b1@m' };
const stories = Object.values(VARIANTS).map(header => ({
  header: { ...header, id: ID, ...BOOT, stovehand: 'batch', version: 1 },
  entries: straightThrough(header).events.map(event => ({
    event,
    uptime: BOOT.uptime + event.t,
    boot: BOOT.boot,
  })),
}));

/** Everything a screen would say of the batch, put together without a screen. */
function saidOf(batch: Batch): void {
  const telling = tellingOf(batch, batch.header.kitchen.units);
  const said = [askWords(batch, openAsk(batch), telling), JSON.stringify(runHead(batch, telling, 80))];
  for (const { shown, says } of answersOf(batch, telling)) said.push(shown, says);
  for (const line of said) expect(typeof line).toBe('string');
  picturesOf(batch, telling);
  countShown(batch, telling);
}

/** Lists, opens and works the batch as a screen would; whatever is said must be plain text. */
function worked(bytes: Buffer): 'opened' | 'refused' {
  const files = memoryFiles();
  files.put(PATH, bytes);
  const clock = createTrickClock(Date.UTC(2026, 2, 29, 20));
  const options = { folder: FOLDER, clock, files };
  for (const { says } of listBatches(options)) for (const line of says) expect(steering(line)).toBeNull();
  try {
    const session = openBatch(options, ID);
    for (const choice of choicesOf(openAsk(session.run.batch))) {
      session.send({ type: 'answer', ask: openAsk(session.run.batch), choice: choice.id, amount: 1 });
      clock.run(2000);
    }
    session.send({ type: 'undo' });
    const { batch } = session.run;
    for (const { endsAt } of scheduleOf(batch, utcMinute)) expect(Number.isFinite(endsAt)).toBe(true);
    const count = countOf(batch);
    if (count) expect(Number.isFinite(count.ms), JSON.stringify(count)).toBe(true);
    wantedNow(batch);
    saidOf(batch);
    session.close();
    return 'opened';
  } catch (problem) {
    if (!(problem instanceof GrowerError)) throw problem;
    return 'refused';
  }
}

function tried(values: readonly unknown[], bad: unknown): 'opened' | 'refused' {
  try {
    return worked(journalOf(values));
  } catch (problem) {
    const said = problem instanceof Error ? problem.message.slice(0, 200) : '';
    throw new Error(`${said} with ${JSON.stringify(bad).slice(0, 3000)}`, { cause: problem });
  }
}

describe('a journal whose checksums are right and whose content is nonsense', () => {
  it('is opened or refused in a sentence, with nonsense at every place of the first line', () => {
    const chance = createChance(3);
    const story = chance.pick(stories);
    const seen = { opened: 0, refused: 0 };
    for (const header of eachMangled(story.header)) {
      const kept = story.entries.slice(0, chance.below(story.entries.length + 1));
      seen[tried([header, ...kept], header)] += 1;
    }
    console.log(`nonsense at every place of the header: ${JSON.stringify(seen)}`);
    expect(seen.opened).toBeGreaterThan(100);
    expect(seen.refused).toBeGreaterThan(100);
  });

  it(`is opened or refused in a sentence, with nonsense in ${ROUNDS} events, and never throws`, () => {
    const chance = createChance(11);
    const seen = { opened: 0, refused: 0 };
    const began = performance.now();
    let slowest = 0;
    for (let round = 0; round < ROUNDS; round += 1) {
      const { header, entries } = chance.pick(stories);
      const kept = entries.slice(0, 1 + chance.below(entries.length));
      const at = chance.below(kept.length);
      const bad = mangled(kept[at], chance);
      const started = performance.now();
      seen[tried([header, ...kept.with(at, bad as never)], bad)] += 1;
      slowest = Math.max(slowest, performance.now() - started);
    }
    const tookS = ((performance.now() - began) / 1000).toFixed(1);
    console.log(
      `${ROUNDS} nonsense events in ${tookS} s: ${JSON.stringify(seen)}, slowest ${slowest.toFixed(0)} ms`,
    );
    expect(slowest).toBeLessThan(2000);
  });

  it('never carries a text into the batch that could steer a terminal', () => {
    const story = stories[0];
    for (const evil of EVIL_TEXTS) {
      const header = { ...story?.header, recipe: { ...story?.header.recipe, name: evil } };
      const read: BatchHeader | null = readBatchHeader(header);
      if (read) expect(typeof read.recipe.name).toBe('string');
      expect(readEntry({ event: { type: evil, t: 0, wall: 0 }, ...BOOT })).toBeNull();
    }
  });
});
