import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Kitchen } from '../../../src/core/kitchen.ts';
import { withDefaults } from '../../../src/core/kitchen.ts';
import { grainPlan } from '../../../src/core/plan/grain-plan.ts';
import { planOf } from '../../../src/core/plan/plan.ts';
import type { Recipe } from '../../../src/core/recipe/recipe.ts';
import { sampleRecipe } from '../../help/batch-kit.ts';
import { anyRecipe, between, known, shippedRecipes } from '../../help/plan-kit.ts';
import { number, reference, text } from '../science/reference.ts';

const PSI_KPA = 6.894757293168;
const FOOT_M = 0.3048;

describe('shipped recipes', () => {
  it.each(shippedRecipes.map(recipe => [recipe.name, recipe] as const))(
    'can be begun in the default kitchen, in one load, with enough at the centre: %s',
    (_, recipe) => {
      const plan = planOf(recipe, withDefaults({}));
      expect(plan.verdict).toBe('go');
      // That nobody said anything of the kitchen is all there is to read.
      const weighty = plan.warnings.filter(({ weight }) => weight !== 'note');
      expect(weighty.map(({ code }) => code)).toEqual(['vessel-assumed']);
      expect(plan.numbers.loads).toEqual([recipe.containers.count]);
      expect(plan.hold.likely.f0Min).toBeGreaterThan(15);
    },
  );
});

describe('altitude', () => {
  // altitude_gauge.csv: published canning guidance (READ, PNW 421 and a booklet), target 240 F = 115.56 C; required
  // and published differ by at most 0.35 psi at the top of the dial's bands, 0.81 for the weight at 1000 ft.
  it.each(
    reference('altitude_gauge').map(row => [text(row, 'gauge_type'), number(row, 'alt_to_ft'), row] as const),
  )('gauge for 240 F by %s at the top of the band to %i ft', (_, feet, row) => {
    const recipe: Recipe = { ...sampleRecipe(), target: { by: 'temperature', celsius: (240 - 32) / 1.8 } };
    const { gauge } = planOf(recipe, known({ altitudeM: feet * FOOT_M, markedMaxKPa: 200 }));
    expect(gauge.targetKPa / PSI_KPA).toBeCloseTo(number(row, 'required_psi_for_240F_at_top'), 2);
    const short = gauge.targetKPa / PSI_KPA - number(row, 'published_psi');
    expect(short).toBeLessThan(text(row, 'gauge_type') === 'dial' ? 0.35 : 0.82);
  });

  // science notes b, COMPUTED: T at 15 psig and the psig that 121.1 C needs.
  it.each([
    [0, 120.95, 15.14],
    [500, 120.03, 15.99],
    [1000, 119.14, 16.8],
    [1500, 118.26, 17.57],
    [2000, 117.41, 18.3],
    [3000, 115.78, 19.66],
  ])('at %i m a 15 psi weight gives %f C, and 121.1 C would need %f psi', (altitudeM, celsius, psi) => {
    const weight = { altitudeM, gauge: 'weight', workingKPa: 15 * PSI_KPA, markedMaxKPa: 200 } as const;
    const hot: Recipe = { ...sampleRecipe(), target: { by: 'temperature', celsius: 121.1 } };
    const { gauge } = planOf(hot, known(weight));
    expect(gauge.targetC).toBeCloseTo(Math.min(celsius, 121.1), 1);
    expect(gauge.neededKPa / PSI_KPA).toBeCloseTo(psi, 1);
  });

  it('by a barometer wins over the altitude', () => {
    const { gauge } = planOf(sampleRecipe(), known({ altitudeM: 2000, stationKPa: 101.325 }));
    expect(gauge.boilC).toBeCloseTo(99.974, 3);
  });

  it('higher is cooler, longer, and never less water or shorter locked (property)', () => {
    fc.assert(
      fc.property(anyRecipe, between(-400, 2800), between(50, 500), (recipe, altitudeM, more) => {
        const low = planOf(recipe, known({ altitudeM }));
        const high = planOf(recipe, known({ altitudeM: altitudeM + more }));
        expect(high.numbers.targetC).toBeLessThan(low.numbers.targetC);
        expect(high.numbers.boilC).toBeLessThan(low.numbers.boilC);
        if (high.verdict === 'go') expect(high.numbers.holdS).toBeGreaterThanOrEqual(low.numbers.holdS);
        if (high.verdict === 'go') expect(high.water.pourL).toBeGreaterThanOrEqual(low.water.pourL);
      }),
      { numRuns: 20 },
    );
  });
});

describe('grain', () => {
  // science notes m, COMPUTED: a 16 to 20 L pot one third full of oats (5.3 to 6.7 L at 412 to 500 kg/m3, 12 %) gives
  // 3.7 to 5.6 kg at 48 %.
  it('a third of a 16 to 20 L pot of oats gives 3.7 to 5.6 kg', () => {
    const oats: Recipe = { ...sampleRecipe(), grain: 'oats' };
    for (const kg of [3.71, 4.5, 5.6]) {
      const recipe = { ...oats, containers: { ...oats.containers, count: 1, fillKg: kg } };
      const { dryKg } = grainPlan(recipe, known().kitchen);
      const litres = [dryKg / 0.5, dryKg / 0.412];
      expect(litres[1]).toBeGreaterThan(5.3 * 0.87);
      expect(litres[0]).toBeLessThan(6.7);
    }
  });

  // science notes h, COMPUTED: 1 kg dry rye is 1.39 L, becomes 1.69 kg and 2.42 L.
  it('a kilogram of rye becomes 1.69 kg and about 2.42 L', () => {
    const base = sampleRecipe();
    const recipe: Recipe = { ...base, containers: { ...base.containers, count: 1, fillKg: 1.6923 } };
    const { dryKg, dryVolumeL, hydratedKg, hydratedVolumeL } = grainPlan(recipe, known().kitchen);
    expect(dryKg).toBeCloseTo(1, 3);
    expect(dryVolumeL).toBeCloseTo(1.39, 2);
    expect(hydratedVolumeL.likely).toBeCloseTo(2.42, 2);
    expect(hydratedKg.low).toBeLessThan(1.69);
    expect(hydratedKg.high).toBeGreaterThan(1.69);
  });

  it('goes into as many pots as leave headspace, and all of it is cooked (property)', () => {
    fc.assert(
      fc.property(anyRecipe, between(2, 40), (recipe, potL) => {
        const { pot, dryKg, simmerWaterL } = grainPlan(recipe, known({ potL }).kitchen);
        expect(pot.volumeL).toBeLessThanOrEqual(0.851 * potL);
        expect(pot.dryKg * pot.fillings).toBeCloseTo(dryKg, 9);
        expect(pot.waterL * pot.fillings).toBeCloseTo(simmerWaterL, 9);
        if (pot.fillings > 1)
          expect((pot.volumeL * pot.fillings) / (pot.fillings - 1)).toBeGreaterThan(0.849 * potL);
      }),
    );
  });
});

describe('water', () => {
  it('is poured as the recipe asks, and never less than the maker and the model want', () => {
    const pours = (cookerWaterL?: number) =>
      planOf(cookerWaterL === undefined ? sampleRecipe() : { ...sampleRecipe(), cookerWaterL }, known({}))
        .numbers;
    const usual = pours();
    const asked = usual.cookerWaterL + 0.5;
    expect(pours(asked).cookerWaterL).toBe(asked);
    expect(pours(0.2).cookerWaterL).toBe(usual.cookerWaterL);
    expect(pours(20).cookerWaterL).toBe(usual.mostWaterL);
    expect(pours(20).mostWaterL).toBe(usual.mostWaterL);
  });

  // science notes g, COMPUTED: vent 1800 W electric 26.1 g/min with UA 4.5 W/K; a hold of 90 min at 6 g/min 0.54 kg.
  it('agrees with the worked example: 10 min of venting use 0.26 kg, 90 min of holding 0.54 kg', () => {
    const kitchen: Partial<Kitchen> = {
      burner: 'electric',
      burnerW: 1800,
      altitudeM: 0,
      roomC: 22,
      minimumWaterL: 0.5,
    };
    const { water } = planOf(sampleRecipe(), known(kitchen));
    expect(water.ventKg.low).toBeLessThan(0.261);
    expect(water.ventKg.high).toBeGreaterThan(0.261);
    expect(water.ventKg.likely).toBeCloseTo(0.27, 1);
    expect(water.holdKg.likely).toBeCloseTo(0.54, 6);
    // 24 g/min on full flame: about 2.2 kg in 90 min.
    expect(water.holdKg.high).toBeGreaterThan(2.1);
    expect(water.pourL).toBeCloseTo(Math.ceil((water.ventKg.likely + 0.54 + 1) * 10) / 10, 9);
  });

  it("is never less than the maker's minimum, leaves a litre, and boils dry sooner on a full flame (property)", () => {
    fc.assert(
      fc.property(
        anyRecipe,
        between(0.2, 6),
        fc.constantFrom('gas' as const, 'electric' as const, 'induction' as const),
        between(900, 4000),
        (recipe, minimumWaterL, burner, burnerW) => {
          const { water } = planOf(recipe, known({ minimumWaterL, burner, burnerW }));
          expect(water.pourL).toBeGreaterThanOrEqual(minimumWaterL);
          expect(water.leftKg.likely).toBeGreaterThanOrEqual(0.999);
          expect(water.dryS.low).toBeLessThanOrEqual(water.dryS.likely);
          expect(water.dryS.likely).toBeLessThan(water.dryS.high);
        },
      ),
      { numRuns: 30 },
    );
  });
});

describe('size and count', () => {
  it('more containers want more grain and as many loads or more; a longer hold gives more (property)', () => {
    fc.assert(
      fc.property(
        anyRecipe,
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 5, max: 60 }),
        (recipe, more, minutes) => {
          const plan = planOf(recipe, known());
          const { containers } = recipe;
          const many = planOf(
            { ...recipe, containers: { ...containers, count: containers.count + more } },
            known(),
          );
          expect(many.numbers.dryKg).toBeGreaterThan(plan.numbers.dryKg);
          expect(many.numbers.simmerWaterL).toBeGreaterThan(plan.numbers.simmerWaterL);
          expect(many.numbers.loads.length).toBeGreaterThanOrEqual(plan.numbers.loads.length);
          const long = planOf({ ...recipe, holdS: recipe.holdS + minutes * 60 }, known());
          expect(long.hold.likely.f0Min).toBeGreaterThan(plan.hold.likely.f0Min);
          expect(long.hold.cautious.logs).toBeGreaterThan(plan.hold.cautious.logs);
        },
      ),
      { numRuns: 20 },
    );
  });

  it('the estimates stay in order: cautious below likely below fast (property)', () => {
    fc.assert(
      fc.property(anyRecipe, recipe => {
        const { cautious, likely, fast } = planOf(recipe, known()).hold;
        expect(cautious.f0Min).toBeLessThan(likely.f0Min);
        expect(likely.f0Min).toBeLessThan(fast.f0Min);
        expect(cautious.suggestedS ?? Infinity).toBeGreaterThan(likely.suggestedS ?? 0);
        expect(likely.suggestedS ?? Infinity).toBeGreaterThan(fast.suggestedS ?? 0);
      }),
      { numRuns: 20 },
    );
  });
});
