import { describe, expect, it } from 'vitest';
import { askWords } from '../../../src/core/words/asks.ts';
import type { Telling } from '../../../src/core/words/telling.ts';
import { Drive } from '../../help/batch-drive.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { COOL, PRESSURE_LOCK, sampleHeader, VENT } from '../../help/batch-kit.ts';

const telling: Telling = {
  units: { mass: 'kg', volume: 'L', pressure: 'psi', temperature: 'C', length: 'cm' },
  clock: () => '23:42',
};
const says = ({ batch }: Drive): string => askWords(batch, batch.ask, telling);

describe('what may have a blocked vent', () => {
  it.each([
    ['what went over its mark', 'hold', 'over-pressure'],
    ['a gauge that rose without steam', 'heat', 'vent-blocked'],
  ] as const)(
    '%s stays shut until it is cold, with no way around it, and no hiss proves nothing',
    (_, step, trouble) => {
      const drive = new Drive(sampleHeader({ soak: false })).to(step).trouble(trouble).to('cool');
      const { lock } = drive.batch;
      expect((lock?.pressureUntil ?? 0) - (lock?.heatOffAt ?? 0)).toBe(COOL);
      drive.toAsk('pin').wait((lock?.pressureUntil ?? 0) - drive.batch.now);
      expect(says(drive)).toContain('no hiss proves nothing');
      expect(says(drive)).not.toContain('nudge');
    },
  );

  it('water that ran low keeps the usual lock', () => {
    const { lock } = new Drive(sampleHeader({ soak: false }))
      .to('hold')
      .trouble('water-low')
      .to('cool').batch;
    expect((lock?.pressureUntil ?? 0) - (lock?.heatOffAt ?? 0)).toBe(PRESSURE_LOCK);
  });
});

describe('what is said', () => {
  it('of the vent: stay, and when its time is over, close the valve', () => {
    const drive = new Drive(sampleHeader({ soak: false })).to('vent');
    expect(says(drive)).toContain('Leave the valve open');
    drive.wait(VENT);
    expect(says(drive)).toContain('Close the valve now');
  });

  it('of containers that are still warm: when that was, and to feel them again', () => {
    const drive = new Drive(sampleHeader({ soak: false })).to('rest').wait(MINUTE);
    expect(says(drive)).not.toContain('Still warm');
    drive.answer('warm');
    expect(says(drive)).toContain('Still warm at 23:42');
  });
});

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
