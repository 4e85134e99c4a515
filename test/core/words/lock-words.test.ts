import { describe, expect, it } from 'vitest';
import { askWords } from '../../../src/core/words/asks.ts';
import type { Telling } from '../../../src/core/words/telling.ts';
import { Drive } from '../../help/batch-drive.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { sampleHeader } from '../../help/batch-kit.ts';

const telling: Telling = {
  units: { mass: 'kg', volume: 'L', pressure: 'psi', temperature: 'C', length: 'cm' },
  clock: () => '23:42',
};
const says = ({ batch }: Drive): string => askWords(batch, batch.ask, telling);

describe('what is said under a locked lid', () => {
  it('nobody is told to touch the valve while there may be pressure', () => {
    const drive = new Drive(sampleHeader({ soak: false }))
      .to('cool')
      .wait(6 * MINUTE)
      .answer('zero');
    expect(drive.batch.ask).toBe('pin');
    expect(says(drive)).toContain('Touch nothing until 23:42');
    expect(says(drive)).not.toContain('nudge');
    drive.wait((drive.batch.lock?.pressureUntil ?? 0) - drive.batch.now);
    expect(says(drive)).toContain('nudge the valve');
  });

  it('the lid that may come off is opened away from the face, and says so before it is opened', () => {
    const drive = new Drive(sampleHeader({ soak: false })).toAsk('shut');
    expect(says(drive)).not.toContain('Open the lid now');
    drive.wait((drive.batch.lock?.coolUntil ?? 0) - drive.batch.now);
    expect(says(drive)).toContain('Open the lid now, away from your face');
  });

  it('a lid that is off already: nothing of pins, and it is laid on loosely until the lock is over', () => {
    const drive = new Drive(sampleHeader({ soak: false }))
      .to('cool')
      .wait(6 * MINUTE)
      .trouble('lid-opened-early');
    expect(says(drive)).toContain('The lid is off');
    drive.answer('zero');
    expect(says(drive)).not.toMatch(/pin|Touch nothing/);
    drive.toAsk('shut');
    expect(says(drive)).toContain('Leave the lid loosely on the load until 23:42');
    drive.wait((drive.batch.lock?.coolUntil ?? 0) - drive.batch.now);
    expect(says(drive)).not.toMatch(/Leave|locked/);
  });
});
