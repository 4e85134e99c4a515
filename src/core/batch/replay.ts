/** From a journal back to the batch: what ran live, run again. */
import { begin, step } from './machine.ts';
import type { BatchEvent } from './events.ts';
import type { BatchHeader, Run } from './state.ts';

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

/** A replay under way. */
export interface Replaying {
  /** Takes the next event. A refused one is left out and named; the rest goes on, as it would have live. */
  take(event: BatchEvent): void;
  end(): Replayed;
}

type Tick = Extract<BatchEvent, { type: 'tick' }>;

/** Begins a replay for events that come one by one. */
export function replaying(header: BatchHeader): Replaying {
  let run = begin(header);
  let index = 0;
  // One long tick equals any number of short ones, and a journal is mostly ticks: the last one of a row is enough.
  let tick: Tick | null = null;
  const misfits: Misfit[] = [];
  const put = (event: BatchEvent, at: number): void => {
    const outcome = step(run, event);
    if (outcome.ok) run = outcome.run;
    else misfits.push({ index: at, code: outcome.refusal.code });
  };
  const putTick = (): void => {
    if (tick) put(tick, index - 1);
    tick = null;
  };
  return {
    take: event => {
      // A tick that ran back, or is no time, is refused by itself and passes over none.
      if (event.type === 'tick' && event.t >= (tick?.t ?? run.batch.now) && event.t < Infinity) tick = event;
      else {
        putTick();
        put(event, index);
      }
      index += 1;
    },
    end: () => {
      putTick();
      return { run, misfits };
    },
  };
}

/** Replays events in order. */
export function replay(header: BatchHeader, events: readonly BatchEvent[]): Replayed {
  const under = replaying(header);
  for (const event of events) under.take(event);
  return under.end();
}
