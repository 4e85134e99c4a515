import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Units } from '../../../src/core/kitchen.ts';
import { parseRecipe } from '../../../src/core/recipe/parse.ts';
import { GRAINS, type Recipe } from '../../../src/core/recipe/recipe.ts';
import { LIMITS } from '../../../src/core/recipe/values.ts';
import { decimal, recipeToYaml, SCHEMA_LINE } from '../../../src/core/recipe/write.ts';
import { visible, visibleLines } from '../../../src/core/text.ts';
import { parseFixture, recipeOf, shippedNames, shippedText } from './files.ts';

const units = fc.record<Units>({
  mass: fc.constantFrom('kg', 'lb'),
  volume: fc.constantFrom('L', 'qt'),
  pressure: fc.constantFrom('psi', 'kPa', 'bar'),
  temperature: fc.constantFrom('C', 'F'),
  length: fc.constantFrom('cm', 'in'),
});
const between = ({ least, most }: { least: number; most: number }) =>
  fc.double({ min: least, max: most, noNaN: true });
const minutes = ({ least, most }: { least: number; most: number }) =>
  fc.oneof(
    between({ least, most }),
    fc.integer({ min: Math.ceil(least / 60), max: Math.floor(most / 60) }).map(each => each * 60),
  );

// Names that try to become keys, comments, documents, anchors or other values of the file.
const hostile = fc.constantFrom(
  'x\nhold: 15 min',
  '# comment',
  'a # b',
  'a: b',
  '- a',
  '&a',
  '*a',
  '!!str a',
  '| a',
  '> a',
  '---',
  '...',
  '"',
  "'",
  '\\',
  '{a: b}',
  '[a]',
  '%YAML',
  'no',
  '~',
  'null',
  '0x1f',
  '1e99',
  '__proto__',
  '@a',
  '`a`',
  '? a',
  'a:',
  ': a',
  '"\nvent: 1 min\n"',
  'é🍄',
  '👩‍👩‍👧',
  '日本',
);
const text = fc.oneof(
  hostile,
  fc.string({ unit: 'grapheme', maxLength: 40 }),
  fc.string({ unit: 'binary', maxLength: 40 }),
);
const short = (each: string) => [...each].slice(0, 60).join('').trim();
const name = text.map(each => short(visible(each)) || 'x');
const note = fc.array(text, { maxLength: 6 }).map(all => visibleLines(all.join('\n')).trim());

const sizes = fc.oneof(
  fc
    .tuple(
      between({ least: 0.1, most: 0.3 }),
      between({ least: 0.1, most: 0.3 }),
      between({ least: 0.1, most: 0.3 }),
    )
    .map(sides => {
      const [lengthM = 0, widthM = 0, thicknessM = 0] = sides.toSorted((a, b) => b - a);
      return { shape: 'brick' as const, lengthM, widthM, thicknessM };
    }),
  fc.record({
    shape: fc.constant('cylinder' as const),
    diameterM: between({ least: 0.12, most: 0.3 }),
    heightM: between({ least: 0.12, most: 0.3 }),
  }),
);
const target = fc.oneof(
  between(LIMITS.gaugeKPa).map(gaugeKPa => ({ by: 'pressure' as const, gaugeKPa })),
  fc
    .constantFrom(5, 10, 11, 15, 20)
    .map(psi => ({ by: 'pressure' as const, gaugeKPa: psi * 6.894757293168361 })),
  between(LIMITS.celsius).map(celsius => ({ by: 'temperature' as const, celsius })),
);
const soak = fc.option(
  fc
    .tuple(minutes(LIMITS.soakS), minutes(LIMITS.soakS))
    .map(([a, b]) => ({ shortestS: Math.min(a, b), longestS: Math.max(a, b) })),
);
const culture = fc.oneof(
  fc.record({
    form: fc.constantFrom('liquid culture' as const, 'spore syringe' as const),
    species: text.map(each => short(visible(each))),
    perContainer: between(LIMITS.cultureMl),
  }),
  fc.record({
    form: fc.constant('grain spawn' as const),
    species: fc.constant(''),
    perContainer: between(LIMITS.cultureG),
  }),
);
const containers = fc
  .record({
    kind: fc.constantFrom('bag' as const, 'jar' as const),
    count: fc.integer({ min: 1, max: 60 }),
    masses: fc.tuple(between({ least: 0.05, most: 1.1 }), between({ least: 0.05, most: 1.1 })),
    size: sizes,
    touching: fc.boolean(),
  })
  .map(({ masses, ...rest }) => ({ ...rest, fillKg: Math.min(...masses), mostKg: Math.max(...masses) }));
const recipes: fc.Arbitrary<Recipe> = fc
  .record({
    name,
    grain: fc.constantFrom(...GRAINS),
    note,
    containers,
    storedMoisture: between({ least: 0.03, most: 0.3 }),
    wantedMoisture: between({ least: 0.31, most: 0.7 }),
    soak,
    simmer: fc.record({
      firstLookS: minutes(LIMITS.lookS),
      everyS: minutes(LIMITS.lookS),
      nearS: minutes(LIMITS.lookS),
      waterPerKg: between(LIMITS.waterPerKg),
    }),
    drying: fc.record({
      aboutS: minutes(LIMITS.dryS),
      stirEveryS: minutes(LIMITS.stirS),
      towelS: between(LIMITS.towelS),
    }),
    seal: fc.constantFrom('before', 'after'),
    ventS: minutes(LIMITS.ventS),
    target,
    holdS: minutes(LIMITS.holdS),
    dips: fc.constantFrom('restart', 'make up'),
    coolS: minutes(LIMITS.coolS),
    culture,
    water: fc.option(between(LIMITS.cookerWaterL)),
  })
  .map(({ water, ...rest }) => (water === null ? rest : { ...rest, cookerWaterL: water }));

describe('writing a recipe', () => {
  it('reads back to the same recipe, for any recipe and any units', () => {
    let quoted = 0;
    fc.assert(
      fc.property(recipes, units, (recipe, chosen) => {
        const written = recipeToYaml(recipe, chosen);
        if (/^name: ["'|>]/m.test(written)) quoted += 1;
        expect(recipeOf(parseRecipe(written, 'a.yaml'))).toEqual(recipe);
      }),
      { seed: 5, numRuns: 1500 },
    );
    // The property would prove little if no name had needed quotes.
    expect(quoted).toBeGreaterThan(200);
  });

  it.each(shippedNames())('keeps %s, in both families of units', file => {
    const recipe = recipeOf(parseRecipe(shippedText(file), file));
    for (const chosen of fc.sample(units, { seed: 1, numRuns: 6 }))
      expect(recipeOf(parseRecipe(recipeToYaml(recipe, chosen), file))).toEqual(recipe);
  });

  it('writes what a person would write', () => {
    const chosen: Units = { mass: 'lb', volume: 'qt', pressure: 'psi', temperature: 'F', length: 'in' };
    const written = recipeToYaml(recipeOf(parseFixture('good/american')), chosen);
    for (const line of [
      'fill: 2 lb 4 oz ',
      'most: 2 lb 8 oz ',
      'size: 4.5 in wide, 7 in high ',
      'water: 1.2 qt per lb ',
      'hold: 2 h 30 min ',
      'dips: make up ',
      'touching: yes ',
    ])
      expect(written).toContain(line);
    expect(written.startsWith(`${SCHEMA_LINE}\n`)).toBe(true);
    expect(recipeToYaml(recipeOf(parseFixture('good/least')), { ...chosen, pressure: 'psi' })).toContain(
      'pressure: 15 psi ',
    );
  });
});

describe('decimal', () => {
  it.each([
    [0.075, 2, '7.5'],
    [0.48, 2, '48'],
    [0.07, 2, '7'],
    [1e-7, 0, '0.0000001'],
    [1.5e21, 0, '1500000000000000000000'],
    [0, 2, '0'],
    [120, -2, '1.2'],
    [-0.5, 1, '-5'],
  ])('%d moved by %d is %s', (value, shift, expected) => {
    expect(decimal(value, shift)).toBe(expected);
  });
  it('refuses what is no number', () => {
    expect(() => decimal(Number.NaN)).toThrow(RangeError);
  });
});
