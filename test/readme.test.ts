/** What the README says about the program is checked against the program; tables may be aligned as anybody likes. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../src/cli/arguments.ts';
import { parseRecipe } from '../src/core/recipe/parse.ts';
import { ALL_CAUTIONS } from '../src/core/words/cautions.ts';
import { KEYMAP, type Place } from '../src/face/keymap.ts';
import { EXIT } from '../src/shell/failure.ts';

const README = readFileSync(fileURLToPath(new URL('../README.md', import.meta.url)), 'utf8');

/** Text under a heading, up to the next one of its rank. */
function section(title: string): string {
  const [, after] = README.split(new RegExp(`^## ${title}\\s*$`, 'm'));
  if (after === undefined) throw new Error(`The README has no heading "${title}".`);
  return after.split(/^## /m)[0] ?? '';
}

/** Rows of all tables in a text, cells trimmed and free of code marks; head and rule lines left out. */
const rowsOf = (text: string): readonly (readonly string[])[] =>
  text
    .split('\n')
    .filter(line => line.trim().startsWith('|'))
    .map(line =>
      line
        .trim()
        .replace(/^\||\|$/g, '')
        .split(/(?<!\\)\|/)
        .map(cell => cell.trim().replace(/`/g, '').replace(/\\\|/g, '|')),
    )
    .filter((cells, index, all) => !isRule(cells) && !isRule(all[index + 1] ?? []));
const isRule = (cells: readonly string[]): boolean =>
  cells.length > 0 && cells.every(cell => /^:?-{3,}:?$/.test(cell));

/** What the README calls the places of the key table. */
const WHERE: Readonly<Record<Place, string>> = {
  run: 'a batch',
  done: 'end of a batch',
  practice: 'practice',
  welcome: 'first questions',
  home: 'home',
  sheet: 'plan sheet',
  batches: 'list of batches',
  due: 'due',
  bags: 'list of bags',
  bag: 'a bag',
  culture: 'a new culture',
  record: 'record',
  compare: 'two batches',
  next: 'next time',
  amount: 'a number',
  word: 'a typed word',
  list: 'lists',
  everywhere: 'everywhere',
};

describe('README', () => {
  it('lists every key as the key table of the program does', () => {
    expect(rowsOf(section('Keys'))).toEqual(
      KEYMAP.map(({ place, shown, says }) => [WHERE[place], shown, says]),
    );
  });

  it('lists every command', () => {
    const rows = rowsOf(section('Commands')).filter(([first]) => first?.startsWith('stovehand'));
    expect(rows).toEqual(
      Object.values(COMMANDS).map(({ words, says }) => [`stovehand ${words}`.trim(), says]),
    );
  });

  it('lists every exit code once', () => {
    const codes = rowsOf(section('Commands'))
      .map(([first]) => first ?? '')
      .filter(first => /^\d+$/.test(first));
    expect(codes).toEqual(Object.values(EXIT).map(String));
  });

  it('shows a recipe that can be used', () => {
    const yaml = /```yaml\n([\s\S]*?)```/.exec(section('Recipes'))?.[1] ?? '';
    const parsed = parseRecipe(yaml, 'README.md');
    expect(parsed.ok ? [] : parsed.problems).toEqual([]);
    expect(parsed.ok && parsed.recipe.containers.count).toBe(6);
  });

  it('holds every caution, word for word', () => {
    const flat = section('Cautions').replace(/\s+/g, ' ');
    expect(ALL_CAUTIONS.filter(caution => !flat.includes(caution))).toEqual([]);
    expect(ALL_CAUTIONS.length).toBeGreaterThan(10);
  });

  it('has a screen that would fit a terminal of 80 by 24', () => {
    const screen = /```\n([\s\S]*?)```/.exec(section('What it looks like'))?.[1]?.trimEnd() ?? '';
    expect(screen.split('\n').length).toBeGreaterThan(15);
    expect(screen.split('\n').length).toBeLessThanOrEqual(24);
    for (const line of screen.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  });
});
