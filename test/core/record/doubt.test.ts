import { describe, expect, it } from 'vitest';
import { indexDiary } from '../../../src/core/record/bags.ts';
import type { DiaryEvent } from '../../../src/core/record/diary.ts';
import { type DOUBT_WORDS, doubtOf } from '../../../src/core/record/doubt.ts';
import { growthOf } from '../../../src/core/record/follow-ups.ts';
import { DEFAULT_GRID, labelsPage } from '../../../src/core/record/labels.ts';
import { recordedBatch } from '../../../src/core/record/record.ts';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { countOf } from '../../../src/core/words/count.ts';
import { bagsText } from '../../../src/core/words/record.ts';
import { CHROMIUM, overflowing } from '../../help/chromium.ts';
import type { Drive } from '../../help/batch-drive.ts';
import { diaryOf, drivenBatch, homeHeader } from '../../help/record-home.ts';
import { tempFolder } from '../../help/temp-folder.ts';

type Trouble = (drive: Drive) => unknown;
const nothing: Trouble = () => undefined;
function recorded(trouble: Trouble, events: readonly DiaryEvent[] = [], loads: readonly number[] = [3]) {
  const header = homeHeader('2613a', { soak: false, loads });
  const { batch } = drivenBatch(header, drive => void trouble(drive));
  return recordedBatch(batch, indexDiary(diaryOf(events)));
}
const doubts = (trouble: Trouble, events: readonly DiaryEvent[] = [], loads?: readonly number[]) => {
  const { batch, bags } = recorded(trouble, events, loads);
  return bags.map(bag => doubtOf(batch, bag));
};

describe('doubtful bags', () => {
  it.each([
    ['as planned', nothing, [null, null, null]],
    [
      'a dip that was held again',
      (drive: Drive) => drive.to('hold').wait(MINUTE).answer('below').answer('at'),
      [null, null, null],
    ],
    [
      'steam that broke off and was vented again',
      (drive: Drive) => drive.to('vent').answer('stopped'),
      [null, null, null],
    ],
    ['one torn', (drive: Drive) => drive.toAsk('lifted').answer('torn'), ['torn', null, null]],
    ['one seam failed', (drive: Drive) => drive.toAsk('seam').answer('failed'), ['seam', null, null]],
    [
      'lid opened early',
      (drive: Drive) => drive.to('cool').trouble('lid-opened-early'),
      Array(3).fill('opened-warm'),
    ],
    ['opened warm', (drive: Drive) => drive.toAsk('shut').type('open-early'), Array(3).fill('opened-warm')],
    [
      'valve opened in the lock',
      (drive: Drive) => drive.to('cool').trouble('valve-opened-cooling'),
      Array(3).fill('valve-opened'),
    ],
    ['water low', (drive: Drive) => drive.to('hold').trouble('water-low'), Array(3).fill('water-low')],
    [
      'hold cut short',
      (drive: Drive) => drive.to('hold').wait(MINUTE).type('end-hold'),
      Array(3).fill('short-hold'),
    ],
    ['ended early', (drive: Drive) => drive.to('climb').type('end-batch'), Array(3).fill('ended-early')],
    ['taken back', (drive: Drive) => drive.toAsk('seam').answer('failed').undo(), [null, null, null]],
  ] as const)('%s', (_name, trouble, wanted) => {
    expect(doubts(trouble)).toEqual(wanted);
  });

  it('of two loads only the one it happened to', () => {
    expect(doubts(drive => drive.to('cool').trouble('lid-opened-early'), [], [1, 1])).toEqual([
      'opened-warm',
      null,
    ]);
  });

  it('torn or doubtful as seen later counts as well', () => {
    expect(
      doubts(nothing, [
        { type: 'seal', bag: '2613a-1', seen: 'torn' },
        { type: 'seal', bag: '2613a-2', seen: 'doubtful' },
      ]),
    ).toEqual(['torn', 'seam', null]);
  });

  it('a vent that was planned shorter than ten minutes leaves all of them doubtful', () => {
    const { batch, bags } = recorded(nothing);
    const short = {
      ...batch,
      header: { ...batch.header, numbers: { ...batch.header.numbers, ventS: 300 } },
    };
    expect(bags.map(bag => doubtOf(short, bag))).toEqual(Array(3).fill('short-vent'));
  });
});

describe('on labels', () => {
  const { bags } = recorded(nothing);
  const labelled = (doubt: keyof typeof DOUBT_WORDS | null) =>
    bags.map(bag => ({ bag, grain: 'rye', growth: growthOf('oyster', 21), doubt }));
  const date = (wall: number): string => new Date(wall).toUTCString().slice(5, 16);

  it('a short word stands under the id, and nothing where there is no doubt', () => {
    expect(labelsPage(labelled('short-vent'), DEFAULT_GRID, METRIC, date)).toContain('doubtful: short vent');
    expect(labelsPage(labelled(null), DEFAULT_GRID, METRIC, date)).not.toContain('doubtful');
  });

  it.skipIf(CHROMIUM === undefined)('it is never cut, on the smallest labels either', () => {
    const longest = 'valve-opened';
    for (const grid of [
      { paper: 'A4', columns: 5, rows: 13, skip: 0 },
      { paper: 'Letter', columns: 4, rows: 10, skip: 0 },
    ] as const) {
      const page = labelsPage(labelled(longest), grid, METRIC, date);
      expect(overflowing(tempFolder(), page, '.label, .doubt')).toEqual([]);
    }
  });
});

describe('numbers with their nouns', () => {
  it('one is one', () => {
    expect(countOf(1, 'bag')).toBe('1 bag');
    expect(countOf(0, 'batch', 'batches')).toBe('0 batches');
    const bags = (...numbers: number[]) =>
      bagsText(numbers.map(number => ({ kind: 'bag' as const, number })));
    expect(bags(4)).toBe('bag 4');
    expect(bags(1, 2, 3)).toBe('bags 1, 2, 3');
    expect(bags(1, 2, 3, 4, 5, 8)).toBe('bags 1 to 5, 8');
  });
});
