/**
 * Keeps the pace of a practice on real time: slower while an answer is wanted and when something is heard, and
 * hurried on by the person until something else is wanted. What the kitchen does never depends on it.
 */
import { openAsk } from '../batch/lockout.ts';
import type { Batch } from '../batch/state.ts';
import { wantedNow } from '../batch/wanted.ts';
import { type Hurry, hurriedOn, isWanted, paceOf, type Speed, slowed } from './pace.ts';
import type { Sense } from './world.ts';

/** What was heard or smelt is said so long, in real time and in the kitchen's. */
const HEARD_MS = 8000;
const HEARD_S = 240;

export class Pacer {
  #hurry: Hurry = 0;
  #wanted = '';
  #heard = 0;
  #heardAt = Number.NEGATIVE_INFINITY;

  /** Time was hurried on, and nothing slows it. */
  get isHurried(): boolean {
    return this.#hurry > 0;
  }

  /** Simulated seconds for each real one at this real time, ms. */
  pace(batch: Batch, speed: Speed, realMs: number): number {
    return this.#isJustHeard(realMs) ? slowed(speed, this.#hurry) : paceOf(batch, speed, this.#hurry);
  }

  /** Hurries on in one or two steps while slowed; false where it runs as chosen already. */
  hurry(batch: Batch, speed: Speed, realMs: number): boolean {
    const on =
      isWanted(batch) || this.#isJustHeard(realMs) ? hurriedOn(this.pace(batch, speed, realMs), speed) : null;
    if (on === null) return false;
    this.#hurry = on === speed ? 2 : 1;
    return true;
  }

  /** Lets time go on at once, or no more: the lesson's two ways. */
  toggle(): void {
    this.#hurry = this.#hurry === 0 ? 1 : 0;
  }

  /** An answer was taken. */
  answered(): void {
    this.#hurry = 0;
  }

  /** Looks at what is new: hurrying on was about what was wanted then, and never about what is heard now. */
  look(batch: Batch, senses: readonly Sense[], realMs: number): void {
    const wanted = `${batch.step}/${openAsk(batch)}/${wantedNow(batch)?.code}`;
    if (wanted !== this.#wanted && this.#wanted !== '') this.#hurry = 0;
    this.#wanted = wanted;
    if (senses.length === this.#heard) return;
    this.#heard = senses.length;
    this.#heardAt = realMs;
    this.#hurry = 0;
  }

  /** Hours were slept through: what was heard before them is past. */
  slept(): void {
    this.#heardAt = Number.NEGATIVE_INFINITY;
  }

  /** What was last heard or smelt, while it is worth saying. */
  heard(senses: readonly Sense[], second: number, realMs: number): Sense | null {
    const last = senses.at(-1);
    return last && (this.#isJustHeard(realMs) || second - last.second <= HEARD_S) ? last : null;
  }

  #isJustHeard(realMs: number): boolean {
    return realMs - this.#heardAt < HEARD_MS;
  }
}
