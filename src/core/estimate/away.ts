/** Before an answer about time nobody watched: what each answer would mean, side by side. */
import { holdLeftMs } from '../batch/advance.ts';
import { step } from '../batch/machine.ts';
import type { Batch } from '../batch/state.ts';
import type { Band } from '../science/limits.ts';
import type { CoachTime } from '../time.ts';
import { priced } from './dips.ts';
import { estimateAt } from './estimate.ts';

export interface AwayOutcome {
  readonly choice: 'fell-below-now' | 'stayed' | 'fell-back-now' | 'unknown';
  /** Left of the hold after this answer, ms; 0 when it would be over. */
  readonly leftMs: number;
  /** Heat-off when the gauge is at target from now on. */
  readonly endAt: CoachTime | null;
  readonly f0AtEnd: Band | null;
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

function outcome(batch: Batch, choice: AwayOutcome['choice']): AwayOutcome {
  const deed = priced({ type: 'answer', ask: 'away-gauge', choice } as const, batch);
  const told = step({ batch, past: [] }, { ...deed, t: batch.now, wall: batch.wall });
  if (!told.ok) return { choice, leftMs: holdLeftMs(batch), endAt: null, f0AtEnd: null };
  const after = told.run.batch;
  // A header of its own keeps what is only asked out of the place where the running estimate is remembered.
  const end = estimateAt({ ...after, header: { ...after.header } })?.end ?? null;
  return {
    choice,
    leftMs: after.step === 'hold' ? holdLeftMs(after) : 0,
    endAt: end?.at ?? null,
    f0AtEnd: end?.f0Min ?? null,
  };
}
