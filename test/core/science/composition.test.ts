import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as composition from '../../../src/core/science/composition.ts';
import { GRAIN_PROPERTIES, type Grain } from '../../../src/core/science/grains.ts';
import { number, reference, text } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

const ROWS: Readonly<Record<string, Grain>> = {
  rye: 'rye',
  wheat_hard_red_winter: 'wheat',
  oats: 'oats',
  barley_hulled: 'barley',
  sorghum_milo: 'sorghum',
  millet_proso: 'millet',
  maize_popcorn: 'maize',
  brown_rice: 'brown rice',
  spelt: 'spelt',
  triticale: 'triticale',
};

describe('composition', () => {
  it('has the coefficients and values of choi_okos.csv (READ coefficients, COMPUTED values)', () => {
    for (const row of reference('choi_okos')) {
      const component = text(row, 'component') as composition.Component;
      const property = text(row, 'property') as composition.Property;
      expect([...composition.CHOI_OKOS[component][property]]).toEqual(
        ['a0', 'a1', 'a2'].map(column => number(row, column)),
      );
      for (const celsius of [20, 60, 100, 121]) {
        const value = composition.componentProperty(component, property, celsius);
        near('choi_okos.csv', value, number(row, `at_${celsius}C`), `${component} ${property} ${celsius} C`);
      }
    }
  });

  it('rye at 48 % and 100 C: 1168 kg/m3, 2.932 kJ/kgK, 0.517 W/mK, 1.51e-7 m2/s (COMPUTED)', () => {
    const rye = composition.atMoisture(GRAIN_PROPERTIES.rye.proximate, 0.48);
    expect(rye.carb).toBeCloseTo(60.76, 10);
    const kernel = composition.thermalProperties(rye, 100);
    near('rye kernel (science notes e5)', kernel.densityKgM3, 1168, 'density');
    near('rye kernel (science notes e5)', kernel.cpKJKgK, 2.932, 'cp');
    near('rye kernel (science notes e5)', kernel.conductivityWMK, 0.517, 'k');
    expect(kernel.diffusivityM2S * 1e7).toBeCloseTo(1.51, 2);
  });

  it('agrees with the thermal columns of grain_properties.csv (COMPUTED)', () => {
    let seen = 0;
    for (const row of reference('grain_properties')) {
      const grain = ROWS[text(row, 'grain')];
      if (grain === undefined) continue;
      seen += 1;
      const { proximate } = GRAIN_PROPERTIES[grain];
      // Its fibre is missing from the source: kept as carbohydrate here, evidently guessed in the file.
      const check = proximate.fibrePct === null ? 'grain of unknown fibre' : 'grain_properties.csv thermal';
      const rough = proximate.fibrePct === null ? check : 'grain_properties.csv bulk';
      const dry = composition.thermalProperties(
        composition.atMoisture(proximate, proximate.waterPct / 100),
        20,
      );
      near(check, dry.cpKJKgK, number(row, 'cp_dry_kJ_kgK'), `${grain} cp dry`);
      near(check, dry.conductivityWMK, number(row, 'k_dry_kernel_W_mK'), `${grain} k dry`);
      const wanted = number(row, 'target_moisture_default') / 100;
      const wet = composition.thermalProperties(composition.atMoisture(proximate, wanted), 100);
      near(check, wet.cpKJKgK, number(row, 'cp_target_kJ_kgK'), `${grain} cp`);
      near(check, wet.conductivityWMK, number(row, 'k_target_kernel_W_mK'), `${grain} k`);
      near(check, wet.densityKgM3, number(row, 'rho_target_kernel_kg_m3'), `${grain} rho`);
      const bulk = composition.bulkThermal(wet, 0.4);
      near(rough, bulk.conductivityWMK, number(row, 'k_target_bulk_conduction_W_mK'), grain);
      const alpha = number(row, 'alpha_bulk_conduction_1e-7_m2_s') * 1e-7;
      near(rough, bulk.diffusivityM2S, alpha, `${grain} alpha`);
    }
    expect(seen).toBe(10);
  });

  it('a mixture lies between its components, and wetter is denser in heat (properties)', () => {
    const share = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(share, share, share, share, share, share), parts => {
        const mixture = Object.fromEntries(
          composition.COMPONENTS.map((component, i) => [component, parts[i] ?? 0]),
        ) as composition.Composition;
        const { cpKJKgK, densityKgM3 } = composition.thermalProperties(mixture, 60);
        const all = (property: composition.Property) =>
          composition.COMPONENTS.map(component => composition.componentProperty(component, property, 60));
        expect(cpKJKgK).toBeGreaterThan(Math.min(...all('cp')));
        expect(cpKJKgK).toBeLessThan(Math.max(...all('cp')));
        expect(densityKgM3).toBeGreaterThan(Math.min(...all('rho')));
        expect(densityKgM3).toBeLessThan(Math.max(...all('rho')));
        const wetter = { ...mixture, water: mixture.water + 0.1 };
        expect(composition.thermalProperties(wetter, 60).cpKJKgK).toBeGreaterThan(cpKJKgK);
      }),
    );
  });

  it('refuses temperatures and mixtures it was not made for', () => {
    expect(() => composition.componentProperty('fat', 'k', 200)).toThrow(
      'Temperature must be between -40 and 150 C',
    );
    const nothing = { water: 0, protein: 0, fat: 0, carb: 0, fibre: 0, ash: 0 };
    expect(() => composition.thermalProperties(nothing, 20)).toThrow('at least one component');
    expect(() => composition.atMoisture(GRAIN_PROPERTIES.rye.proximate, 48)).toThrow('wet-basis fraction');
  });
});
