import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { readArguments } from '../../src/cli/arguments.ts';
import { BEGAN, started } from '../help/command-home.ts';
import { drivenBatch, fillHome, homeHeader } from '../help/record-home.ts';

describe('one line says what became of a bag', () => {
  it('states, looks, culture, weight, notes and a photo, and one step back', () => {
    const run = started();
    expect(run('bag', '2642a-1').out).toMatch(/state +colonising/);
    expect(run('bag', '2642A-1', 'contaminated', 'sour').out).toContain('contaminated, wet and sour');
    expect(run('bag', '2642a-1').out).toContain('vent: the steam broke off once');
    expect(run('bag', '2642a-1').out).toContain('spores are not to be inhaled');
    expect(run('bag', '2642a-1', 'undo').out).toMatch(/state +colonising/);
    expect(
      run('cultures', 'add', 'king', 'oyster', '--made', '2026-10-01', '--form', 'grain spawn').out,
    ).toContain('king-oyster-1001');
    expect(run('bag', '2642a-2', 'culture', 'king-oyster-1001', '80', 'g').out).toMatch(/given +80 g/);
    expect(run('bag', '2642a-2', 'weighs', '0.9', 'kg').out).toContain('0.9 kg');
    writeFileSync(join(run('bag', '2642a-2', 'note', 'condensation').folder, 'a.jpg'), '');
    expect(run('bag', '2642a-2', 'done', '--photo', 'a.jpg').out).toMatch(/photo +.*a\.jpg/);
    const { bags } = {
      bags: JSON.parse(run('bags', '2642a', '--json').out) as {
        id: string;
        outcome: string;
        notes: string[];
      }[],
    };
    expect(bags.map(({ id, outcome }) => `${id} ${outcome}`)).toEqual([
      '2642a-1 open',
      '2642a-2 good',
      '2642a-3 open',
    ]);
    expect(bags[1]?.notes).toEqual(['condensation']);
  });

  it('a dose keeps its unit: another form of culture asks how much, and an unusual amount is asked about', () => {
    const run = started();
    run('cultures', 'add', 'king oyster', '--made', '2026-10-01', '--form', 'grain spawn');
    const asked = run('bag', '2642a-1', 'culture', 'king-oyster-1001');
    expect([asked.code, asked.out]).toEqual([2, '']);
    expect(asked.err).toContain(
      '2642a-1 was noted with 5 ml, and king-oyster-1001 is grain spawn, given by the g',
    );
    const poured = run('bag', '2642a-1', 'culture', 'king-oyster-1001', '3', 'ml');
    expect([poured.code, poured.out]).toEqual([2, '']);
    expect(poured.err).toContain('"3 ml" is no amount of grain spawn');
    // The bag is of 1 kg, and 5 to 20 % of that are usual.
    expect(run('bag', '2642a-1', 'culture', 'king-oyster-1001', '3', 'g').out).toContain(
      '3 g is less than the usual 50 to 200 g of grain spawn for this weight. If that is a slip: stovehand bag 2642a-1 undo',
    );
    expect(run('bag', '2642a-1', 'culture', 'king-oyster-1001', '80').out).not.toContain('usual');
  });

  it('a culture of a later day than the bag is not given to it', () => {
    const run = started();
    run('cultures', 'add', 'oyster', '--made', '2026-11-01');
    const { code, err } = run('bag', '2642a-1', 'culture', 'oyster-1101');
    expect(code).toBe(2);
    expect(err).toMatch(
      /oyster-1101 is of 2026-11-01, and 2642a-1 got its culture before that, on 2026-10-1/,
    );
  });

  it('bad input gets a sentence and exit code 2, and nothing is kept', () => {
    const run = started();
    for (const words of [
      ['2642a-9'],
      ['2642a'],
      ['2642a-1', 'eaten'],
      ['2642a-1', 'done', 'green'],
      ['2642a-1', 'weighs', '900', 'kg'],
      ['2642a-1', 'culture', 'none'],
      ['2642a-1', 'note'],
      ['2642a-1', '--photo', 'missing.jpg'],
      ['\u001b[31m'],
    ]) {
      const { err, code, out } = run('bag', ...words);
      expect([words.join(' '), code]).toEqual([words.join(' '), 2]);
      expect(out).toBe('');
      expect(err).not.toMatch(/\u001b|at .*\.ts/);
    }
    expect(existsSync(join(run('bags').home, 'diary.journal'))).toBe(false);
  });
});

describe('the record as text, JSON and CSV', () => {
  it('says the same in all three', () => {
    const run = started();
    run('bag', '2642a-1', 'done');
    run('bag', '2642a-2', 'contaminated', 'green');
    expect(run('record').out).toContain('1 of 2 good: too few to tell');
    const json = JSON.parse(run('record', '--json').out) as {
      overall: { good: number; known: number };
      batches: { id: string; outcomes: unknown }[];
    };
    expect(json.overall).toMatchObject({ good: 1, known: 2 });
    expect(json.batches[0]).toMatchObject({ id: '2642a', outcomes: { good: 1, lost: 1, open: 1, none: 0 } });
    const rows = parse(run('record', '--csv').out, { columns: true }) as {
      bag: string;
      outcome: string;
      looks: string;
    }[];
    expect(rows.map(({ bag, outcome }) => `${bag} ${outcome}`)).toEqual([
      '2642a-1 good',
      '2642a-2 lost',
      '2642a-3 open',
      '2643a-1 open',
      '2643a-2 open',
    ]);
    expect(rows[1]?.looks).toBe('green');
    expect(run('compare', '2642a', '2643a').out).toMatch(/\* +grain +rye +sorghum/);
  });

  it('the list of batches says what became of the bags, and never that nothing is under way', () => {
    const run = started();
    expect(run('batches').out).toMatch(/2642a +16 Oct 2026 +Rye in bags, 3 still grow, 1 deviation\n/);
    run('bag', '2642a-1', 'done');
    run('bag', '2642a-2', 'contaminated', 'green');
    expect(run('batches').out).toContain('1 became spawn, 1 was lost, 1 still grows');
    expect(run('record').out).toMatch(/2642a .*1 good, 1 lost, 1 open\n/);
    expect(run('record').out).toContain('prices of grain, containers and culture go into the kitchen');
  });

  it('what is missing is said in one plain sentence', () => {
    const run = started();
    expect(run('bags', '9999z').err.split('\n')[0]).toBe('There is no batch 9999z here.');
    expect(run('card', '2642a', '--out', 'no/such.html').err).toMatch(
      /^There is no folder .*no to write into\.\n/,
    );
    const self = run('compare', '2642a', '2642a');
    expect([self.code, self.err]).toEqual([2, expect.stringContaining('not compared with itself')]);
  });

  it('a contaminated bag gets no label, and a batch with nothing to label says so and is no error', () => {
    const run = started();
    run('bag', '2643a-1', 'contaminated', 'green');
    expect(run('labels', '2643a').out).toContain('Without a label: 1 jar contaminated.');
    run('bag', '2643a-2', 'discarded');
    const none = run('labels', '2643a');
    expect([none.code, none.out]).toEqual([
      0,
      'Batch 2643a has nothing to label. Without a label: 1 jar contaminated, 1 jar discarded.\n',
    ]);
  });

  it('the same changes saved again make no second file', () => {
    const run = started();
    run('next', '2642a', '--save');
    const { out, home } = run('next', '2642a', '--save');
    expect(out).toContain('Already saved as ');
    expect(readdirSync(join(home, 'recipes')).filter(name => name.endsWith('.yaml'))).toHaveLength(1);
    expect(run('recipes').out).toMatch(/\S {2,}Rye in bags \(after 2642a\) \(yours\)/);
  });

  it('due tells today and late things, by the clock of the day', () => {
    const { out } = started()('due');
    expect(out).toContain('late: is it done? · 2642a oyster · bags 1, 2, 3');
    expect(out).toContain('is it done? · 2643a oyster · jars 1, 2');
  });

  it('next time is taken into a recipe that "again" runs', () => {
    const run = started();
    expect(run('next', '2642a').out).toContain('Vent for 12 min instead of 10 min.');
    const { home } = run('next', '2642a', '--save');
    const [file = ''] = readdirSync(join(home, 'recipes')).filter(name => name.endsWith('.yaml'));
    expect(readFileSync(join(home, 'recipes', file), 'utf8')).toContain('vent: 12 min');
    expect(JSON.parse(readFileSync(join(home, 'settings.json'), 'utf8'))).toMatchObject({
      lastRecipe: join(home, 'recipes', file),
    });
    expect(run('check', join(home, 'recipes', file)).code).toBe(0);
  });
});

describe('files', () => {
  it('labels, card and calendar are written under free names into the home, and elsewhere only by name', () => {
    const run = started();
    expect(run('labels', '2642a', '--grid', '2x5', '--sheet', 'letter', '--skip', '3').code).toBe(0);
    expect(run('labels', '2642a').code).toBe(0);
    expect(run('card', '2642a').code).toBe(0);
    const { folder, home } = run('calendar', '--out', 'mine.ics');
    expect(readdirSync(folder).sort()).toEqual(['home', 'mine.ics']);
    const pages = join(home, 'pages');
    expect(run('calendar').out).toContain(join(pages, 'follow-ups.ics'));
    expect(readdirSync(pages).sort()).toEqual([
      'card-2642a.html',
      'follow-ups.ics',
      'labels-2642a-2.html',
      'labels-2642a.html',
    ]);
    for (const bad of [
      ['--grid', '9x9'],
      ['--grid', 'x'],
      ['--sheet', 'A5'],
      ['--skip', '24'],
      ['--skip', '-1'],
    ])
      expect(run('labels', '2642a', ...bad).code).toBe(2);
    expect(run('labels', '2642a', '--out', 'mine.ics').code).toBe(4);
  });

  it('an archive goes into an empty home and is the same record there', () => {
    const run = started();
    run('bag', '2642a-1', 'done');
    const { folder } = run('export', 'all.zip');
    const there = ['--home', join(folder, 'other')];
    expect(run(...there, 'import', 'all.zip').out).toContain('2 batches added');
    expect(run(...there, 'import', 'all.zip').out).toContain('0 batches added, 2 here already.');
    expect(run(...there, 'record', '--json').out).toBe(run('record', '--json').out);
    expect(run('export', 'all.zip').code).toBe(4);
    // Another batch of the same name: merged whole under another, and so without a failure.
    const third = join(folder, 'third');
    fillHome(third, [drivenBatch(homeHeader('2642a', { jars: true, loads: [1] }, BEGAN))]);
    const renamed = run('--home', third, 'import', 'all.zip');
    expect([renamed.code, renamed.err]).toEqual([
      0,
      expect.stringMatching(
        /^Your 2642a keeps its number, its bags and their labels\. .*that one is 2642b here, and only its bags need new labels/,
      ),
    ]);
    expect(run('--home', third, 'bags', '2642a').out.match(/jar|2642a-1/g)).toEqual(['2642a-1']);
    expect(run('--home', third, 'bags', '2642b').out).toMatch(/2642b-1 +done/);
    expect(run('--home', third, 'show', '2642b').out).toContain('it is called 2642a');
    run('--home', third, 'labels', '2642b', '--out', 'again.html');
    const labels = readFileSync(join(folder, 'again.html'), 'utf8');
    expect(labels).toContain('>2642b-1<');
    expect(labels).not.toContain('2642a');
    expect(run('import', 'none.zip').code).toBe(3);
  });
});

describe('a species that the table does not have', () => {
  it('is taken, with a note on the days that stand in (7 to 35: fastest and slowest of species.csv)', () => {
    const run = started();
    const { folder } = run('bags');
    const recipe = (species: string) => {
      const file = join(folder, 'mine.yaml');
      const lines = [
        'name: Mine',
        'grain: rye',
        'containers:',
        '  count: 2',
        '  fill: 1 kg',
        '  size: 18 x 11 x 8 cm',
      ];
      writeFileSync(file, [...lines, 'culture:', `  species: ${species}`, ''].join('\n'));
      const { out, code } = run('check', file);
      expect(code).toBe(0);
      return out;
    };
    expect(recipe('chestnut')).toContain(
      'The species "chestnut" is not known here: general ranges are used, look on day 3 to 5, done on day 7 to 35.',
    );
    for (const known of ['Shiitake', 'lentinula edodes', '""'])
      expect(recipe(known)).not.toContain('not known');
    expect(run('cultures', 'add', 'chestnut').out).toContain('not known here');
  });
});

describe('options', () => {
  it('belong to their commands', () => {
    expect(readArguments(['labels', '2642a', '--grid', '3x8']).options).toEqual({ grid: '3x8' });
    expect(() => readArguments(['record', '--grid', '3x8'])).toThrow('--grid belongs to: labels');
    expect(() => readArguments(['compare', '2642a'])).toThrow('compare BATCH BATCH');
  });
});
