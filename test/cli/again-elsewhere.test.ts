import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Recipe } from '../../src/core/recipe/recipe.ts';
import { started } from '../help/command-home.ts';

describe('again in another home', () => {
  /** What the batch that `again` begins there is made of. */
  const againIn = (run: ReturnType<typeof started>, other: string) => {
    const before = new Set(readdirSync(join(other, 'batches')));
    const { out } = run('--home', other, '--plain', 'again');
    const begun = readdirSync(join(other, 'batches')).find(
      file => file.endsWith('.batch') && !before.has(file),
    );
    const [first = ''] = readFileSync(join(other, 'batches', begun ?? ''), 'utf8').split('\t');
    return { out, recipe: (JSON.parse(first) as { recipe: Recipe }).recipe };
  };

  it('runs what the record has changed, with numbers and reminders, after export and import', () => {
    const run = started();
    run('bag', '2642a-1', 'contaminated', 'black');
    expect(run('next', '2642a', '--save').out).toContain('Vent for 12 min instead of 10 min.');
    const { folder } = run('export', 'all.zip');
    const other = join(folder, 'other');
    expect(run('--home', other, 'import', 'all.zip').out).toContain('the last recipe');
    const { out, recipe } = againIn(run, other);
    // The first batch vented for 10 min, the recipe of record-home's sample: 2 min were added.
    expect([recipe.name, recipe.ventS]).toEqual(['Rye in bags (after 2642a)', 720]);
    expect(out).toContain('[1 of 17] Gear');
  });

  it('runs the recipe of the last batch where the file of the last one stayed behind, and says so', () => {
    const run = started();
    const { folder, home } = run('bags');
    writeFileSync(
      join(home, 'settings.json'),
      JSON.stringify({ kitchenAsked: true, lastRecipe: join(folder, 'desk', 'rye.yaml') }),
    );
    run('export', 'all.zip');
    const other = join(folder, 'other');
    expect(run('--home', other, '--plain', 'again').err).toContain('There is no last recipe yet.');
    expect(run('--home', other, 'import', 'all.zip').err).toContain('which is not in the archive');
    expect(againIn(run, other).recipe.name).toBe('Sorghum in jars');
  });
});
