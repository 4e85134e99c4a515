import { describe, expect, it } from 'vitest';
import { endOf } from '../../../src/core/batch/schedule.ts';
import { fillingKg } from '../../../src/core/batch/moves.ts';
import { sampleHeader } from '../../help/batch-kit.ts';
import { utcMinute } from '../../help/plan-kit.ts';
import { Drive } from '../../help/batch-drive.ts';

const header = (potFillings: number) => {
  const sample = sampleHeader({ soak: false });
  return { ...sample, numbers: { ...sample.numbers, potFillings } };
};

/** From the start of a simmer to the end of its draining, as planned. */
const oneFilling = (drive: Drive) =>
  drive.answer('simmers').answer('kernels-cut').answer('translucent').answer('none').answer('drained');

describe('a pot that takes the grain in parts', () => {
  it('goes back to the simmer until the last part is drained', () => {
    const drive = new Drive(header(3)).to('simmer');
    oneFilling(drive);
    expect([drive.batch.step, drive.batch.filling, drive.batch.simmerFrom]).toEqual(['simmer', 2, null]);
    oneFilling(drive);
    expect([drive.batch.step, drive.batch.filling]).toEqual(['simmer', 3]);
    oneFilling(drive);
    expect(drive.batch.step).toBe('surface-dry');
  });

  it('weighs each part against its own share of the dry grain', () => {
    const drive = new Drive(header(2)).to('simmer');
    expect(fillingKg(drive.batch)).toBeCloseTo(drive.batch.dryKg / 2, 12);
    drive.answer('simmers').answer('kernels-cut').answer('translucent').answer('none');
    expect(drive.refusal('weighed', drive.batch.dryKg * 1.9)?.code).toBe('too-much');
    expect(drive.refusal('weighed', drive.batch.dryKg * 0.85)).toBeNull();
  });

  it('lays out the parts that are still to come: half the likely time for each of two', () => {
    const length = (seconds: number) => ({ lowS: seconds, likelyS: seconds, highS: seconds });
    const plain = header(2);
    const lengths = { simmer: length(3600), drain: length(600) };
    const drive = new Drive({ ...plain, numbers: { ...plain.numbers, lengths } }).to('simmer');
    expect(endOf(drive.batch, utcMinute) - drive.batch.now).toBe(4200 * 1000);
    oneFilling(drive);
    expect(endOf(drive.batch, utcMinute) - drive.batch.now).toBe(2100 * 1000);
  });

  it('can be undone across the parts', () => {
    const drive = new Drive(header(2)).to('simmer');
    oneFilling(drive);
    drive.undo();
    expect([drive.batch.step, drive.batch.ask, drive.batch.filling]).toEqual(['drain', 'draining', 1]);
  });

  it('is one part in a journal that does not say', () => {
    const sample = sampleHeader({ soak: false });
    const { potFillings: _, ...numbers } = sample.numbers;
    const drive = new Drive({ ...sample, numbers }).to('simmer');
    oneFilling(drive);
    expect(drive.batch.step).toBe('surface-dry');
  });
});
