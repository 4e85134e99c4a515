import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_KITCHEN } from '../../../src/core/kitchen.ts';
import { costOf } from '../../../src/core/plan/cost.ts';
import { grainPlan } from '../../../src/core/plan/grain-plan.ts';
import { ownLength, type PastBatch, pastSteps } from '../../../src/core/plan/past-steps.ts';
import { planOf } from '../../../src/core/plan/plan.ts';
import { shoppingList } from '../../../src/core/plan/shopping.ts';
import { costLines, shoppingText } from '../../../src/core/words/plan-lists.ts';
import { known, shipped } from '../../help/plan-kit.ts';

const money = { ...DEFAULT_KITCHEN.money, currency: 'EUR' };

describe('cost', () => {
  // Hand arithmetic: 3.5 kg at 2.00 and 6 bags at 0.50 and 4.00 of culture and 1.00 of gas are 15.00, 2.50 a bag; six
  // bought at 9.00 are 54.00: 39.00 saved; gear of 100.00 is paid with the third batch (3 x 39 = 117 > 100 > 78).
  const said = { ...money, grainPerKg: 2, containerEach: 0.5, culturePerBatch: 4, energyPerBatch: 1 };

  it('agrees with a sum by hand', () => {
    const cost = costOf({ ...said, boughtEach: 9, gear: 100 }, 3.5, 6);
    expect(cost).toMatchObject({ batch: 15, each: 2.5, missing: [], savedPerBatch: 39, paidAfter: 3 });
    expect(costLines(cost, 'bag')).toEqual([
      '2.50 EUR a bag, 15.00 EUR the batch',
      'bought 9.00 EUR: saves 39.00 EUR a batch, if none is lost',
      'the gear has paid for itself with batch 3',
    ]);
  });

  it('ships no price as a fact: without prices there is no cost, and parts not said are named', () => {
    expect(costOf(DEFAULT_KITCHEN.money, 3.5, 6)).toBeNull();
    expect(planOf(shipped('Rye'), known()).cost).toBeNull();
    const some = costOf({ ...money, grainPerKg: 2 }, 3.5, 6);
    expect(some).toMatchObject({
      missing: ['container', 'culture', 'energy'],
      boughtEach: null,
      paidAfter: null,
    });
    expect(costLines(some, 'jar').join(' ')).toContain('without containers, culture, energy');
  });

  it('says when buying is cheaper, and then the gear never pays', () => {
    const cost = costOf({ ...said, boughtEach: 2, gear: 100 }, 3.5, 6);
    expect(cost?.savedPerBatch).toBeCloseTo(-3, 9);
    expect(cost?.paidAfter).toBeNull();
    expect(costLines(cost, 'bag').join(' ')).toContain('buying is cheaper by 3.00 EUR');
  });

  it('pays exactly when the savings reach the price of the gear (property)', () => {
    const price = fc.double({ min: 0.5, max: 50, noNaN: true });
    fc.assert(
      fc.property(price, price, (boughtEach, gear) => {
        const cost = costOf({ ...said, boughtEach, gear }, 3.5, 6);
        if (!cost || cost.savedPerBatch === null || cost.paidAfter === null) return;
        expect(cost.paidAfter * cost.savedPerBatch).toBeGreaterThanOrEqual(gear - 1e-6);
        expect((cost.paidAfter - 1) * cost.savedPerBatch).toBeLessThan(gear);
      }),
    );
  });
});

describe('shopping list', () => {
  it('has the grain, a spare bag in six and the culture with a little over', () => {
    const rye = shipped('Rye');
    const { kitchen } = known();
    const lines = shoppingList(rye, grainPlan(rye, kitchen)).map(line => shoppingText(line, rye, kitchen));
    expect(lines).toContain('3.6 kg dry rye');
    expect(lines).toContain('7 filter-patch bags, one spare in six');
    expect(lines).toContain('33 mL of liquid culture of oyster');
    const sorghum = shipped('Sorghum');
    const jars = shoppingList(sorghum, grainPlan(sorghum, kitchen)).map(({ item }) => item);
    expect(jars).toContain('filter-lids');
    expect(jars).not.toContain('ports');
    const spawn = { ...rye, culture: { ...rye.culture, form: 'grain spawn', perContainer: 100 } } as const;
    expect(
      shoppingList(spawn, grainPlan(spawn, kitchen)).find(({ item }) => item === 'grain-spawn')?.kg,
    ).toBe(0.6);
  });
});

describe('own pace', () => {
  const batch = (minutes: number, more: Partial<PastBatch['header']> = {}): PastBatch => ({
    header: { practice: false, recipe: { grain: 'rye', containers: { count: 6 } }, ...more },
    times: [
      { step: 'surface-dry', load: 1, from: 0, to: minutes * 60_000 },
      { step: 'portion', load: 1, from: 0, to: 12 * 60_000 },
      { step: 'hold', load: 1, from: 0, to: 999 * 60_000 },
    ],
    finishedAt: 1,
    endedEarly: null,
  });

  it('is the median of earlier batches, by the piece where pieces are handled', () => {
    const past = pastSteps([batch(100), batch(140), batch(180)]);
    expect(ownLength('surface-dry', 'rye', 6, past)).toEqual({
      lowS: 6000,
      likelyS: 8400,
      highS: 10800,
      batches: 3,
    });
    expect(ownLength('portion', 'rye', 3, past)?.likelyS).toBe(6 * 60);
    expect(ownLength('surface-dry', 'millet', 6, past)).toBeNull();
    expect(ownLength('gear', 'rye', 6, past)).toBeNull();
  });

  it("never changes what the recipe or the vessel decides, and doubts one batch's spread", () => {
    const past = pastSteps([batch(100)]);
    expect(ownLength('hold', 'rye', 6, past)).toBeNull();
    const once = ownLength('surface-dry', 'rye', 6, past);
    expect(once?.lowS).toBeLessThan(6000);
    expect(once?.highS).toBeGreaterThan(6000);
    const plan = planOf(shipped('Rye'), known(), past);
    expect(plan.lengths['surface-dry']).toMatchObject({ likelyS: 6000, batches: 1 });
    expect(plan.numbers.lengths['surface-dry']?.likelyS).toBe(6000);
    expect(plan.lengths.hold?.batches).toBe(0);
  });

  it('leaves out practice, open and cut-short batches', () => {
    const open = { ...batch(100), finishedAt: null };
    const short = { ...batch(100), endedEarly: 'by-choice' };
    const practice = batch(100, { practice: true });
    expect(pastSteps([open, short, practice])).toEqual([]);
  });
});
