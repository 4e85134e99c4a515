import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as units from '../../../src/core/science/units.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

describe('units', () => {
  it('uses the exact factors (NIST SP 811, appendix B; science notes head for the psi)', () => {
    near('exact conversions', units.psiToKPa(1), 6.894757293168, 'psi');
    near('exact conversions', units.barToKPa(1), 100, 'bar');
    near('exact conversions', units.lbToKg(1), 0.45359237, 'lb');
    near('exact conversions', units.qtToL(1), 0.946352946, 'qt');
    near('exact conversions', units.inToM(1), 0.0254, 'in');
    near('exact conversions', units.ftToM(1), 0.3048, 'ft');
    near('exact conversions', units.celsiusToFahrenheit(100), 212, 'C');
    near('exact conversions', units.fahrenheitToCelsius(250), 1090 / 9, 'F');
    expect(units.lbPerBushelToKgM3(60)).toBeCloseTo(60 * 12.8718, 2);
  });

  it('brings every value back (properties)', () => {
    const pairs = [
      [units.psiToKPa, units.kPaToPsi],
      [units.barToKPa, units.kPaToBar],
      [units.celsiusToFahrenheit, units.fahrenheitToCelsius],
      [units.lbToKg, units.kgToLb],
      [units.qtToL, units.lToQt],
      [units.inToM, units.mToIn],
      [units.ftToM, units.mToFt],
    ] as const;
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), value => {
        for (const [there, back] of pairs) expect(back(there(value))).toBeCloseTo(value, 8);
      }),
    );
  });
});
