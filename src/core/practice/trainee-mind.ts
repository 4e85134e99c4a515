/** What a trainee that plays by itself has in mind: the practice it sees, its habits, and what it remembers. */
import { openAsk } from '../batch/lockout.ts';
import { WORDS } from '../batch/machine.ts';
import { numbersOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { Deed } from '../session.ts';
import type { Mistake } from './mistakes.ts';
import type { Practice } from './practice.ts';

export type Move =
  | { readonly kind: 'wait'; readonly seconds: number }
  | { readonly kind: 'flame'; readonly by: 1 | -1 }
  | { readonly kind: 'deed'; readonly deed: Deed };

export const wait = (seconds: number): Move => ({
  kind: 'wait',
  seconds: Math.max(1, Math.round(seconds)),
});
export const flame = (by: 1 | -1): Move => ({ kind: 'flame', by });

export class Mind {
  readonly practice: Practice;
  readonly #mistakes: ReadonlySet<Mistake>;
  /** Since when the jet stands, s; null while it does not. */
  jetSince: number | null = null;
  /** The gear was looked over. */
  looked = false;
  /** The grain was stirred just now. */
  stirred = false;
  wasAway = false;
  /** The coach was told that nobody watched. */
  reported = false;
  /** When the flame was last thought about, s, and where the needle stood then. */
  turnedAt = 0;
  lastDial = 0;
  /** When the needle was last back at target after a dip, s. */
  backAt = Number.NEGATIVE_INFINITY;

  constructor(practice: Practice, mistakes: readonly Mistake[]) {
    this.practice = practice;
    this.#mistakes = new Set(mistakes);
  }

  has(mistake: Mistake): boolean {
    return this.#mistakes.has(mistake);
  }
  get batch(): Batch {
    return this.practice.run.batch;
  }
  /** Seconds in this step. */
  get sinceS(): number {
    return (this.batch.now - this.batch.since) / 1000;
  }
  get targetKPa(): number {
    return numbersOf(this.batch).targetKPa;
  }
  /** The shortest time the plan gives a step: what those who go by the clock wait for. */
  shortestS(step: string): number {
    return numbersOf(this.batch).lengths[step]?.lowS ?? 0;
  }
  dialKPa(): number {
    const sight = this.practice.look('dial');
    return sight?.kind === 'dial' ? sight.kPa : 0;
  }
  answer(choice: string): Move {
    return { kind: 'deed', deed: { type: 'answer', ask: openAsk(this.batch), choice } };
  }
  giveUp(): Move {
    return { kind: 'deed', deed: { type: 'typed', purpose: 'end-batch', word: WORDS['end-batch'] } };
  }
}
