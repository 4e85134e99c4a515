import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Body, centreTheta } from '../../../src/core/science/conduction.ts';
import { modesOf } from '../../../src/core/science/heat-modes.ts';
import { advance, centreC, stateOf } from '../../../src/core/science/heat-penetration.ts';
import { keptModes } from '../../../src/core/science/kept-modes.ts';

const ALPHA = 3e-7;

/** Centre after a chamber that stands at 100 C from the start on; the body begins at 0 C. */
function afterStep(body: Body, seconds: number, hOverK = Number.POSITIVE_INFINITY): number {
  const state = stateOf(modesOf(body, hOverK), ALPHA, 0);
  advance(state, seconds, 100, 100);
  return centreC(state);
}

describe('modes of bodies that are very flat or very long', () => {
  // One term of the series, good to 1e-9 from Fo 1 on (Carslaw & Jaeger; coefficients as in science notes e1).
  const slab = (fourier: number) => 100 * (1 - (4 / Math.PI) * Math.exp(-((Math.PI / 2) ** 2) * fourier));
  const round = (fourier: number) => 100 * (1 - 1.6019746969 * Math.exp(-(2.4048255577 ** 2) * fourier));
  const half = 0.02;

  it.each([12, 40, 135, 150, 300, 5000])('%i times as wide as thick: those of a slab', ratio => {
    for (const fourier of [1, 1.5, 2]) {
      const seconds = (fourier * half ** 2) / ALPHA;
      const plate: Body = {
        shape: 'brick',
        halfLengthM: half * ratio,
        halfWidthM: half * ratio,
        halfThicknessM: half,
      };
      const disc: Body = { shape: 'finite cylinder', radiusM: half * ratio, halfHeightM: half };
      const rod: Body = { shape: 'finite cylinder', radiusM: half, halfHeightM: half * ratio };
      expect(afterStep(plate, seconds)).toBeCloseTo(slab(fourier), 4);
      expect(afterStep(disc, seconds)).toBeCloseTo(slab(fourier), 4);
      expect(afterStep(rod, seconds)).toBeCloseTo(round(fourier), 4);
    }
  });

  it('give a number that the product of the series gives too, whatever the sides (property)', () => {
    const side = fc.double({ min: Math.log(0.005), max: Math.log(3), noNaN: true }).map(Math.exp);
    fc.assert(
      fc.property(side, side, side, fc.constantFrom(Number.POSITIVE_INFINITY, 500, 40), (a, b, c, hOverK) => {
        const body: Body = { shape: 'brick', halfLengthM: a, halfWidthM: b, halfThicknessM: c };
        for (const fourier of [0.2, 0.5, 2]) {
          const seconds = (fourier * Math.min(a, b, c) ** 2) / ALPHA;
          const expected = 100 * (1 - centreTheta({ body, diffusivityM2S: ALPHA, seconds, hOverK }));
          expect(Math.abs(afterStep(body, seconds, hOverK) - expected)).toBeLessThan(0.01);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('are refused for a body without an extent', () => {
    for (const halfThicknessM of [0, -0.01, Number.NaN, Number.POSITIVE_INFINITY]) {
      const body: Body = { shape: 'slab', halfThicknessM };
      expect(() => modesOf(body, Number.POSITIVE_INFINITY)).toThrow(
        'Dimension of the body must be between 0.0001 and 100 m',
      );
    }
  });
});

describe('kept modes', () => {
  it('are those of the body, and the same ones when it is asked for again', () => {
    const body: Body = { shape: 'brick', halfLengthM: 0.09, halfWidthM: 0.055, halfThicknessM: 0.04 };
    expect(keptModes({ ...body })).toBe(keptModes(body));
    expect(keptModes(body)).toEqual(modesOf(body, Number.POSITIVE_INFINITY));
    const can: Body = { shape: 'finite cylinder', radiusM: 0.055, halfHeightM: 0.0825 };
    expect(keptModes(can)).not.toEqual(keptModes({ ...can, radiusM: 0.0825, halfHeightM: 0.055 }));
    for (let n = 1; n <= 60; n += 1) keptModes({ shape: 'slab', halfThicknessM: n / 1000 });
    expect(keptModes(body)).toEqual(modesOf(body, Number.POSITIVE_INFINITY));
  });
});
