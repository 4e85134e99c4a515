import { spawnSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boilingC,
  chamberC,
  gaugeKPaFor,
  latentHeatKJKg,
  saturationC,
  saturationKPa,
  saturationSlopeKPaPerK,
  steamKgM3,
  waterKgM3,
} from '../../../src/core/science/steam.ts';
import { psiToKPa } from '../../../src/core/science/units.ts';
import { number, reference } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

describe('steam', () => {
  it('gives the official verification values of IAPWS-IF97 tables 35 and 36 (READ)', () => {
    near('IF97 tables 35, 36', saturationKPa(300 - 273.15), 3.53658941, '300 K');
    near('IF97 tables 35, 36', saturationKPa(500 - 273.15), 2638.89776, '500 K');
    near('IF97 tables 35, 36', saturationKPa(600 - 273.15), 12344.3146, '600 K');
    near('IF97 tables 35, 36', saturationC(100) + 273.15, 372.755919, '0.1 MPa');
    near('IF97 tables 35, 36', saturationC(1000) + 273.15, 453.035632, '1 MPa');
    near('IF97 tables 35, 36', saturationC(10000) + 273.15, 584.149488, '10 MPa');
  });

  it('agrees with saturation.csv from 60 to 140 C (COMPUTED, python3-iapws)', () => {
    for (const row of reference('saturation')) {
      const celsius = number(row, 'T_C');
      const where = `${celsius} C`;
      near('saturation.csv pressure', saturationKPa(celsius), number(row, 'p_sat_kPa'), where);
      near('saturation.csv temperature', saturationC(number(row, 'p_sat_kPa')), celsius, where);
      near('saturation.csv latent heat', latentHeatKJKg(celsius), number(row, 'h_fg_kJ_per_kg'), where);
      near('saturation.csv densities', steamKgM3(celsius), number(row, 'rho_vapour_kg_per_m3'), where);
      near('saturation.csv densities', waterKgM3(celsius), number(row, 'rho_liquid_kg_per_m3'), where);
    }
  });

  it('gives the densities printed in IAPWS SR1-86(1992) (MEMORY)', () => {
    near('SR1-86 table of saturated densities', waterKgM3(0.01), 999.789, '273.16 K');
    near('SR1-86 table of saturated densities', waterKgM3(373.1243 - 273.15), 958.365, '373.1243 K');
    near('SR1-86 table of saturated densities', steamKgM3(373.1243 - 273.15), 0.597586, '373.1243 K');
    near('SR1-86 table of saturated densities', steamKgM3(647.096 - 273.15), 322, 'critical point');
  });

  it('water under the standard atmosphere boils at 99.974 C, not 100', () => {
    near('gauge to temperature (science notes)', boilingC(101.325), 99.974);
  });

  it('15 psi gauge at sea level is 120.955 C, and 121.1 C needs 15.136 psi (COMPUTED)', () => {
    near(
      'gauge to temperature (science notes)',
      chamberC({ gaugeKPa: psiToKPa(15), atmosphereKPa: 101.325 }),
      120.955,
    );
    near(
      'gauge to temperature (science notes)',
      chamberC({ gaugeKPa: gaugeKPaFor({ celsius: 121.1, atmosphereKPa: 101.325 }), atmosphereKPa: 101.325 }),
      121.1,
    );
    expect(gaugeKPaFor({ celsius: 121.1, atmosphereKPa: 101.325 })).toBeCloseTo(psiToKPa(15.136), 2);
  });

  it('a gauge that is 1 or 2 psi wrong moves the temperature as the science notes says (COMPUTED)', () => {
    for (const [psi, celsius] of [
      [13, 118.75],
      [14, 119.87],
      [16, 122.01],
      [17, 123.04],
    ] as const) {
      near(
        'gauge to temperature (science notes)',
        chamberC({ gaugeKPa: psiToKPa(psi), atmosphereKPa: 101.325 }),
        celsius,
      );
    }
  });

  it('both directions are inverse and rise together (properties)', () => {
    fc.assert(
      fc.property(fc.double({ min: 60, max: 140, noNaN: true }), celsius => {
        near('round trip', saturationC(saturationKPa(celsius)), celsius);
        expect(saturationKPa(celsius + 1e-3)).toBeGreaterThan(saturationKPa(celsius));
        const slope = (saturationKPa(celsius + 0.01) - saturationKPa(celsius - 0.01)) / 0.02;
        expect(saturationSlopeKPaPerK(celsius) / slope).toBeCloseTo(1, 6);
        expect(latentHeatKJKg(celsius + 0.1)).toBeLessThan(latentHeatKJKg(celsius));
      }),
    );
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 300, noNaN: true }),
        fc.double({ min: 50, max: 108, noNaN: true }),
        (g, p) => {
          const celsius = chamberC({ gaugeKPa: g, atmosphereKPa: p });
          expect(gaugeKPaFor({ celsius, atmosphereKPa: p })).toBeCloseTo(g, 6);
          expect(chamberC({ gaugeKPa: g + 0.1, atmosphereKPa: p })).toBeGreaterThan(celsius);
        },
      ),
    );
  });

  it('refuses what lies outside the saturation line, in a sentence', () => {
    expect(() => saturationKPa(-0.1)).toThrow('Steam temperature must be between 0 and');
    expect(() => saturationKPa(400)).toThrow(RangeError);
    expect(() => saturationKPa(Number.NaN)).toThrow(RangeError);
    expect(() => saturationC(0)).toThrow('Steam pressure must be between 0.6112 and 22064 kPa absolute');
    expect(() => chamberC({ gaugeKPa: Number.NaN, atmosphereKPa: 101 })).toThrow('Gauge pressure');
    expect(() => chamberC({ gaugeKPa: -101, atmosphereKPa: 101 })).toThrow(RangeError);
    expect(saturationKPa(0)).toBeCloseTo(0.611213, 5);
    expect(saturationKPa(647.096 - 273.15)).toBeCloseTo(22064, 0);
  });
});

describe('steam, second opinions', () => {
  it('agrees with python3-iapws where that is installed', () => {
    const script = [
      'import json, iapws',
      'from iapws.iapws97 import _PSat_T, _TSat_P, IAPWS97',
      'ts = [20 + 2.37 * i for i in range(140)]',
      'lat = [100.0, 110.0, 121.1, 130.0]',
      'print(json.dumps([[t, _PSat_T(t + 273.15) * 1000, _TSat_P(_PSat_T(t + 273.15)) - 273.15] for t in ts]))',
      'print(json.dumps([[t, IAPWS97(T=t + 273.15, x=1).h - IAPWS97(T=t + 273.15, x=0).h] for t in lat]))',
    ].join('\n');
    // Debian's package belongs to Debian's own python, which need not be the first on the path.
    const ran = ['python3', '/usr/bin/python3']
      .map(python => spawnSync(python, ['-c', script], { encoding: 'utf8' }))
      .find(({ error, status }) => error === undefined && status === 0);
    if (ran === undefined) {
      console.log('skipped: python3-iapws is not installed, so steam has no second opinion from it');
      return;
    }
    const [first, second] = ran.stdout.split('\n');
    const points = JSON.parse(first ?? '') as [number, number, number][];
    expect(points).toHaveLength(140);
    for (const [celsius, kPa, back] of points) {
      near('second opinion on saturation', saturationKPa(celsius), kPa, `${celsius} C`);
      near('second opinion on saturation', saturationC(kPa) + 273.15, back + 273.15, `${celsius} C`);
    }
    for (const [celsius, kJKg] of JSON.parse(second ?? '') as [number, number][]) {
      near('second opinion on latent heat', latentHeatKJKg(celsius), kJKg, `${celsius} C`);
    }
  });

  it('agrees with the ASHRAE saturation formula of psychrolib', async () => {
    const psychrolib = (await import('psychrolib')).default;
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (let celsius = 20; celsius <= 160; celsius += 5) {
      near(
        'ASHRAE saturation (psychrolib)',
        saturationKPa(celsius),
        psychrolib.GetSatVapPres(celsius) / 1000,
        `${celsius} C`,
      );
    }
  });
});
