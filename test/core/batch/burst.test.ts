import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openAsk } from '../../../src/core/batch/lockout.ts';
import { WORDS, step } from '../../../src/core/batch/machine.ts';
import type { BatchEvent, TypedPurpose } from '../../../src/core/batch/events.ts';
import type { Run } from '../../../src/core/batch/state.ts';
import { ASKS, type AskId, type StepId, choicesOf, isJudgement } from '../../../src/core/batch/steps.ts';
import { troublesIn } from '../../../src/core/batch/troubles.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { amountsAt } from '../../help/batch-commands.ts';
import { Drive, onKey } from '../../help/batch-drive.ts';
import { explore } from '../../help/batch-explore.ts';
import { VARIANTS } from '../../help/batch-kit.ts';

const SEED = 20260330;
const ASK_IDS = Object.keys(ASKS) as AskId[];
const PURPOSES = Object.keys(WORDS) as TypedPurpose[];
const runs = Object.values(VARIANTS).flatMap(header => explore(header, 0).found.map(({ run }) => run));

const at = (run: Run) => ({ t: run.batch.now, wall: run.batch.wall });
const taken = (run: Run, event: BatchEvent): Run | null => {
  const outcome = step(run, event);
  return outcome.ok ? outcome.run : null;
};
const place = ({ batch }: Run) => `${batch.step}/${openAsk(batch)}`;

/** What keys can do: answers to the open question, and the troubles offered here. */
function keyEvents(run: Run): BatchEvent[] {
  const ask = openAsk(run.batch);
  return [
    ...choicesOf(ask).flatMap(choice =>
      (choice.amount ? amountsAt(ask, run.batch) : [undefined]).map(
        (amount): BatchEvent => ({
          type: 'answer',
          ask,
          choice: choice.id,
          ...(amount === undefined ? {} : { amount }),
          ...at(run),
        }),
      ),
    ),
    ...troublesIn(run.batch.step).map(({ id }): BatchEvent => ({ type: 'trouble', trouble: id, ...at(run) })),
  ];
}

describe(`S5: one event, in each of ${runs.length} states`, () => {
  it('a judgement has no plain answer: Space is dead on it', () => {
    const judgements = [
      'kernel-centre',
      'burst',
      'towel',
      'steam',
      'climbing',
      'holding',
      'gauge-zero',
      'pin',
    ];
    const more = ['lifted', 'warmth', 'away-steam', 'away-gauge', 'clock-claim'];
    expect(ASK_IDS.filter(ask => ask !== 'finished' && isJudgement(ask)).sort()).toEqual(
      [...judgements, ...more].sort(),
    );
    for (const ask of [...judgements, ...more]) expect(onKey(ask as AskId, 'space')).toBeUndefined();
  });

  it('at most four answers and one plain one, each on a key of its own', () => {
    for (const ask of ASK_IDS) {
      const keys = choicesOf(ask).map(choice => choice.key);
      expect(new Set(keys).size, ask).toBe(keys.length);
      expect(keys.length, ask).toBeLessThanOrEqual(4);
    }
  });

  it('an answer to any question that is not open is refused', () => {
    const wrong: string[] = [];
    for (const run of runs) {
      const open = openAsk(run.batch);
      for (const ask of ASK_IDS) {
        if (ask === open) continue;
        for (const { id } of choicesOf(ask)) {
          if (taken(run, { type: 'answer', ask, choice: id, amount: 1, ...at(run) }))
            wrong.push(`${place(run)}: ${ask} ${id}`);
        }
      }
    }
    expect(wrong).toEqual([]);
  });

  it('an answer that is no answer of its question is refused', () => {
    const run = new Drive(Object.values(VARIANTS)[0] ?? expect.fail()).run;
    for (const choice of ['', 'constructor', '__proto__', 'toString', 'READY', 'as-planned']) {
      expect(step(run, { type: 'answer', ask: 'gear-check', choice, ...at(run) })).toMatchObject({
        refusal: { code: 'no-such-answer' },
      });
    }
  });

  it('a typed deed without its word is refused', () => {
    const wrong: string[] = [];
    for (const run of runs) {
      for (const purpose of PURPOSES) {
        for (const word of ['', ' ', `${WORDS[purpose]}${WORDS[purpose]}`, WORDS[purpose].slice(1)]) {
          if (taken(run, { type: 'typed', purpose, word, ...at(run) }))
            wrong.push(`${place(run)}: ${purpose} "${word}"`);
        }
      }
    }
    expect(wrong).toEqual([]);
  });

  it('ends nothing: only low water, too much pressure and a blocked vent end a batch, and that by way of the lock', () => {
    const wrong: string[] = [];
    let low = 0;
    for (const run of runs) {
      for (const event of keyEvents(run)) {
        const after = taken(run, event);
        if (!after || after.batch.endedEarly === run.batch.endedEarly) continue;
        const ends =
          event.type === 'trouble' && ['water-low', 'over-pressure', 'vent-blocked'].includes(event.trouble);
        if (ends && after.batch.step === 'heat-off') low += 1;
        else wrong.push(`${place(run)}: ${JSON.stringify(event)}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(low).toBeGreaterThan(0);
  });

  it('deletes nothing: no container, deviation or judged kernel is gone, but bags that were never filled', () => {
    const wrong: string[] = [];
    for (const run of runs) {
      for (const event of keyEvents(run)) {
        const after = taken(run, event)?.batch;
        if (!after) continue;
        const { batch } = run;
        const unfilled = batch.containers.slice(after.containers.length).every(each => each.kg === null);
        const kept =
          after.deviations.length >= batch.deviations.length &&
          after.kernels.length >= batch.kernels.length &&
          after.readings.length >= batch.readings.length;
        if (!kept || !unfilled) wrong.push(`${place(run)}: ${JSON.stringify(event)}`);
      }
    }
    expect(wrong).toEqual([]);
  });
});

describe('S5: a towel over the keyboard, a cat, a held key', () => {
  const counted: readonly { readonly ask: AskId; readonly leads: readonly StepId[] }[] = [
    { ask: 'soaking', leads: ['simmer'] },
    { ask: 'towel', leads: ['portion'] },
    { ask: 'venting', leads: ['climb', 'hold'] },
    { ask: 'holding', leads: [] },
    { ask: 'gauge-zero', leads: ['unload'] },
    { ask: 'pin', leads: ['unload'] },
    { ask: 'shut', leads: ['unload'] },
  ];
  const keys = fc.array(fc.tuple(fc.constantFrom('answer', 'answer', 'trouble', 'undo'), fc.nat(5)), {
    minLength: 1,
    maxLength: 60,
  });

  it.each(counted)('no burst of keys gets past $ask before its time', ({ ask, leads }) => {
    const starts = Object.values(VARIANTS)
      .filter(header => ask !== 'soaking' || header.recipe.soak)
      .map(header => {
        const drive = new Drive(header).toAsk(ask);
        // A minute into it, so that there is something to lose.
        return ask === 'towel' ? drive.run : drive.wait(ask === 'pin' ? 0 : MINUTE).run;
      });
    let pressed = 0;
    fc.assert(
      fc.property(fc.constantFrom(...starts), keys, (start, burst) => {
        let run = start;
        for (const [kind, place] of burst) {
          const events =
            kind === 'undo'
              ? [{ type: 'undo', ...at(run) } as const]
              : keyEvents(run).filter(({ type }) => type === kind);
          const event = events[place % Math.max(1, events.length)];
          const after = event && taken(run, event);
          if (!after) continue;
          run = after;
          pressed += 1;
          expect(leads).not.toContain(run.batch.step);
          if (run.batch.step === 'hold')
            expect(run.batch.hold.creditMs).toBeLessThanOrEqual(start.batch.hold.creditMs);
          // Undo may go back to heat-off and from there into a new lock, which ends no earlier.
          if (run.batch.lock && start.batch.lock) {
            expect(run.batch.lock.pressureUntil).toBeGreaterThanOrEqual(start.batch.lock.pressureUntil);
          }
        }
      }),
      { seed: SEED, numRuns: 400 },
    );
    expect(pressed).toBeGreaterThan(800);
  });
});
