import { describe, expect, it } from 'vitest';
import { STEP_IDS } from '../../../src/core/batch/steps.ts';
import { TROUBLES, type TroubleId, troubleRow, troublesIn } from '../../../src/core/batch/troubles.ts';
import { HOUR } from '../../../src/core/time.ts';
import { DEVIATIONS } from '../../help/batch-deviations.ts';
import { Drive } from '../../help/batch-drive.ts';
import { COOL, HOLD, PRESSURE_LOCK, sampleHeader } from '../../help/batch-kit.ts';

describe('deviations', () => {
  it.each(DEVIATIONS)('$happens: kept as $noted, with its consequence', ({ noted, how, gives }) => {
    const { batch } = how(new Drive(sampleHeader()));
    expect(batch).toMatchObject(gives);
    const kept = batch.deviations.filter(({ trouble }) => trouble === noted);
    expect(kept).toHaveLength(1);
    expect(kept[0]).toMatchObject({ t: batch.now, load: 1, takenBack: false });
  });

  it('are all in this table', () => {
    expect(TROUBLES.map(({ id }) => id).filter(id => !DEVIATIONS.some(({ noted }) => noted === id))).toEqual(
      [],
    );
  });

  it('are offered where they can happen and nowhere else, what is dangerous first', () => {
    for (const step of ['heat', 'vent', 'climb', 'hold', 'heat-off'] as const)
      expect(
        troublesIn(step)
          .slice(0, 2)
          .map(({ id }) => id),
        step,
      ).toEqual(['over-pressure', 'water-low']);
    for (const { id, offered, steps } of TROUBLES) expect(steps.length > 0, id).toBe(offered);
  });

  it('are refused where they cannot happen, and when they are not for the person to say', () => {
    for (const step of STEP_IDS) {
      const drive = new Drive(sampleHeader({ seal: step === 'seal-after' ? 'after' : 'before' })).to(step);
      for (const { id, offered, steps } of TROUBLES) {
        if (offered && steps.includes(step)) continue;
        const refusal = drive.tries({ type: 'trouble', trouble: id });
        expect(['not-here', 'finished'], `${id} in ${step}`).toContain(refusal?.code);
      }
    }
  });

  it('wait for a doubt to be cleared first, but low water never waits', () => {
    const drive = new Drive(sampleHeader()).to('hold').gap(HOUR);
    expect(drive.tries({ type: 'trouble', trouble: 'valve-opened' })?.code).toBe('answer-first');
    drive.trouble('water-low').answer('flame-off').wait(PRESSURE_LOCK).answers('zero', 'down', 'lid-open');
    expect(drive.batch).toMatchObject({ step: 'done', endedEarly: 'water-low' });
  });

  it('name the container they are about', () => {
    const torn = new Drive(sampleHeader()).to('unload').answers('intact', 'torn');
    expect(torn.batch.deviations).toMatchObject([{ trouble: 'torn', container: 2 }]);
    const seam = new Drive(sampleHeader()).to('seal').answers('sealed', 'failed', 'failed');
    expect(seam.batch.deviations).toMatchObject([{ container: 2 }, { container: 2 }]);
    expect(seam.batch.containers[1]).toMatchObject({ seamFailures: 2, sealed: false });
  });

  it('a torn bag is not inoculated; with all torn the batch is done', () => {
    const one = new Drive(sampleHeader()).to('unload').answers('torn', 'intact', 'room', 'clean');
    expect(one.batch).toMatchObject({ step: 'inoculate', cursor: 1 });
    const all = new Drive(sampleHeader()).to('unload').answers('torn', 'torn');
    expect(all.batch.step).toBe('done');
  });

  it('too few bags: those filled go on, and a load that lost all of its bags is not cooked', () => {
    const drive = new Drive(sampleHeader({ loads: [1, 1] })).to('portion').answers('as-planned', 'used-up');
    expect(drive.batch.containers).toHaveLength(1);
    expect(drive.to('rest').batch.load).toBe(1);
  });

  it('ended in the lock: the person may open as soon as the pressure part is served', () => {
    const drive = new Drive(sampleHeader())
      .to('hold')
      .wait(HOLD / 2)
      .type('end-batch')
      .answer('flame-off');
    expect(drive.batch.lock?.coolUntil).toBe(drive.batch.now + PRESSURE_LOCK);
    expect(PRESSURE_LOCK).toBeLessThan(COOL);
  });

  it('lead where their row says', () => {
    expect(troubleRow('valve-opened').leads).toBe('steam-again');
    expect(() => troubleRow('no-such' as TroubleId)).toThrow(RangeError);
  });
});
