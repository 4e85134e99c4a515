import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bag } from '../../../src/core/record/bags.ts';
import { costOf } from '../../../src/core/record/cost.ts';
import { fitRisk, forecast, type SizeTally } from '../../../src/core/record/loss.ts';
import { apart, overallRate, rateOf, ratesBy, TOO_WIDE } from '../../../src/core/record/rates.ts';
import { indexDiary } from '../../../src/core/record/bags.ts';
import { recordOf, type RecordedBatch } from '../../../src/core/record/record.ts';
import { bagRisk } from '../../../src/core/science/statistics.ts';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { costWords, forecastLines, rateWords } from '../../../src/core/words/record.ts';
import { drivenBatch, homeHeader } from '../../help/record-home.ts';
import { number, reference } from '../science/reference.ts';

const one = drivenBatch(homeHeader('2613a', { soak: false, loads: [1] })).batch;
function firstBag(): Bag {
  const [bag] = recordOf([one], indexDiary([])).flatMap(({ bags }) => bags);
  if (!bag) throw new Error('The sample batch has no bag.');
  return bag;
}
const template = firstBag();

/** A recorded batch of bags of one size with so many good, lost and open. */
function recorded(
  kg: number,
  good: number,
  lost: number,
  open = 0,
  grain: 'rye' | 'wheat' = 'rye',
): RecordedBatch {
  const bag = (standing: Bag['standing'], index: number): Bag => ({
    ...template,
    number: index + 1,
    standing,
  });
  const standings = [
    ...Array(good).fill('done'),
    ...Array(lost).fill('contaminated'),
    ...Array(open).fill('colonising'),
  ] as Bag['standing'][];
  const { recipe } = one.header;
  const containers = { ...recipe.containers, fillKg: kg, count: good + lost + open };
  const batch = { ...one, header: { ...one.header, recipe: { ...recipe, grain, containers } } };
  return { id: '2613a', batch, bags: standings.map(bag), warmthC: null };
}

describe('rates', () => {
  it('give the intervals of wilson.csv for the share of lost bags (READ, MEMORY, COMPUTED: see the file)', () => {
    let seen = 0;
    for (const row of reference('wilson')) {
      const [x, n] = [number(row, 'x'), number(row, 'n')];
      const { interval } = rateOf('', x, n);
      expect(interval?.low).toBeCloseTo(number(row, 'wilson_low'), 7);
      expect(interval?.high).toBeCloseTo(number(row, 'wilson_high'), 7);
      // The share of good bags is the other side of the same interval.
      if (n > 300) continue;
      const good = overallRate([recorded(1, n - x, x)]).interval;
      expect(good?.low).toBeCloseTo(1 - number(row, 'wilson_high'), 7);
      expect(good?.high).toBeCloseTo(1 - number(row, 'wilson_low'), 7);
      seen += 1;
    }
    expect(seen).toBeGreaterThan(8);
  });

  it('count only bags whose outcome is known, group by group', () => {
    const batches = [recorded(1, 3, 1, 2), recorded(1, 2, 0, 0, 'wheat'), recorded(0.5, 1, 1)];
    expect(ratesBy('grain', batches).map(({ name, good, known }) => [name, good, known])).toEqual([
      ['rye', 4, 6],
      ['wheat', 2, 2],
    ]);
    expect(ratesBy('size', batches).map(({ name, good, known }) => [name, good, known])).toEqual([
      ['bag of 1 kg', 5, 6],
      ['bag of 500 g', 1, 2],
    ]);
    expect(overallRate(batches)).toMatchObject({ good: 6, known: 8 });
  });

  it('say when it is too few to tell, and when two groups differ', () => {
    expect(rateWords(rateOf('', 0, 0))).toBe('nothing known yet');
    expect(rateWords(rateOf('', 4, 4))).toContain('too few to tell');
    expect(rateOf('', 8, 8).tooFew).toBe(false);
    expect(rateWords(rateOf('', 81, 263))).toBe('81 of 263 good, 31 %: between 26 and 37 %');
    expect(apart(rateOf('a', 15, 148), rateOf('b', 81, 263))).toBe(true);
    expect(apart(rateOf('a', 6, 32), rateOf('b', 15, 148))).toBe(false);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.nat(400), (n, x) => {
        const rate = rateOf('', Math.min(x, n), n);
        expect(rate.tooFew).toBe((rate.interval?.high ?? 1) - (rate.interval?.low ?? 0) > TOO_WIDE);
      }),
    );
  });
});

describe('loss at other sizes', () => {
  it('two sizes are fitted so that each gives back its own share', () => {
    // With as many risks as sizes the likeliest model meets every observed share.
    const tallies: readonly SizeTally[] = [
      { kg: 1.1, lost: 71, known: 1000 },
      { kg: 4.4, lost: 131, known: 1000 },
    ];
    const { perBag, perKg } = fitRisk(tallies);
    for (const { kg, lost, known } of tallies)
      expect(bagRisk(perBag, perKg, kg)).toBeCloseTo(lost / known, 4);
    // The worked example of the science notes (j): p0 .05, pk .02 give .071 and .131 (COMPUTED).
    expect(perBag).toBeCloseTo(0.05, 2);
    expect(perKg).toBeCloseTo(0.02, 2);
  });

  it('the science notes: 8.8 kg in 8, 4 or 2 bags lose 0.62, 0.80 or 1.15 kg (COMPUTED, section j)', () => {
    const batches = [recorded(1.1, 92_900, 7100), recorded(4.4, 8690, 1310)];
    const told = forecast(batches, 8.8, [8, 4, 2]);
    expect(told?.risks).toHaveLength(1);
    expect(told?.sizes.map(({ low }) => Math.round(low.expectedKg * 100) / 100)).toEqual([0.62, 0.8, 1.15]);
    expect(told?.sizes.map(({ low }) => low.any)).toEqual([
      expect.closeTo(0.445, 2),
      expect.closeTo(0.318, 2),
      expect.closeTo(0.244, 2),
    ]);
  });

  it('one size gives a range, whose ends meet at the size that was tried', () => {
    const told = forecast([recorded(1, 8, 2)], 10, [5, 10, 20]);
    expect(told?.sizesTried).toBe(1);
    const [half, same, twice] = told?.sizes ?? [];
    expect(same?.low.expectedKg).toBeCloseTo(2, 6);
    expect(same?.high.expectedKg).toBeCloseTo(2, 6);
    expect(half?.high.expectedKg).toBeGreaterThan(half?.low.expectedKg ?? 9);
    expect(twice?.low.expectedKg).toBeLessThan(2);
  });

  it('the band is the interval of wilson.csv: 6 of 32 lost are 9 to 35 % (READ), 15 of 148 6 to 16 % (MEMORY)', () => {
    for (const [lost, known, low, high] of [
      [6, 32, 0.08889545, 0.35309155],
      [15, 148, 0.0624, 0.1605],
    ] as const) {
      // At the size that was tried, every share of the bags is the same share of the grain.
      const [same] = forecast([recorded(1, known - lost, lost)], 10, [10])?.sizes ?? [];
      expect(same?.least.expectedKg).toBeCloseTo(10 * low, 3);
      expect(same?.most.expectedKg).toBeCloseTo(10 * high, 3);
    }
  });

  it('is told with its band, or not at all', () => {
    const told = forecast([recorded(1, 26, 6)], 10, [10, 5]);
    const [head = '', same = '', half = ''] = told ? forecastLines(told, METRIC) : [];
    expect(head).toBe('Expected loss, from 6 of 32 bags lost, between 9 and 35 %');
    expect(same).toContain('10 of 1 kg: 1.88 kg lost on average (0.89 kg to 3.53 kg)');
    expect(half).toMatch(/5 of 2 kg: 1\.88 kg to 3\.4 kg lost on average \(0\.89 kg to 5\.8\d? kg\)/);
    const few = forecast([recorded(1, 1, 1)], 10, [10, 5]);
    expect(few && forecastLines(few, METRIC)).toEqual([
      'Expected loss: too few to tell (1 of 2 bags lost: between 9 and 91 %)',
    ]);
    const single = forecast([recorded(1, 0, 1)], 10, [10]);
    expect(single && forecastLines(single, METRIC)[0]).toContain('1 of 1 bag lost');
  });

  it('two sizes and a band: what is likely lies within', () => {
    const told = forecast([recorded(1, 60, 8), recorded(2, 40, 10)], 12, [12, 6, 3]);
    expect(told?.risks).toHaveLength(1);
    for (const { least, low, high, most } of told?.sizes ?? []) {
      expect(least.expectedKg).toBeLessThan(low.expectedKg);
      expect(high.expectedKg).toBeLessThan(most.expectedKg);
    }
  });

  it('never gives a number that is none, whatever the record', () => {
    const tally = fc.record({
      kg: fc.double({ min: 0.1, max: 5, noNaN: true }),
      lost: fc.nat(6),
      more: fc.nat(6),
    });
    fc.assert(
      fc.property(fc.array(tally, { minLength: 1, maxLength: 4 }), rows => {
        const batches = rows.map(({ kg, lost, more }) => recorded(kg, more, lost));
        const told = forecast(batches, 6, [3, 6, 12]);
        for (const { low, high, least, most } of told?.sizes ?? []) {
          for (const value of [low.each, low.any, least.expectedKg, most.any, high.deviationKg]) {
            expect(value).toBeGreaterThanOrEqual(0);
          }
          expect(high.expectedKg).toBeLessThanOrEqual(6 + 1e-9);
          expect(least.expectedKg).toBeLessThanOrEqual(low.expectedKg + 1e-9);
          expect(most.expectedKg).toBeGreaterThanOrEqual(high.expectedKg - 1e-9);
        }
      }),
      { numRuns: 200 },
    );
    expect(forecast([recorded(1, 0, 0, 3)], 3, [3])).toBeNull();
  });
});

describe('cost of a good bag', () => {
  it('is everything paid over the bags that became spawn (by hand)', () => {
    const base = recorded(1, 3, 1);
    const money = {
      ...base.batch.header.kitchen.money,
      currency: 'EUR',
      grainPerKg: 2,
      containerEach: 0.5,
      culturePerBatch: 3,
      energyPerBatch: 1,
      boughtEach: 9,
    };
    const batch = {
      ...base.batch,
      dryKg: 2.4,
      header: { ...base.batch.header, kitchen: { ...base.batch.header.kitchen, money } },
    };
    const cost = costOf([{ ...base, batch }]);
    // 2.4 kg x 2 + 4 x 0.5 + 3 + 1 = 10.80 for three.
    expect(cost?.total).toBeCloseTo(10.8, 9);
    expect(cost?.perGood).toBeCloseTo(3.6, 9);
    expect(cost && costWords(cost)).toContain('3.60 EUR');
    expect(costOf([base])).toBeNull();
  });
});
