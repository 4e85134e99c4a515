import { describe, expect, it } from 'vitest';
import { lidRefusal } from '../../../src/core/batch/lockout.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { Drive } from '../../help/batch-drive.ts';
import { COOL, PRESSURE_LOCK, sampleHeader } from '../../help/batch-kit.ts';

const cooling = () => new Drive(sampleHeader({ soak: false })).to('cool');
const pinAsked = () =>
  cooling()
    .wait(10 * MINUTE)
    .answer('zero');
const shut = () =>
  pinAsked()
    .wait(PRESSURE_LOCK - 10 * MINUTE)
    .answer('down');

describe('S1: from heat-off to an opened lid', () => {
  it('needs an answered gauge at zero, and not from a stuck gauge', () => {
    const drive = cooling().wait(4 * MINUTE);
    expect(drive.refusal('zero')).toEqual({ code: 'too-soon', until: drive.batch.since + 5 * MINUTE });
    drive.wait(COOL);
    expect(drive.ask).toBe('gauge-zero');
    expect(lidRefusal(drive.batch)).toEqual({ code: 'locked-gauge' });
    drive.answer('not-zero');
    expect(drive.ask).toBe('gauge-zero');
  });

  it('takes no zero from before heat-off: the answer of the first load does not open the second', () => {
    const drive = new Drive(sampleHeader({ soak: false, loads: [1, 1] })).to('cool', 2).wait(COOL);
    expect(drive.batch.lock?.zeroAt).toBeNull();
    expect(lidRefusal(drive.batch)).toEqual({ code: 'locked-gauge' });
  });

  it('needs the pressure part of the lock served to the last millisecond', () => {
    const drive = pinAsked();
    const until = (drive.batch.lock?.heatOffAt ?? 0) + PRESSURE_LOCK;
    drive.wait(until - 1 - drive.batch.now);
    expect(drive.refusal('down')).toEqual({ code: 'locked-pressure', until });
    drive.wait(1).answer('down');
    expect(drive.ask).toBe('shut');
  });

  it('starts over at the gauge when the pin is up', () => {
    const drive = pinAsked().answer('up');
    expect(drive.ask).toBe('gauge-zero');
    expect(drive.batch.lock?.zeroAt).toBeNull();
  });

  it('counts the lock from the answer "flame off", not from the end of the hold', () => {
    const drive = new Drive(sampleHeader({ soak: false }))
      .to('heat-off')
      .wait(20 * MINUTE)
      .answer('flame-off');
    expect(drive.batch.lock?.heatOffAt).toBe(drive.batch.now);
    expect(drive.batch.lock?.pressureUntil).toBe(drive.batch.now + PRESSURE_LOCK);
  });

  it('has no override for the pressure part: no typed word, no claimed time', () => {
    const drive = pinAsked();
    for (const purpose of ['open-early', 'end-hold', 'end-soak'] as const) {
      expect(drive.tries({ type: 'typed', purpose, word: 'open' })).not.toBeNull();
    }
    const left = (drive.batch.lock?.pressureUntil ?? 0) - drive.batch.now;
    drive.gap(MINUTE, 'restart', 40 * HOUR).type('clock-right');
    expect((drive.batch.lock?.pressureUntil ?? 0) - drive.batch.now).toBe(left - MINUTE);
    expect(drive.refusal('down')?.code).toBe('locked-pressure');
    drive.type('end-batch');
    expect(drive.batch.step).toBe('cool');
    expect(drive.refusal('down')?.code).toBe('locked-pressure');
  });

  it('lets the part that protects the bags end early by the typed word alone, kept as a deviation', () => {
    const drive = shut();
    expect(drive.refusal('lid-open')).toEqual({ code: 'locked-cool', until: drive.batch.lock?.coolUntil });
    expect(drive.tries({ type: 'typed', purpose: 'open-early', word: 'yes' })?.code).toBe('word-differs');
    const { lock } = drive.batch;
    drive.type('open-early');
    expect(drive.batch.lock).toEqual({ ...lock, coolUntil: drive.batch.now });
    drive.answer('lid-open');
    expect(drive.batch.step).toBe('unload');
    expect(drive.batch.deviations.map(({ trouble }) => trouble)).toEqual(['opened-warm']);
  });

  it('lets claimed time that the person vouches for count for the bags, once the pressure part is served', () => {
    const drive = shut().gap(MINUTE, 'restart', COOL);
    expect(drive.tries({ type: 'answer', ask: 'shut', choice: 'lid-open' })?.code).toBe('answer-first');
    expect(drive.refusal('clock-right')?.code).toBe('needs-word');
    drive.type('clock-right').answer('lid-open');
    expect(drive.batch.step).toBe('unload');
  });

  it.each(['heat', 'vent', 'climb', 'hold', 'heat-off'] as const)(
    'ends a batch that is given up in %s by way of the lock',
    step => {
      const drive = new Drive(sampleHeader({ soak: false })).to(step).type('end-batch');
      expect(drive.batch.step).toBe('heat-off');
      drive.answer('flame-off').wait(PRESSURE_LOCK - 1);
      expect(drive.refusal('zero')).toBeNull();
      drive.answer('zero');
      expect(drive.refusal('down')?.code).toBe('locked-pressure');
      drive.wait(1).answers('down', 'lid-open');
      expect(drive.batch.step).toBe('done');
      expect(drive.batch.endedEarly).toBe('by-choice');
    },
  );

  it.each(['gear', 'soak', 'portion', 'load', 'unload', 'rest', 'inoculate'] as const)(
    'ends a batch that is given up in %s at once: nothing is under pressure',
    step => {
      const drive = new Drive(sampleHeader()).to(step).type('end-batch');
      expect(drive.batch.step).toBe('done');
    },
  );

  it('cannot be walked around by taking answers back', () => {
    const drive = new Drive(sampleHeader({ soak: false, loads: [1, 1] })).to('hold', 2);
    let undone = 0;
    while (drive.tries({ type: 'undo' }) === null) undone += 1;
    expect(undone).toBeGreaterThan(0);
    expect(drive.batch.load).toBe(2);
    expect(drive.batch.step).toBe('heat');
    drive.type('end-batch');
    expect(drive.batch.step).toBe('heat-off');
  });
});

describe('S7: inoculation', () => {
  it('is offered only after "room" was answered, however long the rest', () => {
    const drive = new Drive(sampleHeader())
      .to('rest')
      .answer('warm')
      .wait(48 * HOUR);
    expect(drive.ask).toBe('warmth');
    expect(drive.tries({ type: 'answer', ask: 'clean', choice: 'clean' })?.code).toBe('other-question');
    expect(drive.answer('room').batch.step).toBe('inoculate');
  });
});

describe('S9: practice', () => {
  it('stays marked in the header from the first step to the last', () => {
    const drive = new Drive(sampleHeader({ practice: true }));
    const header = drive.batch.header;
    drive.to('done');
    expect(drive.batch.header).toBe(header);
    expect(drive.batch.header.practice).toBe(true);
  });
});
