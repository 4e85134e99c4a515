import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Bag, bagsOf, indexDiary } from '../../../src/core/record/bags.ts';
import { cardPage } from '../../../src/core/record/card.ts';
import { growthOf } from '../../../src/core/record/follow-ups.ts';
import { escapeHtml } from '../../../src/core/record/html.ts';
import { DEFAULT_GRID, type LabelledBag, labelSize, labelsPage } from '../../../src/core/record/labels.ts';
import { pressureTrack } from '../../../src/core/record/pressure-track.ts';
import { qrSvg } from '../../../src/core/record/qr.ts';
import { recordedBatch } from '../../../src/core/record/record.ts';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { rasterise, readQr } from '../../help/qr-read.ts';
import { someBatch, someDiary } from '../../help/record-history.ts';
import { drivenBatch, homeHeader } from '../../help/record-home.ts';

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
const HOSTILE = '<script>alert(1)</script>"\'&\u001b[31m\u202e';

/** What a page must never hold, whatever went into it. */
function expectHarmless(page: string): void {
  expect(page).toContain("default-src 'none'");
  expect(page).not.toMatch(/<script|<iframe|<img|<link|javascript:|\son\w+\s*=|https?:\/\//i);
  expect(page).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
}

describe('QR codes', () => {
  it('hold the short id as text, by a decoder that did not draw them', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 9999 }), fc.integer({ min: 1, max: 999 }), (week, number) => {
        const id = `${String(week).padStart(4, '0')}a-${number}`;
        expect(readQr(rasterise(qrSvg(id)))).toBe(id);
      }),
      { numRuns: 60 },
    );
  });
  it('refuse what a phone could not read back', () => {
    for (const text of ['', 'ü', 'x'.repeat(61), 'a\nb']) expect(() => qrSvg(text)).toThrow(RangeError);
  });
});

describe('pages', () => {
  it('text stays text', () => {
    expect(escapeHtml('<b a="1">&\'')).toBe('&lt;b a=&quot;1&quot;&gt;&amp;&#39;');
    const culture = {
      key: 'k',
      species: HOSTILE,
      source: HOSTILE,
      form: 'liquid culture',
      made: '',
    } as const;
    const bad = bags.map(bag => ({ ...bag, species: HOSTILE, culture, notes: [HOSTILE], place: HOSTILE }));
    expectHarmless(labelsPage(labelled(bad, HOSTILE), DEFAULT_GRID, METRIC, date));
    const { batch } = driven;
    const named = {
      ...batch,
      header: { ...batch.header, recipe: { ...batch.header.recipe, name: HOSTILE } },
    };
    expectHarmless(cardPage({ id: '2613a', batch: named, bags: bad, warmthC: null }, 'A4', telling));
  });

  it('a label says batch, bag, grain, species, culture and dates', () => {
    const page = labelsPage(labelled(bags), DEFAULT_GRID, METRIC, date);
    const [label = ''] = page.match(/<div class="label">.*?<\/div><\/div>/s) ?? [];
    for (const text of [
      '2613a-1',
      'oyster',
      'rye, 1 kg',
      '5 ml liquid culture',
      'in 29 Mar 2026',
      'done 09 to 18 Apr',
    ])
      expect(label).toContain(text);
    expect(page.match(/<div class="label">/g)).toHaveLength(6);
    expect(readQr(rasterise(label.match(/<svg.*?<\/svg>/s)?.[0] ?? ''))).toBe('2613a-1');
  });

  it('a grid that makes labels too small, or skips a whole sheet, is refused', () => {
    for (const [columns, rows] of [
      [6, 8],
      [3, 16],
      [0, 8],
      [1.5, 8],
    ] as const) {
      expect(labelSize({ ...DEFAULT_GRID, columns, rows })).toBeNull();
      expect(() => labelsPage(labelled(bags), { ...DEFAULT_GRID, columns, rows }, METRIC, date)).toThrow(
        RangeError,
      );
    }
    expect(() => labelsPage(labelled(bags), { ...DEFAULT_GRID, skip: 24 }, METRIC, date)).toThrow(RangeError);
  });

  it('a card is drawn for every history, harmless and without a number that is none', () => {
    fc.assert(
      fc.property(someBatch('2613a'), someDiary('2613a'), ({ batch }, entries) => {
        const page = cardPage(recordedBatch(batch, indexDiary(entries)), 'Letter', telling);
        expectHarmless(page);
        expect(page).not.toMatch(/NaN|undefined|Infinity/);
      }),
      { numRuns: 120 },
    );
  });

  it('the curve shows what was read, at the pressure it was read at', () => {
    const page = cardPage(recordedBatch(driven.batch, indexDiary([])), 'A4', telling);
    const dots = [...page.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="2.6" class="dot( hollow)?"/g)].map(
      ([, x, y, hollow]) => ({ x: Number(x), y: Number(y), hollow: hollow !== undefined }),
    );
    const numbers = driven.batch.readings.filter(({ kPa }) => kPa !== null);
    expect(dots.filter(({ hollow }) => !hollow)).toHaveLength(numbers.length);
    const at = (kPa: number) =>
      dots.filter(({ hollow }) => !hollow)[numbers.findIndex(reading => reading.kPa === kPa)]?.y ?? 0;
    expect(at(105)).toBeLessThan(at(104));
    expect(at(0)).toBeGreaterThan(at(104) + 100);
    expect([...dots].sort((a, b) => a.x - b.x)).toEqual(dots);
  });

  it('a dip that was only said is a fall, a field and a word; without one there is none', () => {
    const { targetKPa } = driven.batch.header.numbers;
    const [dip] = driven.batch.dips;
    const track = pressureTrack(driven.batch, 1);
    const inDip = track.filter(({ t, how }) => t === dip?.from && how === 'said');
    // "Below" is at least the quarter psi that a dial can be read to.
    expect(inDip.map(({ kPa }) => kPa < targetKPa - 1.7)).toEqual([true]);
    const before = track
      .filter(({ t }) => dip && t <= dip.from)
      .slice(0, -1)
      .at(-1);
    expect(before?.kPa).toBe(105);
    const page = cardPage(recordedBatch(driven.batch, indexDiary([])), 'A4', telling);
    expect(page.match(/class="dip"/g)).toHaveLength(1);
    expect(page).toContain('>dip 3 min<');
    const calm = drivenBatch(homeHeader('2613a', { soak: false, loads: [6] }));
    const plain = cardPage(recordedBatch(calm.batch, indexDiary([])), 'A4', telling);
    expect(plain).not.toContain('class="dip"');
    expect(Math.max(...pressureTrack(calm.batch, 1).map(({ kPa }) => kPa))).toBe(targetKPa);
  });

  it('a valve opened in the hold lets the pressure out, and the lock ends at zero', () => {
    const { batch } = drivenBatch(homeHeader('2613a', { soak: false, loads: [2] }), drive =>
      drive
        .to('hold')
        .wait(20 * MINUTE)
        .trouble('valve-opened'),
    );
    const track = pressureTrack(batch, 1);
    const opened = batch.deviations[0]?.t;
    const then = track.filter(({ t }) => t === opened).map(({ kPa }) => kPa);
    expect([then[0], then.at(-1)]).toEqual([103, 0]);
    expect(track.at(-1)).toMatchObject({ kPa: 0, how: 'read' });
  });

  it('a card dates the steps, begins with the first of them, and calls a torn bag torn', () => {
    const torn = drivenBatch(homeHeader('2615a', { soak: true, loads: [3] }), drive =>
      drive.toAsk('lifted').answers('intact', 'torn'),
    );
    const page = cardPage(recordedBatch(torn.batch, indexDiary([])), 'A4', telling);
    const cells = [...page.matchAll(/<td>([^<]*)<\/td>/g)].map(([, text]) => text);
    const begun = /begun (\d\d \w{3}) \d{4} (\d\d:\d\d)/.exec(page);
    expect(cells).toContain(`${begun?.[1]} ${begun?.[2]}`);
    // A soak of half a day and a night under the lid: three days at least.
    const days = new Set(cells.flatMap(text => /^(\d\d \w{3}) \d\d:\d\d$/.exec(text ?? '')?.[1] ?? []));
    expect(days.size).toBeGreaterThan(1);
    expect(page).toContain('<h2>Bags 1 to 2</h2>');
    expect(page).toContain('<h2>Bag 3</h2>');
    expect(cells).toContain('bag 2 is damaged');
    expect(cells).toContain('torn');
    expect(cells).not.toContain('never inoculated');
  });

  it('a card gives the height above the sea in whole metres or feet, as every screen does', () => {
    // 350 ft are 106.68 m (the international foot is 0.3048 m).
    const header = homeHeader('2613a', { soak: false, loads: [1] });
    const high = drivenBatch({ ...header, kitchen: { ...header.kitchen, altitudeM: 106.68 } });
    const recorded = recordedBatch(high.batch, indexDiary([]));
    expect(cardPage(recorded, 'A4', telling)).toContain(' at 107 m (');
    const feet = { ...telling, units: { ...METRIC, length: 'in' } as const };
    expect(cardPage(recorded, 'A4', feet)).toContain(' at 350 ft (');
  });

  it('a card gives F0 of each load with its band', () => {
    const page = cardPage(recordedBatch(driven.batch, indexDiary([])), 'A4', telling);
    expect(page).toMatch(/F0 [\d.]+ \([\d.]+ to [\d.]+\), middle \d+ °C/);
    expect(page).toContain('class="band"');
  });
});
