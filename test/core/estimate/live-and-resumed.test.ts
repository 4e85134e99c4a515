import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openAsk } from '../../../src/core/batch/lockout.ts';
import type { Batch } from '../../../src/core/batch/state.ts';
import { choicesOf } from '../../../src/core/batch/steps.ts';
import { troublesIn } from '../../../src/core/batch/troubles.ts';
import { type Estimate, estimateAt } from '../../../src/core/estimate/estimate.ts';
import { numberRows, estimateSentences } from '../../../src/core/words/estimate.ts';
import { stoveAdvice } from '../../../src/core/words/estimate-advice.ts';
import type { Band } from '../../../src/core/science/limits.ts';
import { MINUTE, SECOND } from '../../../src/core/time.ts';
import { tellingOf } from '../../../src/face/format.ts';
import { reopened, type Stove, stove } from './stove-kit.ts';

/** What a person, a clock and a battery do at the stove; most of it makes sense. */
const act = fc.oneof(
  { weight: 4, arbitrary: fc.integer({ min: 1, max: 40 }).map(min => ['wait', min] as const) },
  { weight: 4, arbitrary: fc.nat(3).map(key => ['answer', key] as const) },
  { weight: 3, arbitrary: fc.integer({ min: 0, max: 130 }).map(kPa => ['read', kPa] as const) },
  { weight: 2, arbitrary: fc.integer({ min: 15, max: 121 }).map(celsius => ['probe', celsius] as const) },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 90 }).map(min => ['gap', min] as const) },
  { weight: 1, arbitrary: fc.nat(3).map(which => ['trouble', which] as const) },
  { weight: 1, arbitrary: fc.constant(['undo', 0] as const) },
  { weight: 2, arbitrary: fc.constant(['plan', 0] as const) },
);

function does(here: Stove, [what, much]: readonly [string, number]): void {
  const choices = choicesOf(openAsk(here.batch));
  switch (what) {
    case 'wait':
      here.wait(much * MINUTE + 7 * SECOND);
      return;
    case 'gap':
      here.gap(much * MINUTE);
      return;
    case 'probe':
      here.tries({ type: 'measured', of: 'centre', celsius: much });
      return;
    case 'undo':
      here.tries({ type: 'undo' });
      return;
    case 'plan':
      if (here.batch.finishedAt === null) here.plannedMove();
      return;
    case 'trouble': {
      const row = troublesIn(here.batch.step)[much];
      if (row) here.tries({ type: 'trouble', trouble: row.id });
      return;
    }
    default: {
      const choice = what === 'read' ? choices.find(({ amount }) => amount === 'pressure') : choices[much];
      if (!choice || (choice.amount && what !== 'read')) return;
      const amount = what === 'read' ? { amount: much } : {};
      here.tries({ type: 'answer', ask: openAsk(here.batch), choice: choice.id, ...amount });
    }
  }
}

const evenings = fc.record({
  dips: fc.constantFrom('restart' as const, 'make up' as const),
  jars: fc.boolean(),
  acts: fc.array(act, { minLength: 3, maxLength: 25 }),
});

/** The whole of both, to the last bit; a difference would fill pages. */
const isSame = (a: Estimate | null, b: Estimate | null): boolean => JSON.stringify(a) === JSON.stringify(b);
const says = ([what, much]: readonly [string, number]): string => `after ${what} ${much}`;

function bands({ chamberC, centreC, f0Min, logs, end, cool }: Estimate): readonly Band[] {
  const more = end ? [end.centreC, end.f0Min, end.logs] : [];
  const times = cool
    ? [cool.zeroAt, ...(cool.bagAt ? [cool.bagAt] : []), ...(cool.vesselAt ? [cool.vesselAt] : [])]
    : [];
  return [chamberC, centreC, f0Min, logs, ...more, ...times];
}

/** Every word that the screen would show of it. */
function said(batch: Batch): string {
  const estimate = estimateAt(batch);
  if (!estimate) return '';
  const telling = tellingOf(batch, batch.header.kitchen.units);
  const rows = numberRows(batch, estimate, telling).map(row => Object.values(row).join(' '));
  return [...rows, ...estimateSentences(batch, estimate, telling), stoveAdvice(batch, telling) ?? ''].join(
    '\n',
  );
}

describe('the estimate is a function of what was kept', () => {
  it('is the same live, after a restart, and however often the clock ticked', () => {
    let seen = 0;
    fc.assert(
      fc.property(evenings, ({ dips, jars, acts }) => {
        const here = stove({ dips, jars, loads: [1] }).toClimb();
        for (const each of acts) {
          does(here, each);
          const live = estimateAt(here.batch);
          const again = reopened(here.batch.header, here.events);
          expect(isSame(estimateAt(again), live), says(each)).toBe(true);
          if (live) seen += 1;
        }
        // Without the ticks in between: a journal keeps answers, and the last beat before a pause.
        const { now, wall } = here.batch;
        const answered = here.events.filter(
          ({ type }, index) => type !== 'tick' || here.events[index + 1]?.type === 'gap',
        );
        const sparse = reopened(here.batch.header, [...answered, { type: 'tick', t: now, wall }]);
        expect(isSame(estimateAt(sparse), estimateAt(here.batch)), 'without ticks').toBe(true);
      }),
      { numRuns: 120, seed: 20261125 },
    );
    expect(seen).toBeGreaterThan(500);
  });

  it('keeps its bands in order and its figures finite, and never calls anything sterile', () => {
    fc.assert(
      fc.property(evenings, ({ dips, jars, acts }) => {
        const here = stove({ dips, jars, loads: [1] }).toClimb();
        for (const each of acts) {
          does(here, each);
          const estimate = estimateAt(here.batch);
          if (!estimate) continue;
          for (const { low, likely, high } of bands(estimate)) {
            expect(Number.isFinite(low) && Number.isFinite(likely) && Number.isFinite(high)).toBe(true);
            expect(low).toBeLessThanOrEqual(likely + 1e-9);
            expect(likely).toBeLessThanOrEqual(high + 1e-9);
          }
          expect(said(here.batch)).not.toMatch(/NaN|undefined|Infinity|steril/i);
          // What was read later may correct what was thought, but nothing is ever below nothing.
          expect(estimate.f0Min.low).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 300, seed: 7 },
    );
  });
});
