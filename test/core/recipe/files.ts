/** Recipe files of the suite, and the words of a parse result. */

import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type ParsedRecipe, parseRecipe } from '../../../src/core/recipe/parse.ts';
import { type Problem, problemLine } from '../../../src/core/recipe/problem.ts';
import type { Recipe } from '../../../src/core/recipe/recipe.ts';

const folder = (path: string) => fileURLToPath(new URL(`../../../${path}`, import.meta.url));
export const SHIPPED = folder('recipes');
export const FIXTURES = folder('test/data/recipes');

export const shippedNames = (): readonly string[] =>
  readdirSync(SHIPPED).filter(name => name.endsWith('.yaml'));
export const shippedText = (name: string): string => readFileSync(`${SHIPPED}/${name}`, 'utf8');

/** Reads "good/least" or "bad/units". */
export function parseFixture(name: string): ParsedRecipe {
  const file = `${name.split('/').at(-1)}.yaml`;
  return parseRecipe(readFileSync(`${FIXTURES}/${name}.yaml`, 'utf8'), file);
}

/** The recipe; fails with the problems when there is none. */
export function recipeOf(result: ParsedRecipe): Recipe {
  if (result.ok) return result.recipe;
  throw new Error(linesOf(result.problems).join('\n'));
}

export const problemsOf = (result: ParsedRecipe): readonly Problem[] => (result.ok ? [] : result.problems);
export const linesOf = (problems: readonly Problem[]): readonly string[] => problems.map(problemLine);
