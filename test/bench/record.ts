/**
 * Ten years of weekly batches: 520 batches, some 4,000 bags, four diary entries a bag. Prints how long the
 * record takes to open, first without summaries, then with them. Run by plain Node after a build.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { DiaryEvent } from '../../src/core/record/diary.ts';
import { DAY, HOUR, MINUTE } from '../../src/core/time.ts';
import { BEGAN_WALL } from '../help/batch-kit.ts';
import { diaryOf, type DrivenBatch, drivenBatch, fillHome, homeHeader } from '../help/record-home.ts';

const BATCHES = 520;
const BAGS = 8;
const RUNS = 7;
const AIM_MS = 500;
const root = join(import.meta.dirname, '..', '..');

/** Journals as long as real ones: a beat a minute through the night, one in five seconds where seconds count. */
function batchOf(index: number): DrivenBatch {
  const week = `${String(16 + Math.floor(index / 52)).padStart(2, '0')}${String(1 + (index % 52)).padStart(2, '0')}a`;
  const sample = index % 3 === 0 ? { jars: true, loads: [BAGS] } : { soak: false, loads: [5, 3] };
  return drivenBatch(homeHeader(week, sample, BEGAN_WALL - (BATCHES - index) * 7 * DAY), drive => {
    drive.to('hold').answer('at');
    for (let beat = 0; beat < 240; beat += 1) drive.wait(5000);
    drive.to('cool');
    for (let beat = 0; beat < (8 * HOUR) / MINUTE; beat += 1) drive.wait(MINUTE);
  });
}

function eventsOf({ header }: DrivenBatch, index: number): DiaryEvent[] {
  return Array.from({ length: BAGS }, (_, bag) => `${header.id}-${bag + 1}`).flatMap(
    (bag, number): DiaryEvent[] => [
      { type: 'looked', bag },
      { type: 'state', bag, state: 'shaken', looks: null },
      (index + number) % 9 === 0
        ? { type: 'state', bag, state: 'contaminated', looks: 'green' }
        : { type: 'state', bag, state: 'done', looks: null },
      { type: 'note', bag, text: 'white all through' },
    ],
  );
}

const home = mkdtempSync(join(tmpdir(), 'stovehand-bench-'));
try {
  const batches = Array.from({ length: BATCHES }, (_, index) => batchOf(index));
  const entries = diaryOf(batches.flatMap(eventsOf)).map((entry, index) => ({
    ...entry,
    wall: BEGAN_WALL + index,
  }));
  fillHome(home, batches, entries);
  const timed = (...args: readonly string[]): number => {
    const from = performance.now();
    const done = spawnSync(process.execPath, [...args], { stdio: ['ignore', 'ignore', 'inherit'] });
    if (done.status !== 0) throw new Error(`${args.join(' ')} failed`);
    return performance.now() - from;
  };
  const program = join(root, 'dist', 'main.js');
  const median = (values: readonly number[]): number =>
    [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
  const many = (...args: readonly string[]): number =>
    median(Array.from({ length: RUNS }, () => timed(...args)));
  const first = median(
    Array.from({ length: RUNS }, () => {
      rmSync(join(home, 'batches', 'summaries.cache'), { force: true });
      return timed(program, '--home', home, 'record');
    }),
  );
  const bare = many('-e', '0');
  const record = many(program, '--home', home, 'record');
  const due = many(program, '--home', home, 'due');
  const row = (what: string, ms: number, aimed = true): string =>
    `${what.padEnd(46)} ${String(Math.round(ms)).padStart(6)} ms  ${(ms / bare).toFixed(1).padStart(5)}x${
      aimed ? `  aim ${AIM_MS} ms: ${ms < AIM_MS ? 'met' : 'MISSED'}` : ''
    }\n`;
  process.stdout.write(
    `${BATCHES} batches, ${BATCHES * BAGS} bags, ${entries.length} diary entries; ${cpus().length} cores, Node ${process.versions.node}\n` +
      row('node -e 0', bare, false) +
      row('record, whole process', record) +
      row('due, whole process', due) +
      row('record, every journal read (no summaries)', first),
  );
} finally {
  rmSync(home, { recursive: true, force: true });
}
