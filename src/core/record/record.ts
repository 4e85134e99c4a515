/** The record: every batch that is over, with its bags. Practice never enters it. */
import type { Batch } from '../batch/state.ts';
import { type Bag, type DiaryIndex, bagsOf, outcomeOf } from './bags.ts';

export interface RecordedBatch {
  readonly id: string;
  readonly batch: Batch;
  readonly bags: readonly Bag[];
  /** C where its bags stand, as last said. */
  readonly warmthC: number | null;
}

export interface OutcomeCounts {
  readonly good: number;
  readonly lost: number;
  readonly open: number;
  readonly none: number;
}

export const recordedBatch = (batch: Batch, diary: DiaryIndex): RecordedBatch => ({
  id: batch.header.id,
  batch,
  bags: bagsOf(batch, diary),
  warmthC: diary.warmth.get(batch.header.id) ?? null,
});

/** Batches that are over, oldest first as given. */
export const recordOf = (batches: readonly Batch[], diary: DiaryIndex): readonly RecordedBatch[] =>
  batches
    .filter(batch => batch.finishedAt !== null && !batch.header.practice)
    .map(batch => recordedBatch(batch, diary));

export function countOutcomes(bags: readonly Bag[]): OutcomeCounts {
  const counts = { good: 0, lost: 0, open: 0, none: 0 };
  for (const bag of bags) counts[outcomeOf(bag)] += 1;
  return counts;
}
