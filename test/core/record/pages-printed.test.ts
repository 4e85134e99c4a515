import { describe, expect, it } from 'vitest';
import { type Bag, bagsOf, indexDiary } from '../../../src/core/record/bags.ts';
import { cardPage } from '../../../src/core/record/card.ts';
import { growthOf } from '../../../src/core/record/follow-ups.ts';
import { PAPERS } from '../../../src/core/record/html.ts';
import {
  DEFAULT_GRID,
  type LabelGrid,
  type LabelledBag,
  labelSize,
  labelsPage,
} from '../../../src/core/record/labels.ts';
import { recordedBatch } from '../../../src/core/record/record.ts';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { CHROMIUM, cut, lowest, overflowing, pictured, printed } from '../../help/chromium.ts';
import { readQr } from '../../help/qr-read.ts';
import { drivenBatch, homeHeader } from '../../help/record-home.ts';
import { tempFolder } from '../../help/temp-folder.ts';

const date = (wall: number): string => new Date(wall).toUTCString().slice(5, 16);
const telling = { units: METRIC, date, clock: (wall: number) => new Date(wall).toISOString().slice(11, 16) };
const driven = drivenBatch(homeHeader('2613a', { soak: false, loads: [6] }), drive => {
  drive
    .to('hold')
    .answer('at')
    .wait(20 * MINUTE)
    .answer('reading', 105);
  drive
    .wait(MINUTE)
    .answer('below')
    .wait(3 * MINUTE)
    .answer('reading', 104);
});
const bags = bagsOf(driven.batch, indexDiary([]));
const labelled = (some: readonly Bag[], grain = 'rye'): readonly LabelledBag[] =>
  some.map(bag => ({ bag, grain, growth: growthOf(bag.species, 21), doubt: null }));
const many = (count: number): readonly LabelledBag[] =>
  labelled(
    Array.from({ length: count }, (_, index) => ({
      ...(bags[0] as Bag),
      id: `2613a-${index + 1}`,
      number: index + 1,
    })),
  );

describe.skipIf(CHROMIUM === undefined)('printed by Chromium', () => {
  const grids: readonly (readonly [LabelGrid, count: number, pages: number])[] = [
    [DEFAULT_GRID, 6, 1],
    [DEFAULT_GRID, 24, 1],
    [DEFAULT_GRID, 25, 2],
    [{ ...DEFAULT_GRID, skip: 20 }, 6, 2],
    [{ paper: 'Letter', columns: 4, rows: 10, skip: 0 }, 40, 1],
    [{ paper: 'Letter', columns: 1, rows: 2, skip: 0 }, 5, 3],
    [{ paper: 'A4', columns: 5, rows: 13, skip: 0 }, 65, 1],
  ];
  it.each(grids)('labels %j for %i bags: %i pages, nothing runs over', (grid, count, pages) => {
    const folder = tempFolder();
    const page = labelsPage(many(count), grid, METRIC, date);
    const { widthMm, heightMm } = PAPERS[grid.paper];
    const pdf = printed(folder, page);
    expect(pdf.pages).toBe(pages);
    // 72 points an inch, 25.4 mm an inch; Chromium rounds to whole CSS pixels.
    expect(Math.abs(pdf.widthPt - (widthMm / 25.4) * 72)).toBeLessThan(1);
    expect(Math.abs(pdf.heightPt - (heightMm / 25.4) * 72)).toBeLessThan(1);
    expect(overflowing(folder, page, '.sheet, .label')).toEqual([]);
  });

  it('long names are cut, not run over', () => {
    const long = 'W'.repeat(80);
    const page = labelsPage(
      labelled(
        bags.map(bag => ({ ...bag, species: long })),
        long,
      ),
      DEFAULT_GRID,
      METRIC,
      date,
    );
    expect(overflowing(tempFolder(), page, '.sheet, .label')).toEqual([]);
  });

  it('the codes are read off the drawn page', () => {
    const shot = pictured(tempFolder(), labelsPage(labelled(bags), DEFAULT_GRID, METRIC, date), 820, 420);
    const scale = shot.width / 820;
    const px = (mm: number) => Math.round((mm / 25.4) * 96 * scale);
    const { widthMm = 0, heightMm = 0 } = labelSize(DEFAULT_GRID) ?? {};
    const read = [0, 1, 2, 3, 4, 5].map(index => {
      const [left, top] = [8 + (index % 3) * (widthMm + 2), 8 + Math.floor(index / 3) * (heightMm + 2)];
      return readQr(cut(shot, px(left), px(top), px(widthMm), px(heightMm)));
    });
    expect(read).toEqual(bags.map(({ id }) => id));
  });

  it.each(['A4', 'Letter'] as const)('a full card is one page of %s', paper => {
    const folder = tempFolder();
    const busy = drivenBatch(homeHeader('2613a', { loads: [20, 20] }), drive => {
      for (let count = 0; count < 30; count += 1)
        drive.to('hold').answer('reading', 104).wait(MINUTE).answer('below').wait(MINUTE).answer('at');
    });
    const recorded = recordedBatch(busy.batch, indexDiary([]));
    const noted = {
      ...recorded,
      bags: recorded.bags.map(bag => ({
        ...bag,
        notes: ['A rather long note about this bag, kept to see whether it fits '.repeat(3)],
      })),
    };
    const page = cardPage(noted, paper, telling);
    expect(printed(folder, page).pages).toBe(1);
    expect(overflowing(folder, page, '.card')).toEqual([]);
    expect(page).toContain('more in the record');
  });

  it.each([
    ['A4', [14, 14, 12], 'Bags 29 to 40'],
    ['Letter', [14, 14, 12], 'Bags 29 to 40'],
    ['A4', [20, 20, 20], 'Bags 41 to 60'],
    ['Letter', [20, 20, 20], 'Bags 41 to 60'],
  ] as const)('on %s every bag of loads %j is on the one page, with a curve', (paper, loads, last) => {
    const folder = tempFolder();
    const { batch } = drivenBatch(homeHeader('2613a', { soak: false, loads }), drive =>
      drive.to('vent').answer('stopped'),
    );
    const named = {
      ...batch.header.recipe,
      culture: { ...batch.header.recipe.culture, species: 'なめこ '.repeat(9) },
    };
    const recorded = recordedBatch({ ...batch, header: { ...batch.header, recipe: named } }, indexDiary([]));
    const page = cardPage(recorded, paper, telling);
    expect(printed(folder, page).pages).toBe(1);
    expect(overflowing(folder, page, '.card')).toEqual([]);
    expect(page).toContain(`<h2>${last}</h2>`);
    expect(page).toContain('>5 ml なめこ');
    expect(page).toContain('<h2>Gauge pressure, loads 1 to 3</h2>');
  });

  it.each([
    ['A4', [1]],
    ['A4', [6]],
    ['A4', [14]],
    ['Letter', [3, 3]],
    ['Letter', [6, 6, 6]],
    ['Letter', [26]],
  ] as const)('on %s a card of loads %j fills its page and does not run over', (paper, loads) => {
    const folder = tempFolder();
    const { batch } = drivenBatch(homeHeader('2613a', { loads }), drive => {
      drive.to('hold').answer('reading', 104).wait(MINUTE).answer('below').wait(MINUTE).answer('at');
    });
    const page = cardPage(recordedBatch(batch, indexDiary([])), paper, telling);
    expect(overflowing(folder, page, '.card')).toEqual([]);
    // What is drawn ends in the last fifth of the page: the text about the estimates is the last of it.
    const { heightMm } = PAPERS[paper];
    expect(lowest(folder, page, '.card > *') / 96).toBeGreaterThan((heightMm / 25.4) * 0.8);
  });
});
