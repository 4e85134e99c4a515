import { describe, expect, it } from 'vitest';
import { dryInstant, steamDueAt, waterLeft } from '../../../src/core/estimate/water.ts';
import { askWords } from '../../../src/core/words/asks.ts';
import { dryWords, stoveAdvice } from '../../../src/core/words/estimate-advice.ts';
import type { Telling } from '../../../src/core/words/telling.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { warningOf } from '../../../src/face/run-view.ts';
import { Drive } from '../../help/batch-drive.ts';
import { sampleHeader } from '../../help/batch-kit.ts';

const telling: Telling = {
  units: { mass: 'kg', volume: 'L', pressure: 'psi', temperature: 'C', length: 'cm' },
  clock: () => '23:42',
};
const heating = () => new Drive(sampleHeader({ soak: false })).to('heat');
const advice = ({ batch }: Drive): string => stoveAdvice(batch, telling) ?? '';

describe('steam that does not come', () => {
  it('once it is late the gauge is asked for: a blocked vent, or no water', () => {
    const drive = heating();
    expect(advice(drive)).toBe('');
    drive.wait(steamDueAt(drive.batch) - drive.batch.now);
    expect(advice(drive)).toBe('');
    drive.wait(10 * MINUTE).answer('none');
    expect(advice(drive)).toContain('Steady steam is 10 min late');
    expect(advice(drive)).toContain('vent is blocked: heat off');
  });

  it('a flame that burns for hours under a valve that nobody believes boils the cooker dry', () => {
    const drive = heating();
    expect(waterLeft(drive.batch)).toBeNull();
    const first = dryInstant(drive.batch).low;
    expect(first).toBeGreaterThan(steamDueAt(drive.batch));
    drive.wait(12 * HOUR);
    expect(waterLeft(drive.batch)?.litres.likely).toBe(0);
    expect(dryInstant(drive.batch).low).toBeCloseTo(first, 3);
    expect(advice(drive)).toContain('heat off now');
  });

  it('steam that stopped and does not come back leaves less and less; a flame that went out leaves the rest', () => {
    const stopped = () =>
      heating()
        .to('vent')
        .wait(5 * MINUTE);
    const burning = stopped()
      .answer('stopped')
      .wait(40 * MINUTE);
    const out = stopped()
      .trouble('heat-failed')
      .wait(40 * MINUTE);
    const left = ({ batch }: Drive) => waterLeft(batch)?.litres.likely ?? Number.NaN;
    expect(left(burning)).toBeLessThan(left(stopped()) - 0.2);
    expect(left(out)).toBeCloseTo(left(stopped()), 6);
  });
});

describe('a dry cooker goes before everything else', () => {
  const dry = () =>
    heating()
      .toAsk('holding')
      .wait(12 * HOUR);
  const shown = ({ batch }: Drive, told: 'dip' | null) =>
    warningOf(batch, told, telling, { width: 78, most: 2 }).lines.join(' ');

  it('before a dip that was just noted, and no flame is asked for', () => {
    const drive = dry().answer('below');
    expect(drive.batch.dips).toHaveLength(1);
    expect(shown(drive, 'dip')).toContain('the cooker is dry: heat off now');
    expect(askWords(drive.batch, drive.batch.ask, telling)).not.toContain('More flame');
  });

  it('also while it is asked what the gauge did unseen', () => {
    const drive = dry().trouble('was-away');
    expect(drive.batch.away).not.toBeNull();
    expect(dryWords(drive.batch)).not.toBeNull();
    expect(shown(drive, null)).toContain('the cooker is dry: heat off now');
  });
});
