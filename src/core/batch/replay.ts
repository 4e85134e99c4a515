/** From a journal back to the batch: what ran live, run again. */
import { begin, step } from './machine.ts';
import type { BatchEvent, BatchHeader, Run } from './state.ts';

export interface Replayed {
  readonly run: Run;
  /** Events that were taken. */
  readonly taken: number;
  /** First event that did not fit, by its place among the events (0-based); those after it are left out. */
  readonly misfit: { readonly index: number; readonly code: string } | null;
}

/** Replays events in order and stops at the first that the machine refuses. */
export function replay(header: BatchHeader, events: readonly BatchEvent[]): Replayed {
  let run = begin(header);
  for (const [index, event] of events.entries()) {
    const outcome = step(run, event);
    if (!outcome.ok) return { run, taken: index, misfit: { index, code: outcome.refusal.code } };
    run = outcome.run;
  }
  return { run, taken: events.length, misfit: null };
}
