import { describe, expect, it } from 'vitest';
import { rangeOf, roundStep, tickText, ticksIn, timeStep } from '../../src/face/pictures/plot-scale.ts';

const MINUTE = 60_000;

describe('scales', () => {
  it('steps are one, two or five times a power of ten', () => {
    expect(roundStep({ from: 0, to: 100 }, 5)).toBe(20);
    expect(roundStep({ from: 20, to: 125 }, 5)).toBe(50);
    expect(roundStep({ from: 0, to: 0.3 }, 4)).toBeCloseTo(0.1, 12);
    for (let to = 1; to < 2000; to *= 1.37) {
      const step = roundStep({ from: 0, to }, 6);
      expect(to / step).toBeLessThanOrEqual(6 + 1e-6);
      expect([1, 2, 5]).toContain(Math.round(step / 10 ** Math.floor(Math.log10(step) + 1e-9)));
    }
  });

  it('time steps are those of a clock face', () => {
    expect(timeStep({ from: 0, to: 200 * MINUTE }, 5)).toBe(60 * MINUTE);
    expect(timeStep({ from: 0, to: 40 * MINUTE }, 3)).toBe(15 * MINUTE);
  });

  it('ticks are the multiples inside the range, moved by the offset', () => {
    expect(ticksIn({ from: 19, to: 61 }, 20)).toEqual([20, 40, 60]);
    expect(ticksIn({ from: 0, to: 60 }, 30, 10)).toEqual([10, 40]);
    expect(ticksIn({ from: -5, to: 5 }, 5)).toEqual([-5, 0, 5]);
  });

  it('tick texts have the digits their step needs and no minus zero', () => {
    expect(tickText(0.30000000000000004, 0.1)).toBe('0.3');
    expect(tickText(-0.00001, 0.5)).toBe('0.0');
    expect(tickText(120, 20)).toBe('120');
  });

  it('a range has height, and there is none without numbers', () => {
    expect(rangeOf([3, 3])).toEqual({ from: 2, to: 4 });
    expect(rangeOf([undefined, Number.NaN])).toBeNull();
    expect(rangeOf([2, undefined, -1])).toEqual({ from: -1, to: 2 });
  });
});
