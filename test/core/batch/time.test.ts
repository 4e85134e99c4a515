import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openAsk } from '../../../src/core/batch/lockout.ts';
import { begin, step } from '../../../src/core/batch/machine.ts';
import { replay } from '../../../src/core/batch/replay.ts';
import type { BatchEvent } from '../../../src/core/batch/events.ts';
import type { Run } from '../../../src/core/batch/state.ts';
import { DAY, HOUR, MINUTE, SECOND } from '../../../src/core/time.ts';
import { commands, start } from '../../help/batch-commands.ts';
import { Drive, straightThrough } from '../../help/batch-drive.ts';
import {
  COOL,
  HOLD,
  PRESSURE_LOCK,
  SOAK,
  TOWEL,
  VARIANTS,
  VENT,
  sampleHeader,
} from '../../help/batch-kit.ts';

const SEED = 20260329;

/** Any life of a batch, as its journal and the states after each event. */
const lives = fc.tuple(fc.constantFrom(...Object.values(VARIANTS)), commands(40)).map(([header, acts]) => {
  const { model, real } = start(header);
  fc.modelRun(() => ({ model, real }), acts);
  return { header, events: real.events as readonly BatchEvent[], run: real.run };
});

describe('S4: the journal is the batch', () => {
  it('replaying any prefix gives the state at that prefix, through JSON and back', () => {
    fc.assert(
      fc.property(lives, fc.double({ min: 0, max: 1, noNaN: true }), ({ header, events }, share) => {
        const cut = Math.floor(share * events.length);
        let live: Run = begin(header);
        for (const event of events.slice(0, cut)) {
          const outcome = step(live, event);
          if (outcome.ok) live = outcome.run;
        }
        const kept = JSON.parse(JSON.stringify({ header, events: events.slice(0, cut) }));
        const again = replay(kept.header, kept.events);
        expect(again.misfits).toEqual([]);
        expect(JSON.stringify(again.run)).toBe(JSON.stringify(live));
      }),
      { seed: SEED, numRuns: 500 },
    );
  });

  it('leaves a refused event out, names it, and goes on', () => {
    const { events } = new Drive(sampleHeader()).to('soak');
    const last = events.at(-1);
    const wrong: BatchEvent = { type: 'answer', ask: 'shut', choice: 'lid-open', t: last?.t ?? 0, wall: 0 };
    const { run, misfits } = replay(sampleHeader(), [...events.slice(0, 1), wrong, ...events.slice(1)]);
    expect(misfits).toEqual([{ index: 1, code: 'other-question' }]);
    expect(run.batch.step).toBe('soak');
  });
});

describe('S6: time', () => {
  it('one long tick equals any number of short ones, in every step', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.values(VARIANTS)),
        fc.nat(70),
        fc.array(fc.integer({ min: 0, max: 3 * HOUR }), { minLength: 1, maxLength: 30 }),
        (header, moves, parts) => {
          const one = new Drive(header);
          for (let done = 0; done < moves && one.batch.finishedAt === null; done += 1) one.plannedMove();
          const many = new Drive(header);
          many.run = one.run;
          for (const ms of parts) many.wait(ms);
          one.wait(parts.reduce((sum, ms) => sum + ms, 0));
          expect(many.run).toEqual(one.run);
        },
      ),
      { seed: SEED, numRuns: 1000 },
    );
  });

  it('ticks may be missing from the journal: an answer after them leads to the same batch', () => {
    fc.assert(
      fc.property(lives, ({ header, events, run }) => {
        // A gap says that nobody vouches for the time since the last kept event, so a tick before one counts.
        const kept = events.filter(
          (event, at) => event.type !== 'tick' || ['gap', undefined].includes(events[at + 1]?.type),
        );
        expect(replay(header, kept).run).toEqual(run);
      }),
      { seed: SEED, numRuns: 500 },
    );
  });

  it('refuses a time that ran back or is no time, whatever the event', () => {
    fc.assert(
      fc.property(lives, fc.constantFrom(1, SECOND, DAY), ({ run }, ms) => {
        const { now, wall } = run.batch;
        const all: BatchEvent[] = [now - ms, Number.NaN, Infinity, -Infinity].flatMap(t => [
          { type: 'tick', t, wall },
          { type: 'gap', why: 'asleep', t, wall },
          { type: 'undo', t, wall },
          { type: 'answer', ask: openAsk(run.batch), choice: 'at', t, wall },
        ]);
        for (const event of all) {
          expect(step(run, event)).toEqual({ ok: false, refusal: { code: 'time-ran-back' } });
        }
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it('does not look at the wall clock: set to anything, every countdown stays', () => {
    const { events, run } = straightThrough(sampleHeader());
    const wild = events.map((event, at) => ({ ...event, wall: at % 2 ? 0 : 4e12 }));
    const again = replay(sampleHeader(), wild);
    expect(again.misfits).toEqual([]);
    expect(again.run.batch).toEqual({ ...run.batch, wall: again.run.batch.wall });
  });

  const countdowns = [
    { ask: 'soaking', choice: 'soaked', ms: SOAK },
    { ask: 'towel', choice: 'faint', ms: TOWEL },
    { ask: 'venting', choice: 'valve-closed', ms: VENT },
    { ask: 'pin', choice: 'down', ms: PRESSURE_LOCK },
    { ask: 'shut', choice: 'lid-open', ms: COOL },
  ] as const;
  it.each(countdowns)(
    'a claim of ten years that nobody vouches for leaves $ask as it was',
    ({ ask, choice }) => {
      const drive = new Drive(sampleHeader()).toAsk(ask);
      const until = drive.refusal(choice)?.until;
      drive.gap(SECOND, 'restart', 3650 * DAY);
      expect(drive.tries({ type: 'answer', ask, choice })?.code).toBe('answer-first');
      drive.answer('clock-wrong');
      if (ask === 'venting') drive.answer('stayed');
      expect(until).toBeGreaterThan(drive.batch.now);
      expect(drive.refusal(choice)?.until).toBe(until);
    },
  );

  it.each(countdowns)('sleep counts for $ask, to the millisecond, and no more', ({ ask, choice, ms }) => {
    const drive = new Drive(sampleHeader()).toAsk(ask);
    const left = (drive.refusal(choice)?.until ?? 0) - drive.batch.now;
    expect(left).toBeGreaterThan(0);
    expect(left).toBeLessThanOrEqual(ms);
    drive.gap(left - 1);
    if (ask === 'venting') drive.answer('stayed');
    expect(drive.refusal(choice)).not.toBeNull();
    expect(drive.wait(1).refusal(choice)).toBeNull();
  });

  it('claims add up, and are believed by the typed word alone, once', () => {
    const drive = new Drive(sampleHeader())
      .to('soak')
      .gap(MINUTE, 'restart', HOUR)
      .gap(MINUTE, 'restart', HOUR);
    expect(drive.batch.claim).toEqual({ ms: 2 * HOUR });
    const { now } = drive.batch;
    expect(drive.tries({ type: 'typed', purpose: 'clock-right', word: 'yes' })?.code).toBe('word-differs');
    expect(drive.type('clock-right').batch.now).toBe(now + 2 * HOUR);
    expect(drive.tries({ type: 'typed', purpose: 'clock-right', word: 'right' })?.code).toBe('not-here');
    expect(drive.tries({ type: 'undo' })?.code).toBe('nothing-to-undo');
  });

  it('a claim in the hold credits nothing until the gauge is answered for too', () => {
    const drive = new Drive(sampleHeader())
      .to('hold')
      .wait(MINUTE)
      .gap(MINUTE, 'restart', 10 * MINUTE);
    drive.type('clock-right');
    expect(drive.batch.hold.creditMs).toBe(MINUTE);
    expect(drive.answer('stayed').batch.hold.creditMs).toBe(12 * MINUTE);
    expect(drive.batch.hold.creditMs).toBeLessThan(HOLD);
  });

  it('a finished batch is asked nothing about clocks', () => {
    const drive = straightThrough(sampleHeader()).gap(HOUR, 'restart', 10 * DAY);
    expect(openAsk(drive.batch)).toBe('finished');
    expect(drive.batch.step).toBe('done');
  });
});
