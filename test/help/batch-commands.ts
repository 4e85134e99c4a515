/** What a grower, a cat, a clock and a battery can do to a batch, as fast-check commands that read like a story. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { WORDS } from '../../src/core/batch/machine.ts';
import { replay } from '../../src/core/batch/replay.ts';
import type { BatchEvent, TypedPurpose } from '../../src/core/batch/events.ts';
import type { Batch, BatchHeader } from '../../src/core/batch/state.ts';
import { ASKS, type AskId, type Choice, type StepId, choicesOf } from '../../src/core/batch/steps.ts';
import { TROUBLES, type TroubleId, troublesIn } from '../../src/core/batch/troubles.ts';
import { DAY, HOUR, MINUTE, SECOND } from '../../src/core/time.ts';
import { Drive } from './batch-drive.ts';
import { type Onlooker, follow, onlooker } from './batch-model.ts';

export type Grower = { onlooker: Onlooker };
type Command = fc.Command<Grower, WatchedDrive>;

/** A drive whose every taken event is looked at by the onlooker. */
export class WatchedDrive extends Drive {
  readonly #grower: Grower;
  readonly reached = new Set<StepId>();

  constructor(header: BatchHeader, grower: Grower) {
    super(header);
    this.#grower = grower;
    this.reached.add(this.batch.step);
  }

  override tries(event: Parameters<Drive['tries']>[0], ms = 0): ReturnType<Drive['tries']> {
    const before = this.batch;
    const run = this.run;
    const refusal = super.tries(event, ms);
    if (refusal) {
      expect(this.run).toBe(run);
      return refusal;
    }
    const taken = this.events.at(-1);
    if (taken) this.#grower.onlooker = follow(this.#grower.onlooker, taken, before, this.batch);
    this.reached.add(this.batch.step);
    return null;
  }

  /** Asking what would be refused must not be looked at as if it had happened. */
  override refusal(choice: string, amount?: number): ReturnType<Drive['refusal']> {
    const kept = this.#grower.onlooker;
    const refusal = super.refusal(choice, amount);
    this.#grower.onlooker = kept;
    return refusal;
  }
}

export const start = (header: BatchHeader) => {
  const model: Grower = { onlooker: onlooker() };
  return { model, real: new WatchedDrive(header, model) };
};

/** Amounts worth trying at a question: sensible ones first, then slips. */
export function amountsAt(ask: AskId, batch: Batch): readonly number[] {
  const { recipe, numbers } = batch.header;
  switch (ask) {
    case 'dry-weight':
      return [numbers.dryKg, 0.5];
    case 'draining':
      return [batch.dryKg * 1.7];
    case 'fill':
      return [recipe.containers.fillKg, recipe.containers.mostKg + 0.1];
    case 'cooker-water':
      return [numbers.cookerWaterL, numbers.leastWaterL - 0.1];
    case 'inject':
      return [recipe.culture.perContainer];
    default:
      return [numbers.targetKPa, numbers.targetKPa - 20, numbers.targetKPa + 20, 0];
  }
}

const says = (event: BatchEvent | undefined): string => (event ? JSON.stringify(event) : 'nothing');

class Act implements Command {
  readonly #name: string;
  readonly #does: (drive: WatchedDrive) => void;
  constructor(name: string, does: (drive: WatchedDrive) => void) {
    this.#name = name;
    this.#does = does;
  }
  check = () => true;
  run = (_: Grower, drive: WatchedDrive) => this.#does(drive);
  toString = () => this.#name;
}

const answer = (drive: WatchedDrive, ask: AskId, choice: Choice, pick: number) => {
  const amounts = amountsAt(ask, drive.batch);
  const amount = choice.amount ? amounts[pick % amounts.length] : undefined;
  return drive.tries({ type: 'answer', ask, choice: choice.id, ...(amount === undefined ? {} : { amount }) });
};

const goOn = fc.integer({ min: 1, max: 15 }).map(
  moves =>
    new Act(`does the next ${moves} as planned`, drive => {
      for (let done = 0; done < moves && drive.batch.finishedAt === null; done += 1) drive.plannedMove();
    }),
);

const answerOpen = fc.tuple(fc.nat(3), fc.nat(3)).map(
  ([place, pick]) =>
    new Act(`gives answer ${place + 1} to what is asked, amount ${pick}`, drive => {
      const choices = choicesOf(drive.ask);
      const choice = choices[place % Math.max(1, choices.length)];
      if (choice) answer(drive, drive.ask, choice, pick);
    }),
);

const ALL_ANSWERS = (Object.keys(ASKS) as AskId[]).flatMap(ask =>
  choicesOf(ask).map(choice => [ask, choice] as const),
);
const answerAnything = fc.constantFrom(...ALL_ANSWERS).map(
  ([ask, choice]) =>
    new Act(`answers ${ask} with ${choice.id}`, drive => {
      const open = drive.ask;
      const refusal = answer(drive, ask, choice, 0);
      if (ask !== open) expect(refusal, `${ask} is not open, ${open} is`).not.toBeNull();
    }),
);
const slip = fc
  .tuple(fc.constantFrom(...ALL_ANSWERS), fc.constantFrom(Number.NaN, -1, 0, 1e99, Infinity))
  .map(
    ([[ask, choice], amount]) =>
      new Act(`answers ${ask} with ${choice.id} ${amount}`, drive => {
        const refusal = drive.tries({ type: 'answer', ask, choice: choice.id, amount });
        const zero = amount === 0 && choice.amount === 'pressure';
        if (choice.amount && !zero) expect(refusal).not.toBeNull();
      }),
  );

/** A thermometer says something, sense or nonsense; it moves no step and no countdown. */
const thermometer = fc.constantFrom(20, 85.5, 119, -5, 900, Number.NaN).map(
  celsius =>
    new Act(`holds a thermometer to it: ${celsius}`, drive => {
      const before = drive.batch;
      drive.tries({ type: 'measured', of: 'centre', celsius });
      expect({ ...drive.batch, measured: before.measured }).toEqual(before);
    }),
);

const trouble = (id: TroubleId) =>
  new Act(`reports ${id}`, drive => void drive.tries({ type: 'trouble', trouble: id }));
const troubleAnywhere = fc.constantFrom(...TROUBLES.map(({ id }) => id)).map(trouble);
const troubleHere = fc.nat(3).map(
  place =>
    new Act(`reports trouble ${place + 1} of this step`, drive => {
      const here = troublesIn(drive.batch.step);
      const row = here[place % Math.max(1, here.length)];
      if (row) drive.tries({ type: 'trouble', trouble: row.id });
    }),
);

const PURPOSES = Object.keys(WORDS) as TypedPurpose[];
const types = fc
  .tuple(fc.constantFrom(...PURPOSES), fc.constantFrom('right', 'right', 'other', 'empty'))
  .map(([purpose, kind]) => {
    const word = { right: WORDS[purpose], other: `${WORDS[purpose]}x`, empty: '' }[kind] ?? '';
    return new Act(`types "${word}" for ${purpose}`, drive => {
      const refusal = drive.tries({ type: 'typed', purpose, word });
      if (kind !== 'right') expect(refusal).not.toBeNull();
    });
  });

const undo = fc
  .constant(null)
  .map(() => new Act('takes the last answer back', drive => void drive.tries({ type: 'undo' })));

const spans = fc.constantFrom(
  ...[1, 19, 20].map(n => n * SECOND),
  ...[1, 5, 9, 10, 59, 60, 89, 90].map(n => n * MINUTE),
  ...[2, 8, 9, 12].map(n => n * HOUR),
);
const span = (ms: number) => (ms < MINUTE ? `${ms / SECOND} s` : `${ms / MINUTE} min`);
const wait = spans.map(ms => new Act(`waits ${span(ms)}`, drive => void drive.wait(ms)));
const sleep = spans.map(ms => new Act(`lets the laptop sleep ${span(ms)}`, drive => void drive.gap(ms)));
const claim = fc.tuple(spans, fc.constantFrom(MINUTE, HOUR, 12 * HOUR, 3650 * DAY)).map(
  ([ms, claimed]) =>
    new Act(`starts the computer again after ${span(ms)}, its clock claims ${span(claimed)} more`, drive => {
      drive.gap(ms, 'restart', claimed);
    }),
);
const clockBack = spans.map(
  ms =>
    new Act(`is told a time ${span(ms)} ago`, drive => {
      expect(drive.tries({ type: 'tick' }, -ms)?.code).toBe('time-ran-back');
    }),
);
const restart = fc.constant(null).map(
  () =>
    new Act('closes the program and opens it again', drive => {
      const journal = JSON.stringify({ header: drive.batch.header, events: drive.events });
      const { header, events } = JSON.parse(journal) as { header: BatchHeader; events: BatchEvent[] };
      const again = replay(header, events);
      expect(again.misfits, says(events.at(-1))).toEqual([]);
      expect(JSON.stringify(again.run)).toBe(JSON.stringify(drive.run));
    }),
);

/** Weighted so that about half of what happens is as planned, or nothing deep would ever be reached. */
export const commands = (most: number) =>
  fc.commands(
    [
      ...Array.from({ length: 6 }, () => goOn),
      ...Array.from({ length: 3 }, () => answerOpen),
      ...Array.from({ length: 2 }, () => wait),
      troubleHere,
      undo,
      undo,
      sleep,
      claim,
      restart,
      answerAnything,
      slip,
      thermometer,
      troubleAnywhere,
      types,
      clockBack,
    ],
    { maxCommands: most, size: 'max' },
  );
