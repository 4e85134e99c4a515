import { describe, expect, it } from 'vitest';
import type { Batch } from '../../../src/core/batch/state.ts';
import type { CoolDown } from '../../../src/core/estimate/cool-down.ts';
import { estimateAt } from '../../../src/core/estimate/estimate.ts';
import { coolSentences, lockWords } from '../../../src/core/words/estimate-cool.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { tellingOf } from '../../../src/face/format.ts';
import { type Stove, stove } from './stove-kit.ts';

/** Sea level, a room of 22 C, as in the worked examples of the science notes, section f. */
const atSea = (header: Batch['header']): Batch['header'] => ({
  ...header,
  kitchen: { ...header.kitchen, roomC: 22, cookerMassKg: 5.5 },
  numbers: {
    ...header.numbers,
    atmosphereKPa: 101.325,
    boilC: 99.974,
    targetKPa: 103.42,
    targetC: 120.955,
    cookerWaterL: 2.5,
  },
});
const cooling = (): Stove => {
  const here = stove({}, atSea).toHold();
  return here
    .wait(89 * MINUTE)
    .answer('at')
    .to('cool') as Stove;
};
const cool = (here: Stove): CoolDown => {
  const found = estimateAt(here.batch)?.cool;
  if (!found) throw new Error('not cooling');
  return found;
};
const minutes = (here: Stove, t: number): number => (t - (here.batch.lock?.heatOffAt ?? 0)) / MINUTE;
const said = (here: Stove): string =>
  coolSentences(here.batch, tellingOf(here.batch, here.batch.header.kitchen.units)).join(' ');

describe('after heat-off', () => {
  it('before any reading the zero gauge is an estimate as wide as the loss to the room', () => {
    const here = cooling();
    const { zeroAt, readings } = cool(here);
    expect(readings).toBe(0);
    // 5.5 kg of pot, 2.5 kg of water, 2 kg of load: 4.95 + 10.55 + 6.2 = 21.7 kJ/K; UA 3.5: tau 103.3 min;
    // ln((120.955 - 22) / (99.974 - 22)) = 0.2383: 24.6 min (by hand; Newton's law).
    expect(minutes(here, zeroAt.likely)).toBeCloseTo(24.6, -0.3);
    expect(minutes(here, zeroAt.low)).toBeCloseTo(24.6 * 0.7, -0.5);
    expect(minutes(here, zeroAt.high)).toBeGreaterThan(24.6 * 1.1);
  });

  it('two readings replace it: 15 psi, and 10 psi ten minutes later, say zero 39.76 min after the first', () => {
    const here = cooling()
      .wait(2 * MINUTE)
      .answer('reading', 103.421);
    here.wait(10 * MINUTE).answer('reading', 68.948);
    const { zeroAt, readings, weak } = cool(here as Stove);
    expect({ readings, weak }).toEqual({ readings: 2, weak: false });
    // COMPUTED, science notes section f (two-reading check).
    expect(minutes(here as Stove, zeroAt.likely)).toBeCloseTo(2 + 39.76, 1);
    expect(minutes(here as Stove, zeroAt.high) - minutes(here as Stove, zeroAt.low)).toBeLessThan(12);
    expect(said(here as Stove)).toMatch(/by your readings/);
  });

  it('one reading with the hold before it, and a thermometer at the vessel, say something too', () => {
    const one = cooling()
      .wait(10 * MINUTE)
      .answer('reading', 68.948) as Stove;
    expect(cool(one).readings).toBe(1);
    expect(said(one)).toMatch(/by one reading/);
    const touched = cooling().wait(HOUR).answers('zero') as Stove;
    touched.measure(92, 'vessel').wait(HOUR).measure(76, 'vessel');
    // k = ln((92 - 22) / (76 - 22)) / 60 min; to 25 C: ln(70 / 3) / k = 728 min from the first (by hand).
    expect(minutes(touched, cool(touched).vesselAt?.likely ?? 0)).toBeCloseTo(60 + 728, -1.2);
  });

  it('one reading far below the prediction only widens it, and never brings the late end forward', () => {
    const before = cool(cooling().wait(4 * MINUTE) as Stove);
    const here = cooling()
      .wait(4 * MINUTE)
      .answer('reading', 6.895) as Stove;
    const { zeroAt, doubted } = cool(here);
    expect(doubted).toBe(true);
    expect(zeroAt.high).toBeGreaterThanOrEqual(before.zeroAt.high - MINUTE);
    expect(zeroAt.likely).toBeCloseTo(before.zeroAt.likely, -3);
    expect(zeroAt.low).toBeLessThan(before.zeroAt.low);
    expect(said(here)).toContain('read it again');
    const chamber = () => estimateAt(here.batch)?.chamberC ?? expect.fail();
    const then = chamber();
    expect(then.low).toBeLessThan(102);
    expect(then.likely).toBeGreaterThan(110);
    here.wait(MINUTE);
    const next = chamber();
    expect(Math.abs(next.likely - then.likely)).toBeLessThan(2);
    here.answer('not-zero');
    expect(chamber()).toEqual(next);
  });

  it('one reading far above the prediction makes it later', () => {
    const before = cool(cooling().wait(50 * MINUTE) as Stove);
    const here = cooling()
      .wait(50 * MINUTE)
      .answer('reading', 90) as Stove;
    expect(cool(here).doubted).toBe(true);
    expect(cool(here).zeroAt.likely).toBeGreaterThan(before.zeroAt.high);
  });

  it('zero gauge has a width whatever was read, and does not lie before a gauge seen above it', () => {
    const wide = (here: Stove) => {
      const { low, likely, high } = cool(here).zeroAt;
      expect(high - low).toBeGreaterThanOrEqual(MINUTE);
      expect(low).toBeLessThanOrEqual(likely);
      expect(likely).toBeLessThanOrEqual(high);
      return { low, likely, high };
    };
    for (const [minute, kPa] of [
      [1, 1],
      [2, 3],
      [4, 6.9],
      [15, 40],
      [30, 0.5],
    ] as const) {
      const here = cooling().wait(minute * MINUTE) as Stove;
      wide(here.answer('reading', kPa) as Stove);
      here.wait(6 * MINUTE).answer('reading', kPa / 2);
      wide(here);
      here.wait(2 * HOUR).answer('not-zero');
      expect(wide(here).low).toBeGreaterThanOrEqual(here.batch.now);
    }
  });

  it('readings that do not fall, or come at once, change nothing but say so', () => {
    const here = cooling()
      .wait(5 * MINUTE)
      .answer('reading', 80)
      .wait(10 * MINUTE)
      .answer('reading', 82) as Stove;
    expect(cool(here)).toMatchObject({ readings: 0, weak: true });
    const twice = cooling()
      .wait(5 * MINUTE)
      .answer('reading', 80)
      .answer('reading', 80) as Stove;
    expect(cool(twice)).toMatchObject({ weak: true });
  });

  it('bags are cool hours after the vessel, and the lock says when and why', () => {
    const here = cooling();
    const { bagAt, vesselAt } = cool(here);
    // Conduction of a 1 kg bag alone takes 4.5 to 7 h in open air (science notes); in the pot it is longer.
    expect(minutes(here, bagAt?.likely ?? 0) / 60).toBeGreaterThan(5);
    expect(minutes(here, bagAt?.high ?? 0) / 60).toBeLessThan(20);
    expect(vesselAt).not.toBeNull();
    const telling = tellingOf(here.batch, here.batch.header.kitchen.units);
    expect(lockWords(here.batch, telling)).toMatch(/^Touch nothing\. Zero gauge about .+ to .+\. Answer/);
    here.toAsk('shut');
    expect(lockWords(here.batch, telling)).toMatch(/Middle of the bags at 30 °C about .+ to /);
  });

  it('warns of the vacuum once it is below boiling and known to have no pressure, and not before', () => {
    const here = cooling();
    expect(said(here)).not.toMatch(/vacuum/);
    here.wait(2 * HOUR);
    // By the estimate there is no pressure any more; as long as nobody has looked at the gauge that is no news.
    expect(said(here)).not.toMatch(/vacuum/);
    here.answer('zero');
    expect(said(here)).toMatch(/under vacuum/);
  });

  it('a lid opened early ends what steam could still do', () => {
    const opened = cooling()
      .wait(5 * MINUTE)
      .trouble('lid-opened-early')
      .wait(20 * MINUTE) as Stove;
    const shut = cooling().wait(25 * MINUTE) as Stove;
    const f0 = (here: Stove) => estimateAt(here.batch)?.f0Min.likely ?? Number.NaN;
    expect(f0(opened)).toBeLessThan(f0(shut));
  });

  it('the first load keeps its curve when the second is in the cooker', () => {
    const here = stove({ loads: [1, 1] }, atSea).toHold() as Stove;
    here.to('unload');
    const first = estimateAt(here.batch, 1);
    here.to('hold', 2);
    const again = estimateAt(here.batch, 1);
    expect(again?.f0Min).toEqual(first?.f0Min);
    expect(again?.end?.f0Min).toEqual(first?.end?.f0Min);
    expect(estimateAt(here.batch)?.load).toBe(2);
  });
});
