import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { readLine } from '../../src/cli/plain-lines.ts';
import { run } from '../../src/cli/run.ts';
import { step } from '../../src/core/batch/machine.ts';
import type { BatchEvent } from '../../src/core/batch/events.ts';
import { runNumbers } from '../../src/core/plan/run-numbers.ts';
import { withDefaults } from '../../src/core/kitchen.ts';
import { packArchive, type Part } from '../../src/shell/archive-format.ts';
import { listBatches, openBatch } from '../../src/shell/batches.ts';
import { createHandClock } from '../../src/shell/hand-clock.ts';
import { createJournal } from '../../src/shell/journal.ts';
import { readRecipeFile } from '../../src/shell/recipe-file.ts';
import { openSettings } from '../../src/shell/settings.ts';
import { straightThrough } from '../help/batch-drive.ts';
import { sampleHeader, VARIANTS } from '../help/batch-kit.ts';
import { follow } from '../help/batch-model.ts';
import { tempFolder } from '../help/temp-folder.ts';
import { createChance, damaged, EVIL_TEXTS, mangled, steering } from './fuzz.ts';
import { placesOf } from './key-path.ts';

const RECIPES = join(import.meta.dirname, '../../recipes');

/** How long each of many took, and the whole. */
function timed() {
  const began = performance.now();
  let slowest = 0;
  return {
    one: <T>(work: () => T): T => {
      const started = performance.now();
      const made = work();
      slowest = Math.max(slowest, performance.now() - started);
      return made;
    },
    says: (what: string) => {
      expect(slowest, what).toBeLessThan(2000);
      const took = ((performance.now() - began) / 1000).toFixed(1);
      console.log(`${what} in ${took} s, slowest ${slowest.toFixed(0)} ms`);
    },
  };
}

describe('recipe files nobody would write', () => {
  const shipped = readdirSync(RECIPES)
    .filter(name => name.endsWith('.yaml'))
    .map(name => readFileSync(join(RECIPES, name)));
  const { kitchen } = withDefaults({});

  it('750 with damaged bytes, and 750 with evil values, are read or refused with plain problems', () => {
    const chance = createChance(21);
    const path = join(tempFolder(), 'x.yaml');
    const time = timed();
    let good = 0;
    for (let round = 0; round < 1500; round += 1) {
      const bytes = chance.pick(shipped);
      if (round % 2 === 0) writeFileSync(path, damaged(bytes, chance));
      else {
        const lines = bytes.toString().split('\n');
        const at = chance.below(lines.length);
        const key = /^(\s*[\w ]+:)/.exec(lines[at] ?? '')?.[1] ?? 'name:';
        const value = chance.pick([
          ...EVIL_TEXTS,
          '1e99 kg',
          '-3 bags',
          '0',
          '*a',
          '&a [*a, *a]',
          '!!js/function x',
          '<<: *x',
          '{a: {b: {c: 1}}}',
          '99999999999999999999 h',
          '.inf',
          '0x1F',
          '2026-01-01',
          "'",
          '|',
          '>-',
        ]);
        writeFileSync(path, lines.with(at, `${key} ${value}`).join('\n'));
      }
      const parsed = time.one(() => readRecipeFile(path, 'x.yaml'));
      const says = parsed.ok ? parsed.warnings : parsed.problems;
      for (const { says: sentence, line } of says) {
        expect(steering(sentence)).toBeNull();
        expect(sentence.length).toBeLessThan(600);
        expect(line).toBeGreaterThan(0);
      }
      if (!parsed.ok) {
        expect(says.length).toBeGreaterThan(0);
        continue;
      }
      good += 1;
      // What was taken for a recipe has numbers that a batch can be run by.
      const numbers = runNumbers(parsed.recipe, kitchen);
      expect(JSON.stringify(numbers)).not.toContain('null');
      expect(numbers.pressureLockS).toBeGreaterThan(0);
    }
    time.says(`1,500 recipe files, ${good} of them recipes`);
    expect(good).toBeGreaterThan(50);
  });
});

describe('settings files nobody would write', () => {
  it('1,500 are read or set aside, in plain sentences, and give a whole kitchen', () => {
    const chance = createChance(22);
    const folder = tempFolder();
    const path = join(folder, 'settings.json');
    const { kitchen } = withDefaults({});
    const time = timed();
    for (let round = 0; round < 1500; round += 1) {
      const whole = { kitchen, lastRecipe: 'rye', kitchenAsked: true, lessonOffered: false };
      const text = JSON.stringify(mangled(whole, chance));
      writeFileSync(path, round % 2 === 0 ? text : damaged(Buffer.from(text), chance));
      const { values, notices } = time.one(() => openSettings(path));
      for (const notice of notices) expect(steering(notice)).toBeNull();
      rmSync(`${path}.damaged`, { force: true });
      const known = withDefaults(values.kitchen).kitchen;
      expect(Object.values(known)).not.toContain(undefined);
      expect(JSON.stringify(known)).not.toMatch(/"altitudeM":(null|")/);
    }
    time.says('1,500 settings files');
  });

  it('a named pipe in the place of a file is not waited for', () => {
    const folder = tempFolder();
    mkdirSync(join(folder, 'batches'));
    const clock = createHandClock();
    try {
      execFileSync('mkfifo', [join(folder, 'settings.json'), join(folder, 'batches', '2613a.batch')]);
    } catch {
      console.log('Skipped: this system makes no named pipes.');
      return;
    }
    expect(openSettings(join(folder, 'settings.json')).notices.join()).toContain('damaged');
    const options = { folder: join(folder, 'batches'), clock };
    expect(listBatches(options)[0]?.batch).toBeNull();
    expect(() => openBatch(options, '2613a')).toThrow(/cannot be gone on with|could not be opened/);
  });
});

describe('lines nobody would type', () => {
  it('100,000 in plain mode are an act or a sentence, and break no rule', () => {
    const chance = createChance(23);
    const places = Object.values(VARIANTS).flatMap(placesOf);
    const words = [
      '1',
      '2',
      '3',
      '4',
      't',
      'e',
      'u',
      's',
      'q',
      '?',
      'wait',
      'end',
      'open',
      'short',
      'soaked',
      'right',
      '1.5',
      '1,5',
      '99999',
      '-1',
      '1e9',
      '0',
      ...EVIL_TEXTS,
    ];
    const time = timed();
    let deeds = 0;
    for (let round = 0; round < 100_000; ) {
      let { run: now, model } = chance.pick(places);
      for (let line = 0; line < 12; line += 1, round += 1) {
        const typed = Array.from({ length: chance.below(4) }, () => chance.pick(words)).join(' ');
        const act = time.one(() => readLine(now, typed, now.batch.header.kitchen.units));
        if (act.kind === 'say') expect(typeof act.says).toBe('string');
        if (act.kind !== 'deed') continue;
        deeds += 1;
        const { batch } = now;
        const ms = chance.below(3_600_000);
        const event = { ...act.deed, t: batch.now + ms, wall: batch.wall + ms } as BatchEvent;
        const outcome = step(now, event);
        if (!outcome.ok) continue;
        model = follow(model, event, batch, outcome.run.batch);
        now = outcome.run;
      }
    }
    time.says(`100,000 lines, ${deeds} deeds`);
    expect(deeds).toBeGreaterThan(10_000);
  });
});

describe('archives nobody would make', () => {
  let said = '';
  beforeEach(() => {
    const heard = (bytes: unknown) => {
      said += String(bytes);
      return true;
    };
    vi.spyOn(process.stdout, 'write').mockImplementation(heard);
    vi.spyOn(process.stderr, 'write').mockImplementation(heard);
  });
  afterEach(() => void vi.restoreAllMocks());

  function journalBytes(): Buffer {
    const path = join(tempFolder(), '2613a.batch');
    const header = sampleHeader({ soak: false });
    const { uptime, boot } = createHandClock().sample();
    const journal = createJournal(path, { ...header, id: '2613a', uptime, boot });
    for (const event of straightThrough(header).events)
      journal.append({ event, uptime: uptime + event.t, boot });
    journal.close();
    return readFileSync(path);
  }

  it('300, damaged outside and inside, are merged or refused, never with a stack', async () => {
    const chance = createChance(24);
    const batch = journalBytes();
    const recipe = readFileSync(
      join(RECIPES, readdirSync(RECIPES).find(name => name.endsWith('.yaml')) ?? ''),
    );
    const settings = Buffer.from(JSON.stringify({ kitchen: { altitudeM: 700 }, lastRecipe: 'x' }));
    const parts: readonly Part[] = [
      { name: 'batches/2613a.batch', bytes: batch },
      { name: 'recipes/mine.yaml', bytes: recipe },
      { name: 'settings.json', bytes: settings },
      { name: 'diary.journal', bytes: Buffer.from('{"stovehand":"diary","version":1}\tx\n') },
    ];
    const home = tempFolder();
    const file = join(tempFolder(), 'a.zip');
    const began = performance.now();
    let slowest = 0;
    const codes = new Map<number, number>();
    for (let round = 0; round < 300; round += 1) {
      const bad = parts.slice(0, 3 + chance.below(2)).map(({ name, bytes }) => ({
        name:
          chance.next() < 0.1
            ? chance.pick([
                ...EVIL_TEXTS.filter(text => text !== '__proto__'),
                '../../x',
                '/etc/x',
                'batches/../x.batch',
                'C:\\x',
              ])
            : name,
        bytes: chance.next() < 0.3 ? damaged(bytes, chance) : bytes,
      }));
      const packed = await packArchive(bad, Date.UTC(2026, 0, 1));
      writeFileSync(file, round % 2 === 0 ? packed : damaged(packed, chance));
      said = '';
      const started = performance.now();
      const code = await run(['--home', home, 'import', file], pathToFileURL(RECIPES));
      slowest = Math.max(slowest, performance.now() - started);
      codes.set(code, (codes.get(code) ?? 0) + 1);
      expect(said).not.toMatch(/mistake of its own|\n\s+at .*:\d+/);
      expect(steering(said)).toBeNull();
    }
    vi.restoreAllMocks();
    const told = [...codes].map(([code, count]) => `code ${code}: ${count}`).join(', ');
    console.log(
      `300 archives in ${((performance.now() - began) / 1000).toFixed(1)} s, slowest ${slowest.toFixed(0)} ms: ${told}`,
    );
    expect(slowest).toBeLessThan(2000);
    expect([...codes.keys()].sort()).toEqual([0, 3]);
    // Nothing but what belongs into a home has come into it.
    const names = readdirSync(home, { recursive: true, encoding: 'utf8' });
    expect(names.filter(name => !/^(batches|recipes|settings\.json|diary)/.test(name))).toEqual([]);
  });
});
