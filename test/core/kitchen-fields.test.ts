import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_KITCHEN, type Kitchen, type KitchenAnswers, withDefaults } from '../../src/core/kitchen.ts';
import { underTheMark, checkKitchen, KITCHEN_LIMITS } from '../../src/core/kitchen-check.ts';
import { fieldNamed } from '../../src/core/kitchen-fields.ts';

/** International pound and inch, exact. */
const KPA = 6.894757293168361;

function read(name: string, text: string, said: KitchenAnswers = {}) {
  const field = fieldNamed(name);
  if (field === null) throw new Error(`no field ${name}`);
  return field.read(text, withDefaults(said).kitchen);
}

describe('a number without a unit', () => {
  it.each([
    ['pot', '8', { potL: 8 }],
    ['altitude', '1200', { altitudeM: 1200 }],
    ['marked-maximum', '20', { markedMaxKPa: 20 * KPA }],
    ['pot', '8 qt', { potL: 8 * 0.946352946 }],
  ])('%s %s is in the unit that is shown', (name, text, value) => {
    const found = read(name, text);
    if (!found.ok) throw new Error(found.expected);
    const [[key, wanted]] = Object.entries(value) as [[keyof KitchenAnswers, number]];
    expect(found.value[key]).toBeCloseTo(wanted, 6);
  });

  it('of pounds and ounces stays a question: which of the two?', () => {
    const units = { mass: 'lb', volume: 'qt', pressure: 'psi', temperature: 'F', length: 'in' } as const;
    expect(read('cooker-weight', '12', { units, cookerMassKg: 5.5 }).ok).toBe(false);
  });
});

describe('working pressure and the mark on the cooker', () => {
  it('a mark below the working pressure is believed, and brings that down with one sentence', () => {
    const found = read('marked-maximum', '10 psi', { workingKPa: 15 * KPA });
    if (!found.ok) throw new Error(found.expected);
    expect(found.value.markedMaxKPa).toBeCloseTo(10 * KPA, 6);
    expect(found.value.workingKPa).toBeCloseTo(10 * KPA, 6);
    expect(found.says).toBe(
      'The working pressure comes down to 10 psi with it: more must not be asked of the cooker.',
    );
  });

  it('a mark at or above it changes nothing else and says nothing', () => {
    for (const text of ['15 psi', '103.4 kPa', '20 psi', '1.24 bar']) {
      const found = read('marked-maximum', text);
      expect(found.ok && Object.keys(found.value), text).toEqual(['markedMaxKPa']);
      expect(found.says).toBeUndefined();
    }
  });

  it('a working pressure above the mark is refused with the mark', () => {
    const found = read('working-pressure', '15 psi', { markedMaxKPa: 12 * KPA });
    expect(found).toEqual({
      ok: false,
      expected: 'at most 12 psi, the highest pressure marked on the cooker',
    });
    expect(read('working-pressure', '12 psi', { markedMaxKPa: 12 * KPA }).ok).toBe(true);
  });

  it('one that nobody said is never above the mark (property)', () => {
    fc.assert(
      fc.property(fc.double({ min: 20, max: 250, noNaN: true }), markedMaxKPa => {
        const { kitchen, assumed } = withDefaults({ markedMaxKPa });
        expect(kitchen.workingKPa).toBe(Math.min(DEFAULT_KITCHEN.workingKPa, markedMaxKPa));
        expect(assumed.has('workingKPa')).toBe(true);
      }),
    );
  });

  it('in a file edited by hand the mark stands and the other value is named', () => {
    const checked = underTheMark(checkKitchen({ workingKPa: 150, markedMaxKPa: 100, potL: 8 }));
    expect(checked.answers).toEqual({ markedMaxKPa: 100, potL: 8 });
    expect(checked.problems).toEqual([
      '"kitchen.workingKPa" is 150, but must not be above "kitchen.markedMaxKPa", 100.',
    ]);
    expect(underTheMark(checkKitchen({ workingKPa: 100, markedMaxKPa: 100 })).problems).toEqual([]);
    // A batch begun with such a kitchen must still be read.
    expect(checkKitchen({ workingKPa: 150, markedMaxKPa: 100 }).problems).toEqual([]);
  });
});

describe('what nobody said goes with what was said', () => {
  const volumeL = ({ cookerInnerDiameterM: d, cookerInnerHeightM: h }: Kitchen) =>
    (Math.PI / 4) * d * d * h * 1000;

  it('a cooker of which only the volume is known is as wide and high as that volume allows', () => {
    for (const cookerL of [4, 6, 8, 15, 21, 40]) {
      const { kitchen } = withDefaults({ cookerL });
      expect(volumeL(kitchen) / cookerL).toBeGreaterThan(0.9);
      expect(volumeL(kitchen) / cookerL).toBeLessThan(1.05);
    }
    expect(withDefaults({ cookerL: 21 }).kitchen).toEqual(DEFAULT_KITCHEN);
    const narrow = withDefaults({ cookerL: 10, cookerInnerDiameterM: 0.22 }).kitchen;
    // 10 L over a circle of 22 cm: 0.010 / (pi/4 x 0.22^2) = 0.263 m.
    expect(narrow.cookerInnerHeightM).toBeCloseTo(0.263, 3);
    expect(withDefaults({ cookerL: 10, cookerInnerHeightM: 0.263 }).kitchen.cookerInnerDiameterM).toBeCloseTo(
      0.22,
      3,
    );
  });

  it('a burner of which only the kind is known has the power of its kind (science notes g)', () => {
    expect(withDefaults({ burner: 'electric' }).kitchen.burnerW).toBe(1800);
    expect(withDefaults({ burner: 'induction' }).kitchen.burnerW).toBe(2000);
    expect(withDefaults({ burner: 'electric', burnerW: 1200 }).kitchen.burnerW).toBe(1200);
  });

  it('makes a kitchen that a journal may hold, whatever of it was said (property)', () => {
    const said = fc.record(
      Object.fromEntries(
        Object.entries(KITCHEN_LIMITS).map(([key, { least, most }]) => [
          key,
          fc.double({ min: least, max: most, noNaN: true }),
        ]),
      ),
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(said, answers => {
        const { kitchen } = withDefaults(answers);
        expect(checkKitchen(kitchen).problems).toEqual([]);
        expect(kitchen).toMatchObject(answers);
      }),
    );
  });
});

describe('a price', () => {
  const priced = { money: { ...DEFAULT_KITCHEN.money, currency: 'Fr.', containerEach: 0.4 } };

  it.each(['abc', '', '3 / kg', '3.00 cheap', '-1', '1 2', '1e9999', '200000', 'EUR'])(
    '"%s" is refused, and what stood there stays',
    text => {
      const found = read('price-container', text, priced);
      expect(found.ok ? found.value : found.expected).toContain('a price such as 1.80');
    },
  );

  // Signs of Unicode class Sc, codes of ISO 4217, and the person's own word.
  it.each([
    ['1.80', 1.8],
    ['1,80', 1.8],
    ['0', 0],
    ['2 EUR', 2],
    ['€2.50', 2.5],
    ['3 Fr.', 3],
  ])('"%s" is %d', (text, value) => {
    expect(read('price-container', text, priced)).toMatchObject({
      ok: true,
      value: { money: { containerEach: value } },
    });
  });

  it('a currency is a sign or a short word, never a number', () => {
    for (const text of ['3.00 cheap', '12', 'a b', 'dollars'])
      expect(read('currency', text).ok, text).toBe(false);
    for (const text of ['EUR', '€', 'Fr.', 'Kč', '']) expect(read('currency', text).ok, text).toBe(true);
  });
});
