/**
 * Speed of the simulated cooker's stepping kernel against the same arithmetic in C at -O2 (gcc), and of a
 * whole practice against it. Both sides must give the same numbers.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { meanC } from '../../src/core/practice/load.ts';
import { playThrough } from '../../src/core/practice/trainee.ts';
import { stepVessel } from '../../src/core/practice/vessel-step.ts';
import { bags, practiceOf, vessel } from '../help/practice-kit.ts';

export interface Ratio {
  readonly name: string;
  readonly jsMs: number;
  readonly cMs: number;
  readonly aim: number;
}

const REPEATS = 31;
const AIM = 2;
const SIXTEEN_HOURS = 16 * 3600;
const SHUT = 3000;
const OFF = 9600;
const WATTS = 1080;
const PARTS = { roomL: 15, atmosphereKPa: 93.9, bleedM2: 3e-8, inM2: 2e-9, liftKPa: 105, ambientC: 21 };
const START = { waterKg: 2.5, bagGasL: 4, celsius: 21 };

const fresh = () => ({ cooker: vessel(PARTS, START), load: bags(6, START.celsius) });

function sixteenHours(): readonly number[] {
  const { cooker, load } = fresh();
  for (let t = 0; t < SIXTEEN_HOURS; t += 1) {
    if (t === SHUT) cooker.open = false;
    stepVessel(cooker, load, t < OFF ? WATTS : 0);
  }
  return [cooker.celsius, cooker.waterKg, meanC(load)];
}

function medianMs(pass: () => void, repeats: number): number {
  const times = Array.from({ length: repeats }, () => {
    const begun = performance.now();
    pass();
    return performance.now() - begun;
  });
  return times.sort((a, b) => a - b)[repeats >> 1] ?? Number.NaN;
}

function inC(): { readonly ms: number; readonly results: readonly number[] } {
  const { cooker, load } = fresh();
  const { parts } = cooker;
  const input = [
    ...[SIXTEEN_HOURS, SHUT, OFF, WATTS, load.share.length, load.capacityKJK],
    ...[parts.metalKJK, parts.roomL, parts.lossWK, parts.ambientC, parts.atmosphereKPa, parts.ventM2],
    ...[parts.bleedM2, parts.leakM2, parts.inM2, parts.weightM2, parts.liftKPa],
    ...[cooker.energyKJ, cooker.waterKg, cooker.airKg, cooker.bagAirKg, cooker.bagGasM3, cooker.celsius],
    ...[0, 0, 0],
    ...load.closes,
    ...load.share,
  ];
  const folder = mkdtempSync(join(tmpdir(), 'stovehand-bench-'));
  try {
    const program = join(folder, 'practice');
    const data = join(folder, 'input');
    execFileSync('gcc', ['-O2', '-o', program, fileURLToPath(new URL('practice.c', import.meta.url)), '-lm']);
    writeFileSync(data, new Uint8Array(Float64Array.from(input).buffer));
    const [ns = Number.NaN, ...results] = execFileSync(program, [data, String(REPEATS)], { encoding: 'utf8' })
      .trim()
      .split(' ')
      .map(Number);
    return { ms: ns / 1e6, results };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The stepping kernel over sixteen hours; then a whole practice of a day and a half, against the same C run. */
export function practiceRatios(): readonly Ratio[] {
  const c = inC();
  sixteenHours().forEach((value, index) => {
    const other = c.results[index] ?? Number.NaN;
    if (!(Math.abs(value - other) <= 1e-6 * Math.abs(value))) throw new Error(`${value} here, ${other} in C`);
  });
  const whole = () => playThrough(practiceOf(7, []));
  whole();
  return [
    {
      name: 'cooker, 16 h by seconds',
      jsMs: medianMs(() => sixteenHours(), REPEATS),
      cMs: c.ms,
      aim: AIM,
    },
    { name: 'a whole practice, 30 h', jsMs: medianMs(whole, 9), cMs: c.ms, aim: 8 },
  ];
}
