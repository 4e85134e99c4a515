/** Files that nobody wrote for cooking: bombs, binary, mutations. One sentence or a recipe, never a throw. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LARGEST_RECIPE, type ParsedRecipe, parseRecipe } from '../../../src/core/recipe/parse.ts';
import { problemLine } from '../../../src/core/recipe/problem.ts';
import { recipeFile } from '../../../src/core/recipe/schema.ts';
import { accepts } from '../../../src/core/recipe/shape.ts';
import { problemsOf, shippedNames, shippedText } from './files.ts';

/** What must hold of every answer; plain comparisons, since it is asked of thousands. */
function soundAnswer(text: string, result: ParsedRecipe): void {
  const lines = text.split('\n');
  const notes = result.ok ? result.warnings : result.problems;
  const unsound: string[] = [];
  const must = (holds: boolean, what: string) => holds || unsound.push(what);
  must(result.ok || notes.length > 0, 'refused without a reason');
  must(notes.length <= 101, `${notes.length} problems`);
  let before = 1;
  for (const note of notes) {
    const shown = problemLine(note);
    must(note.line >= before && note.line <= lines.length, `line of ${shown}`);
    must(
      note.column >= 1 && note.column <= [...(lines[note.line - 1] ?? '')].length + 1,
      `column of ${shown}`,
    );
    // Nothing a terminal would obey (ECMA-48 C0, DEL, C1), and one line each.
    must(
      !/[\u0000-\u001f\u007f-\u009f\u2028\u2029]/.test(shown),
      `control character in ${JSON.stringify(shown)}`,
    );
    must(note.says.length < 400, `length of ${shown}`);
    before = note.line;
  }
  expect(unsound).toEqual([]);
}

const filled = (piece: string) => piece.repeat(Math.floor((LARGEST_RECIPE - 8) / piece.length));
const bomb = Array.from({ length: 20 }, (_, step) => {
  const [own, last] = [String.fromCharCode(97 + step), String.fromCharCode(96 + step)];
  return `${own}: &${own} [${Array(9)
    .fill(step === 0 ? 'lol' : `*${last}`)
    .join(', ')}]`;
}).join('\n');

describe('files made to hurt', () => {
  it.each([
    ['an alias bomb', bomb],
    ['10 MB', 'x'.repeat(10 * 1024 * 1024)],
    ['10 MB of line ends', '\n'.repeat(10 * 1024 * 1024)],
    ['deep brackets', filled('[')],
    ['deep braces', filled('{a: ')],
    ['deep lists', filled('- ')],
    ['deep question marks', filled('? ')],
    ['deep colons', filled(': ')],
    ['deep indentation', Array.from({ length: 200 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')],
    [
      'thousands of keys',
      Array.from({ length: 4000 }, (_, count) => `k${count}:`)
        .join('\n')
        .slice(0, LARGEST_RECIPE),
    ],
    ['one key thousands of times', filled('a: 1\n')],
    ['commas in a list', `a: [${filled(',').slice(8)}`],
    ['NUL bytes', filled('\0')],
    ['colour sequences', filled('\x1b[31m')],
    ['C1 controls', filled('\u009b2J')],
    ['carriage returns', filled('\r')],
    ['byte order marks', filled('\ufeff')],
    ['lone surrogates', filled('\ud800')],
    ['documents', filled('---\n')],
    ['document ends', filled('...\n')],
    ['directives', filled('%YAML 1.2\n')],
    ['tags', filled('!!js/function a: b\n')],
    ['anchors', filled('&a ')],
    ['aliases', filled('- *a\n')],
    ['tabs', filled('a:\n\t- b\n')],
    ['a key without end', `${'k'.repeat(30_000)}: 1`],
    ['a number without end', `hold: ${'9'.repeat(30_000)} min`],
    [
      'a size without end',
      `name: a\ngrain: rye\ncontainers:\n  count: 1\n  fill: 1 kg\n  size: ${'1 x '.repeat(7000)}cm`,
    ],
    ['spaces within a quantity', `hold: 1${' '.repeat(30_000)}min`],
    ['an open quote', `name: "${filled('a\n').slice(8)}`],
    ['bad escapes', `name: "${filled('\\q').slice(8)}"`],
    ['brackets that close nothing', filled(']}')],
    ['merge keys', '<<: {name: a}\n<<: [{grain: rye}]\n'],
  ])('answers %s in plain words', (_, text) => {
    const result = parseRecipe(text, 'a.yaml');
    expect(result.ok).toBe(false);
    soundAnswer(text, result);
  });

  it('does not let keys of objects in', () => {
    const text =
      '__proto__:\n  polluted: yes\nconstructor: a\nprototype: b\ntoString: c\ncontainers:\n  __proto__: {count: 5}\n  hasOwnProperty: x\n';
    const lines = problemsOf(parseRecipe(text, 'a.yaml')).map(({ line }) => line);
    for (const line of [1, 3, 4, 5, 7, 8]) expect(lines).toContain(line);
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
  });

  it('says that a long list of problems was cut', () => {
    const problems = problemsOf(
      parseRecipe(Array.from({ length: 400 }, (_, count) => `k${count}: 1`).join('\n'), 'a.yaml'),
    );
    expect(problems).toHaveLength(101);
    expect(problems.at(-1)?.says).toBe('303 more problems follow from here; mend the ones above first.');
  });
});

/** Every key of the format, sections apart. */
const keys = Object.entries(accepts(recipeFile).keys ?? {});
const value = fc.oneof(
  fc.constantFrom(
    '1 kg',
    '90 min',
    '15 psi',
    '48 %',
    '6',
    'rye',
    'no',
    'yes',
    '18 x 11 x 8 cm',
    '5 ml',
    '2.5 L per kg',
    'restart',
    '121 C',
    '"\\e[2J"',
    '*a',
    '&a b',
    '!!int 5',
    '[1, 2]',
    '{a: b}',
    '|',
    '>-',
    '-',
    '"',
    "'",
    '1e99 kg',
    '-5 min',
    'NaN',
    '0',
    '',
    '~',
    '# note',
    '\t5 min',
    '\u202e1 kg',
    '9'.repeat(300),
  ),
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc
    .tuple(fc.double(), fc.constantFrom('kg', 'min', 'psi', '%', 'cm', 'C', ''))
    .map(([number, unit]) => `${number} ${unit}`),
);
const line = (names: readonly string[], indent: string) =>
  fc
    .tuple(
      fc.oneof(
        { weight: 9, arbitrary: fc.constantFrom(...names) },
        { weight: 1, arbitrary: fc.string({ maxLength: 12 }) },
      ),
      value,
    )
    .map(([key, text]) => `${indent}${key}: ${text}`);
const section = fc.constantFrom(...keys).chain(([key, schema]) => {
  const inner = accepts(schema).keys;
  return inner === null
    ? line([key], '')
    : fc
        .array(line(Object.keys(inner), '  '), { maxLength: 6 })
        .map(lines => [`${key}:`, ...lines].join('\n'));
});
const required = 'name: a\ngrain: rye\ncontainers:\n  count: 2\n  fill: 1 kg\n  size: 18 x 11 x 8 cm';
const structured = fc
  .tuple(fc.boolean(), fc.array(section, { maxLength: 10 }), fc.constantFrom('\n', '\r\n'))
  .map(([whole, sections, end]) =>
    [...(whole ? [required] : []), ...sections, ''].join('\n').replaceAll('\n', end),
  );

describe('fuzz', () => {
  it('survives files of the right structure with any values', () => {
    let read = 0;
    fc.assert(
      fc.property(structured, text => {
        const result = parseRecipe(text, 'a.yaml');
        if (result.ok) read += 1;
        soundAnswer(text.replace(/^\ufeff/, ''), result);
      }),
      { seed: 7, numRuns: 4000 },
    );
    // Some must have been good, or the property would only have tried refusals.
    expect(read).toBeGreaterThan(50);
  });

  it('survives shipped recipes with bytes changed, cut, doubled or moved', () => {
    const texts = shippedNames().map(shippedText);
    const edit = fc.record({
      at: fc.nat(4000),
      take: fc.nat(40),
      put: fc.oneof(
        fc.constantFrom('\0', '\t', '\x1b', '"', ':', '- ', '&a ', '*a', '\n', '\r', '{', '#', '%', 'é'),
        fc.string({ unit: 'binary', maxLength: 6 }),
      ),
    });
    let read = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...texts),
        fc.array(edit, { minLength: 1, maxLength: 6 }),
        (original, edits) => {
          const text = edits.reduce((kept, { at, take, put }) => {
            const from = at % (kept.length + 1);
            return kept.slice(0, from) + put + kept.slice(from + take);
          }, original);
          const result = parseRecipe(text, 'a.yaml');
          if (result.ok) read += 1;
          soundAnswer(text.replace(/^\ufeff/, ''), result);
        },
      ),
      { seed: 11, numRuns: 2500 },
    );
    expect(read).toBeGreaterThan(50);
  });

  it('survives any text and any bytes', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 400 }),
          fc.uint8Array({ maxLength: 600 }).map(bytes => new TextDecoder().decode(bytes)),
        ),
        text => {
          soundAnswer(text.replace(/^\ufeff/, ''), parseRecipe(text, 'a.yaml'));
        },
      ),
      { seed: 13, numRuns: 3000 },
    );
  });
});
