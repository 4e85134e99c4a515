/** What a running screen costs: key to frame, CPU and bytes while a countdown runs, memory after hours. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { SAME_KEY_MS } from '../../src/face/key-guard.ts';
import { leaveAt, momentsOf } from '../faults/crash-driver.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { type Child, dropHome, type Figure, newHome, PROGRAM, quantile, startNode } from './measure.ts';

const WARM_UP = 20;
const READY = /\?2004h/;

/** A batch of wheat on the screen, at its first step. */
async function begun(home: string, columns: number, rows: number): Promise<Child> {
  const child = startNode([PROGRAM, 'run', 'wheat-first-run'], { home, columns, rows });
  await child.seen(READY);
  await child.seen(/begin this batch/);
  await pause(SAME_KEY_MS);
  child.write(' ');
  await child.seen(/all there/);
  return child;
}

/** Time from the byte of a key to the end of the frame that shows it, ms: opening and closing a panel. */
async function keyToFrame(columns: number, rows: number, presses: number): Promise<readonly number[]> {
  const home = newHome();
  const child = await begun(home, columns, rows);
  const sample: number[] = [];
  // Ends of synchronised output (DEC private mode 2026): the frame is there.
  const frame = /\[\?2026l/;
  // The first presses of each panel are left out: their code is being compiled.
  for (let press = -WARM_UP; press < presses; press += 1) {
    await pause(160);
    const from = child.written().length;
    const at = performance.now();
    child.write(press % 2 === 0 ? '?' : 'x');
    const took = (await child.seen(frame, from)) - at;
    if (press >= 0) sample.push(took);
  }
  await child.end();
  dropHome(home);
  return sample;
}

const ticksPerSecond = (): number => {
  try {
    return Number(execFileSync('getconf', ['CLK_TCK'], { encoding: 'utf8' }).trim()) || 100;
  } catch {
    return 100;
  }
};
/** CPU seconds of a process so far, its own and the kernel's for it (Linux, proc(5), fields 14 and 15). */
function cpuSeconds(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'latin1')
    .replace(/^.*\) /, '')
    .split(' ');
  return (Number(fields[11]) + Number(fields[12])) / ticksPerSecond();
}
const residentMB = (pid: number): number =>
  Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'latin1'))?.[1] ?? Number.NaN) / 1024;

/** Keys up to the simmer, whose countdown then runs by itself. */
async function counting(home: string, columns: number, rows: number): Promise<Child> {
  const child = await begun(home, columns, rows);
  for (const [key, then] of [
    [' ', /water on/],
    [' ', /it simmers/],
    [' ', /kernels are cut/],
  ] as const) {
    await pause(SAME_KEY_MS + 50);
    child.write(key);
    await child.seen(then);
  }
  return child;
}

export async function screen(seconds = 60, presses = 200): Promise<readonly Figure[]> {
  const figures: Figure[] = [];
  for (const [columns, rows, aim] of [
    [80, 24, 16],
    [200, 60, 33],
  ] as const) {
    const sample = await keyToFrame(columns, rows, presses);
    const [half, worst] = [quantile(sample, 0.5), quantile(sample, 0.99)];
    figures.push({
      name: `key to frame, ${columns}x${rows}`,
      figure: `p50 ${half.toFixed(1)} ms, p99 ${worst.toFixed(1)} ms`,
      ratio: `${presses} keys`,
      aim: `p99 < ${aim} ms`,
      met: worst < aim,
    });
  }
  const home = newHome();
  const child = await counting(home, 80, 24);
  // What V8 does once, in the first half minute of a program, is no part of a minute of a night.
  await pause(30_000);
  const [cpu, bytes] = [cpuSeconds(child.pid), Buffer.byteLength(child.written())];
  await pause(seconds * 1000);
  const perMinute = 60 / seconds;
  const used = (cpuSeconds(child.pid) - cpu) * perMinute;
  const wrote = ((Buffer.byteLength(child.written()) - bytes) * perMinute) / 1000;
  figures.push(
    {
      name: 'countdown, CPU',
      figure: `${used.toFixed(2)} s a minute`,
      ratio: `over ${seconds} s`,
      aim: '<= 0.35 s',
      met: used <= 0.35,
    },
    {
      name: 'countdown, bytes',
      figure: `${wrote.toFixed(1)} kB a minute`,
      ratio: `over ${seconds} s`,
      aim: '<= 20 kB',
      met: wrote <= 20,
    },
    {
      name: 'memory, one minute',
      figure: `${residentMB(child.pid).toFixed(0)} MB`,
      ratio: '',
      aim: '',
      met: null,
    },
  );
  await child.end();
  dropHome(home);
  return figures;
}

/** Twelve hours of a hold with its plot, drawn fifty times a second for three minutes: what the process then holds. */
export async function memory(factor = 240): Promise<readonly Figure[]> {
  const holdS = 14 * 3600;
  const sample = sampleHeader({ loads: [1] });
  const moment = momentsOf({
    ...sample,
    recipe: { ...sample.recipe, holdS },
    numbers: { ...sample.numbers, holdS, lengths: {} },
  }).find(({ step }) => step === 'hold');
  if (!moment) throw new Error('No moment of holding.');
  const home = newHome();
  leaveAt(moment, home);
  // The clock jumps from tick to tick, so that ten frames stand for a minute; the number of frames counts.
  const env = { STOVEHAND_TEST_CLOCK: String(factor) };
  const child = startNode([PROGRAM], { home, columns: 200, rows: 60, env });
  await child.seen(/stayed at target/);
  await pause(SAME_KEY_MS);
  child.write('2');
  await child.seen(/left of/);
  const hour = (3600 / factor) * 1000;
  // One look may fall just behind a collection, so the most of the second half is told as well.
  let [held, most] = [0, 0];
  for (let passed = 1; passed <= 12; passed += 1) {
    await pause(hour);
    held = residentMB(child.pid);
    if (passed > 6) most = Math.max(most, held);
  }
  const drawn = child.written().split('[?2026l').length;
  await child.end();
  dropHome(home);
  return [
    {
      name: 'memory, 12 test-clock hours',
      figure: `${held.toFixed(0)} MB, at most ${most.toFixed(0)}`,
      ratio: `${drawn} frames at 200x60 with a plot`,
      aim: '<= 110 MB',
      met: held <= 110,
    },
  ];
}
