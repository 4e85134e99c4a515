import { describe, expect, it } from 'vitest';
import { holdLeftMs, isCounting } from '../../../src/core/batch/advance.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { Drive } from '../../help/batch-drive.ts';
import { HOLD, TARGET_KPA, sampleHeader } from '../../help/batch-kit.ts';

const header = sampleHeader({ soak: false });
const makeUp = sampleHeader({ soak: false, dips: 'make up' });
const climbing = () => new Drive(header).to('climb');
const holding = (of = header) => new Drive(of).to('hold');
const held = (drive: Drive) => drive.batch.hold.creditMs;

describe('S2: the hold never starts before an answered target gauge', () => {
  it('does not start by waiting, nor below target', () => {
    const drive = climbing()
      .wait(3 * HOUR)
      .answer('below')
      .answer('reading', TARGET_KPA - 5);
    expect(drive.batch.step).toBe('climb');
    expect(held(drive)).toBe(0);
  });

  // A dial is read to about a quarter psi, 1.7 kPa (common practice, no source).
  it.each([
    [TARGET_KPA - 1.8, 'climb', 'unknown'],
    [TARGET_KPA - 1.6, 'hold', 'at'],
    [TARGET_KPA, 'hold', 'at'],
    [TARGET_KPA + 20, 'hold', 'above'],
  ] as const)('a reading of %f kPa leads to %s, believed %s', (kPa, step, belief) => {
    expect(climbing().answer('reading', kPa).batch).toMatchObject({ step, hold: { belief } });
  });

  it('counts from the answer, not from when the gauge may have got there', () => {
    const drive = climbing().wait(HOUR).answer('at');
    expect(holdLeftMs(drive.batch)).toBe(HOLD);
  });
});

describe('S3: only time believed at or above target counts', () => {
  it('counts at and above, to the millisecond, and then turns to heat-off by itself', () => {
    const drive = holding()
      .wait(10 * MINUTE)
      .answer('above')
      .wait(10 * MINUTE);
    expect(held(drive)).toBe(20 * MINUTE);
    drive
      .wait(50 * MINUTE)
      .answer('at')
      .wait(HOLD - 70 * MINUTE - 1);
    expect(drive.batch.step).toBe('hold');
    drive.wait(1);
    expect(drive.batch).toMatchObject({ step: 'heat-off', since: drive.batch.now });
  });

  it('counts nothing below target', () => {
    const drive = holding(makeUp)
      .wait(30 * MINUTE)
      .answer('below')
      .wait(HOUR);
    expect(held(drive)).toBe(30 * MINUTE);
    expect(isCounting(drive.batch)).toBe(false);
  });

  it('restart: a dip gives up what was held; make up: only the missing minutes are added', () => {
    const dipped = (of: typeof header) =>
      holding(of)
        .wait(30 * MINUTE)
        .answer('below')
        .wait(10 * MINUTE)
        .answer('at');
    expect(holdLeftMs(dipped(header).batch)).toBe(HOLD);
    expect(dipped(header).batch.hold).toMatchObject({ dips: 1, lostMs: 30 * MINUTE });
    expect(holdLeftMs(dipped(makeUp).batch)).toBe(HOLD - 30 * MINUTE);
    expect(dipped(makeUp).batch.hold).toMatchObject({ dips: 1, lostMs: 0 });
  });

  it.each([-1, -5400, Number.NaN, Infinity, 1e9])('takes no estimate that would add %f s for a dip', addS => {
    const drive = holding(makeUp)
      .wait(30 * MINUTE)
      .answer('below');
    const back = { type: 'answer', ask: 'holding', choice: 'at', dipCost: { addS, f0Min: 1 } } as const;
    expect(drive.tries(back)).not.toBeNull();
    expect(holdLeftMs(drive.batch)).toBe(HOLD - 30 * MINUTE);
  });

  it('make up: an estimated cost of a dip makes the hold longer, never shorter', () => {
    const drive = holding(makeUp)
      .wait(30 * MINUTE)
      .answer('below')
      .wait(MINUTE);
    const back = {
      type: 'answer',
      ask: 'holding',
      choice: 'at',
      dipCost: { addS: 120, f0Min: 0.4 },
    } as const;
    expect(drive.tries(back)).toBeNull();
    expect(holdLeftMs(drive.batch)).toBe(HOLD - 28 * MINUTE);
    expect(drive.batch.dips).toMatchObject([{ addedMs: 2 * MINUTE, f0Min: 0.4, lostMs: 0 }]);
  });

  it('does not count the same dip twice', () => {
    const drive = holding().wait(MINUTE).answers('below', 'below').answer('reading', 50);
    expect(drive.batch.hold.dips).toBe(1);
  });

  it('a dip after an undone answer is a dip all the same', () => {
    const drive = holding().wait(HOUR).answer('above').undo().wait(MINUTE).answers('below', 'at');
    expect(drive.batch.hold).toMatchObject({ creditMs: 0, dips: 1 });
  });

  it.each(['asleep', 'restart'] as const)('counts nothing while the coach was away (%s)', why => {
    const drive = holding()
      .wait(10 * MINUTE)
      .gap(5 * HOUR, why);
    expect(held(drive)).toBe(10 * MINUTE);
    expect(drive.ask).toBe('away-gauge');
    expect(drive.batch.away).toEqual({ from: drive.batch.now - 5 * HOUR, to: drive.batch.now, why });
    expect(held(drive.wait(5 * HOUR))).toBe(10 * MINUTE);
  });

  it.each([
    ['stayed', header, 'at', 30 * MINUTE],
    ['stayed', makeUp, 'at', 30 * MINUTE],
    ['fell-below-now', header, 'below', 0],
    ['fell-below-now', makeUp, 'below', 10 * MINUTE],
    ['fell-back-now', header, 'at', 0],
    ['fell-back-now', makeUp, 'at', 10 * MINUTE],
    ['unknown', header, 'unknown', 0],
    ['unknown', makeUp, 'unknown', 10 * MINUTE],
  ] as const)('away for 20 min after 10: "%s" with %#', (choice, of, belief, creditMs) => {
    const drive = holding(of)
      .wait(10 * MINUTE)
      .gap(20 * MINUTE)
      .answer(choice);
    expect(drive.batch.hold).toMatchObject({ belief, creditMs });
    expect(drive.batch.away).toBeNull();
    expect(isCounting(drive.batch)).toBe(belief === 'at');
  });

  it('never counts more than the whole hold, and ends it when "stayed" completes it', () => {
    const drive = holding()
      .wait(10 * MINUTE)
      .gap(9 * HOUR)
      .answer('stayed');
    expect(drive.batch).toMatchObject({ step: 'heat-off', hold: { creditMs: HOLD } });
  });

  it('asks only once about two absences in a row, over both', () => {
    const drive = holding()
      .gap(10 * MINUTE)
      .gap(10 * MINUTE, 'restart');
    expect(held(drive.answer('stayed'))).toBe(20 * MINUTE);
  });

  it('has nothing to ask after an absence below target: nothing was counting', () => {
    const drive = holding(makeUp)
      .wait(10 * MINUTE)
      .answer('below')
      .gap(HOUR);
    expect(drive.ask).toBe('holding');
    expect(held(drive)).toBe(10 * MINUTE);
  });

  it('takes time back that the person did not watch, to the last answer at the gauge', () => {
    const drive = holding(makeUp)
      .wait(10 * MINUTE)
      .answer('at')
      .wait(20 * MINUTE)
      .trouble('was-away');
    expect(held(drive)).toBe(10 * MINUTE);
    expect(drive.ask).toBe('away-gauge');
    expect(held(drive.wait(MINUTE).answer('stayed'))).toBe(31 * MINUTE);
  });

  it('gives no time for having been away below target', () => {
    const drive = holding()
      .wait(10 * MINUTE)
      .answer('below')
      .wait(HOUR)
      .trouble('was-away');
    expect(drive.ask).toBe('holding');
    expect(held(drive)).toBe(0);
  });

  it('stands still while a doubt about the clock is open', () => {
    const drive = holding(makeUp)
      .wait(10 * MINUTE)
      .answer('below')
      .gap(MINUTE, 'restart', HOUR);
    expect(drive.ask).toBe('clock-claim');
    expect(drive.tries({ type: 'answer', ask: 'holding', choice: 'at' })?.code).toBe('answer-first');
    expect(isCounting(drive.batch)).toBe(false);
  });

  it('ends short of its time only by the typed word, kept as a deviation', () => {
    const drive = holding().wait(HOUR);
    expect(drive.tries({ type: 'typed', purpose: 'end-hold', word: 'yes' })?.code).toBe('word-differs');
    drive.type('end-hold');
    expect(drive.batch).toMatchObject({ step: 'heat-off', hold: { creditMs: HOUR } });
    expect(drive.batch.deviations.map(({ trouble }) => trouble)).toEqual(['hold-cut-short']);
  });
});
