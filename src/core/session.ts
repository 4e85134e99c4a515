/** How the face meets a running batch: it reads the run, sends what the person did, and is told of changes. */
import type { BatchEvent, Refusal } from './batch/events.ts';
import type { Run } from './batch/state.ts';

type WithoutTime<E> = E extends unknown ? Omit<E, 't' | 'wall'> : never;
/** What a person can do; the session adds the instant. */
export type Deed = WithoutTime<Exclude<BatchEvent, { type: 'tick' | 'gap' }>>;

export interface Session {
  /** The same object until something changed, so that a view can compare. */
  readonly run: Run;
  /** `watching`: another program runs this batch, and this one only shows it. */
  readonly role: 'running' | 'watching';
  /** One sentence each, fit for the screen: what was found or lost on opening, clocks that were set. */
  readonly notices: readonly string[];
  /** Why nothing can be written just now; the batch does not move meanwhile. */
  readonly trouble: string | null;
  /** Where the batch is kept. */
  readonly path: string;
  subscribe(listener: () => void): () => void;
  /** Takes a deed, or says why not. Kept on disk before the run changes. */
  send(deed: Deed): Refusal | null;
  close(): void;
}
