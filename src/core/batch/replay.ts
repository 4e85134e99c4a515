/** From a journal back to the batch: what ran live, run again. */
import { begin, step } from './machine.ts';
import type { BatchEvent, BatchHeader, Run } from './state.ts';

export interface Misfit {
  /** Place among the events, from 0. */
  readonly index: number;
  readonly code: string;
}

export interface Replayed {
  readonly run: Run;
  /** Events that the machine refused: they change nothing, now as when they were written. */
  readonly misfits: readonly Misfit[];
}

/** Replays events in order. A refused event is left out and named; the rest goes on, as it would have live. */
export function replay(header: BatchHeader, events: readonly BatchEvent[]): Replayed {
  let run = begin(header);
  const misfits: Misfit[] = [];
  for (const [index, event] of events.entries()) {
    const outcome = step(run, event);
    if (outcome.ok) run = outcome.run;
    else misfits.push({ index, code: outcome.refusal.code });
  }
  return { run, misfits };
}
