import { describe, expect, it } from 'vitest';
import { countOf, isServed } from '../../../src/core/batch/countdown.ts';
import { answerRefusal, openAsk } from '../../../src/core/batch/lockout.ts';
import { endOf, placeOf, scheduleOf, walkOf } from '../../../src/core/batch/schedule.ts';
import type { Batch } from '../../../src/core/batch/state.ts';
import { isDue, wantedNow } from '../../../src/core/batch/wanted.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { Drive, PLANNED_KEYS, onKey, straightThrough } from '../../help/batch-drive.ts';
import { explore } from '../../help/batch-explore.ts';
import { COOL, HOLD, SOAK, VARIANTS, VENT, sampleHeader } from '../../help/batch-kit.ts';

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
        const stops = scheduleOf(batch);
        const coming = stops.filter(({ state }) => state !== 'done');
        const ordered = coming.every(({ endsAt }, at) => endsAt >= (coming[at - 1]?.endsAt ?? batch.now));
        const nows = stops.filter(({ state }) => state === 'now').length;
        return ordered && nows === (batch.finishedAt === null ? 1 : 0) && Number.isFinite(endOf(batch));
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
    expect(isServed(countOf(drive.batch))).toBe(true);
    expect(wantedNow(drive.batch)).toMatchObject({ kind: 'wanted', code: 'vent-done' });
  });

  it('a flame left on after the hold becomes a danger', () => {
    const drive = new Drive(sampleHeader()).to('heat-off');
    expect(wantedNow(drive.batch)?.kind).toBe('wanted');
    expect(wantedNow(drive.wait(5 * MINUTE).batch)).toMatchObject({ kind: 'danger', code: 'flame-on' });
  });

  it('a finished batch keeps when each step ended', () => {
    const { batch } = straightThrough(sampleHeader({ loads: [1, 1] }));
    const stops = scheduleOf(batch);
    expect(stops.every(({ state }) => state === 'done')).toBe(true);
    expect(stops.at(-1)?.endsAt).toBe(batch.finishedAt);
    const holds = stops.filter(({ step }) => step === 'hold').map(({ endsAt }) => endsAt);
    expect(holds[1]).toBeGreaterThan(holds[0] ?? Infinity);
  });
});
