import { describe, expect, it } from 'vitest';
import { parseRecipe } from '../../../src/core/recipe/parse.ts';
import { linesOf, parseFixture, problemsOf, recipeOf } from './files.ts';

describe('good files', () => {
  it('fills in everything a beginner left out', () => {
    // Defaults: science notes h (48 %, 12 % stored), l (oats 15 to 25 min after a soak, MEMORY), m (10 min vent, 15 psi, 90 min,
    // 20 s towel, 2 h drying, common practice, no source), i (5 ml per kg within 3 to 10, MEMORY), k1 (restart, READ).
    expect(parseFixture('good/least')).toEqual({
      ok: true,
      warnings: [],
      recipe: {
        name: 'Oats',
        grain: 'oats',
        note: '',
        containers: {
          kind: 'bag',
          count: 4,
          fillKg: 1.1,
          size: { shape: 'brick', lengthM: 0.18, widthM: 0.11, thicknessM: 0.08 },
          mostKg: 1.21,
          touching: false,
        },
        storedMoisture: 0.12,
        wantedMoisture: 0.48,
        soak: null,
        simmer: { firstLookS: 1800, everyS: 300, nearS: 120, waterPerKg: 2.5 },
        drying: { aboutS: 7200, stirEveryS: 1500, towelS: 20 },
        seal: 'before',
        ventS: 600,
        target: { by: 'pressure', gaugeKPa: expect.closeTo(103.42136, 4) },
        holdS: 5400,
        dips: 'restart',
        coolS: 32_400,
        culture: { form: 'liquid culture', species: '', perContainer: 5.5 },
      },
    });
  });

  it('reads American units, fractions, flow maps and any order of keys', () => {
    // NIST SP 811 factors (MEMORY): 2 lb 4 oz = 1.020583 kg, 4 oz = 113.398 g, 4.5 in = 11.43 cm, 250 F = 121.111 C.
    expect(recipeOf(parseFixture('good/american'))).toMatchObject({
      name: 'Rice: five jars',
      grain: 'brown rice',
      containers: {
        kind: 'jar',
        fillKg: expect.closeTo(1.020583, 6),
        mostKg: expect.closeTo(1.133981, 6),
        size: { shape: 'cylinder', diameterM: expect.closeTo(0.1143, 9), heightM: expect.closeTo(0.1778, 9) },
        touching: true,
      },
      wantedMoisture: 0.45,
      soak: null,
      simmer: { firstLookS: 750, waterPerKg: expect.closeTo(2.503621, 6) },
      seal: 'after',
      target: { by: 'temperature', celsius: expect.closeTo(121.1111, 4) },
      holdS: 9000,
      dips: 'make up',
      culture: { form: 'grain spawn', species: "lion's mane", perContainer: expect.closeTo(113.398, 3) },
    });
  });

  it('reads a file with a byte order mark and Windows line ends', () => {
    expect(recipeOf(parseFixture('good/windows'))).toMatchObject({
      note: 'Two lines in one.',
      containers: { fillKg: 0.75, mostKg: 0.825 },
      soak: { shortestS: 108_000, longestS: 108_000 },
      target: { by: 'pressure', gaugeKPa: 100 },
      holdS: 4500,
    });
  });
});

const placesOf = (name: string) =>
  problemsOf(parseFixture(name)).map(({ line, column, text }) => `${line}:${column} ${text}`);

describe('bad files', () => {
  it('reports everything that is wrong at once, by place', () => {
    expect(linesOf(problemsOf(parseFixture('bad/everything')))).toEqual([
      'everything.yaml:1:1: There is no key "nmae"; did you mean "name"? Found: nmae',
      'everything.yaml:1:1: The key "name" is missing; add one, such as "name: Rye, six bags".',
      'everything.yaml:2:8: grain: expected one of rye, wheat, oats, barley, sorghum, millet, maize, brown rice, spelt, triticale. Found: rey',
      'everything.yaml:4:10: count: expected a whole number from 1 to 60, such as 6. Found: 6.5',
      'everything.yaml:5:9: fill: expected at most what fits below the filter, 1.2 kg; lower the fill, or raise most. Found: 2 kg',
      'everything.yaml:7:9: size: expected a size with its unit, each side from 2 cm to 60 cm: three sides of a bag, such as 18 x 11 x 8 cm, or a jar as 9 cm wide, 12.5 cm high. Found: 18 x 11 x 8',
      'everything.yaml:8:3: There is no key "colour" in containers; the keys here are kind, count, fill, most, size, touching. Found: colour',
      'everything.yaml:10:11: stored: expected a percentage with its unit (%) from 3 % to 70 %, such as 48 %. Found: 0.12',
      'everything.yaml:14:12: longest: expected at least the shortest soak, 24 h. Found: 12 h',
      'everything.yaml:15:9: simmer: expected keys of its own, indented below: first look, look every, near every, water. Found: 10 min',
      'everything.yaml:16:7: vent: expected a length of time from 1 min to 45 min, such as 10 min. Found: 0 min',
      'everything.yaml:17:11: pressure: expected a pressure from 5 psi to 25 psi, such as 15 psi, 1 bar or 103 kPa. Found: 40 psi',
      'everything.yaml:19:7: hold: expected a length of time in days, h, min or s from 15 min to 6 h, such as 90 min. Found: 90 psi',
      'everything.yaml:20:1: The key "hold" is here twice; keep one of them. Found: hold',
      'everything.yaml:21:7: dips: expected one of restart, make up. Found: maybe',
      'everything.yaml:22:7: cool: expected a length of time in days, h, min or s from 1 h to 48 h, such as 9 h. Found: 1e99 h',
      'everything.yaml:25:9: each: grain spawn is measured in g, such as 100 g. Found: 5 ml',
    ]);
  });

  it('points at the value, and leaves out what only follows from another problem', () => {
    expect(placesOf('bad/units')).toEqual([
      '5:9 1100',
      '6:9 1,100 g',
      '7:9 18 cm',
      '9:15 -5 min',
      '10:10 2.5 L',
      '11:7 1:30',
      '12:7 10',
      '13:11 121 C',
      '14:7 .nan',
      '16:9 5 drops',
    ]);
    expect(placesOf('bad/yaml-extras')).toEqual([
      '1:10 Rye',
      '2:14 rye',
      '4:10 [6]',
      '6:9 *n',
      '7:1 <<',
      '8:1 __proto__',
      '9:1 constructor',
      '10:3 {a: b}',
    ]);
    expect(placesOf('bad/tabs')).toEqual(['4:1 ', '5:1 ']);
    expect(placesOf('bad/two-documents')).toEqual(['7:1 ---']);
    expect(linesOf(problemsOf(parseFixture('bad/cut-off')))).toEqual([
      'cut-off.yaml:1:7: The quote that opens here is never closed. Found: "Rye',
    ]);
  });

  it('shows control characters instead of passing them on', () => {
    expect(placesOf('bad/controls')).toEqual(['1:11 \u241b', '5:13 \u2400', '7:7 "a \\e]0;title\\a b"']);
  });

  it('warns of what is unusual and still gives the recipe', () => {
    const result = parseFixture('bad/odd');
    const warnings = result.ok ? result.warnings.map(({ line, text }) => `${line} ${text}`) : [];
    expect(warnings).toEqual([
      '7 7 x 4.5 in',
      '7 7 x 4.5 in',
      '9 18 %',
      '10 60 %',
      '13 5 min',
      '16 25 min',
      '17 3 min',
      '18 40 min',
      '19 2 h',
      '21 300 ml',
    ]);
  });
});

const minimal = 'name: A\ngrain: rye\ncontainers:\n  count: 2\n  fill: 1 kg\n  size: 18 x 11 x 8 cm\n';
const refusal = (more: string) =>
  problemsOf(parseRecipe(minimal + more, 'a.yaml'))
    .map(each => each.says)
    .join(' | ');

describe('values that must not reach the stove', () => {
  // Upper limits: the limits of the format (25 psi, 105 to 130 C); stovetop canners are marked 15 to 20 psi (common practice, no source).
  it.each([
    ['vent: 0 min', 'vent: expected'],
    ['vent: -10 min', 'vent: expected'],
    ['vent: 30 s', 'vent: expected'],
    ['pressure: 25.1 psi', 'from 5 psi to 25 psi'],
    ['pressure: 2 bar', 'from 34 kPa to 172 kPa'],
    ['pressure: 0 psi', 'pressure: expected'],
    ['temperature: 131 C', 'from 105 °C to 130 °C'],
    ['temperature: 220 F', 'from 221 °F to 266 °F'],
    ['temperature: 104 C', 'temperature'],
    ['temperature: 121 C\npressure: 15 psi', 'found both'],
    ['hold: 5 min', 'from 15 min to 6 h'],
    ['hold: 24 h', 'from 15 min to 6 h'],
    ['moisture: {wanted: 12 %}', 'more water than the stored grain'],
    ['moisture: {stored: 50 %}', 'more water than the stored grain'],
    ['soak: {longest: 12 h, shortest: 13 h}', 'at least the shortest soak, 13 h'],
    ['culture: {form: liquid culture, each: 100 g}', 'liquid culture is measured in mL'],
  ])('refuses %s', (more, words) => {
    expect(refusal(`${more}\n`)).toContain(words);
  });

  it('accepts the limits themselves', () => {
    expect(refusal('vent: 1 min\n')).toBe('');
    expect(refusal('pressure: 25 psi\n')).toBe('');
    expect(refusal('temperature: 130 C\n')).toBe('');
    expect(refusal('temperature: 266 F\n')).toBe('');
    expect(refusal('temperature: 221 F\n')).toBe('');
    expect(refusal('hold: 6 h\n')).toBe('');
  });

  it('refuses more wet grain than the size can hold', () => {
    // Kernels at 48 % weigh 1168 kg/m3 (science notes e5, COMPUTED): 2 kg in 1.584 L would be 1263.
    expect(problemsOf(parseRecipe(minimal.replace('1 kg', '2 kg'), 'a.yaml')).map(each => each.says)).toEqual(
      ['size: 2 kg of wet grain cannot fit in this size; measure a filled one again.'],
    );
  });

  it('compares the values that could be read although another could not', () => {
    expect(refusal('hold: ages\nsoak: {shortest: 20 h, longest: 10 h}\n')).toMatch(/^hold: .* \| longest: /);
  });
});

it.each(['', ' ', '\n\n', '# only a comment\n', '42', '- a\n- b\n', '[]', '"text"', '---\n'])(
  'says what a recipe is when given %j',
  text => {
    const [first] = problemsOf(parseRecipe(text, 'a.yaml'));
    expect(first?.says).toMatch(/There is no recipe here|A recipe has no lists/);
  },
);

it('forgives case, dashes and the words for no', () => {
  for (const no of ['no', 'None', 'FALSE', '~', ''])
    expect(recipeOf(parseRecipe(`${minimal}soak: ${no}\n`, 'a')).soak).toBeNull();
  expect(recipeOf(parseRecipe(`${minimal}dips: Make-Up\n`, 'a')).dips).toBe('make up');
  expect(refusal('first-look: 3 min\n')).toContain('no key "first-look"');
  expect(refusal('Simmer: {first_look: 3 min}\n')).toContain('did you mean "simmer"?');
  expect(refusal('simmer: {first_look: 3 min}\n')).toContain('did you mean "first look"?');
});
