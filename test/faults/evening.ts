/** One evening at the stove over a real session: real journal, clocks driven by hand, answers as planned. */
import { holdLeftMs } from '../../src/core/batch/advance.ts';
import { openAsk } from '../../src/core/batch/lockout.ts';
import type { Refusal } from '../../src/core/batch/events.ts';
import type { Batch, BatchHeader } from '../../src/core/batch/state.ts';
import type { StepId } from '../../src/core/batch/steps.ts';
import type { Deed, Session } from '../../src/core/session.ts';
import { MINUTE, SECOND } from '../../src/core/time.ts';
import { beginBatch, openBatch } from '../../src/shell/batches.ts';
import type { FileLayer } from '../../src/shell/files.ts';
import { onKey, PLANNED_KEYS } from '../help/batch-drive.ts';
import { BEGAN_WALL } from '../help/batch-kit.ts';
import { createTrickClock, type TrickClock } from './trick-clock.ts';

export interface EveningParts {
  readonly header: BatchHeader;
  readonly folder: string;
  readonly files?: FileLayer;
  readonly clock?: TrickClock;
  /** How fine time passes while waiting; one tick a second when left out. */
  readonly tickMs?: number;
}

export class Evening {
  session: Session;
  readonly clock: TrickClock;
  readonly #parts: EveningParts;

  constructor(parts: EveningParts) {
    this.#parts = parts;
    this.clock = parts.clock ?? createTrickClock(BEGAN_WALL);
    const { recipe, kitchen, numbers, practice } = parts.header;
    this.session = beginBatch(this.#options(), { recipe, kitchen, numbers, practice });
  }

  #options() {
    const { folder, files } = this.#parts;
    return { folder, clock: this.clock, ...(files ? { files } : {}) };
  }

  get batch(): Batch {
    return this.session.run.batch;
  }
  get id(): string {
    return this.batch.header.id;
  }

  wait(ms: number): void {
    this.clock.run(ms, this.#parts.tickMs ?? SECOND);
  }
  answer(choice: string, amount?: number): Refusal | null {
    const ask = openAsk(this.batch);
    const deed: Deed = { type: 'answer', ask, choice, ...(amount === undefined ? {} : { amount }) };
    return this.session.send(deed);
  }

  /** Closes nothing: the program is simply gone, and another one opens the batch. Returns the new session. */
  reopen(): Session {
    this.session.close();
    this.session = openBatch(this.#options(), this.id);
    return this.session;
  }

  /** One move as planned: an answer, or the wait that it is refused for. */
  plannedMove(): void {
    const { batch } = this;
    const ask = openAsk(batch);
    if (ask === 'holding') {
      const held = batch.hold.belief === 'at' || batch.hold.belief === 'above';
      if (held && holdLeftMs(batch) > 0) this.wait(holdLeftMs(batch));
      else this.#must(this.answer('at'));
      return;
    }
    if (ask === 'simmering' && batch.lookAt !== null && batch.now < batch.lookAt) {
      this.wait(batch.lookAt - batch.now);
      return;
    }
    if (ask === 'climbing' && batch.now === batch.since) this.wait(8 * MINUTE);
    const refusal = this.answer(onKey(ask, PLANNED_KEYS[ask])?.id ?? '');
    if (refusal?.until !== undefined) this.wait(refusal.until - batch.now);
    else this.#must(refusal);
  }
  #must(refusal: Refusal | null): void {
    if (refusal) throw new Error(`Refused in ${this.batch.step}/${this.batch.ask}: ${refusal.code}`);
  }

  /** As planned up to the moment when `there` is true. */
  until(there: (batch: Batch) => boolean): this {
    for (let moves = 0; !there(this.batch); moves += 1) {
      if (moves > 600) throw new Error(`Never got there; stuck in ${this.batch.step}/${this.batch.ask}`);
      this.plannedMove();
    }
    return this;
  }
  to(step: StepId): this {
    return this.until(batch => batch.step === step);
  }
}
