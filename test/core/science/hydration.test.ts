import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GRAIN_PROPERTIES, GRAINS, type Grain } from '../../../src/core/science/grains.ts';
import * as hydration from '../../../src/core/science/hydration.ts';
import { lbPerBushelToKgM3 } from '../../../src/core/science/units.ts';
import { number, reference, text } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

describe('hydration', () => {
  it('1000 g at 12 % becomes 1692.3 g at 48 % and takes up 692.3 g (COMPUTED, science notes h)', () => {
    const change = { massKg: 1, from: 0.12, to: 0.48 };
    near('dry-matter examples', hydration.massAtMoistureKg(change) * 1000, 1692.3, 'g');
    near('dry-matter examples', hydration.waterUptakeKg(change) * 1000, 692.3, 'g');
  });

  it('counts the water already in the grain: 200+200, 800+600, 3300+1400 (COMPUTED, rye at 12 %)', () => {
    for (const [grainG, waterG, percent] of [
      [200, 200, 56],
      [800, 600, 49.7],
      [3300, 1400, 38.2],
    ] as const) {
      const wet = { massKg: grainG / 1000, moisture: 0.12, waterKg: waterG / 1000 };
      near('dry-matter examples', hydration.moistureWithWater(wet) * 100, percent, `${grainG}+${waterG}`);
    }
  });

  it('a film of 27 g/kg makes 48.0 into 49.4 %, and 50 ml of culture 50.5 % (COMPUTED, science notes h)', () => {
    const wet = (waterKg: number) => hydration.moistureWithWater({ massKg: 1, moisture: 0.48, waterKg });
    near('dry-matter examples', wet(0.027) * 100, 49.4, 'film');
    near('dry-matter examples', wet(0.05) * 100, 50.5, 'culture');
  });

  it('1 kg of dry rye is 1.39 L, hydrated 1.69 kg and 2.42 L (COMPUTED, science notes h)', () => {
    const rye = hydration.hydrationYield({
      storedKg: 1,
      storedMoisture: 0.12,
      wantedMoisture: 0.48,
      dryBulkKgM3: 721,
    });
    expect(rye.dryVolumeL).toBeCloseTo(1.39, 2);
    expect(rye.hydratedKg).toBeCloseTo(1.69, 2);
    expect(rye.hydratedVolumeL.likely).toBeCloseTo(2.42, 2);
    expect(rye.hydratedVolumeL.low).toBeLessThan(2.42);
    expect(rye.hydratedVolumeL.high).toBeGreaterThan(2.42);
  });

  it('a third of a 16 to 20 L pot of oats gives 3.7 to 5.6 kg at 48 % (COMPUTED, science notes m)', () => {
    const hydrated = (litres: number, kgM3: number) =>
      hydration.massAtMoistureKg({ massKg: (litres * kgM3) / 1000, from: 0.12, to: 0.48 });
    expect(hydrated(16 / 3, 412)).toBeCloseTo(3.7, 1);
    expect(hydrated(20 / 3, 500)).toBeCloseTo(5.6, 1);
  });

  it('says when a pot overflows, at the start or when the heap has swollen', () => {
    const pot = { storedKg: 3.5, storedMoisture: 0.12, wantedMoisture: 0.48, dryBulkKgM3: 721, potL: 10 };
    const watery = hydration.potLevel({ ...pot, waterL: 7 });
    // 3.5 kg / 721 kg/m3 = 4.854 L of heap, 60 % of it solid, by hand.
    expect(watery.volumeL).toBeCloseTo(4.854 * 0.6 + 7, 2);
    expect(watery.headspaceL).toBeCloseTo(10 - watery.volumeL, 9);
    // 3.5 kg x 0.88 / 0.52 = 5.923 kg, at 600 kg/m3 9.872 L, by hand.
    expect(hydration.potLevel({ ...pot, waterL: 4 }).volumeL).toBeCloseTo(9.872, 2);
    expect(hydration.potLevel({ ...pot, waterL: 8 }).fill).toBeGreaterThan(1);
    expect(hydration.levelHeightM(7.0686, 0.3)).toBeCloseTo(0.1, 4);
  });

  it('moisture and mass are inverse pairs and rise together (properties)', () => {
    const wet = fc.double({ min: 0, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(wet, wet, fc.double({ min: 0.01, max: 50, noNaN: true }), (from, to, massKg) => {
        expect(hydration.wetBasis(hydration.dryBasis(from))).toBeCloseTo(from, 12);
        const after = hydration.massAtMoistureKg({ massKg, from, to });
        expect(hydration.massAtMoistureKg({ massKg: after, from: to, to: from })).toBeCloseTo(massKg, 9);
        const weighed = { storedKg: massKg, storedMoisture: from, drainedKg: after };
        expect(hydration.moistureByWeighing(weighed)).toBeCloseTo(to, 9);
        expect(hydration.massAtMoistureKg({ massKg, from, to: to + 0.01 })).toBeGreaterThan(after);
      }),
    );
  });

  it('refuses a moisture that is a per cent and a weight below the dry matter, in a sentence', () => {
    expect(() => hydration.massAtMoistureKg({ massKg: 1, from: 12, to: 0.48 })).toThrow(
      'Moisture before must be a wet-basis fraction from 0 to below 1, not 12.',
    );
    expect(() => hydration.moistureByWeighing({ storedKg: 2, storedMoisture: 0.12, drainedKg: 1.5 })).toThrow(
      'its dry matter alone is 1.760 kg. Weigh it again.',
    );
    expect(() =>
      hydration.potLevel({
        storedKg: 1,
        storedMoisture: 0.12,
        wantedMoisture: 0.48,
        dryBulkKgM3: 721,
        potL: 0,
        waterL: 1,
      }),
    ).toThrow(RangeError);
  });
});

describe('grains', () => {
  const rows: Readonly<Record<Grain, string>> = {
    rye: 'rye',
    wheat: 'wheat_hard_red_winter',
    oats: 'oats',
    barley: 'barley_hulled',
    sorghum: 'sorghum_milo',
    millet: 'millet_proso',
    maize: 'maize_popcorn',
    'brown rice': 'brown_rice',
    spelt: 'spelt',
    triticale: 'triticale',
  };

  it('holds grain_properties.csv (READ: USDA composition and test weights)', () => {
    const table = reference('grain_properties');
    for (const grain of GRAINS) {
      const row = table.find(candidate => text(candidate, 'grain') === rows[grain]);
      if (row === undefined) throw new Error(`no row for ${grain}`);
      const has = GRAIN_PROPERTIES[grain];
      expect(has.proximate.waterPct).toBe(number(row, 'water_pct'));
      expect(has.proximate.proteinPct).toBe(number(row, 'protein_pct'));
      expect(has.proximate.fatPct).toBe(number(row, 'fat_pct'));
      expect(has.proximate.carbohydratePct).toBe(number(row, 'carb_by_diff_pct'));
      expect(has.proximate.ashPct).toBe(number(row, 'ash_pct'));
      expect(has.proximate.fibrePct).toBe(text(row, 'fibre_pct') === '' ? null : number(row, 'fibre_pct'));
      expect(has.bulkKgM3).toBe(number(row, 'bulk_density_dry_kg_m3'));
      expect(lbPerBushelToKgM3(number(row, 'test_weight_lb_bu'))).toBeCloseTo(has.bulkKgM3, -0.4);
      const { low, likely, high } = has.wantedMoisture;
      expect([low, likely, high].map(part => Math.round(part * 100))).toEqual([
        number(row, 'target_moisture_low'),
        number(row, 'target_moisture_default'),
        number(row, 'target_moisture_high'),
      ]);
    }
  });

  it('compositions add up to about 100 %', () => {
    for (const { proximate: p } of Object.values(GRAIN_PROPERTIES)) {
      expect(p.waterPct + p.proteinPct + p.fatPct + p.carbohydratePct + p.ashPct).toBeCloseTo(100, 0);
    }
  });
});
