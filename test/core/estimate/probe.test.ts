import { describe, expect, it } from 'vitest';
import type { Batch } from '../../../src/core/batch/state.ts';
import { estimateAt } from '../../../src/core/estimate/estimate.ts';
import { keepingProbe, keptProbe } from '../../../src/core/estimate/probe-kept.ts';
import { probeWords } from '../../../src/core/words/estimate-probe.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { tellingOf } from '../../../src/face/format.ts';
import { finiteVolume } from '../../help/finite-volume.ts';
import { boilsAtC } from './saturation.ts';
import { type Stove, stove } from './stove-kit.ts';

const TRUE_ALPHA = 2.6e-7;
const AT = boilsAtC(103 + 93.9);
/** Minutes in the hold at which the thermometer is read. */
const READ_AT = [2, 12, 22, 32, 45, 60] as const;

/** What a thermometer in the middle of a bag would show, by the independent solver: 25 min up, 10 vent, 8 climb. */
const shown = finiteVolume(
  {
    half: [0.09, 0.055, 0.04],
    round: false,
    diffusivityM2S: TRUE_ALPHA,
    hOverK: Number.POSITIVE_INFINITY,
    startC: 21,
    chamber: [
      [0, 21],
      [25 * 60, 97.9],
      [35 * 60, 97.9],
      [43 * 60, AT],
      [140 * 60, AT],
    ],
  },
  READ_AT.map(minute => (43 + minute) * 60),
  6,
);

function probed(count: number, error = (_: number) => 0): Stove {
  const here = stove().toHold();
  let before = 0;
  for (const [index, minute] of READ_AT.slice(0, count).entries()) {
    here.wait((minute - before) * MINUTE).answer('at');
    here.measure((shown[index] ?? 0) + error(index));
    before = minute;
  }
  return here;
}
const fitOf = (here: Stove) => estimateAt(here.batch)?.probe;
const own = (alpha: number) => (header: Batch['header']) => ({
  ...header,
  kitchen: { ...header.kitchen, measuredDiffusivity: { 'bag 18x11x8': alpha } },
});

describe('a thermometer in one bag', () => {
  it('gives the diffusivity that the solver had, and f_h by the formula of a brick', () => {
    const fit = fitOf(probed(6));
    if (!fit?.ok) throw new Error(JSON.stringify(fit));
    expect(fit.diffusivityM2S / TRUE_ALPHA).toBeCloseTo(1, 1.5);
    // f_h = 0.9332 / ((1/a^2 + 1/b^2 + 1/c^2) alpha), science notes e3.
    const sum = 1 / 0.09 ** 2 + 1 / 0.055 ** 2 + 1 / 0.04 ** 2;
    expect(fit.fhS / (0.9332 / (sum * TRUE_ALPHA))).toBeCloseTo(1, 1.5);
    expect(fit.missC).toBeLessThan(1);
  });

  it('bears a degree of reading error, and narrows the band of the live estimate', () => {
    const fit = fitOf(probed(6, index => (index % 2 === 0 ? 1 : -1)));
    if (!fit?.ok) throw new Error(JSON.stringify(fit));
    expect(Math.abs(fit.diffusivityM2S / TRUE_ALPHA - 1)).toBeLessThan(0.08);
    const { diffusivity } = estimateAt(probed(6).batch) ?? {};
    expect(diffusivity?.source).toBe('probe');
    expect(diffusivity?.band.low).toBeLessThan(TRUE_ALPHA);
    expect(diffusivity?.band.high).toBeGreaterThan(TRUE_ALPHA);
  });

  it('says why it tells nothing yet', () => {
    expect(fitOf(probed(0))).toBeNull();
    expect(fitOf(probed(2))).toEqual({ ok: false, why: 'too-few' });
    const flat = stove().toHold();
    for (const _ of [1, 2, 3]) flat.wait(MINUTE).measure(60);
    expect(fitOf(flat)).toEqual({ ok: false, why: 'too-flat' });
    const wall = stove().toHold();
    for (const celsius of [118, 40, 119.5]) wall.wait(5 * MINUTE).measure(celsius);
    expect(fitOf(wall)).toEqual({ ok: false, why: 'no-fit' });
    const telling = tellingOf(wall.batch, wall.batch.header.kitchen.units);
    const estimate = estimateAt(wall.batch);
    expect(estimate && probeWords(wall.batch, estimate, telling)).toMatch(/is the tip in the middle\?/);
  });

  it('is offered to be kept when the batch is over, and the next batch counts with it', () => {
    const here = probed(6).to('done') as Stove;
    const fit = keptProbe(here.batch);
    expect(fit?.diffusivityM2S).toBeCloseTo(fitDuring(), 12);
    const change = keepingProbe(here.batch, here.batch.header.kitchen);
    const kept = change?.measuredDiffusivity?.['bag 18x11x8'] ?? Number.NaN;
    expect(kept / TRUE_ALPHA).toBeCloseTo(1, 1.5);
    const next = stove({}, own(kept))
      .toHold()
      .wait(30 * MINUTE);
    expect(estimateAt(next.batch)?.diffusivity).toMatchObject({ source: 'yours', band: { likely: kept } });
    expect(keepingProbe(stove().to('done').batch, here.batch.header.kitchen)).toBeNull();
  });
});

function fitDuring(): number {
  const fit = fitOf(probed(6).to('unload') as Stove);
  return fit?.ok ? fit.diffusivityM2S : Number.NaN;
}
