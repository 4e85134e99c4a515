/** A towel that stays dry: when it is believed. The rule is common practice, no source. */
import { describe, expect, it } from 'vitest';
import { wantedNow } from '../../../src/core/batch/wanted.ts';
import { DRY_TOO_SOON_SHARE, type RunNumbers } from '../../../src/core/plan/numbers.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { askWords } from '../../../src/core/words/asks.ts';
import { Drive } from '../../help/batch-drive.ts';
import { sampleHeader } from '../../help/batch-kit.ts';

const telling = {
  units: { mass: 'kg', volume: 'L', pressure: 'psi', temperature: 'C', length: 'cm' },
  clock: () => '23:42',
} as const;

/** The recipe dries for about 120 min; a third of it are 40. */
const header = sampleHeader();
const numbers: RunNumbers = { ...header.numbers, dryTooSoonShare: DRY_TOO_SOON_SHARE };
const drying = (more: object = {}) => new Drive({ ...header, numbers, ...more }).to('surface-dry');
/** Lays a towel after so many minutes and finds it dry. */
const findsDry = (drive: Drive, minutes: number) =>
  drive
    .wait(minutes * MINUTE)
    .answer('towel-laid')
    .wait(MINUTE)
    .answer('dry');

describe('a towel that stays dry', () => {
  it('so soon after spreading, unstirred, means: stir now and lay it again', () => {
    const drive = findsDry(drying(), 11);
    expect(drive.batch).toMatchObject({ step: 'surface-dry', ask: 'drying', deviations: [] });
    expect(wantedNow(drive.batch)).toMatchObject({ kind: 'wanted', code: 'stir' });
    expect(askWords(drive.batch, 'drying', telling)).toContain(
      'Stir, spread it again, then lay the towel again',
    );
    drive.answer('stirred');
    expect(askWords(drive.batch, 'drying', telling)).not.toContain('only its top');
  });

  it('so soon, even stirred, is asked for once more, and then believed', () => {
    const drive = findsDry(
      drying()
        .wait(10 * MINUTE)
        .answer('stirred'),
      5,
    );
    expect(drive.batch.step).toBe('surface-dry');
    expect(findsDry(drive, 1).batch.step).toBe('surface-dry');
    drive.answer('stirred');
    expect(findsDry(drive, 1).batch).toMatchObject({ step: 'portion', deviations: [{ trouble: 'too-dry' }] });
  });

  it('late, after a stir, is dried too far; unstirred it is not', () => {
    expect(findsDry(drying(), 100).batch.step).toBe('surface-dry');
    expect(findsDry(drying().answer('stirred'), 38).batch.step).toBe('surface-dry');
    expect(findsDry(drying().answer('stirred'), 39).batch.step).toBe('portion');
  });

  it("the person's own drying time goes before the recipe's", () => {
    const learned = { simmerS: null, dryingS: 3600, batches: 2 };
    expect(findsDry(drying({ learned }).answer('stirred'), 18).batch.step).toBe('surface-dry');
    expect(findsDry(drying({ learned }).answer('stirred'), 19).batch.step).toBe('portion');
  });

  it('a batch of an earlier version believes it as it did', () => {
    expect(header.numbers.dryTooSoonShare).toBeUndefined();
    expect(findsDry(drying({ numbers: header.numbers }), 11).batch).toMatchObject({
      step: 'portion',
      deviations: [{ trouble: 'too-dry' }],
    });
  });
});
