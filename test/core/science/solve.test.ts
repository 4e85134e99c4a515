import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bisect, brent } from '../../../src/core/science/solve.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

describe('solve', () => {
  it('finds roots known from mathematics', () => {
    for (const solve of [bisect, brent]) {
      near(
        'known roots',
        solve(x => x * x - 2, { low: 0, high: 2 }),
        Math.SQRT2,
      );
      near(
        'known roots',
        solve(x => Math.cos(x), { low: 0, high: 3 }),
        Math.PI / 2,
      );
      // Dottie number, OEIS A003957.
      near(
        'known roots',
        solve(x => Math.cos(x) - x, { low: 0, high: 1 }),
        0.7390851332151607,
      );
      near(
        'known roots',
        solve(x => x, { low: 0, high: 5 }),
        0,
      );
      near(
        'known roots',
        solve(x => x - 5, { low: 0, high: 5 }),
        5,
      );
    }
  });

  it('stays within the wanted width on any monotone cubic (property)', () => {
    fc.assert(
      fc.property(fc.double({ min: -3, max: 3, noNaN: true }), root => {
        const f = (x: number) => (x - root) ** 3 + 0.01 * (x - root);
        expect(Math.abs(brent(f, { low: -4, high: 4 }, 1e-9) - root)).toBeLessThan(1e-8);
        expect(Math.abs(bisect(f, { low: -4, high: 4 }, 1e-9) - root)).toBeLessThan(1e-8);
      }),
    );
  });

  it('throws when the bracket holds no answer', () => {
    expect(() => bisect(x => x * x + 1, { low: -1, high: 1 })).toThrow('There is no answer between -1 and 1');
    expect(() => brent(() => Number.NaN, { low: -1, high: 1 })).toThrow(RangeError);
  });
});
