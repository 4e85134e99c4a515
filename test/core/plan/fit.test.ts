import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_KITCHEN, type Kitchen } from '../../../src/core/kitchen.ts';
import { circlesInCircle, rectanglesInCircle } from '../../../src/core/plan/circles.ts';
import { fitIn, freeHeightM, splitLoads } from '../../../src/core/plan/fit.ts';
import type { Containers } from '../../../src/core/recipe/recipe.ts';
import { sampleRecipe } from '../../help/batch-kit.ts';

const bags = sampleRecipe().containers;
const jars = sampleRecipe({ jars: true }).containers;
const inKitchen = (change: Partial<Kitchen>): Kitchen => ({ ...DEFAULT_KITCHEN, ...change });

describe('circles in a circle', () => {
  // Closed forms of the best packings (circle packing in a circle: Graham 1968 for 7, Fodor 1999 for 19): n in a
  // ring and, from 7 on, one in the middle need 1 + 1/sin(pi/ring) diameters; 13: 2 + sqrt 5; 19: 1 + sqrt 2 + sqrt 6.
  const ring = (count: number) => 1 + 1 / Math.sin(Math.PI / count);
  it.each([
    [1, 1],
    [2, ring(2)],
    [3, ring(3)],
    [4, ring(4)],
    [5, ring(5)],
    [7, ring(6)],
    [8, ring(7)],
    [9, ring(8)],
    [11, ring(9)],
    [13, 2 + Math.sqrt(5)],
    [19, 1 + Math.SQRT2 + Math.sqrt(6)],
  ])('%i fit at a ratio of %f, fewer in a narrower one', (count, ratio) => {
    expect(circlesInCircle(1, ratio * 1.0005)).toBe(count);
    expect(circlesInCircle(1, ratio * 0.9995)).toBeLessThan(count);
  });

  it('never claim more area than there is, and none below a ratio of 1 (property)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 6, noNaN: true }), ratio => {
        const count = circlesInCircle(1, ratio);
        expect(count).toBeLessThanOrEqual(Math.max(0, ratio * ratio) + 1e-9);
        if (ratio < 0.999) expect(count).toBe(0);
      }),
    );
  });
});

describe('rectangles in a circle', () => {
  // Plane geometry: a rectangle fits when its diagonal is no longer than the diameter; three of 18 x 7.5 side by
  // side need sqrt(18^2 + 22.5^2) = 28.81 across.
  it('one needs its diagonal, three side by side theirs', () => {
    expect(rectanglesInCircle(0.04, 0.03, 0, 0.0501)).toBe(1);
    expect(rectanglesInCircle(0.04, 0.03, 0, 0.0499)).toBe(0);
    expect(rectanglesInCircle(0.18, 0.075, 0, 0.2882)).toBe(3);
    expect(rectanglesInCircle(0.18, 0.075, 0, 0.288)).toBeLessThan(3);
  });

  it('never cover more than the circle, and a gap never adds one (property)', () => {
    const side = fc.double({ min: 0.02, max: 0.3, noNaN: true });
    fc.assert(
      fc.property(side, side, fc.double({ min: 0.1, max: 1, noNaN: true }), (a, b, wide) => {
        const close = rectanglesInCircle(a, b, 0, wide);
        expect(close * a * b).toBeLessThanOrEqual((Math.PI / 4) * wide * wide + 1e-9);
        expect(rectanglesInCircle(a, b, 0.01, wide)).toBeLessThanOrEqual(close);
      }),
    );
  });
});

describe('one load', () => {
  it('of bags lies within the free space', () => {
    const fit = fitIn(bags, DEFAULT_KITCHEN, 2);
    expect(fit.perLoad).toBeGreaterThan(0);
    const { layers = 0, uprightM = 0 } = fit.standing ?? {};
    expect(layers * uprightM).toBeLessThanOrEqual(freeHeightM(DEFAULT_KITCHEN, 2) + 1e-9);
  });

  it('of jars gets its glass and lid on top of the grain', () => {
    const grain = jars.size.shape === 'cylinder' ? jars.size : { diameterM: 0, heightM: 0 };
    const free = freeHeightM(DEFAULT_KITCHEN, 2);
    const short = inKitchen({
      cookerInnerHeightM: DEFAULT_KITCHEN.cookerInnerHeightM - free + grain.heightM + 0.02,
    });
    expect(fitIn(jars, short, 2)).toMatchObject({ perLoad: 0, stops: 'height' });
    const exact = inKitchen({ cookerInnerDiameterM: 3 * grain.diameterM, cookerInnerHeightM: 0.4 });
    expect(fitIn(jars, exact, 2).standing?.inLayer).toBeLessThan(7);
  });

  it('holds nothing that does not pass the wall or the lid, and says which', () => {
    expect(fitIn(bags, inKitchen({ cookerInnerDiameterM: 0.1 }), 0.5)).toMatchObject({
      perLoad: 0,
      stops: 'width',
    });
    expect(fitIn(bags, inKitchen({ cookerInnerHeightM: 0.1 }), 2)).toMatchObject({
      perLoad: 0,
      stops: 'height',
    });
  });

  it('pressed together holds as many or more (property)', () => {
    const side = fc.double({ min: 0.04, max: 0.2, noNaN: true });
    fc.assert(
      fc.property(side, side, side, (lengthM, widthM, thicknessM) => {
        const spaced: Containers = { ...bags, size: { shape: 'brick', lengthM, widthM, thicknessM } };
        const count = fitIn(spaced, DEFAULT_KITCHEN, 2).perLoad;
        expect(fitIn({ ...spaced, touching: true }, DEFAULT_KITCHEN, 2).perLoad).toBeGreaterThanOrEqual(
          count,
        );
        expect(count * lengthM * widthM * thicknessM * 1000).toBeLessThan(DEFAULT_KITCHEN.cookerL);
      }),
    );
  });

  it('shrinks as the water rises (property)', () => {
    const litres = fc.double({ min: 0.5, max: 12, noNaN: true });
    fc.assert(
      fc.property(litres, litres, (a, b) => {
        const [less, more] = a < b ? [a, b] : [b, a];
        const at = (waterL: number) => fitIn(bags, DEFAULT_KITCHEN, waterL).perLoad;
        expect(at(more)).toBeLessThanOrEqual(at(less));
      }),
    );
  });
});

describe('loads', () => {
  it('are even, the fuller ones first, and hold everything', () => {
    expect(splitLoads(6, 6)).toEqual([6]);
    expect(splitLoads(8, 6)).toEqual([4, 4]);
    expect(splitLoads(7, 3)).toEqual([3, 2, 2]);
    expect(splitLoads(2, 0)).toEqual([1, 1]);
  });
});

describe('a volume that is said apart from the sides', () => {
  it('holds no more containers than it has litres for, beside the water', () => {
    // A bag of 18 x 11 x 8 cm is 1.584 L; 8 L less 2 L of water hold 3 of them.
    const small = fitIn(bags, inKitchen({ cookerL: 8 }), 2);
    expect(small).toMatchObject({ perLoad: 3, standing: null, stops: null });
    expect(fitIn(bags, inKitchen({ cookerL: 3 }), 2)).toMatchObject({ perLoad: 0, stops: 'volume' });
    expect(fitIn(bags, inKitchen({ cookerL: 21 }), 2).standing).not.toBeNull();
  });
});
