import { describe, expect, it } from 'vitest';
import { countOf } from '../../../src/core/batch/countdown.ts';
import { answerRefusal, openAsk } from '../../../src/core/batch/lockout.ts';
import { endOf, placeOf, scheduleOf, walkOf } from '../../../src/core/batch/schedule.ts';
import type { Batch } from '../../../src/core/batch/state.ts';
import { isDue, wantedNow } from '../../../src/core/batch/wanted.ts';
import { planOf } from '../../../src/core/plan/plan.ts';
import { nightOf } from '../../../src/core/plan/quiet.ts';
import { forwardFrom } from '../../../src/core/plan/timeline.ts';
import { DEFAULT_KITCHEN, type Kitchen } from '../../../src/core/kitchen.ts';
import type { Recipe } from '../../../src/core/recipe/recipe.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { Drive, PLANNED_KEYS, onKey, straightThrough } from '../../help/batch-drive.ts';
import { explore } from '../../help/batch-explore.ts';
import { COOL, HOLD, SOAK, VARIANTS, VENT, sampleHeader } from '../../help/batch-kit.ts';
import { known, shippedRecipes, utcMinute } from '../../help/plan-kit.ts';

const batches = Object.values(VARIANTS).flatMap(header =>
  explore(header, 0).found.map(({ run }) => run.batch),
);
const offenders = (keeps: (batch: Batch) => boolean) =>
  batches
    .filter(batch => !keeps(batch))
    .slice(0, 5)
    .map(batch => `${batch.step}/${openAsk(batch)} load ${batch.load}`);

describe(`in each of ${batches.length} states`, () => {
  it('the number shown is a time, never negative, and a bar never overflows', () => {
    expect(
      offenders(batch => {
        const count = countOf(batch);
        if (!count) return true;
        return (
          Number.isFinite(count.ms) && count.ms >= 0 && (count.totalMs === null || count.ms <= count.totalMs)
        );
      }),
    ).toEqual([]);
  });

  it('the plan keeps its order: what is to come ends after what is now, and nothing ends in the past', () => {
    expect(
      offenders(batch => {
        const stops = scheduleOf(batch, utcMinute);
        const coming = stops.filter(({ state }) => state !== 'done');
        const ordered = coming.every(({ endsAt }, at) => endsAt >= (coming[at - 1]?.endsAt ?? batch.now));
        const nows = stops.filter(({ state }) => state === 'now').length;
        return (
          ordered && nows === (batch.finishedAt === null ? 1 : 0) && Number.isFinite(endOf(batch, utcMinute))
        );
      }),
    ).toEqual([]);
  });

  it('the present step is one of those that are walked', () => {
    expect(
      offenders(batch => {
        const { at, of } = placeOf(batch);
        const here = walkOf(batch)[at - 1];
        return at >= 1 && at <= of && (batch.step === 'done' || here?.step === batch.step);
      }),
    ).toEqual([]);
  });

  it('a doubt always calls for the person, and a finished batch never does', () => {
    expect(
      offenders(batch => openAsk(batch) === batch.ask || wantedNow(batch)?.code === 'answer-doubt'),
    ).toEqual([]);
    expect(offenders(batch => batch.finishedAt === null || wantedNow(batch) === null)).toEqual([]);
  });

  it('what is said to be due is not refused for being too early', () => {
    const early = ['soaking', 'towel-down', 'venting', 'locked-pressure', 'locked-cool', 'too-soon'];
    expect(
      offenders(batch => {
        const ask = openAsk(batch);
        const choice = onKey(ask, PLANNED_KEYS[ask]);
        if (!isDue(batch) || !choice) return true;
        return !early.includes(answerRefusal(batch, ask, choice.id)?.code ?? '');
      }),
    ).toEqual([]);
  });
});

describe('countdowns', () => {
  it.each([
    ['soak', 'soak', SOAK],
    ['vent', 'vent', VENT],
    ['hold', 'hold', HOLD],
  ] as const)('%s counts down its whole length, by the second', (step, of, ms) => {
    const drive = new Drive(sampleHeader()).to(step);
    expect(countOf(drive.batch)).toMatchObject({ of, direction: 'down', ms, running: true });
    drive.wait(MINUTE);
    expect(countOf(drive.batch)).toMatchObject({ of, ms: ms - MINUTE });
  });

  it('the hold stands still below target', () => {
    const drive = new Drive(sampleHeader({ dips: 'make up' }))
      .to('hold')
      .wait(MINUTE)
      .answer('below')
      .wait(HOUR);
    expect(countOf(drive.batch)).toMatchObject({ ms: HOLD - MINUTE, running: false, until: null });
    expect(wantedNow(drive.batch)).toMatchObject({ kind: 'danger', code: 'below-target' });
  });

  it('the lock counts its pressure part first, then the part for the bags, then up', () => {
    const drive = new Drive(sampleHeader()).to('cool');
    expect(countOf(drive.batch)?.of).toBe('pressure-lock');
    drive.wait(HOUR);
    expect(countOf(drive.batch)).toMatchObject({ of: 'cool-lock', ms: COOL - HOUR });
    drive.wait(COOL);
    expect(countOf(drive.batch)).toMatchObject({ of: 'wait', direction: 'up', ms: HOUR });
  });

  it('a served countdown calls for the person', () => {
    const drive = new Drive(sampleHeader()).to('vent').wait(VENT - MINUTE);
    expect(wantedNow(drive.batch)).toMatchObject({ kind: 'soon', code: 'vent-soon' });
    drive.wait(MINUTE);
    expect(countOf(drive.batch)).toMatchObject({ direction: 'down', ms: 0 });
    expect(wantedNow(drive.batch)).toMatchObject({ kind: 'wanted', code: 'vent-done' });
  });

  it('a flame left on after the hold becomes a danger', () => {
    const drive = new Drive(sampleHeader()).to('heat-off');
    expect(wantedNow(drive.batch)?.kind).toBe('wanted');
    expect(wantedNow(drive.wait(5 * MINUTE).batch)).toMatchObject({ kind: 'danger', code: 'flame-on' });
  });

  it('a finished batch keeps when each step ended', () => {
    const { batch } = straightThrough(sampleHeader({ loads: [1, 1] }));
    const stops = scheduleOf(batch, utcMinute);
    expect(stops.every(({ state }) => state === 'done')).toBe(true);
    expect(stops.at(-1)?.endsAt).toBe(batch.finishedAt);
    const holds = stops.filter(({ step }) => step === 'hold').map(({ endsAt }) => endsAt);
    expect(holds[1]).toBeGreaterThan(holds[0] ?? Infinity);
  });
});

describe('the end of a running batch is the one its plan named', () => {
  /** A plan from an instant, and the batch that is begun at it. */
  function begun(recipe: Recipe, beganWall: number, kitchen: Partial<Kitchen> = {}) {
    const { kitchen: full, assumed } = known(kitchen);
    const plan = planOf(recipe, { kitchen: full, assumed });
    const question = { walk: plan.walk, night: nightOf(full), local: utcMinute };
    const timeline = forwardFrom(Math.ceil(beganWall / MINUTE) * MINUTE, question);
    const header = { ...sampleHeader(), recipe, kitchen: full, numbers: plan.numbers, beganWall };
    return { timeline, drive: new Drive(header) };
  }
  const wallOf = ({ wall, now }: Batch, t: number) => wall + t - now;
  const kitchens: Partial<Kitchen>[] = [
    {},
    { potL: 5 },
    { alerts: { ...DEFAULT_KITCHEN.alerts, quietFromMin: 21 * 60, quietToMin: 9 * 60 } },
  ];

  it('as it begins, at any minute of the day, step by step: nights are respected', () => {
    let stretched = 0;
    for (const recipe of shippedRecipes) {
      for (const kitchen of kitchens) {
        for (let minute = 0; minute < 1440; minute += 97) {
          const began = Date.UTC(2026, 10, 25) + minute * MINUTE + (minute % 3) * 20_000;
          const { timeline, drive } = begun(recipe, began, kitchen);
          const where = `${recipe.name} begun ${new Date(began).toISOString()}`;
          expect(wallOf(drive.batch, endOf(drive.batch, utcMinute)), where).toBe(timeline.endsAt);
          const later = scheduleOf(drive.batch, utcMinute).filter(({ state }) => state === 'later');
          expect(later.map(({ endsAt }) => wallOf(drive.batch, endsAt)).slice(0, -1), where).toEqual(
            timeline.stops.slice(1).map(({ to }) => to),
          );
          if (timeline.stops.some(stop => stop.stretched)) stretched += 1;
        }
      }
    }
    expect(stretched).toBeGreaterThan(50);
  });

  it('and all through a soak that is left until the morning, a lock and a rest', () => {
    const rye = shippedRecipes.find(({ name }) => name.startsWith('Rye'));
    if (!rye) throw new Error('no rye');
    const { timeline, drive } = begun(rye, Date.UTC(2026, 10, 25, 13));
    drive
      .answer('ready')
      .wait(5 * MINUTE)
      .answer('as-planned');
    expect(drive.batch.step).toBe('soak');
    const soakEnds = timeline.stops.find(({ step }) => step === 'soak')?.to ?? Number.NaN;
    expect(timeline.stops.find(({ step }) => step === 'soak')?.stretched).toBe(true);
    for (let hour = 0; hour < 17; hour += 1) {
      const stop = scheduleOf(drive.batch, utcMinute).find(({ state }) => state === 'now');
      expect(wallOf(drive.batch, stop?.endsAt ?? Number.NaN), `hour ${hour}`).toBe(soakEnds);
      drive.wait(HOUR);
    }
    // Past what was planned it is "now", and at the latest the end of the longest soak.
    drive.wait(2 * HOUR);
    const late = scheduleOf(drive.batch, utcMinute).find(({ state }) => state === 'now');
    expect(late?.endsAt).toBe(drive.batch.now);
  });
});
