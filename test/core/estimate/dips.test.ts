import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holdLeftMs, holdMs } from '../../../src/core/batch/advance.ts';
import { readEntry } from '../../../src/core/batch/entry.ts';
import type { BatchEvent } from '../../../src/core/batch/events.ts';
import { awayOutcomes } from '../../../src/core/estimate/away.ts';
import { dipsOf } from '../../../src/core/estimate/dips.ts';
import { estimateAt } from '../../../src/core/estimate/estimate.ts';
import { dipWords } from '../../../src/core/words/estimate-advice.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { tellingOf } from '../../../src/face/format.ts';
import { HOLD } from '../../help/batch-kit.ts';
import { reopened, type Stove, stove } from './stove-kit.ts';

const endF0 = (here: Stove): number => estimateAt(here.batch)?.end?.f0Min.likely ?? Number.NaN;
const words = (here: Stove): string =>
  dipsOf(here.batch)
    .map(dip => dipWords(dip, tellingOf(here.batch, here.batch.header.kitchen.units)))
    .join(' ');

describe('a dip', () => {
  it('under "restart" takes back what was held and adds nothing', () => {
    const here = stove()
      .toHold()
      .wait(30 * MINUTE)
      .answer('reading', 80)
      .wait(8 * MINUTE)
      .answer('at');
    expect(here.batch.dips).toMatchObject([{ lostMs: 30 * MINUTE, addedMs: 0 }]);
    expect(holdMs(here.batch)).toBe(HOLD);
    expect(holdLeftMs(here.batch)).toBe(HOLD);
    expect(words(here as Stove)).toMatch(/8 min below target, 30 min already held start over, about F0/);
  });

  it('under "make up" adds what its minutes do not make up by themselves', () => {
    const long = stove({ dips: 'make up' })
      .toHold()
      .wait(50 * MINUTE)
      .answer('at')
      .gap(50 * MINUTE);
    long.answer('fell-back-now');
    const [dip] = long.batch.dips;
    expect(dip?.addedMs).toBeGreaterThan(0);
    expect(holdMs(long.batch)).toBe(HOLD + (dip?.addedMs ?? 0));
    expect(words(long as Stove)).toMatch(
      /: up to 50 min below target, about F0 [\d.]+ less at the planned end, \d+ min added/,
    );
    const short = stove({ dips: 'make up' })
      .toHold()
      .wait(10 * MINUTE)
      .answer('reading', 95);
    short.wait(3 * MINUTE).answer('at');
    expect(short.batch.dips).toMatchObject([{ addedMs: 0, lostMs: 0 }]);
  });

  it('never shortens the hold, and brings the likely lethality at the end back to what it was', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 80 }),
        fc.integer({ min: 1, max: 45 }),
        fc.integer({ min: 0, max: 100 }),
        (before, low, kPa) => {
          const here = stove({ dips: 'make up' })
            .toHold()
            .wait(before * MINUTE)
            .answer('at') as Stove;
          const planned = endF0(here);
          here
            .answer('reading', kPa)
            .wait(low * MINUTE)
            .answer('at');
          expect(holdMs(here.batch)).toBeGreaterThanOrEqual(HOLD);
          expect(endF0(here)).toBeGreaterThan(planned - 0.05);
          // Added by whole minutes: a minute at target is worth at most about one of F0.
          if (here.batch.hold.extraMs > 0) expect(endF0(here)).toBeLessThan(planned + 1.1);
        },
      ),
      { numRuns: 60, seed: 3 },
    );
  });

  it('that never comes back stays open and costs nothing that anybody knows', () => {
    const here = stove({ dips: 'make up' })
      .toHold()
      .wait(30 * MINUTE)
      .answer('below')
      .wait(9 * MINUTE);
    expect(words(here as Stove)).toMatch(/9 min below target so far/);
    here.type('end-hold').wait(MINUTE);
    expect(here.batch.dips).toMatchObject([{ to: null, f0Min: null }]);
  });

  it('keeps its cost through the journal, whatever a later model would say', () => {
    const here = stove({ dips: 'make up' })
      .toHold()
      .wait(50 * MINUTE)
      .answer('at')
      .gap(50 * MINUTE);
    here.answer('fell-back-now');
    const again = reopened(here.batch.header, here.events);
    expect(again.dips).toEqual(here.batch.dips);
    expect(again.hold).toEqual(here.batch.hold);
    const changed = here.events.map(event =>
      event.type === 'answer' && event.dipCost ? { ...event, dipCost: { addS: 600, f0Min: 1 } } : event,
    );
    expect(reopened(here.batch.header, changed).hold.extraMs).toBe(10 * MINUTE);
  });

  it('undone, takes its minutes with it', () => {
    const here = stove({ dips: 'make up' })
      .toHold()
      .wait(50 * MINUTE)
      .answer('at')
      .gap(50 * MINUTE);
    here.answer('fell-back-now');
    expect(here.batch.hold.extraMs).toBeGreaterThan(0);
    here.undo();
    expect(here.batch).toMatchObject({ dips: [], hold: { extraMs: 0 } });
  });
});

describe('the cost of a dip in a journal', () => {
  const entry = (dipCost: unknown) =>
    readEntry({
      uptime: 1,
      boot: 'b',
      event: {
        type: 'answer',
        ask: 'holding',
        choice: 'at',
        t: 1,
        wall: 1,
        dipCost,
      } as unknown as BatchEvent,
    });
  it('is read when it is one, and otherwise the line is no entry', () => {
    expect(entry({ addS: 120, f0Min: 1.5 })?.event).toMatchObject({ dipCost: { addS: 120, f0Min: 1.5 } });
    expect(entry(undefined)?.event).not.toHaveProperty('dipCost');
    for (const bad of [
      null,
      5,
      'x',
      {},
      { addS: -1, f0Min: 0 },
      { addS: 1e9, f0Min: 0 },
      { addS: 60, f0Min: Number.NaN },
    ])
      expect(entry(bad), JSON.stringify(bad)).toBeNull();
  });
});

describe('before an answer about unseen time', () => {
  it.each(['restart', 'make up'] as const)('each says what it then does, under %s', dips => {
    const away = () =>
      stove({ dips })
        .toHold()
        .wait(40 * MINUTE)
        .answer('at')
        .gap(35 * MINUTE) as Stove;
    const outcomes = awayOutcomes(away().batch);
    expect(outcomes.map(({ choice }) => choice)).toEqual([
      'fell-below-now',
      'stayed',
      'fell-back-now',
      'unknown',
    ]);
    for (const { choice, leftMs, endAt, f0Now } of outcomes) {
      const here = away();
      here.answer(choice);
      expect(f0Now?.likely, choice).toBeCloseTo(estimateAt(here.batch)?.f0Min.likely ?? Number.NaN, 9);
      if (here.batch.hold.belief !== 'at') here.answer('at');
      expect(leftMs, choice).toBe(here.batch.step === 'hold' ? holdLeftMs(here.batch) : 0);
      expect(endAt, choice).toBe(leftMs > 0 ? here.batch.now + leftMs : null);
    }
  });
  it('says that the hold is over when it would be', () => {
    const here = stove()
      .toHold()
      .wait(40 * MINUTE)
      .answer('at')
      .gap(2 * HOUR);
    expect(awayOutcomes(here.batch).find(({ choice }) => choice === 'stayed')?.leftMs).toBe(0);
  });
});
