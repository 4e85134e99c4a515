import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { bagsOf, indexDiary } from '../../src/core/record/bags.ts';
import { readDiaryEntry } from '../../src/core/record/diary.ts';
import type { DiaryEvent } from '../../src/core/record/diary.ts';
import {
  cultureEvent,
  cultureLists,
  cultureStep,
  FRESH_CULTURE,
  type CultureDraft,
} from '../../src/face/culture-steps.ts';
import { doseText } from '../../src/core/words/record.ts';
import { dayStamp, daysBefore } from '../../src/face/format.ts';
import { drivenBatch, homeHeader } from '../help/record-home.ts';
import { playRecord, recordStage } from './record-kit.tsx';

const whole = drivenBatch(homeHeader('2613a', { soak: false, loads: [3] }));
/** A Tuesday noon in the tests' zone. */
const NOW = new Date(2026, 3, 14, 12).getTime();
const open: { unmount: () => void }[] = [];
afterEach(() => {
  for (const app of open.splice(0)) app.unmount();
});
const SHIITAKE: Extract<DiaryEvent, { type: 'culture' }> = {
  type: 'culture',
  key: 'shiitake-0301',
  species: 'shiitake',
  source: 'a neighbour',
  form: 'grain spawn',
  made: '2026-03-01',
};
const LIQUID = { ...SHIITAKE, key: 'late', form: 'liquid culture' } as const;
const play = (start: readonly DiaryEvent[] = [], columns = 80, rows = 24) =>
  playRecord({ at: 'bags', batch: '2613a' }, recordStage([whole], NOW, start), open, columns, rows);
const added = (stage: { entries: readonly { event: DiaryEvent }[] }) =>
  stage.entries.map(({ event }) => event).filter(({ type }) => type === 'culture');

describe('a new culture on the screen', () => {
  it('takes five keys when it is the one the recipe means, and the walk gives it with Space', async () => {
    const { stage, screen, press } = await play();
    await press('c');
    expect(screen().head).toContain('A culture for your list');
    expect(screen().notice).toContain('Your list is empty so far');
    await press('space', '1', 'space', 'space');
    expect(added(stage)).toEqual([
      {
        type: 'culture',
        key: 'oyster-0414',
        species: 'oyster',
        source: 'own',
        form: 'liquid culture',
        made: '2026-04-14',
      },
    ]);
    expect(screen().head).toContain('Bag 2613a-1');
    expect(screen().notice).toContain('oyster-0414 is in your list');
    await press('space', 'space', 'space', 'space');
    const bags = bagsOf(whole.batch, indexDiary(stage.entries));
    expect(bags.map(({ culture }) => culture?.key)).toEqual(['oyster-0414', 'oyster-0414', 'oyster-0414']);
  });

  it('another species, form, source and day: by arrows, numbers and, where nothing fits, letters', async () => {
    const { stage, screen, press } = await play([SHIITAKE]);
    await press('n', 'down');
    expect(screen().text).toMatch(/› shiitake/);
    await press('space', '3');
    expect(screen().text).toMatch(/› a neighbour/);
    await press('down', 'down', 'down', 'down', 'space', ...'club 7', 'enter');
    expect(screen().text).toContain('14 Apr 2026  today');
    await press('left', 'down', 'down', 'up');
    expect(screen().text).toContain('6 Apr 2026  8 days ago');
    await press('space');
    expect(added(stage).at(-1)).toEqual({
      type: 'culture',
      key: 'shiitake-0406',
      species: 'shiitake',
      source: 'club 7',
      form: 'grain spawn',
      made: '2026-04-06',
    });
    // Added from the list, one is back at the list.
    expect(screen().head).toContain('Bags of 2613a');
    expect(screen().notice).toContain('shiitake-0406 is in your list');
  });

  it('in the middle of a walk, and on with the bag that was asked about', async () => {
    const { stage, screen, press } = await play([SHIITAKE]);
    await press('c', '1', '2', 'n', 'space', '1', 'space', '0');
    expect(added(stage).at(-1)).toMatchObject({ key: 'oyster', species: 'oyster', made: '' });
    expect(screen().head).toContain('Bag 2613a-2');
    expect(screen().answers).toContain('1 oyster   2 shiitake-0301   Space give oyster');
    await press('space', '2', 'space');
    const bags = bagsOf(whole.batch, indexDiary(stage.entries));
    expect(bags.map(({ culture }) => culture?.key)).toEqual(['shiitake-0301', 'oyster', 'shiitake-0301']);
    expect(bags.map(doseText)).toEqual(['100 g', '5 ml', '5 ml']);
  });

  it('of another form than the dose that is noted asks for the dose again, by the unit it has', async () => {
    const { stage, screen, press } = await play([SHIITAKE]);
    await press('c', '1');
    expect(added(stage)).toHaveLength(1);
    expect(screen().text).toContain(
      '2613a-1 was noted with 5 ml, and shiitake-0301 is grain spawn, given by',
    );
    // The bag is of 1 kg: 5, 10 and 20 % of its weight.
    expect(screen().answers).toContain('1 50 g   2 100 g   3 200 g   Space leave 5 ml noted');
    await press('3');
    expect(screen().notice).toBe('2613a-1 was given shiitake-0301, 200 g');
    await press('1', 'space');
    expect(screen().notice).toBe('2613a-2 was given shiitake-0301');
    const bags = bagsOf(whole.batch, indexDiary(stage.entries));
    expect(bags.map(({ form }) => form)).toEqual(['grain spawn', 'grain spawn', 'liquid culture']);
    expect(bags.map(doseText)).toEqual(['200 g', '5 ml', '5 ml']);
  });

  it('of a later day than the bag is asked about, once on a walk', async () => {
    const given = bagsOf(whole.batch, indexDiary([]))[0]?.inoculatedWall ?? 0;
    const late: DiaryEvent = { ...LIQUID, made: dayStamp(daysBefore(given, -1)) };
    const { stage, screen, press } = await play([late]);
    await press('c', '1');
    expect(stage.entries).toHaveLength(1);
    expect(screen().text).toMatch(/late is of \d{4}-\d\d-\d\d, and 2613a-1 got its culture before that/);
    await press('1', 'space');
    expect(stage.entries).toHaveLength(3);
    // On the very day is no doubt.
    const same = await play([{ ...LIQUID, made: dayStamp(given) }]);
    await same.press('c', '1');
    expect(same.stage.entries).toHaveLength(2);
  });

  it('leaves with nothing kept, and Space answers no question that needs a judgement', async () => {
    const { stage, screen, press } = await play([SHIITAKE]);
    await press('n', 'space', 'space');
    expect(screen().text).toContain('What is it given as?');
    expect(screen().notice).toBe('That key has no meaning here.');
    await press('q');
    expect(screen().head).toContain('Bags of 2613a');
    expect(added(stage)).toHaveLength(1);
  });

  it('says when it cannot be kept, and stays', async () => {
    const { stage, screen, press } = await play([SHIITAKE]);
    await press('n', 'space', '1', 'space');
    stage.trouble = 'The disk is full.';
    await press('space');
    expect(screen().notice).toBe('The disk is full.');
    stage.trouble = null;
    await press('space');
    expect(added(stage)).toHaveLength(2);
  });

  it.each([
    [60, 18],
    [80, 24],
    [160, 50],
  ])('fits a terminal of %i x %i at every question', async (columns, rows) => {
    const { screen, press } = await play([SHIITAKE], columns, rows);
    for (const key of ['n', 'space', '1', 'space']) {
      await press(key);
      expect(screen().text).not.toContain('…');
      expect(screen().lines.length).toBeLessThanOrEqual(rows);
      for (const line of screen().lines) expect([...line].length).toBeLessThanOrEqual(columns);
    }
  });
});

describe('key by key', () => {
  const known = [{ ...SHIITAKE }].flatMap(event => (event.type === 'culture' ? [event] : []));
  const lists = cultureLists(known, ['oyster']);
  const draftAfter = (...keys: readonly string[]): CultureDraft | null =>
    keys.reduce<CultureDraft | null>((draft, key) => {
      const step = draft && cultureStep(draft, lists, key);
      return step?.does === 'ask' ? step.draft : step?.does === 'nothing' ? draft : null;
    }, FRESH_CULTURE);

  it('Esc ends the typing, then goes one question back, then leaves', () => {
    expect(draftAfter('space', '2', 'up', 'down', 'down', 'down', 'down', 'space', 'x')).toMatchObject({
      ask: 'source',
      typed: 'x',
    });
    const typed = ['space', '2', 'down', 'down', 'down', 'down', 'space', 'x'];
    expect(draftAfter(...typed, 'esc')).toMatchObject({ ask: 'source', typed: null });
    expect(draftAfter(...typed, 'esc', 'esc')).toMatchObject({ ask: 'form', species: 'oyster' });
    expect(draftAfter(...typed, 'esc', 'esc', 'esc', 'esc')).toBeNull();
    expect(cultureStep(FRESH_CULTURE, lists, 'esc')).toEqual({ does: 'leave' });
  });

  it('offers each name once, whatever its letters, the likeliest first', () => {
    const { species } = cultureLists(
      [{ ...known[0], species: 'OYSTER' } as (typeof known)[number], ...known],
      ['Oyster', ''],
    );
    expect(species.slice(0, 2)).toEqual(['Oyster', 'shiitake']);
    expect(new Set(species.map(name => name.toLowerCase())).size).toBe(species.length);
  });

  it('a source is offered once, with or without its little words', () => {
    const from = (source: string) => ({ ...SHIITAKE, source });
    expect(cultureLists([from('From my friend'), from('friend'), from('Own')], []).sources).toEqual([
      'Own',
      'friend',
      'bought',
    ]);
  });

  it('what is kept is a culture that the diary reads back', () => {
    const keys = fc.constantFrom(
      ...'0123abcö🍄',
      'space',
      'enter',
      'up',
      'down',
      'left',
      'right',
      'esc',
      'backspace',
      'q',
    );
    let kept = 0;
    fc.assert(
      fc.property(fc.array(keys, { maxLength: 60, size: 'max' }), presses => {
        let draft: CultureDraft = FRESH_CULTURE;
        for (const key of presses) {
          const step = cultureStep(draft, lists, key);
          if (step.does === 'leave') return;
          if (step.does === 'ask') draft = step.draft;
          if (step.does !== 'keep') continue;
          kept += 1;
          const entry = { id: 'e001', wall: NOW, event: cultureEvent(step.draft, known, NOW) };
          expect(readDiaryEntry(JSON.parse(JSON.stringify(entry)))).toEqual(entry);
          expect(entry.event.key).not.toBe('shiitake-0301');
          return;
        }
      }),
      { numRuns: 2000 },
    );
    expect(kept).toBeGreaterThan(50);
  });
});
