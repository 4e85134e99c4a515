import { renderToString } from 'ink';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Recipe } from '../../src/core/recipe/recipe.ts';
import { SheetScreen } from '../../src/face/screens/sheet.tsx';
import { firstPage } from '../../src/face/sheet-first.ts';
import { type Aim, warningsIn } from '../../src/face/sheet-view.ts';
import { fullRows, stepRows } from '../../src/face/sheet-more.ts';
import { rowText } from '../../src/face/spans.ts';
import { anyRecipe, shipped, shippedRecipes } from '../help/plan-kit.ts';
import { asciiLook, plainLook, stage, type StageWishes, viewOf } from './sheet-kit.tsx';

function frame(wishes: StageWishes): string[] {
  const columns = wishes.columns ?? 80;
  return renderToString(<SheetScreen {...stage(wishes).props} />, { columns })
    .split('\n')
    .map(line => line.trimEnd());
}

const SIZES = [
  [60, 18],
  [80, 24],
  [120, 40],
  [160, 50],
] as const;

describe('the sheet as a picture', () => {
  it.each(SIZES)(
    'at %ix%i tells grain, gauge, hold, water and when the heat goes off',
    async (columns, rows) => {
      const lines = frame({ columns, rows });
      const text = lines.join('\n');
      // 6 kg at 48 % from grain of 12 %: 6 x 0.52 / 0.88 = 3.545 kg (science notes h); 15 psi is the recipe's.
      expect(text).toMatch(/weigh +3\.55 kg/);
      expect(text).toMatch(/gauge +15 psi/);
      expect(text).toMatch(/hold +100 min/);
      expect(text).toMatch(/water +2 L +\?/);
      expect(text).toContain('heat off Thu');
      expect(text).toContain('Space warnings, then begin');
      await expect(`${text}\n`).toMatchFileSnapshot(`frames/sheet/rye-${columns}x${rows}.txt`);
    },
  );

  it('at 60x18 no text of it is cut, and the first warning is told whole', () => {
    const start = (hour: number): Aim => ({ by: 'start', at: new Date(2026, 10, 26, hour, 0).getTime() });
    const potted = [4, 8, 12, 20, 40].map(potL => ({ potL }));
    for (const recipe of shippedRecipes)
      for (const kitchen of [{}, ...potted, { altitudeM: 2400 }, { potL: 40, altitudeM: 20 }])
        for (const hour of [1, 9, 18]) {
          const view = viewOf(recipe, kitchen, start(hour));
          const page = firstPage(view, { width: 58, height: 12, picked: null }, plainLook);
          const text = page
            .map(rowText)
            .map(line => line.trim())
            .join('\n');
          expect(text, recipe.name).not.toContain('…');
          expect(page.length).toBeLessThanOrEqual(12);
          const [first] = warningsIn(view);
          expect(text.replaceAll(/\s+/g, ' ')).toContain(first?.what ?? '');
          expect(text).toMatch(/water +[\d.]+ L/);
        }
  });

  it('beside it, from 100 columns on, stands the heat in the middle of a container', () => {
    expect(frame({ columns: 99, rows: 30 }).join('\n')).not.toContain('chamber');
    const wide = frame({ columns: 120, rows: 40 }).join('\n');
    expect(wide).toContain('chamber');
    expect(wide).toContain('centre');
    expect(wide).toContain('°C');
  });

  it('says no where the cooker cannot do it, first and by a word', async () => {
    const weight = { altitudeM: 3400, gauge: 'weight', workingKPa: 69 } as const;
    const text = frame({ kitchen: weight }).join('\n');
    expect(text).toContain('! No: the steam only reaches');
    expect(text).toContain('the plan says no');
    await expect(`${text}\n`).toMatchFileSnapshot('frames/sheet/no-80x24.txt');
  });

  it('in plain characters has nothing above ASCII but the degree sign', () => {
    for (const [columns, rows] of SIZES) {
      const text = frame({ columns, rows, look: asciiLook }).join('\n');
      const odd = [...text].filter(sign => sign > '~' && !'°↑↓←→'.includes(sign));
      expect(odd).toEqual([]);
    }
  });

  it('never outgrows its terminal, whatever recipe and size (property)', () => {
    fc.assert(
      fc.property(
        anyRecipe,
        fc.integer({ min: 60, max: 170 }),
        fc.integer({ min: 18, max: 55 }),
        fc.integer({ min: -200, max: 4500 }),
        (recipe, columns, rows, altitudeM) => {
          const lines = frame({ recipe, columns, rows, kitchen: { altitudeM } });
          expect(lines.length).toBeLessThanOrEqual(rows);
          for (const line of lines) expect([...line].length).toBeLessThanOrEqual(columns);
          expect(lines.join('\n')).not.toMatch(/NaN|undefined|Infinity/);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('makes names from a file harmless', () => {
    const recipe: Recipe = { ...shipped('Rye'), name: 'a\u001b[31mb\u202e' };
    expect(frame({ recipe }).join('\n')).not.toContain('\u001b[31m');
  });
});

describe('the page of times', () => {
  it('has every step at the size of its list, and joins short ones where there is little room', () => {
    const view = viewOf(shipped('Rye'));
    const all = stepRows(view, 78, 30, plainLook).map(rowText);
    expect(all).toHaveLength(view.timeline.stops.length);
    const close = stepRows(view, 58, 10, plainLook).map(rowText);
    expect(close.length).toBeLessThan(all.length - 5);
    expect(close.join('\n')).toContain('Portion, seal, load');
    expect(all.join('\n')).toMatch(/Thu 07:00 +Simmer/);
  });

  it('shows no likely length outside of its own range (property)', () => {
    const minutesIn = (text: string): number => {
      const part = (unit: string) => Number(new RegExp(`(\\d+) ${unit}`).exec(text)?.[1] ?? 0);
      return part('days') * 1440 + part('h') * 60 + part('min') + part('s') / 60;
    };
    fc.assert(
      fc.property(anyRecipe, fc.integer({ min: -200, max: 3000 }), (recipe, altitudeM) => {
        let checked = 0;
        for (const row of stepRows(viewOf(recipe, { altitudeM }), 120, 40, plainLook)) {
          const [, , length, range] = row;
          const ends = / to /.exec(range?.text ?? '')
            ? (range?.text ?? '').split(' · ').find(part => part.includes(' to ') && !part.includes('up to'))
            : undefined;
          if (length === undefined || ends === undefined) continue;
          const [low = '', high = ''] = ends.split(' to ');
          expect(minutesIn(length.text)).toBeGreaterThanOrEqual(minutesIn(low));
          expect(minutesIn(length.text)).toBeLessThanOrEqual(minutesIn(high));
          checked += 1;
        }
        expect(checked).toBeGreaterThan(3);
      }),
      { numRuns: 40 },
    );
  });

  it('of a step that only reaches into the night it says how much, as the warning does', () => {
    const at = new Date(2026, 10, 25, 22, 57).getTime();
    const view = viewOf(shipped('Wheat'), {}, { by: 'start', at });
    const rows = stepRows(view, 100, 30, plainLook).map(rowText);
    // The gear is looked through for 5 minutes, and the usual night begins at 23:00.
    expect(rows[0]).toMatch(/^22:57 +Gear +5 min +2 min at night/);
    expect(rows[1]).toMatch(/Weigh .*min +at night/);
    const said = warningsIn(view).map(({ what }) => what);
    expect(said.find(what => what.includes('night'))).toMatch(/^\d+ h \d+ min of work at night\.$/);
  });

  it('marks work at night and a wait made longer for it', () => {
    const night = viewOf(shipped('Wheat'), {}, { by: 'start', at: new Date(2026, 10, 25, 23, 0).getTime() });
    expect(stepRows(night, 100, 30, plainLook).map(rowText).join('\n')).toContain('at night');
    const rye = stepRows(viewOf(shipped('Rye')), 100, 30, plainLook)
      .map(rowText)
      .join('\n');
    expect(rye).toContain('longer, for the night');
    expect(rye).not.toContain('at night');
  });
});

describe('the page in full', () => {
  it('has what, why and what to change, shopping, cost and the three estimates', async () => {
    const text = fullRows(viewOf(shipped('Rye')), 78, plainLook)
      .map(row => rowText(row).trimEnd())
      .join('\n');
    for (const part of [
      'Look out for',
      '3.6 kg dry rye',
      'Say your prices',
      'cautious 2.0e-7',
      'never a proof',
    ]) {
      expect(text).toContain(part);
    }
    await expect(`${text}\n`).toMatchFileSnapshot('frames/sheet/full-80.txt');
  });
});
