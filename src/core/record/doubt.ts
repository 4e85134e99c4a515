/**
 * Bags that grew out of a batch in which something went wrong that may show weeks later: marked on the label, so
 * that they are looked at first and given on last. What only cost time or was made good again is no doubt.
 */
import { numbersOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { TroubleId } from '../batch/troubles.ts';
import type { Bag } from './bags.ts';
import { counted } from './cause.ts';

export type DoubtId =
  | 'torn'
  | 'seam'
  | 'opened-warm'
  | 'valve-opened'
  | 'water-low'
  | 'short-hold'
  | 'ended-early'
  | 'short-vent';

/** Of the whole load, the gravest first. */
const OF_LOAD: readonly (readonly [DoubtId, readonly TroubleId[]])[] = [
  ['opened-warm', ['lid-opened-early', 'opened-warm']],
  ['water-low', ['water-low']],
  ['short-hold', ['hold-cut-short']],
  ['valve-opened', ['valve-opened-cooling']],
];

/** Recommended length of an unbroken vent, s (science notes k 1, read). */
const FULL_VENT_S = 600;

/** Why a bag is doubtful, the gravest reason; null when nothing speaks against it. */
export function doubtOf(batch: Batch, bag: Pick<Bag, 'seal' | 'load' | 'torn'>): DoubtId | null {
  if (bag.torn || bag.seal === 'torn') return 'torn';
  if (bag.seal === 'failed' || bag.seal === 'doubtful') return 'seam';
  for (const [doubt, troubles] of OF_LOAD) {
    if (counted(batch, bag.load, ...troubles).length > 0) return doubt;
  }
  if (batch.endedEarly !== null) return 'ended-early';
  return numbersOf(batch).ventS < FULL_VENT_S ? 'short-vent' : null;
}

/** A word or two for the label. */
export const DOUBT_WORDS: Readonly<Record<DoubtId, string>> = {
  torn: 'torn',
  seam: 'seam',
  'opened-warm': 'opened warm',
  'valve-opened': 'valve opened',
  'water-low': 'water low',
  'short-hold': 'short hold',
  'ended-early': 'ended early',
  'short-vent': 'short vent',
};
export const doubtText = (doubt: DoubtId): string => `doubtful: ${DOUBT_WORDS[doubt]}`;
