/**
 * A recipe file, from text to `Recipe`, or everything that is wrong with it at once. Never throws, whatever
 * the bytes: size, depth and number of values are limited before anything recursive runs.
 */

import * as z from 'zod/mini';
import { crossChecks } from './checks.ts';
import { recipeFrom } from './defaults.ts';
import { collectProblems, type Problem, type Problems } from './problem.ts';
import type { Recipe } from './recipe.ts';
import { type RecipeFile, recipeFile } from './schema.ts';
import { fitToShape, type Input, type Places } from './shape.ts';
import { readTree } from './tree.ts';

export type { Problem } from './problem.ts';

export type ParsedRecipe =
  | { readonly ok: true; readonly recipe: Recipe; readonly warnings: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Largest recipe file, in characters (and, in the shell, bytes): a recipe is a page of text. */
export const LARGEST_RECIPE = 32 * 1024;

// Characters that no text file needs: controls but tab and line ends, and carriage returns that end no line.
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]|\r(?!\n)/g;

/** Reads a recipe; `fileName` is only repeated in the problems. */
export function parseRecipe(text: string, fileName: string): ParsedRecipe {
  if (text.length > LARGEST_RECIPE) {
    const says = `The file is larger than ${LARGEST_RECIPE / 1024} kB, and a recipe is a page of text; is this the right file?`;
    return { ok: false, problems: [{ file: fileName, line: 1, column: 1, text: '', says }] };
  }
  const plain = text.replace(/^\ufeff/, '');
  const problems = collectProblems(plain, fileName);
  const warnings = collectProblems(plain, fileName);
  const clean = plain.replace(CONTROL, (_, at: number) => {
    problems.report(at, at + 1, 'Control characters have no place in a recipe; delete this one.');
    return ' ';
  });
  const recipe = readRecipe(clean, problems, warnings);
  if (recipe && problems.count() === 0) return { ok: true, recipe, warnings: warnings.list() };
  return { ok: false, problems: problems.list() };
}

function readRecipe(text: string, problems: Problems, warnings: Problems): Recipe | null {
  const tree = readTree(text, problems.report);
  if (!tree) {
    if (problems.count() === 0) problems.report(0, 0, EMPTY);
    return null;
  }
  const { root, brokenAt } = tree;
  if (root.kind === 'bad') return null;
  if (root.kind === 'text') {
    if (brokenAt === Number.POSITIVE_INFINITY) problems.report(root.start, root.end, EMPTY);
    return null;
  }
  // After a slip in the YAML the tree is a guess: only the keys before the one with the slip are judged.
  const intact = brokenAt === Number.POSITIVE_INFINITY;
  const sound = Math.max(0, ...root.entries.map(entry => entry.keyStart).filter(at => at < brokenAt));
  const report: Problems['report'] = (start, end, says) => {
    if (intact || start < sound) problems.report(start, end, says);
  };
  const { input, places } = fitToShape(root, recipeFile, report);
  const result = z.safeParse(recipeFile, input);
  const unread = new Set([...places].filter(([, place]) => place.bad).map(([path]) => path));
  if (!result.success)
    for (const issue of leaves(result.error.issues)) complain(issue, places, unread, report, intact);
  const file = result.success ? result.data : withStandIns(input, unread);
  if (file && intact) reportFindings(file, unread, places, problems, warnings);
  return result.success ? recipeFrom(result.data) : null;
}

const EMPTY =
  'There is no recipe here; expected lines of the form "key: value", at least name, grain and containers.';

interface Leaf {
  readonly path: readonly string[];
  readonly message: string;
  readonly missing: boolean;
}

/** Issues one by one; of a union, those of the branch that fits the kind of value. */
function leaves(issues: readonly z.core.$ZodIssue[], above: readonly PropertyKey[] = []): readonly Leaf[] {
  return issues.flatMap(issue => {
    const path = [...above, ...issue.path];
    if (issue.code === 'invalid_union') {
      const fitting = issue.errors.find(
        branch => !branch.some(each => each.code === 'invalid_type' && each.path.length === 0),
      );
      return fitting ? leaves(fitting, path) : [];
    }
    return [{ path: path.map(String), message: issue.message, missing: issue.code === 'invalid_type' }];
  });
}

function complain(
  leaf: Leaf,
  places: Places,
  unread: Set<string>,
  report: Problems['report'],
  intact: boolean,
): void {
  const path = leaf.path.join('.');
  if (unread.has(path)) return;
  unread.add(path);
  const key = leaf.path.at(-1) ?? '';
  const place = places.get(path);
  if (place) {
    const { value, keyStart, keyEnd } = place.entry;
    const [start, end] = value.end > value.start ? [value.start, value.end] : [keyStart, keyEnd];
    report(start, end, `${key}: ${leaf.message}.`);
  } else if (intact) {
    const parent = places.get(leaf.path.slice(0, -1).join('.'));
    const [start, end] = parent ? [parent.entry.keyStart, parent.entry.keyEnd] : [0, 0];
    const where = parent ? ` in ${parent.entry.key}` : '';
    report(start, end, `The key "${key}" is missing${where}; ${MISSING[path] ?? 'add it'}.`);
  }
}

const MISSING: Readonly<Record<string, string>> = {
  name: 'add one, such as "name: Rye, six bags"',
  grain: 'add one, such as "grain: rye"',
  containers: 'add it, with count, fill and size indented below',
  'containers.count': 'add one, such as "count: 6"',
  'containers.fill': 'add one, such as "fill: 1 kg"',
  'containers.size': 'add one, such as "size: 18 x 11 x 8 cm"',
};

/** Values that pass every check, put where one could not be read so that the others can still be compared. */
const STAND_IN: Input = {
  name: 'x',
  grain: 'rye',
  containers: { count: '1', fill: '1 kg', size: '18 x 11 x 8 cm' },
};

function withStandIns(input: Input, unread: Set<string>): RecipeFile | null {
  const mended = (own: Input, spare: Input, path: string): Input => {
    const result: Input = {};
    for (const key of new Set([...Object.keys(spare), ...Object.keys(own)])) {
      const at = path + key;
      const [value, other] = [own[key], spare[key]];
      if (typeof value === 'object')
        result[key] = mended(value, typeof other === 'object' ? other : {}, `${at}.`);
      else if (value !== undefined && !unread.has(at)) result[key] = value;
      else if (other !== undefined) {
        result[key] = other;
        unread.add(at);
        if (typeof other === 'object') for (const inner of Object.keys(other)) unread.add(`${at}.${inner}`);
      }
    }
    return result;
  };
  const result = z.safeParse(recipeFile, mended(input, STAND_IN, ''));
  return result.success ? result.data : null;
}

function reportFindings(
  file: RecipeFile,
  unread: ReadonlySet<string>,
  places: Places,
  problems: Problems,
  warnings: Problems,
): void {
  for (const finding of crossChecks(file)) {
    if (finding.reads.some(path => unread.has(path))) continue;
    // A finding about a default points at the other value it read.
    const place = finding.reads.map(path => places.get(path)).find(each => each !== undefined);
    const { value, keyStart, keyEnd } = place?.entry ?? {
      value: { start: 0, end: 0 },
      keyStart: 0,
      keyEnd: 0,
    };
    const [start, end] = value.end > value.start ? [value.start, value.end] : [keyStart, keyEnd];
    (finding.severity === 'refuse' ? problems : warnings).report(start, end, finding.says);
  }
}
