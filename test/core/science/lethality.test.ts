import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atmosphereKPa } from '../../../src/core/science/atmosphere.ts';
import * as lethality from '../../../src/core/science/lethality.ts';
import * as spores from '../../../src/core/science/spores.ts';
import { chamberC } from '../../../src/core/science/steam.ts';
import { fahrenheitToCelsius, psiToKPa } from '../../../src/core/science/units.ts';
import { number, reference, text } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

const F250 = { atC: 1090 / 9, zC: 10 };

describe('lethality', () => {
  it('agrees with lethality_examples.csv by the method each row names', () => {
    const examples = new Map<string, ReturnType<typeof reference>[number][]>();
    for (const row of reference('lethality_examples')) {
      const name = text(row, 'example');
      examples.set(name, [...(examples.get(name) ?? []), row]);
    }
    expect(examples.size).toBe(6);
    for (const [name, rows] of examples) {
      const [first] = rows;
      if (first === undefined) throw new Error(name);
      const readings = rows.map(row => ({
        seconds: number(row, 'time_min') * 60,
        celsius: number(row, 'T_C'),
      }));
      const zC = number(first, 'z_C');
      const scale = { atC: number(first, 'Tref_C'), zC };
      const said = text(first, 'method');
      const method = said === 'step' || said === 'trapezoid' ? said : 'log-linear';
      const minutes = lethality.historyF(readings, scale, method);
      const expected = number(first, 'expected_F_min');
      const read = text(first, 'source').startsWith('READ');
      near(read ? 'lethality examples, read' : 'lethality examples, computed', minutes, expected, name);
      expect(Math.abs(minutes - expected)).toBeLessThanOrEqual(number(first, 'tolerance'));
    }
  });

  it('Geankoplis 9.12-2: the method spreads the answer by 5 % (COMPUTED)', () => {
    const fahrenheit = [80, 165, 201, 212.5, 225, 230.5, 235];
    const readings = [0, 15, 25, 30, 40, 50, 64].map((minutes, i) => ({
      seconds: minutes * 60,
      celsius: fahrenheitToCelsius(fahrenheit[i] ?? Number.NaN),
    }));
    near(
      'lethality method spread',
      lethality.historyF(readings, F250, 'trapezoid'),
      2.503,
      'trapezoid, 250 F',
    );
    near('lethality method spread', lethality.historyF(readings, lethality.F0_REFERENCE, 'trapezoid'), 2.509);
    near('lethality method spread', lethality.historyF(readings, F250), 2.385, 'log-linear');
  });

  it('a ramp from 100 to 121.1 C: exact 4.309233 min, trapezoid of 5 min steps 4.675 (COMPUTED)', () => {
    const ramp = (stepMin: number) => {
      const times: number[] = [];
      for (let minutes = 0; minutes < 21.1 - 1e-9; minutes += stepMin) times.push(minutes);
      return [...times, 21.1].map(minutes => ({ seconds: minutes * 60, celsius: 100 + minutes }));
    };
    near('lethality examples, computed', lethality.historyF(ramp(21.1)), 4.309233, 'one piece');
    near('lethality examples, computed', lethality.historyF(ramp(0.5)), 4.309233, 'many pieces');
    near('lethality method spread', lethality.historyF(ramp(5), lethality.F0_REFERENCE, 'trapezoid'), 4.675);
    near(
      'lethality method spread',
      lethality.historyF(ramp(0.1), lethality.F0_REFERENCE, 'trapezoid'),
      4.3094,
    );
    const step = lethality.historyF(
      [
        { seconds: 0, celsius: 120.955 },
        { seconds: 900, celsius: 120.955 },
      ],
      lethality.F0_REFERENCE,
    );
    near('lethality method spread', step, 14.506, '15 min at 15 psi');
  });

  it('lethal rate at 15 psi by altitude, and the plateau for F0 15 there (COMPUTED, science notes b)', () => {
    for (const [height, rate, minutes] of [
      [0, 0.967, 15.5],
      [500, 0.782, 19.2],
      [1000, 0.636, 23.6],
      [1500, 0.52, 28.8],
      [2000, 0.428, 35.1],
      [3000, 0.294, 51.1],
    ] as const) {
      const celsius = chamberC({ gaugeKPa: psiToKPa(15), atmosphereKPa: atmosphereKPa(height) });
      near('lethal rate by gauge', lethality.lethalRate(celsius), rate, `${height} m`);
      near('spores worked example', 15 / lethality.lethalRate(celsius), minutes, `${height} m`);
    }
  });

  it('a gauge 2 or 1 psi wrong multiplies the rate by 0.60, 0.78, 1.27, 1.62 (COMPUTED, science notes b)', () => {
    const rate = (psi: number) =>
      lethality.lethalRate(chamberC({ gaugeKPa: psiToKPa(psi), atmosphereKPa: 101.325 }));
    for (const [psi, factor] of [
      [13, 0.6],
      [14, 0.78],
      [16, 1.27],
      [17, 1.62],
    ] as const) {
      near('gauge error', rate(psi) / rate(15), factor, `${psi} psi`);
    }
  });

  it('D-values moved to 121.1 C agree with d_values.csv (READ values, COMPUTED equivalents)', () => {
    const named: Readonly<Record<string, lethality.Organism>> = {
      'Bacillus subtilis 168 (lab strain)': spores.LABORATORY_SPORE,
      'Bacillus subtilis A163 (food isolate)': spores.GRAIN_SPORE,
      'Bacillus sporothermodurans IC4 (food isolate)': spores.HARDEST_SPORE,
      'Bacillus cereus strain 1061': spores.RICE_SPORE,
    };
    let seen = 0;
    for (const row of reference('d_values')) {
      const organism = named[text(row, 'organism')];
      if (organism === undefined) continue;
      seen += 1;
      expect([organism.dMin, organism.atC, organism.zC]).toEqual(
        ['D_min', 'T_C', 'z_C'].map(column => number(row, column)),
      );
      const at121 = lethality.decimalReductionMin(organism, 121.1);
      near('d_values.csv', at121, number(row, 'D121_1_equiv_min'), organism.name);
    }
    expect(seen).toBe(spores.SPORES.length);
  });

  it('600 g of dry matter, 100 spores/g, risk 1e-3: 7.8 logs; F0 3.6, 15.6, 24.5 min (COMPUTED)', () => {
    const load = lethality.sporesInBag({ dryKg: 0.6, sporesPerG: 100 });
    expect(load).toBeCloseTo(6e4, 6);
    const logs = lethality.logReductionFor(load, 1e-3);
    near('spores worked example', logs, 7.78, 'logs');
    near('spores worked example', logs * 0.46, 3.6, 'D 0.46');
    near('spores worked example', logs * 2, 15.6, 'D 2');
    near('spores worked example', logs * 3.15, 24.5, 'D 3.15');
    expect(lethality.riskOfSurvivor(lethality.survivors(load, logs))).toBeCloseTo(1e-3, 9);
  });

  it('with a small z a spore dies slower below 121 than F0 claims: D 3.4 min at 115.8 C, not 1.6', () => {
    near('spores worked example', lethality.decimalReductionMin(spores.GRAIN_SPORE, 115.8), 3.4, '3000 m');
    near('spores worked example', 0.4621 / lethality.lethalRate(115.8), 1.6, 'by F0');
  });

  it('history in pieces equals history in one, and hotter or longer is more (properties)', () => {
    const celsius = fc.double({ min: 20, max: 135, noNaN: true });
    fc.assert(
      fc.property(celsius, celsius, fc.double({ min: 1, max: 7200, noNaN: true }), (fromC, toC, seconds) => {
        const whole = lethality.segmentF({ seconds, fromC, toC });
        const midC = (fromC + toC) / 2;
        const halves =
          lethality.segmentF({ seconds: seconds / 2, fromC, toC: midC }) +
          lethality.segmentF({ seconds: seconds / 2, fromC: midC, toC });
        expect(halves / whole).toBeCloseTo(1, 9);
        expect(lethality.segmentF({ seconds, fromC: fromC + 1, toC: toC + 1 })).toBeGreaterThan(whole);
        expect(lethality.segmentF({ seconds: seconds + 1, fromC, toC })).toBeGreaterThan(whole);
        const trapezoid = lethality.segmentF({ seconds, fromC, toC }, lethality.F0_REFERENCE, 'trapezoid');
        expect(trapezoid).toBeGreaterThanOrEqual(whole * (1 - 1e-12));
        const credited = lethality.creditedF({ seconds, fromC, toC });
        expect(credited).toBeLessThanOrEqual(whole * (1 + 1e-12));
        if (Math.min(fromC, toC) >= 110) expect(credited).toBe(whole);
        if (Math.max(fromC, toC) < 110) expect(credited).toBe(0);
      }),
    );
  });

  it('credit begins at 110 C within a segment', () => {
    const above = lethality.segmentF({ seconds: 300, fromC: 110, toC: 120 });
    expect(lethality.creditedF({ seconds: 600, fromC: 100, toC: 120 })).toBeCloseTo(above, 12);
    expect(lethality.creditedF({ seconds: 600, fromC: 120, toC: 100 })).toBeCloseTo(above, 12);
  });

  it('refuses time that runs backwards and numbers that are none', () => {
    const backwards = [
      { seconds: 60, celsius: 100 },
      { seconds: 0, celsius: 100 },
    ];
    expect(() => lethality.historyF(backwards)).toThrow('0 s comes after 60 s');
    expect(() => lethality.lethalRate(Number.NaN)).toThrow(RangeError);
    expect(() => lethality.logReductionFor(100, 0)).toThrow('Risk must lie between 0 and 1, not 0.');
    expect(() => lethality.segmentF({ seconds: -1, fromC: 100, toC: 100 })).toThrow(RangeError);
  });
});
