import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_KITCHEN } from '../../src/core/kitchen.ts';
import { checkKitchen, KITCHEN_LIMITS } from '../../src/core/kitchen-check.ts';

describe('what is said about a kitchen', () => {
  it('is kept whole when it is good; the default kitchen is', () => {
    expect(checkKitchen(DEFAULT_KITCHEN)).toEqual({ answers: DEFAULT_KITCHEN, problems: [] });
    expect(checkKitchen({})).toEqual({ answers: {}, problems: [] });
    const some = { altitudeM: -430, stationKPa: 94.2, hobLimitKg: null, gauge: 'weight' };
    expect(checkKitchen(some)).toEqual({ answers: some, problems: [] });
  });

  it('loses one bad value, not its neighbours, and names it', () => {
    const said = { altitudeM: '640', potL: -3, cookerL: 23, burner: 'coal', roomC: null, whatever: 1 };
    expect(checkKitchen(said)).toEqual({
      answers: { cookerL: 23 },
      problems: [
        '"kitchen.altitudeM" is "640", but must be a number from -430 to 5000 m.',
        '"kitchen.roomC" is null, but must be a number from 5 to 40 °C.',
        '"kitchen.potL" is -3, but must be a number from 0.5 to 200 L.',
        '"kitchen.burner" is "coal", but must be gas or electric or induction.',
      ],
    });
  });

  it('replaces one bad part of a group by its default', () => {
    const said = {
      units: { mass: 'lb', pressure: 'atm' },
      alerts: { speech: true, quietFromMin: 1440, bell: 1 },
    };
    const { answers, problems } = checkKitchen(said);
    expect(answers).toEqual({
      units: { ...DEFAULT_KITCHEN.units, mass: 'lb' },
      alerts: { ...DEFAULT_KITCHEN.alerts, speech: true },
    });
    expect(problems.map(text => text.split(' ')[0])).toEqual([
      '"kitchen.units.pressure"',
      '"kitchen.alerts.bell"',
      '"kitchen.alerts.quietFromMin"',
    ]);
  });

  it('keeps a measured diffusivity within what heat can have, by the name of the container', () => {
    const { answers, problems } = checkKitchen({
      measuredDiffusivity: { 'bag 18x11x8': 2.9e-7, 'a\u001b': 3 },
    });
    expect(answers.measuredDiffusivity).toEqual({ 'bag 18x11x8': 2.9e-7 });
    expect(problems).toEqual([expect.stringContaining('"kitchen.measuredDiffusivity.a␛" is 3')]);
  });

  it('takes anything without throwing, lets nothing out of its limits through and speaks plain text', () => {
    const key = fc.constantFrom(...Object.keys(DEFAULT_KITCHEN), '__proto__', 'constructor');
    const value = fc.oneof(fc.double(), fc.anything(), fc.constantFrom('\u001b[2J', 1e99, -1, null, {}));
    fc.assert(
      fc.property(fc.dictionary(key, value), said => {
        const { answers, problems } = checkKitchen(said);
        for (const [name, { least, most, maybeNull }] of Object.entries(KITCHEN_LIMITS)) {
          const kept: unknown = Reflect.get(answers, name);
          if (kept === undefined || (kept === null && maybeNull === true)) continue;
          expect(kept).toBeGreaterThanOrEqual(least);
          expect(kept).toBeLessThanOrEqual(most);
        }
        for (const problem of problems) expect(problem).not.toMatch(/\p{Cc}/u);
      }),
      { numRuns: 2000, seed: 3 },
    );
  });
});
