/**
 * A running batch on real clocks and a real disk: every deed and every beat goes through the pure machine,
 * then onto the disk, and only then to the screen.
 */
import type { Entry } from '../core/batch/entry.ts';
import { step } from '../core/batch/machine.ts';
import { priced } from '../core/estimate/dips.ts';
import type { BatchEvent, Refusal } from '../core/batch/events.ts';
import type { Run } from '../core/batch/state.ts';
import { stepRow } from '../core/batch/steps.ts';
import type { Clock, Journal } from '../core/ports.ts';
import type { Deed, Session } from '../core/session.ts';
import { type ClockSample, type CoachTime, MINUTE, SECOND, elapsedBetween } from '../core/time.ts';
import { GrowerError } from './failure.ts';

/** Beats on disk: close while seconds must be vouched for, else once a minute. */
const WATCHED_BEAT = 5 * SECOND;
const QUIET_BEAT = MINUTE;
/** Nothing heard from the clock for so long means asleep or stopped, not busy. */
export const GAP = 30 * SECOND;

export interface SessionParts {
  readonly run: Run;
  readonly clock: Clock;
  readonly journal: Journal<Entry>;
  /** What the clocks said at `run.batch.now`. */
  readonly sample: ClockSample;
  readonly notices: readonly string[];
  /** Longest silence of the clock that still counts as running, ms of coach time. */
  readonly gapMs?: number;
  readonly onClose: () => void;
}

const sayJump = (ms: number): string =>
  `The computer's clock was set ${ms > 0 ? 'forward' : 'back'}. Countdowns go on by the machine's own clock.`;

/** What would be lost if it were not written at once: anything but the mere passing of time. */
const differs = (before: Run, after: Run): boolean =>
  before.batch.step !== after.batch.step || before.batch.ask !== after.batch.ask;

class RunningSession implements Session {
  readonly role = 'running';
  run: Run;
  notices: readonly string[];
  trouble: string | null = null;
  readonly path: string;
  readonly #parts: SessionParts;
  readonly #listeners = new Set<() => void>();
  readonly #stop: () => void;
  #sample: ClockSample;
  #t: CoachTime;
  #writtenAt: CoachTime;
  /** A pause that could not be written yet; it stays a pause, however long the disk is full. */
  #unseen: { readonly claimedMs: number } | null = null;

  constructor(parts: SessionParts) {
    this.#parts = parts;
    this.run = parts.run;
    this.notices = parts.notices;
    this.path = parts.journal.path;
    this.#sample = parts.sample;
    this.#t = parts.run.batch.now;
    this.#writtenAt = this.#t;
    this.#stop = parts.clock.onTick(sample => this.#tick(sample));
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  send(deed: Deed): Refusal | null {
    // A pause that ends with a key press is still a pause.
    const sample = this.#parts.clock.sample();
    this.#tick(sample);
    // Not even the time that has passed can be written just now: no answer stands on that.
    if (this.trouble !== null && this.run.batch.finishedAt === null) {
      this.#publish();
      return null;
    }
    // The batch stands at the instant of the deed now, so a dip that it ends can be priced.
    const event = { ...priced(deed, this.run.batch), t: this.#t, wall: sample.wall } as BatchEvent;
    const outcome = step(this.run, event);
    if (!outcome.ok) return outcome.refusal;
    if (this.#keep(event, sample)) {
      this.run = outcome.run;
      // A deed may vouch for time of its own: the batch's instant leads.
      this.#t = outcome.run.batch.now;
    }
    this.#publish();
    return null;
  }

  close(): void {
    this.#stop();
    this.#listeners.clear();
    try {
      this.#settle(this.#sample);
    } finally {
      this.#parts.journal.close();
      this.#parts.onClose();
    }
  }

  #tick(sample: ClockSample): void {
    const before = this.#sample;
    const { ms, jump, claimed } = elapsedBetween(before, sample);
    this.#sample = sample;
    this.#t += ms;
    if (jump !== undefined && Math.abs(jump) > MINUTE) this.notices = [...this.notices, sayJump(jump)];
    // Nothing happens by itself to a finished batch, so nothing more is written of it.
    if (this.run.batch.finishedAt !== null) return;
    if (ms > (this.#parts.gapMs ?? GAP) || claimed !== undefined) {
      this.#unseen = { claimedMs: (this.#unseen?.claimedMs ?? 0) + Math.max(0, (claimed ?? 0) - ms) };
    }
    const at = { t: this.#t, wall: sample.wall };
    const event: BatchEvent = this.#unseen
      ? { type: 'gap', why: 'asleep', ...at, ...(this.#unseen.claimedMs > 0 ? this.#unseen : {}) }
      : { type: 'tick', ...at };
    const outcome = step(this.run, event);
    if (!outcome.ok) return;
    const beat = stepRow(this.run.batch.step).watched ? WATCHED_BEAT : QUIET_BEAT;
    const due = this.trouble !== null || this.#t - this.#writtenAt >= beat;
    if (event.type === 'gap' || differs(this.run, outcome.run) || due) {
      // What was watched and shown up to the pause belongs before it.
      const settled = event.type !== 'gap' || this.#settle(before);
      if (!settled || !this.#keep(event, sample)) {
        this.#publish();
        return;
      }
    }
    this.run = outcome.run;
    this.#publish();
  }

  /** Writes the time that was shown but has no beat of its own yet; true when there is none left. */
  #settle(sample: ClockSample): boolean {
    const { now, wall, finishedAt } = this.run.batch;
    if (finishedAt !== null || now <= this.#writtenAt) return true;
    return this.#keep({ type: 'tick', t: now, wall }, sample);
  }

  /** True once the event is on disk. */
  #keep(event: BatchEvent, { uptime, boot }: ClockSample): boolean {
    try {
      this.#parts.journal.append({ event, uptime, boot });
      this.#writtenAt = event.t;
      if (event.type === 'gap') this.#unseen = null;
      this.trouble = null;
      return true;
    } catch (problem) {
      if (!(problem instanceof GrowerError)) throw problem;
      this.trouble = [problem.message, ...problem.tryThis].join(' ');
      return false;
    }
  }

  #publish(): void {
    for (const listener of [...this.#listeners]) listener();
  }
}

/** Starts running; the journal and its lock are held until `close`. */
export const runSession = (parts: SessionParts): Session => new RunningSession(parts);
