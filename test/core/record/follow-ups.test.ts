import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bagsOf, indexDiary } from '../../../src/core/record/bags.ts';
import type { DiaryEvent } from '../../../src/core/record/diary.ts';
import { dueNow, followUpsOf, growthOf, urgencyOf } from '../../../src/core/record/follow-ups.ts';
import { dueLine } from '../../../src/core/words/record.ts';
import { doseFor, judgeDose } from '../../../src/core/record/inoculation.ts';
import { DAY, HOUR, MINUTE } from '../../../src/core/time.ts';
import { BEGAN_WALL } from '../../help/batch-kit.ts';
import { diaryOf, drivenBatch, homeHeader } from '../../help/record-home.ts';
import { number, reference } from '../science/reference.ts';

describe('days by species and temperature', () => {
  it('are those of species.csv at the usual temperature (READ or MEMORY, tag carried)', () => {
    for (const row of reference('species')) {
      const [low, high] = (row.days_on_grain ?? '').split('-').map(Number);
      const growth = growthOf(row.common_name ?? '', number(row, 'incubation_default_C'));
      expect([row.common_name, growth.done.low, growth.done.high]).toEqual([row.common_name, low, high]);
      expect(growth.warmth).toBe('usual');
    }
  });

  it('a colder room is never faster, and a hotter one promises nothing', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('oyster', 'shiitake', 'reishi'),
        fc.double({ min: 5, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (name, celsius, colder) => {
          const [warm, cool] = [growthOf(name, celsius), growthOf(name, celsius - colder)];
          expect(cool.done.low).toBeGreaterThanOrEqual(warm.done.low);
          expect(cool.done.high).toBeGreaterThanOrEqual(warm.done.high);
          expect(warm.done.low).toBeLessThanOrEqual(warm.done.high);
          expect(warm.shake.high).toBeLessThanOrEqual(warm.done.high);
        },
      ),
    );
    expect(growthOf('oyster', 14).warmth).toBe('too cold');
    expect(growthOf('oyster', 31).warmth).toBe('too hot');
    expect(growthOf('oyster', 31).done).toEqual(growthOf('oyster', 24).done);
  });

  it('an unknown species gets the widest range of the table and says so', () => {
    const all = reference('species').map(row => (row.days_on_grain ?? '').split('-').map(Number));
    const { done, species } = growthOf('my own strain', 21);
    expect(species).toBeNull();
    expect(done).toEqual({
      low: Math.min(...all.map(([low]) => low ?? 99)),
      high: Math.max(...all.map(([, high]) => high ?? 0)),
    });
  });
});

describe('what is due', () => {
  const { batch } = drivenBatch(homeHeader('2613a', { soak: false, loads: [3] }));
  const [first] = bagsOf(batch, indexDiary([]));
  const at = first?.inoculatedWall ?? 0;
  const dueOn = (day: number, ...events: readonly DiaryEvent[]) => {
    const bags = bagsOf(batch, indexDiary(diaryOf(events, at + HOUR)));
    const start = at + day * DAY;
    return dueNow(followUpsOf(bags, 24), { start, end: start + DAY }).map(
      ({ kind, bags: all, urgency }) => `${urgency} ${kind} ${all.length}`,
    );
  };
  const state = (number: number, to: 'shaken' | 'done' | 'contaminated' | 'discarded') =>
    ({ type: 'state', bag: `2613a-${number}`, state: to, looks: null }) as const;

  it('nothing on the first days, then look, shake, done, each bag once', () => {
    expect(at).toBeGreaterThan(BEGAN_WALL);
    expect(dueOn(0)).toEqual([]);
    expect(dueOn(3)).toEqual(['today shake 3']);
    expect(dueOn(9)).toEqual(['overdue shake 3']);
    expect(dueOn(11)).toEqual(['today done 3']);
  });

  it('a first look that was missed is told of beside what is wanted now, until somebody looked', () => {
    const look = (number: number, day: number) =>
      ({
        id: `look${number}`,
        wall: at + day * DAY,
        event: { type: 'looked', bag: `2613a-${number}` },
      }) as const;
    const late = (...looks: ReturnType<typeof look>[]) =>
      dueNow(followUpsOf(bagsOf(batch, indexDiary(looks)), 24), {
        start: at + 7 * DAY,
        end: at + 8 * DAY,
      }).map(dueLine);
    // One line for the three bags, though a look is late and a shake is wanted as well.
    expect(late()).toEqual(['shake · 2613a oyster · bags 1, 2, 3 · never looked at']);
    expect(late(look(1, 4), look(3, 6))).toEqual([
      'shake · 2613a oyster · bags 1, 2, 3 · bag 2 never looked at',
    ]);
    // On the day of inoculation there is nothing to see yet.
    expect(late(look(1, 0), look(2, 4), look(3, 4))).toEqual([
      'shake · 2613a oyster · bags 1, 2, 3 · bag 1 never looked at',
    ]);
  });

  it('asking whether it is done is a look, and says when it is the first', () => {
    expect(dueOn(17)).toEqual(['overdue done 3']);
    const line = (...events: readonly DiaryEvent[]) => {
      const bags = bagsOf(batch, indexDiary(diaryOf(events, at + 4 * DAY)));
      return dueNow(followUpsOf(bags, 24), { start: at + 17 * DAY, end: at + 18 * DAY }).map(dueLine);
    };
    expect(line()).toEqual(['late: is it done? · 2613a oyster · bags 1, 2, 3 · never looked at']);
    const looked = (number: number) => ({ type: 'looked', bag: `2613a-${number}` }) as const;
    expect(line(looked(1))).toEqual([
      'late: is it done? · 2613a oyster · bags 1, 2, 3 · bags 2, 3 never looked at',
    ]);
    expect(line(looked(1), looked(2), looked(3))).toEqual([
      'late: is it done? · 2613a oyster · bags 1, 2, 3',
    ]);
  });

  it('what was done is not asked again', () => {
    const shaken = [1, 2, 3].map(number => state(number, 'shaken'));
    expect(dueOn(5, ...shaken)).toEqual([]);
    expect(dueOn(11, ...shaken, state(1, 'done'))).toEqual(['today done 2']);
  });

  it('a contaminated bag is due for the bin until it is gone, and for nothing else', () => {
    expect(dueOn(20, state(1, 'contaminated'))).toEqual(['overdue bin 1', 'overdue done 2']);
    expect(dueOn(20, state(1, 'contaminated'), state(1, 'discarded'))).toEqual(['overdue done 2']);
  });

  it('a bag that was found contaminated more than a month ago is not asked about any more', () => {
    const lost = { type: 'state', bag: '2613a-1', state: 'contaminated', looks: 'green' } as const;
    expect(dueOn(5, lost)).toContain('overdue bin 1');
    expect(dueOn(45, lost).filter(line => line.includes('bin'))).toEqual([]);
  });

  it('bags of one walk are looked at together, those of the next day by themselves', () => {
    const walk = drivenBatch(homeHeader('2614a', { soak: false, loads: [4] }), drive => {
      drive
        .toAsk('inject')
        .answer('as-planned')
        .wait(8 * MINUTE)
        .answer('as-planned')
        .wait(20 * MINUTE);
      drive.answer('as-planned').wait(DAY);
    }).batch;
    const looks = followUpsOf(bagsOf(walk, indexDiary([])), 24).filter(({ kind }) => kind === 'look');
    expect(looks.map(({ bags }) => bags.map(({ number: named }) => named))).toEqual([[1, 2, 3], [4]]);
    // The days count from the first bag of each walk.
    expect((looks[1]?.from ?? 0) - (looks[0]?.from ?? 0)).toBe(DAY + 28 * MINUTE);
  });

  it('today includes the whole of today', () => {
    const followUp = { from: 10 * DAY + HOUR, to: 11 * DAY } as Parameters<typeof urgencyOf>[0];
    expect(urgencyOf(followUp, 9 * DAY, 10 * DAY)).toBe('later');
    expect(urgencyOf(followUp, 10 * DAY, 11 * DAY)).toBe('today');
    expect(urgencyOf(followUp, 11 * DAY + 1, 12 * DAY)).toBe('overdue');
  });
});

describe('amounts', () => {
  it('are the ranges of the science notes for each kg: 3-10 ml, 1-3 ml, 5-20 % (section i, common practice)', () => {
    expect(doseFor('liquid culture', 1)).toMatchObject({ low: 3, high: 10, unit: 'ml' });
    expect(doseFor('spore syringe', 1)).toMatchObject({ low: 1, high: 3, unit: 'ml' });
    expect(doseFor('grain spawn', 1)).toMatchObject({ low: 50, high: 200, unit: 'g' });
    expect(doseFor('liquid culture', 0.5)).toMatchObject({ low: 1.5, high: 5 });
    expect(judgeDose('liquid culture', 1, 5)).toBe('within');
    expect(judgeDose('liquid culture', 2, 5)).toBe('little');
    expect(judgeDose('spore syringe', 0.5, 5)).toBe('much');
    for (const kg of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => doseFor('grain spawn', kg)).toThrow(RangeError);
  });
});
