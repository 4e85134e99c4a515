import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Units } from '../../src/core/kitchen.ts';
import {
  formatAltitude,
  formatDuration,
  formatLength,
  formatMass,
  formatPercent,
  formatPower,
  formatPressure,
  formatSize,
  formatTemperature,
  formatVolume,
  formatWaterPerKg,
  parseDuration,
  parseMass,
} from '../../src/core/quantity.ts';

const metric: Units = { mass: 'kg', volume: 'L', pressure: 'kPa', temperature: 'C', length: 'cm' };
const american: Units = { mass: 'lb', volume: 'qt', pressure: 'psi', temperature: 'F', length: 'in' };
const bar: Units = { ...metric, pressure: 'bar' };

// Factors: NIST SP 811 (MEMORY), as in quantity.test.ts. 15.14 psi = 104.4 kPa and 240 F = 115.56 C: science notes b (COMPUTED, READ).
describe('quantities in the unit the person chose', () => {
  it.each([
    [formatMass(1.1, metric), '1.1 kg'],
    [formatMass(0.7, metric), '0.7 kg'],
    [formatMass(3.5454, metric), '3.55 kg'],
    [formatMass(0.025, metric), '25 g'],
    [formatMass(1.0205828, american), '2 lb 4 oz'],
    [formatMass(0.45359237, american), '1 lb'],
    [formatMass(0.2, american), '7.1 oz'],
    [formatMass(0.9071, american), '2 lb'],
    [formatMass(-1.0205828, american), '-2 lb 4 oz'],
    [formatVolume(2.5, metric), '2.5 L'],
    [formatVolume(9.463529, american), '10 qt'],
    [formatVolume(0.005, american), '5 mL'],
    [formatVolume(0, metric), '0 L'],
    [formatPressure(103.42136, american), '15 psi'],
    [formatPressure(104.4, american), '15.1 psi'],
    [formatPressure(103.42136, metric), '103 kPa'],
    [formatPressure(103.42136, bar), '1.03 bar'],
    [formatTemperature(115.56, american), '240 °F'],
    [formatTemperature(120.955, metric), '121 °C'],
    [formatTemperature(120.955, metric, 1), '121 °C'],
    [formatTemperature(-0.2, metric), '0 °C'],
    [formatLength(0.165, metric), '16.5 cm'],
    [formatLength(0.3, american), '11.81 in'],
    [formatAltitude(640, metric), '640 m'],
    [formatAltitude(640.08, american), '2100 ft'],
    [formatPercent(0.48), '48 %'],
    [formatPercent(0.125), '12.5 %'],
    [formatPower(3000), '3 kW'],
    [formatPower(800), '800 W'],
    [formatWaterPerKg(2.5, metric), '2.5 L per kg'],
    [formatWaterPerKg(2.503621, american), '1.2 qt per lb'],
    [
      formatSize({ shape: 'brick', lengthM: 0.18, widthM: 0.11, thicknessM: 0.075 }, metric),
      '18 x 11 x 7.5 cm',
    ],
    [formatSize({ shape: 'cylinder', diameterM: 0.09, heightM: 0.125 }, metric), '9 cm wide, 12.5 cm high'],
  ])('%s', (text, expected) => {
    expect(text).toBe(expected);
  });

  it.each([
    [0, '0 s'],
    [20, '20 s'],
    [59.6, '1 min'],
    [150, '2 min 30 s'],
    [600, '10 min'],
    [629, '10 min'],
    [3600, '1 h'],
    [5400, '90 min'],
    [7200, '2 h'],
    [30_600, '8 h 30 min'],
    [50_400, '14 h'],
    [3 * 86_400, '3 days'],
    [3 * 86_400 + 7200, '3 days 2 h'],
    [-90, '-1 min 30 s'],
  ])('says %d seconds as %s', (seconds, expected) => {
    expect(formatDuration(seconds)).toBe(expected);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
    'throws on %d instead of showing it',
    value => {
      for (const format of [
        formatMass,
        formatVolume,
        formatPressure,
        formatTemperature,
        formatLength,
        formatAltitude,
      ]) {
        expect(() => format(value, metric)).toThrow(RangeError);
        expect(() => format(value, american)).toThrow(RangeError);
      }
      expect(() => formatDuration(value)).toThrow(RangeError);
      expect(() => formatPercent(value)).toThrow(RangeError);
    },
  );

  it('shows nothing that cannot be typed back to within the rounding', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.002, max: 99, noNaN: true }),
        fc.constantFrom(metric, american),
        (kg, units) => {
          const back = parseMass(formatMass(kg, units));
          expect(back.ok && Math.abs(back.value - kg)).toBeLessThanOrEqual(0.0051);
        },
      ),
      { seed: 3, numRuns: 2000 },
    );
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 3 * 86_400 }), seconds => {
        const back = parseDuration(formatDuration(seconds));
        expect(back.ok && Math.abs(back.value - seconds)).toBeLessThanOrEqual(30);
      }),
      { seed: 3, numRuns: 2000 },
    );
  });
});
