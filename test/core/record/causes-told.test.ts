import { describe, expect, it } from 'vitest';
import { causesOf } from '../../../src/core/record/causes.ts';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { HOUR } from '../../../src/core/time.ts';
import { causeEvidence } from '../../../src/core/words/causes.ts';
import { drivenBatch, homeHeader } from '../../help/record-home.ts';
import { dipped, recordedWith, steamStopped, wet } from '../../help/recorded.ts';

describe('hints for a lost bag', () => {
  it('name what the record saw and nothing else', () => {
    expect(causesOf(recordedWith(() => undefined).batch, null, null)).toEqual([]);
    expect(causesOf(recordedWith(steamStopped).batch, null, null).map(({ id }) => id)).toEqual([
      'short-vent',
    ]);
    expect(causesOf(recordedWith(dipped).batch, null, null).map(({ id }) => id)).toEqual(['dips']);
  });

  it('sour puts wet grain first, green puts a failed seam of that very bag first', () => {
    const recorded = recordedWith(drive => {
      wet(drive);
      drive.to('seal').answer('failed');
    });
    const [first, second] = recorded.bags;
    expect(causesOf(recorded.batch, second ?? null, 'sour')[0]?.id).toBe('wet-grain');
    expect(causesOf(recorded.batch, first ?? null, 'green')[0]).toMatchObject({ id: 'seam', ownToBag: true });
    expect(causesOf(recorded.batch, second ?? null, 'green').map(({ id }) => id)).not.toContain('seam');
  });

  it('what was undone is no evidence', () => {
    const { batch } = drivenBatch(homeHeader('2613a', { soak: false, loads: [3] }), drive =>
      drive
        .to('surface-dry')
        .trouble('still-wet')
        .undo()
        .wait(2 * HOUR),
    );
    expect(batch.deviations.some(({ takenBack }) => takenBack)).toBe(true);
    expect(causesOf(batch, null, 'sour')).toEqual([]);
  });

  it('evidence reads as a sentence part with its numbers', () => {
    const [cause] = causesOf(recordedWith(steamStopped).batch, null, null);
    expect(cause && causeEvidence(cause, METRIC)).toBe(
      'the steam broke off once while venting; the last unbroken vent took 10 min',
    );
  });
});
