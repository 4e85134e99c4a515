/**
 * Ten years of weekly batches: 520 batches, some 4,000 bags, four diary entries a bag. How long the record takes
 * to open, with summaries of the batches and without.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { DiaryEvent } from '../../src/core/record/diary.ts';
import { DAY, HOUR, MINUTE } from '../../src/core/time.ts';
import { BEGAN_WALL } from '../help/batch-kit.ts';
import { diaryOf, type DrivenBatch, drivenBatch, fillHome, homeHeader } from '../help/record-home.ts';
import { median, PROGRAM } from './measure.ts';

const BATCHES = 520;
const BAGS = 8;
const RUNS = 7;
const AIM_MS = 500;

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

export interface Opening {
  readonly name: string;
  readonly ms: number;
  readonly bareMs: number;
  readonly aimMs: number;
}

/** Whole processes, from the spawn to the end; `bareMs` is Node doing nothing in the same run. */
export function recordOpenings(): readonly Opening[] {
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
    const many = (pass: () => number): number => median(Array.from({ length: RUNS }, pass));
    const first = many(() => {
      rmSync(join(home, 'batches', 'summaries.cache'), { force: true });
      return timed(PROGRAM, '--home', home, 'record');
    });
    const bareMs = many(() => timed('-e', '0'));
    const row = (name: string, ms: number): Opening => ({ name, ms, bareMs, aimMs: AIM_MS });
    return [
      row(
        `record of ${BATCHES} batches, ${BATCHES * BAGS} bags`,
        many(() => timed(PROGRAM, '--home', home, 'record')),
      ),
      row('the same with every journal read', first),
      row(
        'what is due, of the same',
        many(() => timed(PROGRAM, '--home', home, 'due')),
      ),
    ];
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
}
