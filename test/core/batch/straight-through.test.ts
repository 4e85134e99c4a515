import { describe, expect, it } from 'vitest';
import { stepsOf } from '../../../src/core/batch/steps.ts';
import { Drive, straightThrough } from '../../help/batch-drive.ts';
import { COOL, HOLD, PRESSURE_LOCK, SOAK, VARIANTS, VENT, sampleHeader } from '../../help/batch-kit.ts';

describe('a batch as planned, by Space and 1 to 4 alone', () => {
  it.each(Object.entries(VARIANTS))('reaches done: %s', (_, header) => {
    const drive = straightThrough(header);
    const { batch } = drive;
    expect(batch.finishedAt).toBe(batch.now);
    expect(batch.deviations).toEqual([]);
    expect(batch.endedEarly).toBeNull();
    expect(batch.containers.every(each => each.sealed && each.lifted && each.dose === 5)).toBe(true);
    expect(new Set(drive.keys)).toEqual(new Set(['space', '1', '2', '3']));
    expect(batch.times.map(time => time.step).filter((step, at, all) => all.indexOf(step) === at)).toEqual(
      stepsOf(header.recipe),
    );
  });

  it('takes as long as the countdowns ask, and not a second less', () => {
    const drive = straightThrough(sampleHeader());
    const lengths = new Map(drive.batch.times.map(({ step, from, to }) => [step, (to ?? from) - from]));
    expect(lengths.get('soak')).toBe(SOAK);
    expect(lengths.get('vent')).toBe(VENT);
    expect(lengths.get('hold')).toBe(HOLD);
    expect(lengths.get('cool')).toBe(COOL);
    expect(PRESSURE_LOCK).toBeLessThan(COOL);
  });

  it('walks load after load, each through its own vent, hold and lock', () => {
    const { batch } = straightThrough(sampleHeader({ loads: [2, 1] }));
    const walked = (load: number) => batch.times.filter(time => time.load === load).map(time => time.step);
    const load = ['load', 'heat', 'vent', 'climb', 'hold', 'heat-off', 'cool', 'unload'];
    expect(walked(1).slice(-8)).toEqual(load);
    expect(walked(2).slice(0, 8)).toEqual(load);
  });

  it('starts with the grain weight and containers of the plan', () => {
    const { batch } = new Drive(sampleHeader({ loads: [2, 1] }));
    expect(batch.dryKg).toBeCloseTo(1.8);
    expect(batch.containers.map(({ number, load }) => [number, load])).toEqual([
      [1, 1],
      [2, 1],
      [3, 2],
    ]);
  });
});
