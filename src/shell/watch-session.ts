/** A batch that another program runs, shown but not touched: its journal is read again once a second. */
import { type Entry, readEntry } from '../core/batch/entry.ts';
import { step } from '../core/batch/machine.ts';
import { replay } from '../core/batch/replay.ts';
import type { Refusal } from '../core/batch/events.ts';
import type { BatchHeader, Run } from '../core/batch/state.ts';
import type { Clock } from '../core/ports.ts';
import type { Session } from '../core/session.ts';
import { GAP } from './session.ts';
import { type FileLayer, nodeFiles } from './files.ts';
import { readJournal } from './journal.ts';

export interface WatchParts {
  readonly path: string;
  readonly header: BatchHeader;
  readonly clock: Clock;
  readonly notices: readonly string[];
  readonly files?: FileLayer;
}

class WatchingSession implements Session {
  readonly role = 'watching';
  run: Run;
  readonly notices: readonly string[];
  trouble: string | null = null;
  readonly path: string;
  readonly #parts: WatchParts;
  readonly #listeners = new Set<() => void>();
  readonly #stop: () => void;
  #entries: readonly Entry[] = [];
  #size = -1;

  constructor(parts: WatchParts) {
    this.#parts = parts;
    this.notices = parts.notices;
    this.path = parts.path;
    this.run = replay(parts.header, []).run;
    this.#look();
    this.#stop = parts.clock.onTick(() => this.#look());
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  send(): Refusal {
    return { code: 'not-here' };
  }

  close(): void {
    this.#stop();
    this.#listeners.clear();
  }

  #look(): void {
    const files = this.#parts.files ?? nodeFiles;
    try {
      const size = files.look(this.path)?.size ?? 0;
      if (size !== this.#size) {
        this.#entries = readJournal(this.path, readEntry, files).entries;
        this.#size = size;
      }
      this.trouble = null;
    } catch (problem) {
      // The file may be gone or out of reach for a while: what was read last stays on the screen.
      this.trouble = problem instanceof Error ? problem.message : String(problem);
    }
    const replayed = replay(
      this.#parts.header,
      this.#entries.map(entry => entry.event),
    ).run;
    this.run = this.#carriedOn(replayed);
    for (const listener of [...this.#listeners]) listener();
  }

  /** The runner writes a beat now and then; between beats its countdowns are carried on here, for show. */
  #carriedOn(run: Run): Run {
    const sample = this.#parts.clock.sample();
    const last = this.#entries.at(-1);
    if (!last || last.boot !== sample.boot) return run;
    const passed = sample.uptime - last.uptime;
    if (passed <= 0 || passed > 3 * GAP) return run;
    const outcome = step(run, { type: 'tick', t: run.batch.now + passed, wall: sample.wall });
    return outcome.ok ? outcome.run : run;
  }
}

export const watchSession = (parts: WatchParts): Session => new WatchingSession(parts);
