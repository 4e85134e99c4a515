import { describe, expect, it } from 'vitest';
import { indexDiary } from '../../../src/core/record/bags.ts';
import { recordedBatch } from '../../../src/core/record/record.ts';
import { briefOutcomes, doneWords, endWithDeviations, outcomeWords } from '../../../src/core/words/done.ts';
import { nextWords } from '../../../src/core/words/record.ts';
import { diaryOf, drivenBatch, homeHeader } from '../../help/record-home.ts';

// One of three torn at the lid, one contaminated later: what happened is known here by hand.
const { batch } = drivenBatch(homeHeader('2613a', { soak: false, loads: [3] }), drive =>
  drive.toAsk('lifted').answer('torn'),
);
const bags = (lost: boolean) =>
  recordedBatch(
    batch,
    indexDiary(
      diaryOf(lost ? [{ type: 'state', bag: '2613a-2', state: 'contaminated', looks: 'green' }] : []),
    ),
  ).bags;

describe('the sum of a batch', () => {
  it('counts every bag once, the torn one too', () => {
    expect(outcomeWords(bags(true))).toBe('1 was lost, 1 still grows, 1 was torn');
    expect(briefOutcomes(bags(true))).toBe('1 lost, 1 open, 1 torn');
    expect(doneWords(batch, bags(true))).toBe('Of 3 bags 1 was lost, 1 still grows, 1 was torn.');
    expect(doneWords(batch, bags(false))).toContain('2 bags under way; 1 bag was torn.');
  });

  it('tells the deviations beside it', () => {
    expect(endWithDeviations(batch, bags(true))).toBe('1 was lost, 1 still grows, 1 was torn, 1 deviation');
  });
});

describe('the next follow-up', () => {
  it('is due since a day that is past, and from one that is not', () => {
    const date = (wall: number): string => `day ${wall}`;
    expect(nextWords({ kind: 'shake', from: 5 }, 6, date)).toBe('shake, due since day 5');
    expect(nextWords({ kind: 'done', from: 6 }, 6, date)).toBe(
      'see whether it is white all through, from day 6',
    );
  });
});
