import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bessel, zerosOfJ0 } from '../../../src/core/science/bessel.ts';
import {
  type Body,
  centreTheta,
  seriesTerms,
  type Side,
  theta,
} from '../../../src/core/science/conduction.ts';
import { number, reference } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

const SIDES: readonly Side[] = ['slab', 'cylinder', 'sphere'];

describe('Bessel functions', () => {
  it('have the values and zeros of Abramowitz & Stegun tables 9.1 and 9.5 (MEMORY, 15 digits)', () => {
    near('Bessel tables', bessel(1).j0, 0.765197686557967, 'J0(1)');
    near('Bessel tables', bessel(1).j1, 0.440050585744934, 'J1(1)');
    near('Bessel tables', bessel(10).j0, -0.245935764451348, 'J0(10)');
    near('Bessel tables', bessel(10).j1, 0.0434727461688614, 'J1(10)');
    const zeros = zerosOfJ0(60);
    [2.404825557695773, 5.520078110286311, 8.653727912911013, 11.79153443901428].forEach((zero, n) => {
      near('Bessel tables', zeros[n] ?? Number.NaN, zero, `zero ${n + 1}`);
    });
    for (const zero of zeros) expect(Math.abs(bessel(zero).j0)).toBeLessThan(1e-14);
  });

  it('agree with scipy at large arguments (COMPUTED), and refuse what they were not made for', () => {
    near('Bessel tables', bessel(100).j0, 0.01998585030422333, 'J0(100)');
    near('Bessel tables', bessel(100).j1, -0.0771453520141123, 'J1(100)');
    near('Bessel tables', bessel(900).j0, 0.020013295249404688, 'J0(900)');
    expect(bessel(0)).toEqual({ j0: 1, j1: 0 });
    expect(() => bessel(-1)).toThrow(RangeError);
  });
});

describe('conduction', () => {
  it('first eigenvalues and coefficients agree with one_term_coefficients.csv (COMPUTED, scipy)', () => {
    for (const row of reference('one_term_coefficients')) {
      for (const side of SIDES) {
        const { z, c } = seriesTerms(side, number(row, 'Bi'), 2);
        const where = `${side} Bi ${row.Bi}`;
        near('one_term_coefficients.csv', z[0] ?? Number.NaN, number(row, `${side}_z1`), where);
        near('one_term_coefficients.csv', c[0] ?? Number.NaN, number(row, `${side}_c1`), where);
      }
    }
  });

  it('every eigenvalue satisfies its equation, for Bi from 0.001 to 1e6', () => {
    for (const biot of [0.001, 0.3, 1, 7, 186, 1e6]) {
      const slab = seriesTerms('slab', biot).z;
      const cylinder = seriesTerms('cylinder', biot).z;
      const sphere = seriesTerms('sphere', biot).z;
      for (let n = 0; n < 60; n += 1) {
        const [a = 0, b = 0, c = 0] = [slab[n], cylinder[n], sphere[n]];
        const scale = biot + 200;
        expect(Math.abs(a * Math.sin(a) - biot * Math.cos(a)) / scale).toBeLessThan(1e-12);
        const { j0, j1 } = bessel(b);
        expect(Math.abs(b * j1 - biot * j0) / scale).toBeLessThan(1e-12);
        expect(Math.abs((1 - biot) * Math.sin(c) - c * Math.cos(c)) / scale).toBeLessThan(1e-12);
        if (n > 0) {
          expect(a).toBeGreaterThan(slab[n - 1] ?? 0);
          expect(b).toBeGreaterThan(cylinder[n - 1] ?? 0);
          expect(c).toBeGreaterThan(sphere[n - 1] ?? 0);
        }
      }
    }
  });

  it('series agree with conduction_series.csv to its last digit (COMPUTED, scipy, 200 terms)', () => {
    for (const row of reference('conduction_series')) {
      const fourier = number(row, 'Fo');
      const where = (name: string) => `${name} Fo ${fourier}`;
      for (const side of SIDES) {
        const column = `${side}_Bi_inf`;
        near('conduction_series.csv', theta(side, { fourier }), number(row, column), where(column));
      }
      for (const column of ['slab_Bi_10', 'cylinder_Bi_10', 'slab_Bi_1', 'cylinder_Bi_1']) {
        const [side, , biot] = column.split('_');
        const value = theta(side as Side, { fourier, biot: Number(biot) });
        near('conduction_series.csv', value, number(row, column), where(column));
      }
      const cube: Body = { shape: 'brick', halfLengthM: 1, halfWidthM: 1, halfThicknessM: 1 };
      const step = { diffusivityM2S: 1, seconds: fourier };
      near(
        'conduction_series.csv',
        centreTheta({ body: cube, ...step }),
        number(row, 'cube_Bi_inf'),
        where('cube'),
      );
      for (const aspect of ['1', '1.5', '2']) {
        const body: Body = { shape: 'finite cylinder', radiusM: 1, halfHeightM: Number(aspect) };
        const value = centreTheta({ body, ...step });
        near('conduction_series.csv', value, number(row, `fincyl_H_over_R_${aspect}`), where(aspect));
      }
    }
  });

  it('Geankoplis 5.3-3 and 5.3-4: pea puree can (READ inputs and chart answers, exact COMPUTED)', () => {
    const can = { diffusivityM2S: 2.007e-7, seconds: 2700 };
    const centre = (body: Body, hOverK: number) =>
      115.6 + (29.4 - 115.6) * centreTheta({ body, ...can, hOverK });
    const long: Body = { shape: 'cylinder', radiusM: 0.0681 / 2 };
    const short: Body = { shape: 'finite cylinder', radiusM: 0.0681 / 2, halfHeightM: 0.1016 / 2 };
    near('textbook examples, exact column', centre(long, 4540 / 0.83), 106.08, 'long, finite h');
    near('textbook examples, exact column', centre(long, Number.POSITIVE_INFINITY), 106.35, 'long');
    near('textbook examples, exact column', centre(short, 4540 / 0.83), 108.39, 'short, finite h');
    near('textbook examples, exact column', centre(short, Number.POSITIVE_INFINITY), 108.62, 'short');
    near('textbook examples, chart answers', centre(long, 4540 / 0.83), 104.4, 'long');
    near('textbook examples, chart answers', centre(short, 4540 / 0.83), 106.6, 'short');
  });

  it('Cengel 4.3 egg and 4.8 brass, Incropera 5.4 wall (READ inputs, exact COMPUTED)', () => {
    const egg: Body = { shape: 'sphere', radiusM: 0.025 };
    const at = (minutes: number) =>
      95 -
      90 * centreTheta({ body: egg, diffusivityM2S: 0.151e-6, seconds: minutes * 60, hOverK: 1200 / 0.627 });
    expect(at(14.355)).toBeLessThan(70);
    expect(at(14.365)).toBeGreaterThan(70);
    const { z, c } = seriesTerms('sphere', (1200 * 0.025) / 0.627, 1);
    expect(z[0]).toBeCloseTo(3.076026, 6);
    expect(c[0]).toBeCloseTo(1.995882, 6);
    const brass: Body = { shape: 'finite cylinder', radiusM: 0.05, halfHeightM: 0.06 };
    const cooled = centreTheta({ body: brass, diffusivityM2S: 3.39e-5, seconds: 900, hOverK: 60 / 110 });
    near('textbook examples, exact column', 25 + 95 * cooled, 62.73, 'brass');
    const wall = seriesTerms('slab', 0.313, 1);
    expect(Math.abs((wall.z[0] ?? 0) - 0.531)).toBeLessThan(1e-3);
    near(
      'textbook examples, exact column',
      60 - 80 * theta('slab', { fourier: 5.64, biot: 0.313 }),
      43.02,
      'wall',
    );
    expect(wall.c[0]).toBeCloseTo(1.047, 3);
  });

  it('theta falls with time, with Bi and towards the surface (properties)', () => {
    const side = fc.constantFrom(...SIDES);
    const fourier = fc.double({ min: 0.02, max: 1.5, noNaN: true });
    fc.assert(
      fc.property(side, fourier, fc.double({ min: 0.05, max: 300, noNaN: true }), (which, fo, biot) => {
        const value = theta(which, { fourier: fo, biot });
        expect(value).toBeLessThanOrEqual(1 + 1e-12);
        expect(value).toBeGreaterThan(0);
        expect(theta(which, { fourier: fo + 0.02, biot })).toBeLessThanOrEqual(value + 1e-12);
        expect(theta(which, { fourier: fo, biot: biot * 1.5 })).toBeLessThanOrEqual(value + 1e-12);
        expect(theta(which, { fourier: fo, biot, position: 0.6 })).toBeLessThanOrEqual(value + 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  it('starts at one, and refuses bodies and numbers that cannot be', () => {
    expect(theta('sphere', { fourier: 0 })).toBe(1);
    expect(() => theta('slab', { fourier: -1 })).toThrow('Fourier number must be 0 or more, not -1.');
    expect(() => theta('slab', { fourier: 0.0001, position: 0.5 })).toThrow('0.001 or more');
    expect(() => seriesTerms('slab', 0)).toThrow('Biot number must be at least 0.000001, not 0.');
    const flat: Body = { shape: 'slab', halfThicknessM: 0 };
    expect(() => centreTheta({ body: flat, diffusivityM2S: 1e-7, seconds: 1 })).toThrow(
      'Dimension of the body must be between 0.0001 and 100 m, not 0.',
    );
  });
});
