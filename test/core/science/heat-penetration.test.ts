import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Body, centreTheta } from '../../../src/core/science/conduction.ts';
import * as heat from '../../../src/core/science/heat-penetration.ts';
import { segmentF } from '../../../src/core/science/lethality.ts';
import { type Case, finiteVolume } from '../../help/finite-volume.ts';
import { number, reference, text } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

const corners = (points: readonly (readonly [number, number])[]) =>
  points.map(([minutes, celsius]) => ({ seconds: minutes * 60, celsius }));
const P90 = corners([
  [0, 25],
  [25, 100],
  [35, 100],
  [43, 121],
  [133, 121],
  [163, 100],
]);
const P150 = corners([
  [0, 25],
  [25, 100],
  [35, 100],
  [43, 121],
  [193, 121],
  [223, 100],
]);
const PLUMP: Body = { shape: 'brick', halfLengthM: 0.09, halfWidthM: 0.055, halfThicknessM: 0.04 };
const LARGE: Body = { shape: 'brick', halfLengthM: 0.1, halfWidthM: 0.065, halfThicknessM: 0.07 };
const ROUND: Body = { shape: 'finite cylinder', radiusM: 0.055, halfHeightM: 0.0825 };
const JAR: Body = { shape: 'finite cylinder', radiusM: 0.045, halfHeightM: 0.045 };
const CASES = {
  A: { body: ROUND, diffusivityM2S: 3e-7, startC: 25, chamber: P90 },
  B: { body: PLUMP, diffusivityM2S: 3e-7, startC: 25, chamber: P90 },
  C: { body: LARGE, diffusivityM2S: 3e-7, startC: 25, chamber: P150 },
  D: { body: JAR, diffusivityM2S: 3e-7, startC: 25, chamber: P90, hOverK: 500 },
  E: { body: PLUMP, diffusivityM2S: 2e-7, startC: 25, chamber: P90 },
} as const;

/** Centre and F0 by whole seconds. */
function history(name: keyof typeof CASES): Map<number, { centreC: number; f0: number }> {
  const { chamber, ...penetration } = CASES[name];
  const state = heat.createModes(penetration);
  const seen = new Map([[0, { centreC: heat.centreC(state), f0: 0 }]]);
  let f0 = 0;
  heat.runThrough(state, chamber, 10, (seconds, _chamber, centre, before) => {
    f0 += segmentF({ seconds: 10, fromC: before, toC: centre });
    seen.set(Math.round(seconds), { centreC: centre, f0 });
  });
  return seen;
}

describe('heat penetration', () => {
  it('agrees with heat_penetration_reference.csv, cases A to E (COMPUTED two ways)', () => {
    for (const name of ['A', 'B', 'C', 'D', 'E'] as const) {
      const seen = history(name);
      const rows = reference('heat_penetration_reference').filter(row => text(row, 'case') === name);
      expect(rows.length).toBeGreaterThan(30);
      for (const row of rows) {
        const minutes = number(row, 'time_min');
        const here = seen.get(minutes * 60);
        if (here === undefined) throw new Error(`${name} has nothing at ${minutes} min`);
        const where = `${name} ${minutes} min`;
        for (const column of ['T_centre_series_C', 'T_centre_fd_C']) {
          near('heat_penetration_reference.csv temperature', here.centreC, number(row, column), where);
        }
        near('heat_penetration_reference.csv F0', here.f0, number(row, 'F0_cumulative_min'), where);
      }
    }
  });

  it('worked cases of the science notes, e9 (COMPUTED)', () => {
    for (const [name, minutes, celsius, f0] of [
      ['A', 133, 118.935, 14.182],
      ['A', 163, null, 33.122],
      ['B', 133, 120.012, 23.031],
      ['B', 163, null, 43.324],
      ['C', 193, 117.869, 14.676],
      ['C', 223, null, 31.646],
      ['D', 133, 120.87, 43.097],
      ['D', 163, null, 64.082],
      ['E', 133, 115.542, 4.531],
      ['E', 163, null, 16.151],
    ] as const) {
      const here = history(name).get(minutes * 60);
      if (here === undefined) throw new Error(`${name} ${minutes}`);
      const where = `${name} ${minutes} min`;
      if (celsius !== null) near('heat_penetration_reference.csv temperature', here.centreC, celsius, where);
      near('heat_penetration_reference.csv F0', here.f0, f0, where);
    }
  });

  it('lags a steady ramp by 1982.5, 4089.3 and 2369.6 s (COMPUTED, science notes e2)', () => {
    for (const [body, seconds] of [
      [PLUMP, 1982.5],
      [LARGE, 4089.3],
      [ROUND, 2369.6],
    ] as const) {
      const { tauS } = heat.createModes({ body, diffusivityM2S: 3e-7, startC: 25 });
      near('centre lag (science notes e2)', tauS, seconds, body.shape);
    }
  });

  it('a step of the chamber gives the product of the textbook series', () => {
    for (const body of [
      PLUMP,
      JAR,
      { shape: 'slab', halfThicknessM: 0.04 },
      { shape: 'cylinder', radiusM: 0.05 },
      { shape: 'sphere', radiusM: 0.05 },
    ] as const) {
      for (const hOverK of [Number.POSITIVE_INFINITY, 400]) {
        const state = heat.createModes({ body, diffusivityM2S: 3e-7, startC: 25, hOverK });
        for (let seconds = 300; seconds <= 7200; seconds += 300) {
          heat.advance(state, 300, 121, 121);
          const exact = 121 - 96 * centreTheta({ body, diffusivityM2S: 3e-7, seconds, hOverK });
          expect(Math.abs(heat.centreC(state) - exact), `${body.shape} ${hOverK} ${seconds}`).toBeLessThan(
            1e-6,
          );
        }
      }
    }
  });

  it('many small steps equal one large one, and a copy goes its own way', () => {
    const penetration = { body: PLUMP, diffusivityM2S: 3e-7, startC: 25 };
    const coarse = heat.createModes(penetration);
    const fine = heat.createModes(penetration);
    heat.advance(coarse, 1500, 25, 100);
    for (let i = 0; i < 1500; i += 1) heat.advance(fine, 1, 25 + i * 0.05, 25 + (i + 1) * 0.05);
    expect(heat.centreC(fine)).toBeCloseTo(heat.centreC(coarse), 7);
    const copy = heat.copyModes(fine);
    heat.advance(copy, 600, 100, 121);
    heat.advance(coarse, 600, 100, 121);
    expect(heat.centreC(copy)).toBeCloseTo(heat.centreC(coarse), 7);
    heat.advance(fine, 600, 100, 100);
    expect(heat.centreC(fine)).toBeLessThan(heat.centreC(copy));
  });

  it('thicker is slower, a higher diffusivity is faster while heating (properties)', () => {
    const half = fc.double({ min: 0.025, max: 0.09, noNaN: true });
    const alpha = fc.double({ min: 1.3e-7, max: 5e-7, noNaN: true });
    const reached = (halfThicknessM: number, diffusivityM2S: number, hOverK: number) => {
      const body: Body = { shape: 'brick', halfLengthM: 0.1, halfWidthM: 0.07, halfThicknessM };
      const state = heat.createModes({ body, diffusivityM2S, startC: 20, hOverK });
      heat.advance(state, 1500, 20, 100);
      heat.advance(state, 2700, 100, 121);
      return heat.centreC(state);
    };
    fc.assert(
      fc.property(half, alpha, (thick, diffusivity) => {
        const centre = reached(thick, diffusivity, Number.POSITIVE_INFINITY);
        expect(centre).toBeGreaterThan(20);
        expect(centre).toBeLessThan(121);
        expect(reached(thick * 1.1, diffusivity, Number.POSITIVE_INFINITY)).toBeLessThan(centre);
        expect(reached(thick, diffusivity * 1.1, Number.POSITIVE_INFINITY)).toBeGreaterThan(centre);
        expect(reached(thick, diffusivity, 500)).toBeLessThan(centre);
      }),
      { numRuns: 25 },
    );
  });

  it('refuses steps back in time and diffusivities of another kind of thing', () => {
    const state = heat.createModes({ body: PLUMP, diffusivityM2S: 3e-7, startC: 25 });
    expect(() => heat.advance(state, 0, 25, 25)).toThrow('Time step must be above 0 s, not 0.');
    expect(() => heat.advance(state, 1, 25, Number.NaN)).toThrow(RangeError);
    expect(() => heat.createModes({ body: PLUMP, diffusivityM2S: 3, startC: 25 })).toThrow(
      'Diffusivity must be between',
    );
    const back = corners([
      [10, 100],
      [5, 100],
    ]);
    expect(() => heat.runThrough(state, back, 10, () => undefined)).toThrow(
      'Time between two chamber readings',
    );
  });
});

describe('heat penetration, second opinion by finite volumes', () => {
  const uniform = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const ramp = fc.record({ minutes: uniform(6, 40), celsius: uniform(60, 125) });
  const problem = fc.record({
    round: fc.boolean(),
    half: fc.tuple(uniform(0.025, 0.08), uniform(0.025, 0.08), uniform(0.025, 0.08)),
    diffusivityM2S: uniform(1.3e-7, 5e-7),
    hOverK: fc.oneof(fc.constant(Number.POSITIVE_INFINITY), uniform(100, 900)),
    startC: uniform(5, 60),
    ramps: fc.array(ramp, { minLength: 3, maxLength: 5 }),
  });

  it('24 random bodies through random ramps agree within 0.04 K', () => {
    let cases = 0;
    fc.assert(
      fc.property(problem, ({ half, ramps, ...rest }) => {
        let clock = 0;
        const chamber: (readonly [number, number])[] = [[0, rest.startC]];
        for (const { minutes, celsius } of ramps) {
          clock += minutes * 60;
          chamber.push([clock, celsius]);
        }
        const sides = rest.round ? half.slice(0, 2) : half;
        const question: Case = { ...rest, half: sides, chamber };
        const [a, b, c] = half;
        const body: Body = rest.round
          ? { shape: 'finite cylinder', radiusM: a, halfHeightM: b }
          : { shape: 'brick', halfLengthM: a, halfWidthM: b, halfThicknessM: c };
        const state = heat.createModes({ ...rest, body });
        const times = chamber.slice(1).map(([seconds]) => seconds);
        const expected = finiteVolume(question, times);
        chamber.slice(1).forEach(([seconds, celsius], i) => {
          const [from, fromC] = chamber[i] ?? [0, rest.startC];
          heat.advance(state, seconds - from, fromC, celsius);
          near('finite volumes', heat.centreC(state), expected[i] ?? Number.NaN, `case ${cases + 1}`);
        });
        cases += 1;
      }),
      { numRuns: 24, seed: 20240607, endOnFailure: true },
    );
    expect(cases).toBe(24);
  });
});
