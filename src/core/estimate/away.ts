/** Before an answer about time nobody watched: what each answer would mean, side by side. */
import { holdLeftMs } from '../batch/advance.ts';
import { step } from '../batch/machine.ts';
import type { BatchEvent } from '../batch/events.ts';
import type { Batch } from '../batch/state.ts';
import type { Band } from '../science/limits.ts';
import type { CoachTime } from '../time.ts';
import { priced } from './dips.ts';
import { estimateAt } from './estimate.ts';

export interface AwayOutcome {
  readonly choice: 'fell-below-now' | 'stayed' | 'fell-back-now' | 'unknown';
  /** Left of the hold after this answer with the gauge at target from now on, ms; 0 when it would be over. */
  readonly leftMs: number;
  /** Heat-off then. */
  readonly endAt: CoachTime | null;
  /** Lethality so far: unlike the one at the end, it can be compared between the answers. */
  readonly f0Now: Band | null;
}

const CHOICES = ['fell-below-now', 'stayed', 'fell-back-now', 'unknown'] as const;

let kept: {
  readonly away: Batch['away'];
  readonly at: CoachTime;
  readonly value: readonly AwayOutcome[];
} | null = null;

/** The outcomes of every answer; empty when no such doubt is open. */
export function awayOutcomes(batch: Batch): readonly AwayOutcome[] {
  if (!batch.away || batch.step !== 'hold' || batch.claim) return [];
  const at = Math.floor(batch.now / 20_000);
  if (kept && kept.away === batch.away && kept.at === at) return kept.value;
  const value = CHOICES.map(choice => outcome(batch, choice));
  kept = { away: batch.away, at, value };
  return value;
}

type Answer = Omit<Extract<BatchEvent, { type: 'answer' }>, 't' | 'wall'>;

function answered(batch: Batch, answer: Answer): Batch | null {
  const told = step({ batch, past: [] }, { ...priced(answer, batch), t: batch.now, wall: batch.wall });
  return told.ok ? told.run.batch : null;
}

function outcome(batch: Batch, choice: AwayOutcome['choice']): AwayOutcome {
  const after = answered(batch, { type: 'answer', ask: 'away-gauge', choice });
  if (!after) return { choice, leftMs: holdLeftMs(batch), endAt: null, f0Now: null };
  // A header of its own keeps what is only asked out of the place where the running estimate is remembered.
  const apart: Batch = { ...after, header: { ...after.header } };
  const stands = apart.hold.belief === 'below' || apart.hold.belief === 'unknown';
  const back = stands ? answered(apart, { type: 'answer', ask: 'holding', choice: 'at' }) : apart;
  const leftMs = back?.step === 'hold' ? holdLeftMs(back) : 0;
  return {
    choice,
    leftMs,
    endAt: leftMs > 0 ? batch.now + leftMs : null,
    f0Now: estimateAt(apart)?.f0Min ?? null,
  };
}
