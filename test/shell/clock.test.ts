import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type ClockSample, elapsedBetween, HOUR, MINUTE, SECOND } from '../../src/core/time.ts';
import { createClock, createSpedClock, nameBoot } from '../../src/shell/clock.ts';
import { createHandClock } from '../../src/shell/hand-clock.ts';

describe('the ticker', () => {
  beforeEach(() => {
    vi.useFakeTimers({ now: Date.UTC(2026, 5, 1, 12, 0, 0, 437) });
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('ticks once a second, just after the second, for all listeners at once', () => {
    const clock = createClock();
    const walls: number[] = [];
    const others: number[] = [];
    const stop = clock.onTick(now => walls.push(now.wall));
    clock.onTick(now => others.push(now.wall));
    vi.advanceTimersByTime(5000);
    expect(walls).toHaveLength(5);
    for (const wall of walls) expect(wall % 1000).toBeLessThan(20);
    expect(others).toEqual(walls);
    expect(vi.getTimerCount()).toBe(1);
    stop();
    vi.advanceTimersByTime(3000);
    expect([walls.length, others.length]).toEqual([5, 8]);
  });

  it('is one tick after hours, and aligned again', () => {
    const clock = createClock();
    const walls: number[] = [];
    clock.onTick(now => walls.push(now.wall));
    vi.advanceTimersByTime(1000);
    // The machine slept for nine hours: the timer is late, the wall clock is not.
    vi.setSystemTime(Date.now() + 9 * HOUR + 250);
    vi.advanceTimersByTime(1000);
    expect(walls).toHaveLength(2);
    vi.advanceTimersByTime(1000);
    expect((walls[2] ?? 0) % 1000).toBeLessThan(20);
  });

  it('stops when nobody listens and starts again for the next', () => {
    const clock = createClock();
    const stop = clock.onTick(() => {});
    stop();
    stop();
    expect(vi.getTimerCount()).toBe(0);
    let ticks = 0;
    clock.onTick(() => {
      ticks += 1;
    });
    vi.advanceTimersByTime(2000);
    expect(ticks).toBe(2);
  });

  it('goes on when a listener throws, and lets a listener leave while it is called', () => {
    const clock = createClock();
    let ticks = 0;
    const leave = clock.onTick(() => {
      leave();
      ticks += 1;
      throw new Error('as planned');
    });
    clock.onTick(() => {
      ticks += 10;
    });
    expect(() => vi.advanceTimersByTime(1000)).toThrow('as planned');
    vi.advanceTimersByTime(1000);
    expect(ticks).toBe(11);
  });

  it('of a sped clock is seen at each of its seconds, but at most fifty times a second', () => {
    for (const [factor, expected] of [
      [10, 10],
      [1000, 50],
    ] as const) {
      let ticks = 0;
      const stop = createSpedClock(factor).onTick(() => {
        ticks += 1;
      });
      vi.advanceTimersByTime(1000);
      stop();
      expect(ticks).toBe(expected);
    }
  });

  it('of a sped clock agrees with itself after a restart', () => {
    const since = Date.now();
    const first = createSpedClock(60, since);
    const before = first.sample();
    vi.advanceTimersByTime(30_000);
    const after: ClockSample = { ...createSpedClock(60, since).sample(), process: 'another', steady: 0 };
    expect(after.wall - before.wall).toBe(30 * MINUTE);
    expect(first.sample().steady - before.steady).toBeCloseTo(30 * MINUTE, 0);
    // The real uptime is not faked and stands still; what the clock adds to it does not.
    expect(after.uptime - before.uptime).toBeGreaterThan(29 * MINUTE);
    expect(() => createSpedClock(0.5)).toThrow(RangeError);
    expect(() => createSpedClock(Number.NaN)).toThrow(RangeError);
  });
});

describe('a sample of the machine', () => {
  it('never goes back in what matters, and keeps its names', () => {
    const clock = createClock();
    let before = clock.sample();
    for (let turn = 0; turn < 1000; turn += 1) {
      const after = clock.sample();
      expect(after.steady).toBeGreaterThanOrEqual(before.steady);
      expect(after.uptime).toBeGreaterThanOrEqual(before.uptime);
      expect([after.boot, after.process]).toEqual([before.boot, before.process]);
      before = after;
    }
  });

  it('names the start of the machine by the kernel where it can, else by an estimate that is marked', () => {
    expect(nameBoot(1e12, 5000, 'abc', 'pc')).toBe('abc@pc');
    const estimate = nameBoot(1e12, 5000, '', 'pc');
    expect(estimate).toMatch(/^~\d+@pc$/);
    expect(nameBoot(1e12 + 3_600_000, 3_605_000, '', 'pc')).toBe(estimate);
    expect(nameBoot(1e12 + 3_600_000, 5000, '', 'pc')).not.toBe(estimate);
  });
});

describe('the clock driven by hand', () => {
  it('tells what really passed, and its samples are believed accordingly', () => {
    const clock = createHandClock();
    const start = clock.sample();
    let ticks = 0;
    clock.onTick(() => {
      ticks += 1;
    });
    clock.advance(90 * SECOND);
    expect(elapsedBetween(start, clock.sample())).toEqual({ ms: 90 * SECOND });
    clock.sleep(9 * HOUR);
    expect(elapsedBetween(start, clock.sample()).ms).toBe(9 * HOUR + 90 * SECOND);
    clock.setWall(0);
    expect(elapsedBetween(start, clock.sample()).ms).toBe(9 * HOUR + 90 * SECOND);
    expect(ticks).toBe(3);
    clock.run(10 * SECOND);
    expect(ticks).toBe(13);
    expect(clock.truth).toBe(9 * HOUR + 100 * SECOND);
  });

  it('restarts and reboots', () => {
    const clock = createHandClock();
    const start = clock.sample();
    clock.restart(20 * SECOND);
    expect(clock.sample().process).not.toBe(start.process);
    expect(elapsedBetween(start, clock.sample()).ms).toBe(20 * SECOND);
    clock.reboot(10 * MINUTE, 2 * MINUTE);
    const total = 12 * MINUTE + 20 * SECOND;
    expect(elapsedBetween(start, clock.sample())).toEqual({ ms: 2 * MINUTE, claimed: total });
    expect(clock.truth).toBe(total);
    expect(() => clock.advance(-1)).toThrow(RangeError);
  });
});
