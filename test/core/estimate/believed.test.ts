import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { step } from '../../../src/core/batch/machine.ts';
import type { Batch } from '../../../src/core/batch/state.ts';
import { awayOutcomes } from '../../../src/core/estimate/away.ts';
import { bandAt } from '../../../src/core/estimate/corners.ts';
import { priced } from '../../../src/core/estimate/dips.ts';
import { type Estimate, estimateAt } from '../../../src/core/estimate/estimate.ts';
import { dryInstant, waterLeft } from '../../../src/core/estimate/water.ts';
import type { Band } from '../../../src/core/science/limits.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { numberRows } from '../../../src/core/words/estimate.ts';
import { overrunWords } from '../../../src/core/words/estimate-advice.ts';
import { tellingOf } from '../../../src/face/format.ts';
import { boilsAtC } from './saturation.ts';
import { type Stove, stove } from './stove-kit.ts';

const BOIL = 97.9;
const AT = boilsAtC(103 + 93.9);
/** What a cut series may be off by while the chamber ramps, K or min (science notes, e2). */
const SERIES = 0.001;
const of = (batch: Batch): Estimate => estimateAt(batch) ?? expect.fail('no estimate');
const telling = (batch: Batch) => tellingOf(batch, batch.header.kitchen.units);
const rowNames = (batch: Batch) => numberRows(batch, of(batch), telling(batch)).map(({ name }) => name);

describe('a climb that nobody answers', () => {
  it('is on its way for the usual time, and then not believed to have arrived', () => {
    const here = stove().toClimb();
    expect(of(here.wait(4 * MINUTE).batch).chamberC.likely).toBeGreaterThan(BOIL + 5);
    here.wait(3 * HOUR);
    const { chamberC, f0Min, centreC } = of(here.batch);
    expect(chamberC.low).toBeCloseTo(BOIL, 6);
    expect(chamberC.likely).toBeCloseTo(BOIL, 6);
    expect(f0Min.low).toBeLessThan(0.5);
    expect(f0Min.likely).toBeLessThan(1);
    expect(centreC.likely).toBeLessThan(BOIL + 1);
    // And no end is planned for a hold that may never begin.
    expect(of(here.batch).end).toBeNull();
  });

  it('stays near no pressure after "will not climb", until a reading says otherwise', () => {
    const here = stove()
      .toClimb()
      .wait(2 * MINUTE)
      .trouble('will-not-climb');
    // No hold is planned on a pressure that does not come.
    expect(of(here.batch)).toMatchObject({ end: null, ahead: null });
    here.wait(40 * MINUTE);
    const { chamberC, f0Min } = of(here.batch);
    expect(chamberC.likely).toBeCloseTo(BOIL, 6);
    // Five psi at most.
    expect(chamberC.high).toBeLessThan(boilsAtC(35 + 93.9) + 0.1);
    expect(f0Min.high).toBeLessThan(3);
    expect(of(here.answer('reading', 60).batch).chamberC.likely).toBeCloseTo(boilsAtC(60 + 93.9), 1);
  });

  it('answered "below target" it is not believed near it', () => {
    const here = stove()
      .toClimb()
      .wait(6 * MINUTE)
      .answer('below')
      .wait(60 * MINUTE);
    expect(of(here.batch).chamberC.likely).toBeLessThan(boilsAtC(52 + 93.9) + 0.1);
    expect(of(here.batch).f0Min.likely).toBeLessThan(3);
  });

  it('a number and then silence for hours: no more than that number', () => {
    const here = stove()
      .toClimb()
      .wait(4 * MINUTE)
      .answer('reading', 50)
      .wait(2 * HOUR);
    expect(of(here.batch).chamberC.likely).toBeCloseTo(boilsAtC(50 + 93.9), 1);
    expect(of(here.batch).chamberC.low).toBeCloseTo(BOIL, 6);
  });

  it('at target only after hours: it stood low for most of them', () => {
    const here = stove()
      .toClimb()
      .wait(2 * HOUR)
      .answer('at');
    const { chamber, f0Min } = of(here.batch);
    expect(bandAt(chamber.corners, here.batch.now - HOUR).likely).toBeCloseTo(BOIL, 6);
    expect(f0Min.likely).toBeLessThan(1);
  });
});

describe('below target', () => {
  it('stays below, now and ahead, until it is said to be back', () => {
    const here = stove()
      .toHold()
      .wait(20 * MINUTE)
      .answer('below');
    const told = of(here.batch).chamberC;
    expect(told.high).toBeLessThan(AT);
    let last: Band = told;
    for (const _ of [1, 2, 3, 4]) {
      const { chamberC, ahead } = of(here.wait(10 * MINUTE).batch);
      expect(chamberC.high).toBeLessThan(AT);
      expect(chamberC.likely).toBeLessThanOrEqual(last.likely);
      expect(ahead).toBeNull();
      last = chamberC;
    }
    expect(of(here.answer('at').batch).chamberC.likely).toBeCloseTo(AT, 1);
  });
});

describe('"below" after time of which nobody knows', () => {
  const told: readonly (readonly [string, (here: Stove) => unknown])[] = [
    ['after "don’t know"', here => here.gap(97 * MINUTE).answer('unknown')],
    ['after "below all the time"', here => here.gap(97 * MINUTE).answer('fell-below-now')],
    ['after "below" long ago', here => here.answer('below').wait(97 * MINUTE)],
    ['after a low number long ago', here => here.answer('reading', 60).wait(50 * MINUTE)],
    ['in a cooker that is dry by the estimate', here => here.answer('below').wait(9 * HOUR)],
  ];
  it.each(told)('%s says only "below": low and likely do not rise', (_, history) => {
    const here = stove()
      .toHold()
      .wait(20 * MINUTE) as Stove;
    history(here);
    for (const later of [0, 1, 10]) {
      const before = of(here.wait(later * MINUTE).batch).chamberC;
      const after = of(here.answer('below').batch).chamberC;
      expect(after.low).toBeLessThanOrEqual(before.low + 0.05);
      expect(after.likely).toBeLessThanOrEqual(before.likely + 0.05);
      expect(after.high).toBeLessThan(AT);
    }
    expect(of(here.answer('at').batch).chamberC.likely).toBeCloseTo(AT, 1);
  });
});

/** Water for about a quarter of an hour of vent and no more than some minutes of hold. */
const thirsty = (header: Batch['header']): Batch['header'] => ({
  ...header,
  numbers: { ...header.numbers, cookerWaterL: 0.5, leastWaterL: 0.5 },
});

describe('a cooker that is dry by the estimate', () => {
  it('makes no steam: nothing is credited on the low side, and likely does not stay at target', () => {
    const here = stove({}, thirsty).toHold();
    const dryAt = dryInstant(here.batch).likely;
    expect(dryAt).toBeGreaterThan(here.batch.now);
    here.wait(dryAt - here.batch.now + MINUTE);
    const before = of(here.batch);
    expect(waterLeft(here.batch)?.litres.likely).toBe(0);
    here.wait(HOUR);
    const { chamberC, f0Min } = of(here.batch);
    expect(chamberC.low).toBeLessThanOrEqual(BOIL);
    expect(chamberC.likely).toBeLessThan(AT - 10);
    expect(chamberC.high).toBeGreaterThan(AT);
    // What the middle of a bag still gains comes from the heat that is in it.
    expect(f0Min.low - before.f0Min.low).toBeLessThan(0.2);
  });

  it('is dry at an instant that does not move with the clock, also once it is past', () => {
    const here = stove({}, thirsty).toHold();
    const { low, likely, high } = waterLeft(here.batch)?.dryAt ?? expect.fail();
    for (const ms of [3, 30, 90]) {
      const again = waterLeft(here.wait(ms * MINUTE).batch)?.dryAt;
      expect(again?.low).toBeCloseTo(low, 3);
      expect(again?.likely).toBeCloseTo(likely, 3);
      expect(again?.high).toBeCloseTo(high, 3);
    }
    here.to('heat-off').wait(5 * MINUTE);
    const first = overrunWords(here.batch, telling(here.batch));
    const worst = /at worst (?:since )?(.*?)\./.exec(first ?? '')?.[1];
    expect(worst).toBeDefined();
    expect(overrunWords(here.wait(7 * MINUTE).batch, telling(here.batch))).toMatch(
      new RegExp(`at worst (since )?${worst}\\.`),
    );
  });
});

describe('the hold that F0 15 takes', () => {
  it('is told while the hold runs as begun, and neither after a restart nor once it is over', () => {
    const here = stove()
      .toHold()
      .wait(20 * MINUTE)
      .answer('at') as Stove;
    expect(rowNames(here.batch)).toContain('for F0 15');
    here.answer('below').wait(MINUTE).answer('at').wait(MINUTE);
    expect(of(here.batch).end).not.toBeNull();
    expect(rowNames(here.batch)).not.toContain('for F0 15');
    const over = stove().toHold().to('heat-off').wait(MINUTE);
    expect(rowNames(over.batch)).not.toContain('for F0 15');
  });
});

describe('after time that nobody watched', () => {
  it('stayed is worth the most, then dipped and back, then don’t know, then below all the time', () => {
    let compared = 0;
    const history = fc.record({
      dips: fc.constantFrom('restart' as const, 'make up' as const),
      first: fc.integer({ min: 0, max: 60 }),
      reading: fc.option(fc.integer({ min: 102, max: 125 }), { nil: null }),
      second: fc.integer({ min: 0, max: 28 }),
      gap: fc.integer({ min: 1, max: 100 }),
      after: fc.integer({ min: 0, max: 15 }),
    });
    fc.assert(
      fc.property(history, ({ dips, first, reading, second, gap, after }) => {
        const here = stove({ dips }).toHold();
        here.wait(first * MINUTE);
        if (here.batch.step !== 'hold') return;
        if (reading === null) here.answer('at');
        else here.answer('reading', reading);
        here
          .wait(second * MINUTE)
          .gap(gap * MINUTE)
          .wait(after * MINUTE);
        const outcomes = awayOutcomes(here.batch);
        const order = (['stayed', 'fell-back-now', 'unknown', 'fell-below-now'] as const).map(
          choice => outcomes.find(outcome => outcome.choice === choice) ?? expect.fail(choice),
        );
        for (const [index, worse] of order.entries()) {
          const better = order[index - 1];
          if (!better) continue;
          expect(worse.leftMs, `${better.choice}, ${worse.choice}`).toBeGreaterThanOrEqual(better.leftMs);
          for (const side of ['low', 'likely', 'high'] as const)
            expect(worse.f0Now?.[side], `${side}: ${better.choice}, ${worse.choice}`).toBeLessThanOrEqual(
              (better.f0Now?.[side] ?? Number.NaN) + SERIES,
            );
          compared += 1;
        }
        // And the estimate behind each answer, chamber and centre, keeps the same order.
        const told = order.map(({ choice }) => {
          const { batch } = here;
          const answer = { type: 'answer', ask: 'away-gauge', choice } as const;
          const outcome = step(here.run, { ...priced(answer, batch), t: batch.now, wall: batch.wall });
          if (!outcome.ok) throw new Error(choice);
          return of({ ...outcome.run.batch, header: { ...batch.header } });
        });
        for (const [index, worse] of told.entries()) {
          const better = told[index - 1];
          if (!better) continue;
          for (const what of ['chamberC', 'centreC', 'f0Min', 'logs'] as const)
            for (const side of ['low', 'likely', 'high'] as const)
              expect(worse[what][side], `${what} ${side}`).toBeLessThanOrEqual(better[what][side] + SERIES);
        }
      }),
      { numRuns: 150, seed: 20261125 },
    );
    expect(compared).toBeGreaterThan(300);
  });
});
