/** Batches with one trouble in them and what became of their bags, for what the record makes of it. */
import { indexDiary } from '../../src/core/record/bags.ts';
import type { DiaryEvent } from '../../src/core/record/diary.ts';
import { recordedBatch } from '../../src/core/record/record.ts';
import { MINUTE } from '../../src/core/time.ts';
import type { Drive } from './batch-drive.ts';
import type { Sample } from './batch-kit.ts';
import { diaryOf, drivenBatch, homeHeader } from './record-home.ts';

export const lost = (
  looks: 'green' | 'sour' | 'black',
  ...numbers: readonly number[]
): readonly DiaryEvent[] =>
  numbers.map(number => ({ type: 'state', bag: `2613a-${number}`, state: 'contaminated', looks }));
export function recordedWith(
  trouble: (drive: Drive) => void,
  events: readonly DiaryEvent[] = [],
  sample: Sample = {},
) {
  const { batch } = drivenBatch(homeHeader('2613a', { soak: false, loads: [3], ...sample }), trouble);
  return recordedBatch(batch, indexDiary(diaryOf(events)));
}
export const steamStopped = (drive: Drive) =>
  drive
    .to('vent')
    .wait(4 * MINUTE)
    .answer('stopped');
export const dipped = (drive: Drive) =>
  drive
    .to('hold')
    .wait(20 * MINUTE)
    .answer('below')
    .wait(5 * MINUTE)
    .answer('at');
export const wet = (drive: Drive) => drive.to('surface-dry').trouble('still-wet');
