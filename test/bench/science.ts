/**
 * Speed of the two science kernels against the same arithmetic in C at -O2 (gcc), as ratios. Run with
 * `node test/bench/science.ts`. Both sides must give the same numbers, or nothing is measured.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Body } from '../../src/core/science/conduction.ts';
import { modesOf } from '../../src/core/science/heat-modes.ts';
import { type ChamberPoint, centreC, runThrough, stateOf } from '../../src/core/science/heat-penetration.ts';
import { segmentF } from '../../src/core/science/lethality.ts';
import { saturationKPa } from '../../src/core/science/steam.ts';

export interface Ratio {
  readonly name: string;
  /** Evaluations or histories in one pass. */
  readonly runs: number;
  readonly jsMs: number;
  readonly cMs: number;
  readonly aim: number;
}

const REPEATS = 41;
const AIM = 2;
const START_C = 25;
const STEP_S = 10;
const BAG: Body = { shape: 'brick', halfLengthM: 0.09, halfWidthM: 0.055, halfThicknessM: 0.04 };
const DIFFUSIVITY_M2_S = 3e-7;

const temperatures = Float64Array.from({ length: 200_000 }, (_, i) => 20 + ((i * 0.00061) % 120));

/** Twelve hours: heating, venting, climbing, 90 min of hold, and shut cooling in pieces of a minute. */
function twelveHours(): readonly ChamberPoint[] {
  const heating: [number, number][] = [
    [0, START_C],
    [25, 100],
    [35, 100],
    [43, 121],
    [133, 121],
  ];
  const cooling = Array.from({ length: 587 }, (_, i): [number, number] => [
    134 + i,
    22 + 99 * Math.exp(-(i + 1) / 139),
  ]);
  return [...heating, ...cooling].map(([minutes, celsius]) => ({ seconds: minutes * 60, celsius }));
}

function sumOfPressures(): number {
  let sum = 0;
  for (let i = 0; i < temperatures.length; i += 1) sum += saturationKPa(temperatures[i] as number);
  return sum;
}

function medianMs(pass: () => void): number {
  const times: number[] = [];
  for (let i = 0; i < REPEATS; i += 1) {
    const begun = performance.now();
    pass();
    times.push(performance.now() - begun);
  }
  times.sort((a, b) => a - b);
  return times[REPEATS >> 1] as number;
}

interface Pass {
  readonly ms: number;
  readonly results: readonly number[];
}

function inC(numbers: readonly (number | Float64Array)[]): readonly Pass[] {
  const folder = mkdtempSync(join(tmpdir(), 'stovehand-bench-'));
  try {
    const program = join(folder, 'science');
    const input = join(folder, 'input');
    const source = fileURLToPath(new URL('science.c', import.meta.url));
    execFileSync('gcc', ['-O2', '-o', program, source, '-lm']);
    const flat = numbers.flatMap(part => (typeof part === 'number' ? [part] : Array.from(part)));
    writeFileSync(input, new Uint8Array(Float64Array.from(flat).buffer));
    const printed = execFileSync(program, [input, String(REPEATS)], { encoding: 'utf8' });
    return printed
      .trim()
      .split('\n')
      .map(line => {
        const [ns = Number.NaN, ...results] = line.split(' ').map(Number);
        return { ms: ns / 1e6, results };
      });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function same(name: string, js: readonly number[], c: readonly number[]): void {
  js.forEach((value, i) => {
    const other = c[i] ?? Number.NaN;
    if (!(Math.abs(value - other) <= 1e-9 * Math.abs(value))) {
      throw new Error(`${name}: ${value} here, ${other} in C`);
    }
  });
}

export function scienceRatios(): readonly Ratio[] {
  const modes = modesOf(BAG, Number.POSITIVE_INFINITY);
  const corners = twelveHours();
  const state = () => stateOf(modes, DIFFUSIVITY_M2_S, START_C);
  const { lambda, weight, tauS } = state();
  const [saturation, history] = inC([
    temperatures.length,
    lambda.length,
    corners.length,
    tauS,
    START_C,
    STEP_S,
    temperatures,
    lambda,
    weight,
    Float64Array.from(corners.flatMap(({ seconds, celsius }) => [seconds, celsius])),
  ]);
  if (saturation === undefined || history === undefined) throw new Error('the C program printed too little');

  let sum = 0;
  const saturationMs = medianMs(() => {
    sum = sumOfPressures();
  });
  same('saturation', [sum], saturation.results);

  let minutes = 0;
  let centre = 0;
  const historyMs = medianMs(() => {
    const bag = state();
    let last = 0;
    minutes = 0;
    runThrough(bag, corners, STEP_S, (seconds, _chamber, now, before) => {
      minutes += segmentF({ seconds: seconds - last, fromC: before, toC: now });
      last = seconds;
    });
    centre = centreC(bag);
  });
  same('12-hour history', [minutes, centre], history.results);

  return [
    {
      name: 'saturation pressure',
      runs: temperatures.length,
      jsMs: saturationMs,
      cMs: saturation.ms,
      aim: AIM,
    },
    { name: '12-hour history of one bag', runs: 1, jsMs: historyMs, cMs: history.ms, aim: AIM },
  ];
}

if (import.meta.main) {
  console.log('name  js  c  ratio  aim');
  for (const { name, jsMs, cMs, aim } of scienceRatios()) {
    console.log(`${name}  ${jsMs.toFixed(3)} ms  ${cMs.toFixed(3)} ms  ${(jsMs / cMs).toFixed(2)}  ${aim}`);
  }
}
