import { afterEach, describe, expect, it } from 'vitest';
import { bagsOf, indexDiary } from '../../src/core/record/bags.ts';
import { bagChoices } from '../../src/face/bag-keys.ts';
import type { RecordPlace } from '../../src/face/screens/record-places.tsx';
import { DAY } from '../../src/core/time.ts';
import { BEGAN_WALL } from '../help/batch-kit.ts';
import { drivenBatch, homeHeader } from '../help/record-home.ts';
import { playRecord, recordStage, type RecordStage } from './record-kit.tsx';

const whole = drivenBatch(homeHeader('2613a', { soak: false, loads: [3] }));
const dipped = drivenBatch(homeHeader('2614a', { jars: true, loads: [2] }), drive =>
  drive.to('vent').answer('stopped'),
);
const NOW = BEGAN_WALL + 9 * DAY;
const open: { unmount: () => void }[] = [];
afterEach(() => {
  for (const app of open.splice(0)) app.unmount();
});
const play = (
  place: RecordPlace,
  stage: RecordStage = recordStage([whole, dipped], NOW),
  columns = 80,
  rows = 24,
) => playRecord(place, stage, open, columns, rows);
const standings = ({ entries }: RecordStage) =>
  bagsOf(whole.batch, indexDiary(entries)).map(
    ({ standing, looks }) => `${standing}${looks ? ` ${looks}` : ''}`,
  );

describe('gloves on: a batch of bags by number keys and Space alone', () => {
  it('looked, done, contaminated and what it looks like, then back to the list', async () => {
    const { stage, screen, press } = await play({ at: 'bags', batch: '2613a' });
    await press('space');
    expect(screen().head).toContain('Bag 2613a-1');
    await press('1');
    expect(screen().head).toContain('Bag 2613a-2');
    await press('3');
    await press('4');
    expect(screen().text).toContain('What does it look like');
    await press('3');
    expect(standings(stage)).toEqual(['colonising', 'done', 'contaminated sour']);
    await press('space');
    expect(screen().text).toContain('2613a-2 done · 2613a-3 contaminated, wet and sour');
    await press('space');
    expect(screen().head).toContain('Bags of 2613a');
  });

  it('a loss is answered with how to handle it and what the record saw, before the next bag', async () => {
    const { screen, press } = await play({ at: 'bags', batch: '2614a' });
    await press('space', '4', '1');
    expect(screen().head).toContain('Bag 2614a-1');
    const said = screen().text.replace(/\s+/g, ' ');
    expect(said).toContain('mould spores are not to be inhaled');
    expect(said).toContain('the steam broke off once');
    await press('space');
    expect(screen().head).toContain('Bag 2614a-2');
  });

  it('the answer about the last bag can be taken back as well', async () => {
    const { stage, screen, press } = await play({ at: 'bags', batch: '2613a' });
    await press('space', 'space', 'space', '3', 'u');
    expect(screen().head).toContain('Bag 2613a-3');
    expect(standings(stage)[2]).toBe('colonising');
    await press('3', 'q');
    expect(standings(stage)[2]).toBe('done');
    expect(screen().head).toContain('Bags of 2613a');
  });

  it('a skipped bag does not lead undo astray', async () => {
    const { screen, press } = await play({ at: 'bags', batch: '2613a' });
    await press('space', '3', 'space', 'u');
    expect(screen().head).toContain('Bag 2613a-1');
  });

  it('a bag that got no culture shows none, on its screen and in the list', async () => {
    const torn = drivenBatch(homeHeader('2615a', { soak: false, loads: [2] }), drive =>
      drive.toAsk('lifted').answer('torn'),
    );
    const { screen, press } = await play({ at: 'bags', batch: '2615a' }, recordStage([torn], NOW));
    const row =
      screen()
        .text.split('\n')
        .find(line => line.includes('2615a-1')) ?? '';
    expect(row).toContain('torn');
    expect(row).not.toContain('oyster');
    await press('space');
    expect(screen().text).not.toMatch(/oyster|,\s*$/m);
  });

  it('a contaminated bag is not offered to be contaminated', () => {
    const [bag] = bagsOf(whole.batch, indexDiary([]));
    if (!bag) throw new Error('no bag');
    const choices = bagChoices({
      bag: { ...bag, standing: 'contaminated' },
      panel: 'state',
      cultures: [],
      page: 0,
      last: null,
      giving: null,
    });
    expect(choices.map(({ key }) => key)).toEqual(['1', '3', 'space']);
  });

  it('Space goes on and changes nothing', async () => {
    const { stage, screen, press } = await play({ at: 'bags', batch: '2613a' });
    await press('space', 'space', 'space', 'space');
    expect(stage.entries).toEqual([]);
    expect(screen().head).toContain('Bags of 2613a');
  });

  it('u takes the last answer back, and the bag comes again', async () => {
    const { stage, screen, press } = await play({ at: 'bags', batch: '2613a' });
    await press('space', '3', 'u');
    expect(standings(stage)[0]).toBe('colonising');
    expect(screen().head).toContain('Bag 2613a-1');
    expect(stage.entries).toHaveLength(2);
  });

  it('a culture of the list for each bag, the newest first, and the same again by Space', async () => {
    const culture = (key: string, species: string) =>
      ({ type: 'culture', key, species, source: '', form: 'liquid culture', made: '' }) as const;
    const stage = recordStage(
      [whole],
      NOW,
      ['a', 'b', 'c', 'd'].map(key => culture(key, `species ${key}`)),
    );
    const { screen, press } = await play({ at: 'bags', batch: '2613a' }, stage);
    await press('c', '2', 'space', '4');
    expect(screen().text).toContain('1 a: species a, liquid culture');
    expect(screen().answers).toContain('1 a   4 more   Space give c');
    await press('1');
    expect(bagsOf(whole.batch, indexDiary(stage.entries)).map(({ culture: given }) => given?.key)).toEqual([
      'c',
      'c',
      'a',
    ]);
  });

  it('what cannot be kept is said, and the bag stays', async () => {
    const { stage, screen, press } = await play({ at: 'bags', batch: '2613a' });
    await press('space');
    stage.trouble = 'The disk is full.';
    await press('3');
    expect(screen().notice).toBe('The disk is full.');
    expect(screen().head).toContain('Bag 2613a-1');
  });

  it('at most four answers, each on its own key, 4 always contaminated', () => {
    for (const standing of [
      'colonising',
      'shaken',
      'done',
      'contaminated',
      'used',
      'discarded',
      'torn',
      'empty',
    ] as const) {
      const [bag] = bagsOf(whole.batch, indexDiary([]));
      if (!bag) throw new Error('no bag');
      for (const panel of ['state', 'looks', 'culture'] as const) {
        const choices = bagChoices({
          bag: { ...bag, standing },
          panel,
          cultures: [],
          page: 0,
          last: null,
          giving: null,
        });
        const keys = choices.map(({ key }) => key);
        expect(new Set(keys).size).toBe(keys.length);
        expect(keys.filter(key => key !== 'space').length).toBeLessThanOrEqual(4);
        if (panel === 'state')
          expect(choices.filter(({ key }) => key === '4').every(({ does }) => does === 'looks')).toBe(true);
      }
    }
  });
});
