import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { COMMANDS, readArguments } from '../../src/cli/arguments.ts';
import { run } from '../../src/cli/run.ts';
import { visibleJson } from '../../src/core/text.ts';
import { createHandClock } from '../../src/shell/hand-clock.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { createJournal } from '../../src/shell/journal.ts';
import { straightThrough } from '../help/batch-drive.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { tempFolder } from '../help/temp-folder.ts';
import { createChance, damaged, EVIL_TEXTS, steering } from './fuzz.ts';

const SHIPPED = pathToFileURL(join(import.meta.dirname, '../../recipes'));
let said = '';
const heard = (bytes: unknown): boolean => {
  said += String(bytes);
  return true;
};
beforeEach(() => {
  vi.spyOn(process.stdout, 'write').mockImplementation(heard);
  vi.spyOn(process.stderr, 'write').mockImplementation(heard);
});
// What is written where the program was started is found out in a folder of its own.
const here = process.cwd();
beforeEach(() => process.chdir(tempFolder()));
afterEach(() => {
  process.chdir(here);
  vi.restoreAllMocks();
});

/** A home with a finished batch, an open one, a damaged one, and names that would steer a terminal. */
function home(): string {
  const folder = tempFolder();
  mkdirSync(join(folder, 'batches'));
  mkdirSync(join(folder, 'recipes'));
  const evil = '\u001b[2J\u001b]0;owned\u0007\u009b31m\r\n\u202e';
  const story = straightThrough(sampleHeader({ soak: false })).events;
  const { uptime, boot } = createHandClock().sample();
  for (const [id, length] of [
    ['2613a', story.length],
    ['2613b', 9],
    ['2613c', story.length - 2],
  ] as const) {
    const header = sampleHeader({ soak: false });
    const recipe = {
      ...header.recipe,
      name: `Rye ${evil}`,
      note: evil,
      culture: { ...header.recipe.culture, species: evil },
    };
    const path = join(folder, 'batches', `${id}.batch`);
    const journal = createJournal(path, { ...header, recipe, id, uptime, boot });
    for (const event of story.slice(0, length)) journal.append({ event, uptime: uptime + event.t, boot });
    journal.close();
  }
  writeFileSync(join(folder, 'batches', '2613d.batch'), damaged(Buffer.alloc(900, 'x'), createChance(1)));
  writeFileSync(join(folder, 'recipes', `evil \u001b[31m.yaml`), `name: "${'x'.repeat(30)}"\n`);
  writeFileSync(join(folder, 'recipes', 'bad.yaml'), Buffer.from([0xff, 0x00, 0x1b, 0x5b]));
  writeFileSync(
    join(folder, 'settings.json'),
    JSON.stringify({ kitchen: { money: { currency: '\u001b[5m', grainPerKg: 2 } }, lastRecipe: `\u001b[2J` }),
  );
  return folder;
}

/** Carries a command line out in this process; its exit code. Nothing but plain text may come of it. */
async function carriedOut(argv: readonly string[]): Promise<number> {
  said = '';
  const code = await run(argv, SHIPPED);
  const shown = JSON.stringify(argv).slice(0, 300);
  expect(said, shown).not.toMatch(/mistake of its own|\n\s+at .*:\d+/);
  expect(code, `${shown}\n${said.slice(0, 600)}`).not.toBe(1);
  // Calendar files end their lines as RFC 5545 wants; a tab stands in comma-separated data and in pages.
  const text = said.replaceAll('\r\n', '\n').replaceAll('\t', ' ');
  expect(steering(text), `${shown}: ${steering(text)}`).toBeNull();
  if (code !== 0) expect(said.trim(), shown).not.toBe('');
  return code;
}

const WORDS = [
  ...EVIL_TEXTS.filter(text => !text.includes('/')),
  '2613a',
  '2613b',
  '2613a-1',
  '2613d',
  '9999zz',
  'rye',
  'bad',
  'altitude',
  'currency',
  '640',
  '12:61',
  'contaminated',
  'green',
  'add',
  '1e400',
];
const VALUES = [
  '--json',
  '--csv',
  '--save',
  '--report',
  '--sheet',
  '--grid',
  '--skip',
  '--seed',
  '--fault',
  '--mistake',
  '--at',
  '--ready',
  '--form',
  '--made',
  '--source',
  '--speed',
  '--nonsense',
  '-x',
  '--',
  '--help',
  '--version',
];

it('JSON that is safe to show is the same JSON', () => {
  const value = { [EVIL_TEXTS[3]]: EVIL_TEXTS.filter(text => text.isWellFormed()) };
  expect(JSON.parse(visibleJson(value))).toEqual(value);
  expect(steering(visibleJson(value))).toBeNull();
});

describe('whatever stands on the command line', () => {
  it('20,000 lists of words are read or refused in one sentence', () => {
    const chance = createChance(77);
    let refused = 0;
    for (let round = 0; round < 20_000; round += 1) {
      const argv = Array.from({ length: chance.below(6) }, () =>
        chance.pick([
          ...Object.keys(COMMANDS),
          ...WORDS,
          ...VALUES,
          '--home',
          '--plain',
          '--open',
          '--out=x',
        ]),
      );
      try {
        readArguments(argv);
      } catch (problem) {
        expect(problem, JSON.stringify(argv)).toBeInstanceOf(GrowerError);
        expect(steering(String(problem))).toBeNull();
        refused += 1;
      }
    }
    expect(refused).toBeGreaterThan(5000);
  });

  it('1,200 of them are carried out or refused, never with a stack and never with raw controls', async () => {
    const chance = createChance(78);
    const place = home();
    const codes = new Map<number, number>();
    const quiet = Object.keys(COMMANDS).filter(
      name => !['home', 'export', 'import', 'practise'].includes(name),
    );
    let slowest = { ms: 0, argv: '' };
    const began = performance.now();
    for (let round = 0; round < 1200; round += 1) {
      const words = Array.from({ length: chance.below(4) }, () => chance.pick(WORDS));
      const flags = Array.from({ length: chance.below(2) }, () => chance.pick(VALUES));
      const argv = ['--home', place, chance.pick(quiet), ...words, ...flags];
      const started = performance.now();
      const code = await carriedOut(argv);
      const ms = performance.now() - started;
      if (ms > slowest.ms) slowest = { ms, argv: JSON.stringify(argv.slice(2)).slice(0, 80) };
      codes.set(code, (codes.get(code) ?? 0) + 1);
    }
    const told = [...codes].map(([code, count]) => `code ${code}: ${count}`).join(', ');
    const tookS = ((performance.now() - began) / 1000).toFixed(1);
    vi.restoreAllMocks();
    console.log(
      `1,200 command lines in ${tookS} s: ${told}; slowest ${slowest.ms.toFixed(0)} ms ${slowest.argv}`,
    );
    expect(slowest.ms).toBeLessThan(2000);
    expect(codes.get(0)).toBeGreaterThan(50);
  });

  it('every listing of a home full of evil names is plain text', async () => {
    const place = home();
    for (const command of [
      'recipes',
      'kitchen',
      'batches',
      'due',
      'record',
      'cultures',
      'calendar',
      'bags',
    ]) {
      for (const more of [[], ['--json']]) await carriedOut(['--home', place, command, ...more]);
    }
    for (const id of ['2613a', '2613b', '2613d']) {
      for (const command of ['show', 'card', 'labels', 'next', 'calendar', 'bags']) {
        await carriedOut(['--home', place, command, id]);
      }
    }
    await carriedOut(['--home', place, 'compare', '2613a', '2613c']);
    await carriedOut(['--home', place, 'again']);
    await carriedOut(['--home', `/nowhere\u001b[2J/x`, 'batches']);
  });
});
