import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bagsOf, byBagId, indexDiary, outcomeOf } from '../../../src/core/record/bags.ts';
import {
  cultureKey,
  type DiaryEvent,
  readBagId,
  readDiaryEntry,
  validEntries,
} from '../../../src/core/record/diary.ts';
import { DAY, HOUR, MINUTE } from '../../../src/core/time.ts';
import { BEGAN_WALL } from '../../help/batch-kit.ts';
import { someDiary } from '../../help/record-history.ts';
import { diaryOf, drivenBatch, homeHeader } from '../../help/record-home.ts';

const batch = drivenBatch(homeHeader('2613a', { soak: false, loads: [3] })).batch;
const withDiary = (...events: readonly DiaryEvent[]) => bagsOf(batch, indexDiary(diaryOf(events)));
const state = (bag: string, to: 'shaken' | 'done' | 'contaminated' | 'used' | 'discarded' | 'colonising') =>
  ({ type: 'state', bag, state: to, looks: to === 'contaminated' ? 'green' : null }) as const;

describe('bags out of a batch and a diary', () => {
  it('as the batch leaves them they grow, with weight, seal, dose and load', () => {
    const bags = withDiary();
    expect(bags.map(({ id }) => id)).toEqual(['2613a-1', '2613a-2', '2613a-3']);
    expect(bags[0]).toMatchObject({
      kg: 1,
      seal: 'good',
      dose: 5,
      load: 1,
      standing: 'colonising',
      species: 'oyster',
    });
    expect(bags.map(outcomeOf)).toEqual(['open', 'open', 'open']);
  });

  it('each has the time at which it got its own culture, and the rest the time at which all were said', () => {
    const slow = drivenBatch(homeHeader('2613c', { soak: false, loads: [4] }), drive => {
      drive
        .toAsk('inject')
        .answer('as-planned')
        .wait(7 * MINUTE);
      drive
        .answer('dosed', 6)
        .wait(9 * MINUTE)
        .answer('rest-as-planned')
        .wait(HOUR);
    }).batch;
    const [first, ...others] = bagsOf(slow, indexDiary([])).map(({ inoculatedWall }) => inoculatedWall ?? 0);
    expect(others.map(wall => wall - (first ?? 0))).toEqual([7 * MINUTE, 16 * MINUTE, 16 * MINUTE]);
  });

  it('a torn or left out bag was never inoculated and is no outcome', () => {
    const torn = drivenBatch(homeHeader('2613b', { soak: false, loads: [2] }), drive => {
      drive.toAsk('lifted').answer('torn').toAsk('inject').answer('left-out');
    }).batch;
    const bags = bagsOf(torn, indexDiary([]));
    expect(bags.map(({ standing }) => standing)).toEqual(['torn', 'left out']);
    expect(bags.map(outcomeOf)).toEqual(['none', 'none']);
    expect(bagsOf(torn, indexDiary(diaryOf([state('2613b-1', 'contaminated')]))).map(outcomeOf)).toEqual([
      'none',
      'none',
    ]);
  });

  it('done and used are good, contaminated is lost, and thrown away counts by what it was before', () => {
    const outcomes = (...events: readonly DiaryEvent[]) => withDiary(...events).map(outcomeOf)[0];
    expect(outcomes(state('2613a-1', 'done'))).toBe('good');
    expect(outcomes(state('2613a-1', 'used'))).toBe('good');
    expect(outcomes(state('2613a-1', 'contaminated'))).toBe('lost');
    expect(outcomes(state('2613a-1', 'done'), state('2613a-1', 'discarded'))).toBe('good');
    expect(outcomes(state('2613a-1', 'contaminated'), state('2613a-1', 'discarded'))).toBe('lost');
    expect(outcomes(state('2613a-1', 'discarded'))).toBe('lost');
    expect(outcomes(state('2613a-1', 'contaminated'), state('2613a-1', 'colonising'))).toBe('open');
  });

  it('a culture of the list gives its species and form, and a later dose corrects', () => {
    const [first] = withDiary(
      { type: 'culture', key: 'k', species: 'shiitake', source: 'a friend', form: 'grain spawn', made: '' },
      { type: 'inoculated', bag: '2613a-1', culture: 'k', dose: 80 },
    );
    expect(first).toMatchObject({ species: 'shiitake', form: 'grain spawn', dose: 80 });
  });

  it('a dose keeps the unit it was given in, whatever culture is named for it later', () => {
    const [first, second] = withDiary(
      { type: 'culture', key: 'k', species: 'shiitake', source: '', form: 'grain spawn', made: '' },
      { type: 'inoculated', bag: '2613a-1', culture: 'k', dose: null },
      { type: 'inoculated', bag: '2613a-2', culture: 'k', dose: 80 },
      { type: 'inoculated', bag: '2613a-2', culture: '', dose: null },
    );
    expect(first).toMatchObject({ form: 'grain spawn', dose: 5, doseUnit: 'ml' });
    expect(second).toMatchObject({ dose: 80, doseUnit: 'g' });
  });

  it('what is taken back never happened', () => {
    const entries = diaryOf([state('2613a-1', 'contaminated'), { type: 'taken-back', entry: 'e00000' }]);
    expect(bagsOf(batch, indexDiary(entries))).toEqual(withDiary());
  });

  it('the order and the doubling of entries in the file do not matter', () => {
    fc.assert(
      fc.property(someDiary('2613a'), fc.nat(), (entries, turn) => {
        const mixed = [...entries.slice(turn % (entries.length + 1)), ...entries].reverse();
        expect(validEntries(mixed)).toEqual(validEntries(entries));
        expect(bagsOf(batch, indexDiary(mixed))).toEqual(bagsOf(batch, indexDiary(entries)));
      }),
      { numRuns: 300 },
    );
  });
});

describe('reading a diary with suspicion', () => {
  it('takes back every entry that it wrote', () => {
    fc.assert(
      fc.property(someDiary('2613a'), entries => {
        for (const entry of entries) expect(readDiaryEntry(JSON.parse(JSON.stringify(entry)))).toEqual(entry);
      }),
    );
  });

  it('takes nothing else', () => {
    const good = { id: 'abcd', wall: BEGAN_WALL, event: { type: 'weighed', bag: '2613a-1', kg: 1 } };
    expect(readDiaryEntry(good)).toEqual(good);
    for (const event of [
      { type: 'weighed', bag: '../x', kg: 1 },
      { type: 'weighed', bag: '2613a-1', kg: -1 },
      { type: 'weighed', bag: '2613a-1', kg: 'heavy' },
      { type: 'state', bag: '2613a-1', state: 'eaten', looks: null },
      { type: 'note', bag: '2613a-1', text: 'x'.repeat(501) },
      { type: 'culture', key: 'K!', species: '', source: '', form: 'liquid culture', made: '' },
      { type: 'warmth', batch: '2613a', celsius: 500 },
      { type: 'unheard of' },
      null,
    ]) {
      expect(readDiaryEntry({ ...good, event })).toBeNull();
    }
    for (const id of ['', '../../x', 'a'.repeat(60), 7]) expect(readDiaryEntry({ ...good, id })).toBeNull();
    fc.assert(
      fc.property(fc.anything(), value => readDiaryEntry(value) === null || typeof value === 'object'),
    );
  });

  it('names: bags, cultures, and their order', () => {
    expect(readBagId(' 2648A-3 ')).toEqual({ batch: '2648a', number: 3 });
    for (const bad of ['2648a', '2648a-0', '2648a-03', '48a-1', '2648a-1234', '2648a-3/..'])
      expect(readBagId(bad)).toBeNull();
    expect(['2701a-1', '2648b-2', '2648aa-1', '2648a-10', '2648a-9'].sort(byBagId)).toEqual([
      '2648a-9',
      '2648a-10',
      '2648b-2',
      '2648aa-1',
      '2701a-1',
    ]);
    expect(cultureKey("Lion's mane", '2026-11-04', new Set())).toBe('lion-s-mane-1104');
    expect(cultureKey('oyster', '', new Set(['oyster']))).toBe('oyster-2');
    expect(cultureKey('🍄', '', new Set())).toBe('culture');
  });

  it('a day later than the batch is a day later', () => {
    const [first] = withDiary({ type: 'looked', bag: '2613a-1' });
    expect(first?.lookedWall).toBe(BEGAN_WALL + DAY);
  });
});
