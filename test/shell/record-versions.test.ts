/** Files of earlier versions open, and mean what they meant. What they hold is told in their source.txt. */
import { cpSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { indexDiary, outcomeOf } from '../../src/core/record/bags.ts';
import { causesOf } from '../../src/core/record/causes.ts';
import { cardPage } from '../../src/core/record/card.ts';
import { nextTime } from '../../src/core/record/next-time.ts';
import { METRIC } from '../../src/core/quantity-format.ts';
import { batchStory } from '../../src/core/words/batch-story.ts';
import { changeEvidence } from '../../src/core/words/next-time.ts';
import { recordedBatch } from '../../src/core/record/record.ts';
import { mergeArchive } from '../../src/shell/archive-merge.ts';
import { listBatches } from '../../src/shell/batches.ts';
import { openDiary } from '../../src/shell/diary.ts';
import { createHandClock } from '../../src/shell/hand-clock.ts';
import { openSettings } from '../../src/shell/settings.ts';
import { tempFolder } from '../help/temp-folder.ts';

const V1 = join(import.meta.dirname, '..', 'data', 'record', 'v1');

function openHome(home: string) {
  const listed = listBatches({ folder: join(home, 'batches'), clock: createHandClock() });
  const diary = openDiary({ path: join(home, 'diary.journal'), now: () => 0 }).read();
  const index = indexDiary(diary.entries);
  const recorded = listed.map(({ batch }) => {
    if (!batch) throw new Error('A batch of version 1 cannot be read.');
    return recordedBatch(batch, index);
  });
  return { listed, diary, recorded };
}

function copied(): string {
  const home = tempFolder();
  mkdirSync(join(home, 'batches'));
  for (const id of ['2613a', '2613b', '2614a'])
    cpSync(join(V1, `${id}.batch`), join(home, 'batches', `${id}.batch`));
  cpSync(join(V1, 'diary.journal'), join(home, 'diary.journal'));
  return home;
}

/** The facts of source.txt. */
function expectVersionOne({ listed, diary, recorded }: ReturnType<typeof openHome>): void {
  expect([...listed.flatMap(({ says }) => says), ...diary.notices]).toEqual([]);
  const [planned, cooling, jars] = recorded;
  expect(planned?.batch.finishedAt).not.toBeNull();
  expect(planned?.bags.map(bag => `${bag.id} ${bag.standing} ${outcomeOf(bag)}`)).toEqual([
    '2613a-1 done good',
    '2613a-2 contaminated lost',
    '2613a-3 colonising open',
  ]);
  expect(planned?.bags[0]).toMatchObject({ dose: 6, culture: { key: 'oyster-0301', source: 'own wedge' } });
  expect(planned?.bags[1]?.looks).toBe('sour');
  // Behaviour after opening, not bytes: the lock of the half-cooled batch still stands.
  expect(cooling?.batch).toMatchObject({ step: 'cool', finishedAt: null });
  expect(cooling?.batch.lock?.coolUntil).toBeGreaterThan(cooling?.batch.now ?? 0);
  expect(jars?.bags.map(({ standing }) => standing)).toEqual([
    'torn',
    'colonising',
    'colonising',
    'colonising',
  ]);
  expect(jars?.warmthC).toBe(24);
  expect(jars?.bags[1]).toMatchObject({
    seal: 'doubtful',
    kg: 0.52,
    place: 'lower layer, left',
    photos: ['/photos/2614a-2.jpg'],
    notes: ['condensation on the glass'],
  });
  const causes = jars ? causesOf(jars.batch, null, null).map(({ id }) => id) : [];
  expect(causes).toEqual(expect.arrayContaining(['dips', 'short-vent', 'torn']));
}

describe('files of version 1', () => {
  it('open where they lie', () => expectVersionOne(openHome(copied())));

  it('say of every container when it got its culture, though they were written before that was asked', () => {
    const { recorded } = openHome(copied());
    for (const { id, bags } of recorded) {
      const walls = readFileSync(join(V1, `${id}.batch`), 'latin1')
        .split('\n')
        .filter(line => line.includes('"ask":"inject"'))
        .map(line => Number(/"wall":(\d+)/.exec(line)?.[1]));
      const given = bags.filter(({ dose }) => dose !== null);
      expect(given.map(({ inoculatedWall }) => inoculatedWall)).toEqual(walls);
    }
    expect(recorded.flatMap(({ bags }) => bags.filter(({ dose }) => dose !== null))).toHaveLength(6);
  });

  it('are told in full, drawn on a card and compared like batches of today', () => {
    const { recorded } = openHome(copied());
    const clock = (at: number): string => new Date(at).toISOString();
    for (const each of recorded) {
      const story = batchStory(each, { units: METRIC, clock }).flatMap(({ rows }) => rows.flat());
      const card = cardPage(each, 'A4', { units: METRIC, date: clock, clock });
      const changes = nextTime(each).map(change => changeEvidence(change, METRIC));
      expect([...story, ...changes, card].join('\n')).not.toMatch(/NaN|undefined|Infinity/);
      for (const text of ['Gauge pressure', 'estimated', 'F0 ']) expect(card).toContain(text);
    }
  });

  it('open again out of the summaries', () => {
    const home = copied();
    openHome(home);
    expectVersionOne(openHome(home));
  });

  it('come out of an archive of version 1', async () => {
    const home = tempFolder();
    const imported = await mergeArchive(readFileSync(join(V1, 'archive.zip')), {
      batches: join(home, 'batches'),
      recipes: join(home, 'recipes'),
      settings: join(home, 'settings.json'),
      diary: join(home, 'diary.journal'),
      diaryStore: openDiary({ path: join(home, 'diary.journal'), now: () => 0 }),
      settingsStore: openSettings(join(home, 'settings.json')),
    });
    expect(imported).toMatchObject({ added: ['2613a', '2613b', '2614a'], entries: 14, notices: [] });
    expectVersionOne(openHome(home));
  });
});
