import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as statistics from '../../../src/core/science/statistics.ts';
import { has, number, reference } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

describe('statistics', () => {
  it('agrees with wilson.csv (READ 6/32, MEMORY Newcombe 1998, rest COMPUTED)', () => {
    for (const row of reference('wilson')) {
      const x = number(row, 'x');
      const n = number(row, 'n');
      const where = `${x}/${n}`;
      const { low, high } = statistics.wilson(x, n);
      near('wilson.csv computed', low, number(row, 'wilson_low'), where);
      near('wilson.csv computed', high, number(row, 'wilson_high'), where);
      if (has(row, 'published_low')) near('wilson.csv published', low, number(row, 'published_low'), where);
      if (has(row, 'published_high'))
        near('wilson.csv published', high, number(row, 'published_high'), where);
      if (!has(row, 'rule_of_three_upper')) continue;
      const three = statistics.ruleOfThree(n);
      if (typeof three !== 'number') throw new Error(three.reason);
      near('wilson.csv upper bounds', three, number(row, 'rule_of_three_upper'), where);
      near(
        'wilson.csv upper bounds',
        statistics.exactUpper(x, n),
        number(row, 'exact_one_sided_upper'),
        where,
      );
    }
  });

  it('the exact upper bound of 1 and 2 of 10 is 0.3942 and 0.5069 (MEMORY, Clopper-Pearson tables)', () => {
    expect(statistics.exactUpper(1, 10)).toBeCloseTo(0.3942, 4);
    expect(statistics.exactUpper(2, 10)).toBeCloseTo(0.5069, 4);
  });

  it('at least one of 4 or 8 bags at 5 %: 0.185 and 0.337 (COMPUTED, science notes j)', () => {
    expect(statistics.atLeastOne(0.05, 4)).toBeCloseTo(0.185, 3);
    expect(statistics.atLeastOne(0.05, 8)).toBeCloseTo(0.337, 3);
  });

  it('8.8 kg in 8, 4 or 2 bags: small bags lose oftener but less (COMPUTED, science notes j)', () => {
    for (const [bags, each, any, expectedKg, deviationKg] of [
      [8, 0.071, 0.445, 0.62, 0.8],
      [4, 0.091, 0.318, 0.8, 1.27],
      [2, 0.131, 0.244, 1.15, 2.1],
    ] as const) {
      const loss = statistics.batchLoss({ bags, bagKg: 8.8 / bags, perBag: 0.05, perKg: 0.02 });
      near('loss examples', loss.each, each, `${bags} bags`);
      near('loss examples', loss.any, any, `${bags} bags`);
      near('loss examples', loss.expectedKg, expectedKg, `${bags} bags`);
      near('loss examples', loss.deviationKg, deviationKg, `${bags} bags`);
    }
  });

  it('intervals hold the proportion, shrink with n and mirror (properties)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (n, share) => {
          const x = Math.round(n * share);
          const { low, high } = statistics.wilson(x, n);
          expect(low).toBeGreaterThanOrEqual(0);
          expect(high).toBeLessThanOrEqual(1);
          expect(low).toBeLessThanOrEqual(x / n);
          expect(high).toBeGreaterThanOrEqual(x / n);
          const mirror = statistics.wilson(n - x, n);
          expect(mirror.low).toBeCloseTo(1 - high, 12);
          const more = statistics.wilson(4 * x, 4 * n);
          expect(more.high - more.low).toBeLessThan(high - low);
          const upper = statistics.exactUpper(x, n);
          expect(upper).toBeGreaterThan(x === n ? 0.999 : x / n);
          if (x < n) expect(statistics.exactUpper(x + 1, n)).toBeGreaterThan(upper);
        },
      ),
    );
  });

  it('refuses counts that cannot be', () => {
    expect(() => statistics.wilson(3, 2)).toThrow('The count must be whole and from 0 to 2, not 3.');
    expect(() => statistics.wilson(0, 0)).toThrow(
      'The number of trials must be whole and at least 1, not 0.',
    );
    expect(() => statistics.exactUpper(0.5, 2)).toThrow(RangeError);
    expect(statistics.ruleOfThree(3)).toMatchObject({ kind: 'no answer' });
    expect(() => statistics.bagRisk(5, 0.02, 1)).toThrow('Risk of each bag must be between 0 and 1, not 5.');
  });
});
