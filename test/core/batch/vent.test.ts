import { describe, expect, it } from 'vitest';
import { ventEnd } from '../../../src/core/batch/advance.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { Drive } from '../../help/batch-drive.ts';
import { VENT, sampleHeader } from '../../help/batch-kit.ts';

const header = sampleHeader({ soak: false });
const makeUp = sampleHeader({ soak: false, dips: 'make up' });
const venting = () => new Drive(header).to('vent');
const climbing = () => new Drive(header).to('climb');

describe('S2: the hold never starts before an unbroken vent', () => {
  it('spurts are not steady: no countdown', () => {
    const drive = new Drive(header).to('heat').answer('spurts').wait(HOUR).answer('spurts');
    expect(drive.batch.step).toBe('heat');
    expect(drive.batch.ventFrom).toBeNull();
  });

  it('refuses the valve until the vent is over', () => {
    const drive = venting();
    expect(drive.refusal('valve-closed')).toEqual({ code: 'venting', until: drive.batch.now + VENT });
    drive.wait(VENT - 1);
    expect(drive.refusal('valve-closed')?.code).toBe('venting');
    expect(drive.wait(1).answer('valve-closed').batch.step).toBe('climb');
  });

  it('starts the whole vent again after a break, from the next steady steam', () => {
    const drive = venting()
      .wait(VENT - MINUTE)
      .answer('stopped');
    expect(drive.batch).toMatchObject({ step: 'heat', ventFrom: null, ventBreaks: 1 });
    drive.wait(5 * MINUTE).answer('steady');
    expect(ventEnd(drive.batch)).toBe(drive.batch.now + VENT);
  });

  it.each([
    ['stayed', 'vent'],
    ['stopped', 'heat'],
    ['unknown', 'heat'],
  ] as const)('asks what the steam did while nobody looked: %s leads to %s', (choice, step) => {
    const drive = venting().wait(MINUTE).gap(VENT);
    expect(drive.ask).toBe('away-steam');
    expect(drive.tries({ type: 'answer', ask: 'venting', choice: 'valve-closed' })?.code).toBe(
      'answer-first',
    );
    expect(drive.answer(choice).batch.step).toBe(step);
  });

  it('has nothing to ask when the vent was complete before anybody left', () => {
    const drive = venting().wait(VENT).gap(HOUR);
    expect(drive.ask).toBe('venting');
  });

  it.each(['heat-failed', 'valve-opened'] as const)('vents again after %s in the climb', trouble => {
    expect(climbing().trouble(trouble).batch).toMatchObject({ step: 'heat', ventFrom: null });
  });

  it('vents and holds again in full after the valve was opened in the hold, whatever the dip policy', () => {
    const drive = new Drive(makeUp)
      .to('hold')
      .wait(80 * MINUTE)
      .trouble('valve-opened');
    expect(drive.batch).toMatchObject({ step: 'heat', hold: { creditMs: 0, lostMs: 80 * MINUTE } });
  });
});
