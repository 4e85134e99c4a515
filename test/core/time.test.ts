import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ClockSample,
  DAY,
  elapsedBetween,
  GRAIN,
  HOUR,
  JUMP,
  MINUTE,
  SECOND,
} from '../../src/core/time.ts';

// Check values: the time that really passed in each story, known because the story says so.

const YEAR = 365.25 * DAY;
const start: ClockSample = {
  wall: Date.UTC(2026, 2, 28, 22, 0, 0),
  uptime: 5 * DAY,
  steady: 40 * SECOND,
  boot: 'a1@pc',
  process: 'one',
};
/** So much real time later, with all clocks right, and then what went wrong with them. */
const later = (ms: number, wrong: Partial<ClockSample> = {}): ClockSample => ({
  ...start,
  wall: start.wall + ms,
  uptime: start.uptime + ms,
  steady: start.steady + ms,
  ...wrong,
});
const other = { process: 'two', steady: 3 * SECOND } as const;

describe('time believed between two samples of the clocks', () => {
  it('is the time that passed when all clocks agree', () => {
    expect(elapsedBetween(start, later(90 * MINUTE))).toEqual({ ms: 90 * MINUTE });
  });

  it.each([
    ['1 s', SECOND],
    ['59 s', 59 * SECOND],
    ['1 h, as a daylight saving set by hand', HOUR],
    ['a leap second', SECOND],
    ['10 years', 10 * YEAR],
  ])('is not moved by a wall clock set forward or back by %s, in the same process', (_, by) => {
    for (const jump of [by, -by]) {
      const wall = start.wall + 10 * MINUTE + jump;
      const elapsed = elapsedBetween(start, later(10 * MINUTE, { wall }));
      expect(elapsed.ms).toBe(10 * MINUTE);
      expect(elapsed.jump).toBe(by > JUMP ? jump : undefined);
    }
  });

  it.each([
    ['forward by 10 years', 10 * YEAR, 10 * MINUTE],
    ['back by 10 years', -10 * YEAR, 10 * MINUTE],
    ['forward by 30 s', 30 * SECOND, 10 * MINUTE],
    // Within JUMP the smaller clock is believed: the countdown is 30 s longer, not lost.
    ['back by 30 s', -30 * SECOND, 10 * MINUTE - 30 * SECOND],
  ])('is not shortened when the wall was set %s while the program was closed', (_, by, ms) => {
    const wall = start.wall + 10 * MINUTE + by;
    expect(elapsedBetween(start, later(10 * MINUTE, { ...other, wall })).ms).toBe(ms);
  });

  it.each([
    ['3 minutes', 3 * MINUTE],
    ['9 hours', 9 * HOUR],
  ])('counts %s of sleep, whatever was done to the wall clock meanwhile', (_, slept) => {
    for (const by of [0, HOUR, -HOUR, 10 * YEAR, -10 * YEAR]) {
      const after = later(slept, { steady: start.steady, wall: start.wall + slept + by });
      expect(elapsedBetween(start, after).ms).toBe(slept);
    }
  });

  it('does not believe a wall clock that alone ran ahead: a machine whose uptime stood still in sleep', () => {
    const after = later(9 * HOUR, { uptime: start.uptime + SECOND, steady: start.steady + SECOND });
    expect(elapsedBetween(start, after)).toEqual({ ms: SECOND, jump: 9 * HOUR - SECOND });
  });

  it('is certain only of the new uptime after the machine was started again, and hands on the claim', () => {
    const after = later(9 * HOUR, { ...other, uptime: 4 * MINUTE, boot: 'b2@pc' });
    expect(elapsedBetween(start, after)).toEqual({ ms: 4 * MINUTE, claimed: 9 * HOUR });
  });

  it('keeps what is certain when the wall clock forgot the date at a new start', () => {
    const after = later(0, { ...other, wall: 0, uptime: 4 * HOUR, boot: 'b2@pc' });
    expect(elapsedBetween(start, after)).toEqual({ ms: 4 * HOUR, jump: -start.wall - 4 * HOUR });
  });

  it('believes nothing of another machine, whose clocks are others', () => {
    const after = later(20 * MINUTE, { ...other, uptime: 90 * DAY, boot: 'b2@laptop' });
    expect(elapsedBetween(start, after)).toEqual({ ms: 0, claimed: 20 * MINUTE });
  });

  it('does not take an estimated start that moved with the wall clock for a new one', () => {
    const before = { ...start, boot: '~100@pc' };
    const wall = start.wall + 10 * MINUTE + HOUR;
    const after = later(10 * MINUTE, { ...other, wall, boot: '~130@pc' });
    expect(elapsedBetween(before, after)).toEqual({ ms: 10 * MINUTE, jump: HOUR });
    const same = later(10 * MINUTE, { wall, boot: '~130@pc' });
    expect(elapsedBetween(before, same).ms).toBe(10 * MINUTE);
  });

  it('does not take the uptime of days for time that passed when an estimated start fell back', () => {
    const before = { ...start, boot: '~100@pc' };
    const after = later(10 * MINUTE, { ...other, uptime: start.uptime - HOUR, boot: '~99@pc' });
    expect(elapsedBetween(before, after).ms).toBeLessThanOrEqual(10 * MINUTE);
  });

  it('refuses clocks that give no time', () => {
    for (const wrong of [Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => elapsedBetween(start, later(1, { wall: wrong }))).toThrow(RangeError);
      expect(() => elapsedBetween(start, later(1, { uptime: wrong }))).toThrow(RangeError);
      expect(() => elapsedBetween(later(1, { steady: wrong }), start)).toThrow(RangeError);
    }
  });
});

describe('a batch of many ticks', () => {
  /** Clocks as coarse as real ones: wall 1 ms, uptime 10 ms (Linux) or 1 s (macOS), steady 1 us. */
  const coarse = (sample: ClockSample, grain: number): ClockSample => ({
    ...sample,
    wall: Math.floor(sample.wall),
    uptime: Math.floor(sample.uptime / grain) * grain,
    steady: Math.floor(sample.steady * 1000) / 1000,
  });

  it.each([10, 1000])('neither gains nor loses by the graininess of %i ms, tick by tick for a day', grain => {
    let believed = 0;
    let truth = 0;
    let before = coarse(later(0), grain);
    for (let tick = 0; tick < 86_400; tick += 1) {
      truth += 1000 + ((tick * 7919) % 13) / 10;
      const after = coarse(later(truth), grain);
      believed += elapsedBetween(before, after).ms;
      before = after;
    }
    expect(Math.abs(believed - truth)).toBeLessThan(1);
  });

  type Happening = readonly ['run' | 'sleep' | 'closed' | 'off' | 'set', number];
  const spans = fc.integer({ min: 0, max: 12 * HOUR });
  const happening: fc.Arbitrary<Happening> = fc.oneof(
    fc.tuple(fc.constantFrom('run' as const, 'sleep' as const, 'closed' as const, 'off' as const), spans),
    fc.tuple(fc.constant('set' as const), fc.integer({ min: -10 * YEAR, max: 10 * YEAR })),
    fc.tuple(fc.constant('set' as const), fc.integer({ min: -JUMP, max: JUMP })),
  );
  /** A machine that lives through the happening; `off` is on again for at most that long. */
  const live = (
    now: ClockSample,
    [what, by]: Happening,
    count: number,
  ): { now: ClockSample; passed: number } => {
    const wall = now.wall + by;
    const uptime = now.uptime + by;
    const process = `process ${count}`;
    switch (what) {
      case 'run':
        return { now: { ...now, wall, uptime, steady: now.steady + by }, passed: by };
      case 'sleep':
        return { now: { ...now, wall, uptime }, passed: by };
      case 'closed':
        return { now: { ...now, wall, uptime, steady: 0, process }, passed: by };
      case 'off':
        return { now: { wall, uptime: by / 2, steady: 0, boot: `boot ${count}@pc`, process }, passed: by };
      case 'set':
        return { now: { ...now, wall }, passed: 0 };
    }
  };

  it('S6: never believes more than passed, and never stands still while the program runs', () => {
    fc.assert(
      fc.property(fc.array(happening, { maxLength: 30 }), happenings => {
        let now = start;
        let truth = 0;
        let believed = 0;
        for (const [count, next] of happenings.entries()) {
          const lived = live(now, next, count);
          const { ms } = elapsedBetween(now, lived.now);
          if (next[0] === 'run') expect(ms).toBeGreaterThanOrEqual(next[1]);
          if (next[0] === 'sleep') expect(ms).toBeGreaterThanOrEqual(next[1] - JUMP - GRAIN);
          truth += lived.passed;
          believed += ms;
          now = lived.now;
          expect(believed).toBeLessThanOrEqual(truth);
        }
      }),
      { numRuns: 2000, seed: 6 },
    );
  });

  it('S6: the same when nobody looks in between: one sample at the end of many happenings', () => {
    fc.assert(
      fc.property(fc.array(happening, { maxLength: 12 }), happenings => {
        let now = start;
        let truth = 0;
        for (const [count, next] of happenings.entries()) {
          const lived = live(now, next, count);
          now = lived.now;
          truth += lived.passed;
        }
        const { ms } = elapsedBetween(start, now);
        expect(ms).toBeGreaterThanOrEqual(0);
        expect(ms).toBeLessThanOrEqual(truth);
      }),
      { numRuns: 2000, seed: 66 },
    );
  });
});
