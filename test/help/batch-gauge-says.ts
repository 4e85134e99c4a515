/** What the onlooker of a batch takes an answer at the gauge for, and for how long. */
import type { BatchEvent } from '../../src/core/batch/events.ts';
import type { Batch } from '../../src/core/batch/state.ts';
import { MINUTE } from '../../src/core/time.ts';

/** An answer at the gauge vouches for half an hour (common practice, no source). */
export const ANSWER_LASTS = 30 * MINUTE;

const kPaOf = (batch: Batch) => batch.header.numbers.targetKPa;

/**
 * What an answer at the gauge says about the pressure: true at target, false not, null says nothing. A dial is
 * read to about a quarter psi, 1.7 kPa (common practice, no source).
 */
export function gaugeSays(event: BatchEvent, batch: Batch): boolean | null {
  if (event.type === 'trouble') {
    const ends = [
      'heat-failed',
      'heat-failed-in-hold',
      'valve-opened',
      'water-low',
      'over-pressure',
      'vent-blocked',
      'was-away',
    ];
    return ends.includes(event.trouble) ? false : null;
  }
  if (event.type !== 'answer') return null;
  switch (event.ask) {
    case 'climbing':
    case 'holding':
      if (event.choice === 'reading') return (event.amount ?? 0) >= kPaOf(batch) - 1.7;
      return event.choice === 'at' || event.choice === 'above';
    case 'away-gauge':
      return event.choice === 'stayed' || event.choice === 'fell-back-now';
    default:
      return null;
  }
}
