import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { walkOf as machineWalk } from '../../../src/core/batch/schedule.ts';
import { begin } from '../../../src/core/batch/machine.ts';
import { planOf } from '../../../src/core/plan/plan.ts';
import { DEFAULT_NIGHT, nextAt, nightMs, nightOf, nightsWithin } from '../../../src/core/plan/quiet.ts';
import { backFrom, forwardFrom, freeStart, type Timeline } from '../../../src/core/plan/timeline.ts';
import type { Recipe } from '../../../src/core/recipe/recipe.ts';
import { DAY, HOUR, MINUTE } from '../../../src/core/time.ts';
import { sampleHeader, sampleRecipe } from '../../help/batch-kit.ts';
import { anyRecipe, known, shipped, utcMinute } from '../../help/plan-kit.ts';

const MIDNIGHT = Date.UTC(2026, 10, 25);
const at = (hours: number, minutes = 0): number => MIDNIGHT + hours * HOUR + minutes * MINUTE;
const noNight = { fromMin: 0, toMin: 0 };
const questionFor = (recipe: Recipe, night = nightOf(known().kitchen)) => ({
  walk: planOf(recipe, known()).walk,
  night,
  local: utcMinute,
});
const anyStart = fc.integer({ min: 0, max: 14 * 24 * 12 }).map(five => MIDNIGHT + five * 5 * MINUTE);

function holdsTogether({ stops, startsAt, endsAt }: Timeline): void {
  expect(stops[0]?.from).toBe(startsAt);
  expect(stops.at(-1)?.to).toBe(endsAt);
  stops.forEach((stop, index) => {
    expect(stop.to).toBeGreaterThanOrEqual(stop.from);
    if (index > 0) expect(stop.from).toBe(stops[index - 1]?.to);
  });
}

describe('steps of a plan', () => {
  it.each([
    ['soaked', sampleRecipe({ loads: [2] })],
    ['no soak, sealed after', sampleRecipe({ soak: false, seal: 'after', loads: [3] })],
    [
      'many loads',
      { ...sampleRecipe({ loads: [20] }), containers: { ...sampleRecipe().containers, count: 20 } },
    ],
  ])('are those the machine walks, in its order: %s', (_, recipe) => {
    const plan = planOf(recipe, known());
    const header = { ...sampleHeader(), recipe, numbers: plan.numbers };
    const walked = machineWalk(begin(header).batch).filter(({ step }) => step !== 'done');
    expect(plan.walk.map(({ step, load }) => ({ step, load }))).toEqual(walked);
  });
});

describe('forward', () => {
  it('without nights lays likely lengths end to end', () => {
    const question = questionFor(shipped('Rye'), noNight);
    const laid = forwardFrom(at(9), question);
    holdsTogether(laid);
    const sum = question.walk.reduce(
      (total, { length }) => total + Math.round(length.likelyS / 60) * MINUTE,
      0,
    );
    expect(laid.endsAt - at(9)).toBe(sum);
    expect(laid.stops.every(({ stretched }) => !stretched)).toBe(true);
  });

  it('waits for the morning where a soak or the cooling would end at night', () => {
    const laid = forwardFrom(at(18, 30), questionFor(shipped('Rye')));
    const soak = laid.stops.find(({ step }) => step === 'soak');
    // 12 h from 18:40 end at 06:40, in the default night; the soak may last 24 h.
    expect(soak).toMatchObject({ stretched: true, to: at(24 + 7) });
    const cool = laid.stops.find(({ step }) => step === 'cool');
    expect(utcMinute(cool?.to ?? 0)).toBe(7 * 60);
    expect(laid.nightMs).toBe(0);
  });

  it('keeps the person out of the night wherever a wait allows it, for any recipe and start (property)', () => {
    fc.assert(
      fc.property(anyRecipe, anyStart, (recipe, start) => {
        const question = questionFor(recipe);
        const laid = forwardFrom(start, question);
        holdsTogether(laid);
        const plain = forwardFrom(start, { ...question, night: noNight });
        const nights = nightsWithin({ from: start, to: start + 8 * DAY }, DEFAULT_NIGHT, utcMinute);
        const worked = (timeline: Timeline) =>
          timeline.stops.filter(({ waits }) => !waits).reduce((sum, stop) => sum + nightMs(stop, nights), 0);
        expect(worked(laid)).toBe(laid.nightMs);
        expect(laid.nightMs).toBeLessThanOrEqual(worked(plain));
        laid.stops.forEach((stop, index) => {
          const step = question.walk[index];
          const lasts = (stop.to - stop.from) / 1000;
          expect(lasts).toBeGreaterThanOrEqual((step?.length.likelyS ?? 0) - 30.001);
          expect(lasts).toBeLessThanOrEqual(Math.max(step?.mostS ?? 0, step?.length.likelyS ?? 0) + 30.001);
        });
      }),
      { numRuns: 60 },
    );
  });
});

describe('back', () => {
  it('is ready exactly when asked, and forward from its start is too when no night is in the way (property)', () => {
    fc.assert(
      fc.property(anyRecipe, anyStart, (recipe, ready) => {
        const question = questionFor(recipe, noNight);
        const back = backFrom(ready, question);
        holdsTogether(back);
        expect(back.readyAt).toBe(ready);
        const forward = forwardFrom(back.startsAt, question);
        expect(forward.readyAt).toBe(ready);
        expect(forward.stops).toEqual(back.stops);
      }),
      { numRuns: 40 },
    );
  });

  it('with nights, forward from its start gets there in time, and only the last wait differs (property)', () => {
    fc.assert(
      fc.property(anyRecipe, anyStart, (recipe, ready) => {
        const question = questionFor(recipe);
        const back = backFrom(ready, question);
        holdsTogether(back);
        expect(back.readyAt).toBe(ready);
        if (back.nightMs > 0) return;
        const forward = forwardFrom(back.startsAt, question);
        expect(forward.readyAt).toBeLessThanOrEqual(ready);
        const last = back.stops.findLastIndex(({ waits }) => waits);
        expect(forward.stops.slice(0, last)).toEqual(back.stops.slice(0, last));
      }),
      { numRuns: 40 },
    );
  });

  it('to 09:00 begins late in the evening two days before, so that nobody gets up at night', () => {
    const back = backFrom(at(72 + 9), questionFor(shipped('Rye')));
    expect(back.nightMs).toBe(0);
    expect(back.startsAt).toBeGreaterThan(at(24 + 18));
    expect(back.startsAt).toBeLessThan(at(24 + 23));
  });

  it('begins no earlier than it can, and then works into the night rather than not at all', () => {
    const question = questionFor(shipped('Wheat'));
    const free = backFrom(at(24 + 9), question);
    expect(free.nightMs).toBe(0);
    const late = free.startsAt + 40 * MINUTE;
    const pressed = backFrom(at(24 + 9), question, late);
    expect(pressed.readyAt).toBe(at(24 + 9));
    expect(pressed.startsAt).toBeGreaterThanOrEqual(late);
    expect(pressed.nightMs).toBeGreaterThan(0);
    expect(pressed.nightMs).toBeLessThan(HOUR);
  });

  it('to the middle of the night is kept, and the work counted', () => {
    const back = backFrom(at(72 + 3), questionFor(shipped('Wheat')));
    expect(back.readyAt).toBe(at(72 + 3));
    expect(back.nightMs).toBeGreaterThan(0);
  });
});

describe('a free start', () => {
  it('is the first half hour whose work stays in the day; an unsoaked batch of 4 h begun at 22:00 waits for 07:00', () => {
    const question = questionFor(shipped('Wheat'));
    expect(forwardFrom(at(22), question).nightMs).toBeGreaterThan(0);
    const free = freeStart(at(22), question);
    expect(free).toBe(at(24 + 7));
    expect(forwardFrom(free ?? 0, question).nightMs).toBe(0);
  });

  it('is none when every hour is quiet', () => {
    const question = { ...questionFor(shipped('Wheat')), night: { fromMin: 60, toMin: 59 } };
    expect(freeStart(at(22), question)).toBeNull();
  });
});

describe('nights', () => {
  it("are the person's quiet hours, or 23:00 to 07:00", () => {
    const { kitchen } = known();
    expect(nightOf(kitchen)).toEqual({ fromMin: 23 * 60, toMin: 7 * 60 });
    const quiet = { ...kitchen.alerts, quietFromMin: 22 * 60, quietToMin: 6 * 60 };
    expect(nightOf({ ...kitchen, alerts: quiet })).toEqual({ fromMin: 1320, toMin: 360 });
  });

  // Europe/Rome by its published rules: +60 min, +120 from 2026-03-29 01:00 UTC to 2026-10-25 01:00 UTC.
  const rome = (wall: number): number => {
    const summer = wall >= Date.UTC(2026, 2, 29, 1) && wall < Date.UTC(2026, 9, 25, 1);
    return utcMinute(wall + (summer ? 120 : 60) * MINUTE);
  };

  it('end at the same clock time when the clocks change in them', () => {
    const spring = nightsWithin(
      { from: Date.UTC(2026, 2, 28, 20), to: Date.UTC(2026, 2, 29, 12) },
      DEFAULT_NIGHT,
      rome,
    );
    expect(spring).toEqual([{ from: Date.UTC(2026, 2, 28, 22), to: Date.UTC(2026, 2, 29, 5) }]);
    const autumn = nightsWithin(
      { from: Date.UTC(2026, 9, 24, 20), to: Date.UTC(2026, 9, 25, 12) },
      DEFAULT_NIGHT,
      rome,
    );
    expect(autumn).toEqual([{ from: Date.UTC(2026, 9, 24, 21), to: Date.UTC(2026, 9, 25, 6) }]);
  });

  it('follow one another, all of them, and an hour that is skipped ends the search (property)', () => {
    fc.assert(
      fc.property(anyStart, fc.integer({ min: 0, max: 1439 }), (from, minute) => {
        const found = nextAt(minute, from, rome);
        expect(rome(found)).toBe(minute);
        expect(found).toBeGreaterThanOrEqual(from);
        expect(found - from).toBeLessThan(26 * HOUR);
      }),
    );
    const skipped = nextAt(150, Date.UTC(2026, 2, 28, 23), rome);
    expect(Math.abs(skipped - Date.UTC(2026, 2, 29, 1))).toBeLessThanOrEqual(HOUR);
  });
});
