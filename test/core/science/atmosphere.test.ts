import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import { altitudeM, atmosphereKPa, localAtmosphereKPa } from '../../../src/core/science/atmosphere.ts';
import { boilingC, chamberC, gaugeKPaFor } from '../../../src/core/science/steam.ts';
import { celsiusToFahrenheit, ftToM, kPaToPsi, psiToKPa } from '../../../src/core/science/units.ts';
import { number, reference, text } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

describe('atmosphere', () => {
  it('agrees with standard_atmosphere.csv (COMPUTED, ISA 1976 and python3-iapws)', () => {
    for (const row of reference('standard_atmosphere')) {
      const height = number(row, 'altitude_m');
      const where = `${height} m`;
      const kPa = atmosphereKPa(height);
      near('standard_atmosphere.csv pressure', kPa, number(row, 'p_isa_kPa'), where);
      const at = (psi: number) => chamberC({ gaugeKPa: psiToKPa(psi), atmosphereKPa: kPa });
      near('standard_atmosphere.csv temperatures', boilingC(kPa), number(row, 'boiling_point_C'), where);
      near('standard_atmosphere.csv temperatures', at(15), number(row, 'T_at_15psig_C'), where);
      near('standard_atmosphere.csv temperatures', at(10), number(row, 'T_at_10psig_C'), where);
      const wanted = gaugeKPaFor({ celsius: 121.1, atmosphereKPa: kPa });
      near('standard_atmosphere.csv gauge', kPaToPsi(wanted), number(row, 'gauge_psi_for_121_1C'), where);
      near('standard_atmosphere.csv gauge', wanted, number(row, 'gauge_kPa_for_121_1C'), where);
      const canning = gaugeKPaFor({ celsius: 1040 / 9, atmosphereKPa: kPa });
      near('standard_atmosphere.csv gauge', kPaToPsi(canning), number(row, 'gauge_psi_for_115_56C'), where);
    }
  });

  it('gives the pressures printed in ISO 2533 (MEMORY)', () => {
    for (const [height, hPa] of [
      [0, 1013.25],
      [1000, 898.746],
      [2000, 794.952],
      [3000, 701.085],
      [4000, 616.402],
    ] as const) {
      near('ISO 2533 table', atmosphereKPa(height), hPa / 10, `${height} m`);
    }
  });

  it('agrees with psychrolib, an outside library with the ASHRAE form', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (let height = -400; height <= 10500; height += 100) {
      const other = psychrolib.GetStandardAtmPressure(height) / 1000;
      near('ASHRAE atmosphere (psychrolib)', atmosphereKPa(height), other, `${height} m`);
    }
  });

  it('shows how published canner gauges relate to 240 F: short at band tops, generous at the bottoms', () => {
    for (const row of reference('altitude_gauge')) {
      const top = atmosphereKPa(ftToM(number(row, 'alt_to_ft')));
      const where = `${text(row, 'gauge_type')} to ${text(row, 'alt_to_ft')} ft`;
      const published = number(row, 'published_psi');
      const need = (kPa: number) => kPaToPsi(gaugeKPaFor({ celsius: 1040 / 9, atmosphereKPa: kPa }));
      near('altitude_gauge.csv', top, number(row, 'p_atm_top_kPa'), where);
      near('altitude_gauge.csv', need(top), number(row, 'required_psi_for_240F_at_top'), where);
      const reached = chamberC({ gaugeKPa: psiToKPa(published), atmosphereKPa: top });
      near('altitude_gauge.csv temperatures', reached, number(row, 'T_C_at_top_with_published'), where);
      near(
        'altitude_gauge.csv temperatures',
        celsiusToFahrenheit(reached),
        number(row, 'T_F_at_top_with_published'),
        where,
      );
      near(
        'altitude_gauge.csv temperatures',
        chamberC({ gaugeKPa: psiToKPa(15), atmosphereKPa: top }),
        number(row, 'T_C_at_top_with_15psig'),
        where,
      );
      if (text(row, 'gauge_type') === 'dial') {
        const bottom = atmosphereKPa(ftToM(number(row, 'alt_from_ft')));
        expect(need(top) - published).toBeLessThanOrEqual(0.35);
        expect(published - need(bottom)).toBeLessThanOrEqual(0.95);
      }
    }
  });

  it('reproduces the altitude table of the science notes, b (COMPUTED)', () => {
    for (const [height, kPa, boils, at15, psi121, psi240] of [
      [0, 101.325, 99.97, 120.95, 15.14, 10.28],
      [500, 95.46, 98.31, 120.03, 15.99, 11.13],
      [1000, 89.87, 96.65, 119.14, 16.8, 11.94],
      [1500, 84.56, 94.98, 118.26, 17.57, 12.71],
      [2000, 79.5, 93.32, 117.41, 18.3, 13.45],
      [3000, 70.11, 89.97, 115.78, 19.66, 14.81],
    ] as const) {
      const here = atmosphereKPa(height);
      const where = `${height} m`;
      near('science notes table b', here, kPa, where);
      near('science notes table b', boilingC(here), boils, where);
      near('science notes table b', chamberC({ gaugeKPa: psiToKPa(15), atmosphereKPa: here }), at15, where);
      near(
        'science notes table b',
        kPaToPsi(gaugeKPaFor({ celsius: 121.1, atmosphereKPa: here })),
        psi121,
        where,
      );
      near(
        'science notes table b',
        kPaToPsi(gaugeKPaFor({ celsius: 1040 / 9, atmosphereKPa: here })),
        psi240,
        where,
      );
    }
  });

  it('falls with altitude, and the way back gives the altitude (properties)', () => {
    fc.assert(
      fc.property(fc.double({ min: -430, max: 10990, noNaN: true }), height => {
        expect(atmosphereKPa(height + 1)).toBeLessThan(atmosphereKPa(height));
        expect(altitudeM(atmosphereKPa(height))).toBeCloseTo(height, 6);
        expect(boilingC(atmosphereKPa(height + 1))).toBeLessThan(boilingC(atmosphereKPa(height)));
      }),
    );
  });

  it('believes a barometer before the altitude, and refuses what no place on land has', () => {
    expect(localAtmosphereKPa({ altitudeM: 640, stationKPa: 94.1 })).toBe(94.1);
    expect(localAtmosphereKPa({ altitudeM: 0, stationKPa: null })).toBe(101.325);
    expect(() => localAtmosphereKPa({ altitudeM: 640, stationKPa: 1013 })).toThrow(
      'Measured air pressure must be between 22 and 110 kPa, not 1013.',
    );
    expect(() => atmosphereKPa(12000)).toThrow('Altitude must be between -430 and 11000 m, not 12000.');
    expect(() => atmosphereKPa(Number.NaN)).toThrow(RangeError);
  });
});
