/** Random histories: a batch driven through the real machine by whims, and a diary that follows it. */
import fc from 'fast-check';
import type { BatchHeader } from '../../src/core/batch/state.ts';
import { choicesOf } from '../../src/core/batch/steps.ts';
import { troublesIn } from '../../src/core/batch/troubles.ts';
import {
  BAG_STATES,
  bagId,
  CULTURE_FORMS,
  type DiaryEntry,
  type DiaryEvent,
  LOOKS,
  SEALS,
} from '../../src/core/record/diary.ts';
import { DAY, MINUTE } from '../../src/core/time.ts';
import { amountsAt } from './batch-commands.ts';
import { Drive } from './batch-drive.ts';
import { BEGAN_WALL, type Sample } from './batch-kit.ts';
import { type DrivenBatch, homeHeader } from './record-home.ts';

export type Whim = readonly [kind: number, pick: number];

/** One whim: mostly as planned, now and then anything else; what the machine refuses is no event. */
function follow(drive: Drive, [kind, pick]: Whim): void {
  const choices = choicesOf(drive.ask);
  if (kind < 70) {
    if (drive.batch.finishedAt === null) drive.plannedMove();
    return;
  }
  if (kind < 82) {
    const choice = choices[pick % Math.max(1, choices.length)];
    if (!choice) return;
    const amounts = amountsAt(drive.ask, drive.batch);
    const amount = choice.amount ? amounts[pick % amounts.length] : undefined;
    drive.tries({
      type: 'answer',
      ask: drive.ask,
      choice: choice.id,
      ...(amount === undefined ? {} : { amount }),
    });
  } else if (kind < 88) drive.tries({ type: 'tick' }, (1 + (pick % 90)) * MINUTE);
  else if (kind < 93) drive.tries({ type: 'gap', why: pick % 2 === 0 ? 'asleep' : 'restart' }, pick * MINUTE);
  else if (kind < 97) {
    const troubles = troublesIn(drive.batch.step);
    const trouble = troubles[pick % Math.max(1, troubles.length)];
    if (trouble) drive.tries({ type: 'trouble', trouble: trouble.id });
  } else drive.tries({ type: 'undo' });
}

/** The batch that those whims make; run to its end as planned when `finish` is set. */
export function historyOf(header: BatchHeader, whims: readonly Whim[], finish: boolean): DrivenBatch {
  const drive = new Drive(header);
  for (const whim of whims) if (drive.batch.finishedAt === null) follow(drive, whim);
  // A history that whims have led into a corner simply stays unfinished.
  for (let moves = 0; finish && drive.batch.finishedAt === null && moves < 300; moves += 1) {
    try {
      drive.plannedMove();
    } catch {
      break;
    }
  }
  return { header, events: drive.events, batch: drive.batch };
}

// Without bias, or nearly every whim would be the first kind.
const whim: fc.Arbitrary<Whim> = fc.noBias(fc.tuple(fc.nat(99), fc.nat(199)));
const SAMPLES: readonly Sample[] = [
  {},
  { soak: false, loads: [3] },
  { jars: true, loads: [2, 1], dips: 'make up' },
  { seal: 'after' },
];

/** One batch of that id. */
export const someBatch = (id: string): fc.Arbitrary<DrivenBatch> =>
  fc
    .tuple(
      fc.constantFrom(...SAMPLES),
      fc.array(whim, { maxLength: 90, size: 'max' }),
      fc.boolean(),
      fc.nat(2000),
    )
    .map(([sample, whims, finish, day]) =>
      historyOf(homeHeader(id, sample, BEGAN_WALL + day * DAY), whims, finish),
    );

const someText = fc.oneof(
  fc.string({ maxLength: 40 }),
  fc.constantFrom('', '=1+1', 'a,b"c\r\nd', '\u001b[31mred', 'Ünïcode 🍄'),
);

/** Diary events about the bags of a batch. */
const someEvent = (batch: string): fc.Arbitrary<DiaryEvent> => {
  const bag = fc.integer({ min: 1, max: 4 }).map(number => bagId(batch, number));
  const key = fc.constantFrom('oyster-1104', 'shiitake', 'reishi-2');
  return fc.oneof(
    fc.record({
      type: fc.constant('state' as const),
      bag,
      state: fc.constantFrom(...BAG_STATES),
      looks: fc.constantFrom(null, ...LOOKS),
    }),
    fc.record({ type: fc.constant('looked' as const), bag }),
    fc.record({ type: fc.constant('seal' as const), bag, seen: fc.constantFrom(...SEALS) }),
    fc.record({
      type: fc.constant('weighed' as const),
      bag,
      kg: fc.double({ min: 0.01, max: 20, noNaN: true }),
    }),
    fc.record({ type: fc.constant('note' as const), bag, text: someText }),
    fc.record({ type: fc.constant('place' as const), bag, place: someText }),
    fc.record({ type: fc.constant('photo' as const), bag, path: someText }),
    fc.record({
      type: fc.constant('inoculated' as const),
      bag,
      culture: fc.oneof(fc.constant(''), key),
      dose: fc.constantFrom(null, 5, 100),
    }),
    fc.record({
      type: fc.constant('warmth' as const),
      batch: fc.constant(batch),
      celsius: fc.integer({ min: 10, max: 30 }),
    }),
    fc.record({
      type: fc.constant('culture' as const),
      key,
      species: someText,
      source: someText,
      form: fc.constantFrom(...CULTURE_FORMS),
      made: fc.constantFrom('', '2026-11-04'),
    }),
  );
};

/** A diary about that batch, some of it taken back. */
export const someDiary = (batch: string): fc.Arbitrary<readonly DiaryEntry[]> =>
  fc.array(fc.tuple(someEvent(batch), fc.nat(40), fc.nat(9)), { maxLength: 14 }).map(rows =>
    rows.map(([event, day, chance], index) => ({
      id: `${batch}-${String(index).padStart(4, '0')}`,
      wall: BEGAN_WALL + day * DAY,
      event:
        chance === 0 && index > 0
          ? { type: 'taken-back', entry: `${batch}-${String(index - 1).padStart(4, '0')}` }
          : event,
    })),
  );
