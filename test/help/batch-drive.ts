/** Drives a batch in the words of the person at the stove; anything refused unexpectedly fails the test. */
import { holdLeftMs } from '../../src/core/batch/advance.ts';
import { openAsk } from '../../src/core/batch/lockout.ts';
import { WORDS, begin, step } from '../../src/core/batch/machine.ts';
import type { BatchEvent, Refusal, TypedPurpose } from '../../src/core/batch/events.ts';
import type { Batch, BatchHeader, Run } from '../../src/core/batch/state.ts';
import { type AskId, type Choice, type StepId, choicesOf } from '../../src/core/batch/steps.ts';
import type { TroubleId } from '../../src/core/batch/troubles.ts';
import { MINUTE } from '../../src/core/time.ts';

/** The key a person presses at each question when all goes as planned. */
export const PLANNED_KEYS: Readonly<Record<AskId, Choice['key'] | null>> = {
  'gear-check': 'space',
  'dry-weight': 'space',
  soaking: 'space',
  'simmer-start': 'space',
  simmering: 'space',
  'kernel-centre': '3',
  burst: '1',
  draining: 'space',
  drying: '1',
  towel: '3',
  fill: 'space',
  seam: 'space',
  'cooker-water': 'space',
  lid: 'space',
  steam: '2',
  venting: 'space',
  climbing: '2',
  holding: null,
  flame: 'space',
  'gauge-zero': '1',
  pin: '2',
  shut: 'space',
  lifted: '1',
  warmth: '2',
  clean: 'space',
  inject: 'space',
  finished: null,
  'away-steam': '1',
  'away-gauge': '2',
  'clock-claim': '2',
};

/** The answer on that key, or undefined where the key is dead. */
export const onKey = (ask: AskId, key: Choice['key'] | null): Choice | undefined =>
  choicesOf(ask).find(choice => choice.key === key);

type WithoutTime<E> = E extends unknown ? Omit<E, 't' | 'wall'> : never;

export class Drive {
  run: Run;
  /** Every event that was taken, as a journal would hold it. */
  readonly events: BatchEvent[] = [];
  readonly keys: string[] = [];

  constructor(header: BatchHeader) {
    this.run = begin(header);
  }

  get batch(): Batch {
    return this.run.batch;
  }
  get ask(): AskId {
    return openAsk(this.batch);
  }

  /** Sends one event after `ms`; the refusal, or null when it was taken. */
  tries(event: WithoutTime<BatchEvent>, ms = 0): Refusal | null {
    const full = { ...event, t: this.batch.now + ms, wall: this.batch.wall + ms } as BatchEvent;
    const outcome = step(this.run, full);
    if (!outcome.ok) return outcome.refusal;
    this.run = outcome.run;
    this.events.push(full);
    return null;
  }

  #must(event: WithoutTime<BatchEvent>, ms = 0): this {
    const refusal = this.tries(event, ms);
    if (refusal) {
      throw new Error(
        `${JSON.stringify(event)} refused in ${this.batch.step}/${this.ask}: ${JSON.stringify(refusal)}`,
      );
    }
    return this;
  }

  answer(choice: string, amount?: number): this {
    return this.#must({ type: 'answer', ask: this.ask, choice, ...(amount === undefined ? {} : { amount }) });
  }
  answers(...choices: string[]): this {
    for (const choice of choices) this.answer(choice);
    return this;
  }
  /** What stands in the way of an answer; the batch is not moved by asking. */
  refusal(choice: string, amount?: number): Refusal | null {
    const before = this.run;
    const kept = this.events.length;
    const refusal = this.tries({
      type: 'answer',
      ask: this.ask,
      choice,
      ...(amount === undefined ? {} : { amount }),
    });
    this.run = before;
    this.events.length = kept;
    return refusal;
  }
  press(key: Choice['key']): this {
    const choice = onKey(this.ask, key);
    if (!choice) throw new Error(`Key ${key} is dead at ${this.ask}`);
    this.keys.push(key);
    return this.answer(choice.id);
  }
  wait(ms: number): this {
    return this.#must({ type: 'tick' }, ms);
  }
  gap(ms: number, why: 'restart' | 'asleep' = 'asleep', claimedMs?: number): this {
    return this.#must({ type: 'gap', why, ...(claimedMs === undefined ? {} : { claimedMs }) }, ms);
  }
  trouble(trouble: TroubleId): this {
    return this.#must({ type: 'trouble', trouble });
  }
  type(purpose: TypedPurpose, word = WORDS[purpose]): this {
    return this.#must({ type: 'typed', purpose, word });
  }
  undo(): this {
    return this.#must({ type: 'undo' });
  }

  /** One move as planned, by keys alone: waits when the coach says "not yet". */
  plannedMove(): this {
    const { batch, ask } = this;
    if (ask === 'holding') {
      const held = batch.hold.belief === 'at' || batch.hold.belief === 'above';
      return held && holdLeftMs(batch) > 0 ? this.wait(holdLeftMs(batch)) : this.press('2');
    }
    const key = PLANNED_KEYS[ask];
    if (key === null) throw new Error(`Nothing is planned at ${ask}`);
    if (ask === 'simmering' && batch.lookAt !== null && batch.now < batch.lookAt) {
      return this.wait(batch.lookAt - batch.now);
    }
    if (ask === 'climbing' && batch.now === batch.since) this.wait(8 * MINUTE);
    const refusal = this.refusal(onKey(ask, key)?.id ?? '');
    if (refusal?.until !== undefined) return this.wait(refusal.until - batch.now);
    return this.press(key);
  }

  /** As planned up to the moment when `there` is true. */
  until(there: (batch: Batch) => boolean): this {
    for (let moves = 0; !there(this.batch); moves += 1) {
      if (moves > 500) throw new Error(`Never got there; stuck in ${this.batch.step}/${this.ask}`);
      this.plannedMove();
    }
    return this;
  }
  to(step: StepId, load = 1): this {
    return this.until(batch => batch.step === step && batch.load === load);
  }
  toAsk(ask: AskId, load = 1): this {
    return this.until(batch => batch.ask === ask && batch.load === load);
  }
}

/** A whole batch as planned, by Space and 1 to 4 alone. */
export const straightThrough = (header: BatchHeader): Drive =>
  new Drive(header).to('done', header.numbers.loads.length);
