import { describe, expect, it } from 'vitest';
import { isAwaitingGauge, isCounting } from '../../../src/core/batch/advance.ts';
import { wantedNow } from '../../../src/core/batch/wanted.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { Drive } from '../../help/batch-drive.ts';
import { HOLD, TARGET_KPA, sampleHeader } from '../../help/batch-kit.ts';

const header = sampleHeader({ soak: false });
const makeUp = sampleHeader({ soak: false, dips: 'make up' });
const holding = (of = header) => new Drive(of).to('hold');
const held = (drive: Drive) => drive.batch.hold.creditMs;

describe('S3: for how long an answer at the gauge vouches', () => {
  it('runs on one answer, but ends only on one that is not older than half an hour', () => {
    const drive = holding().wait(HOLD + 10 * MINUTE);
    expect(drive.batch).toMatchObject({ step: 'hold', hold: { creditMs: HOLD, belief: 'at' } });
    expect([isAwaitingGauge(drive.batch), isCounting(drive.batch)]).toEqual([true, false]);
    expect(wantedNow(drive.batch)).toMatchObject({ kind: 'wanted', code: 'gauge-overdue' });
    drive.press('2');
    expect(drive.batch).toMatchObject({ step: 'heat-off', since: drive.batch.now });
  });

  it.each([
    ['reading', TARGET_KPA, 'heat-off'],
    ['reading', TARGET_KPA + 15, 'heat-off'],
    ['above', undefined, 'heat-off'],
    ['reading', TARGET_KPA - 5, 'hold'],
    ['below', undefined, 'hold'],
  ] as const)('the last answer decides: %s %s leads to %s', (choice, amount, step) => {
    const drive = holding().wait(HOLD);
    expect(drive.answer(choice, amount).batch.step).toBe(step);
  });

  it('below after a long silence: nothing since the last answer counts, whatever the policy', () => {
    const silent = (of: typeof header) =>
      holding(of)
        .wait(20 * MINUTE)
        .answer('at')
        .wait(40 * MINUTE);
    const made = silent(makeUp).answer('below').batch;
    expect(made.hold).toMatchObject({ creditMs: 20 * MINUTE, belief: 'below' });
    // It may have fallen at any time since then.
    expect(made.dips).toMatchObject([{ from: made.now - 40 * MINUTE, to: null }]);
    expect(made.unseen).toMatchObject([{ from: made.now - 40 * MINUTE, told: 'fell-below-now' }]);
    expect(silent(header).answer('below').batch.hold).toMatchObject({ creditMs: 0, lostMs: 20 * MINUTE });
    expect(held(silent(makeUp).trouble('heat-failed-in-hold'))).toBe(20 * MINUTE);
    // Also when the hold had already waited for it longer than was left to serve.
    const waited = holding(makeUp)
      .wait(55 * MINUTE)
      .answer('at')
      .wait(2 * HOUR);
    expect(held(waited.answer('below'))).toBe(55 * MINUTE);
    const told = holding(makeUp)
      .wait(55 * MINUTE)
      .answer('at')
      .wait(2 * HOUR);
    expect(held(told.trouble('was-away'))).toBe(55 * MINUTE);
  });

  it('a suggested reading may be skipped: within half an hour nothing is asked for but suggested', () => {
    const drive = holding().wait(30 * MINUTE);
    expect(wantedNow(drive.batch)).toMatchObject({ kind: 'soon', code: 'read-gauge' });
    expect(wantedNow(drive.wait(1).batch)).toMatchObject({ kind: 'wanted', code: 'gauge-overdue' });
    expect(isCounting(drive.batch)).toBe(true);
    expect(wantedNow(drive.answer('at').batch)).toBeNull();
  });

  it('a batch of an earlier version, which knew no such question, ends as it did', () => {
    const { gaugeAnswerS, ...numbers } = header.numbers;
    expect(gaugeAnswerS).toBe(1800);
    expect(holding({ ...header, numbers }).wait(HOLD).batch.step).toBe('heat-off');
  });
});
