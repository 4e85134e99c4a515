/**
 * Kills the built program at chance instants and opens it again. What the screen had shown last must be a
 * state that the journal holds, and what is shown after opening must be the journal's last state.
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { uptime } from 'node:os';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { type Entry, readEntry } from '../../src/core/batch/entry.ts';
import { readBatchHeader } from '../../src/core/batch/header.ts';
import { openAsk } from '../../src/core/batch/lockout.ts';
import { begin, step } from '../../src/core/batch/machine.ts';
import { placeOf } from '../../src/core/batch/schedule.ts';
import type { BatchEvent } from '../../src/core/batch/events.ts';
import type { Batch, BatchHeader } from '../../src/core/batch/state.ts';
import type { StepId } from '../../src/core/batch/steps.ts';
import { askWords } from '../../src/core/words/asks.ts';
import { tellingOf } from '../../src/face/format.ts';
import { answersOf } from '../../src/face/run-view.ts';
import { identifyStart } from '../../src/shell/clock.ts';
import { createJournal, readJournal } from '../../src/shell/journal.ts';
import { PLANNED_KEYS, straightThrough } from '../help/batch-drive.ts';
import { openPty, type Pty } from '../help/pty.ts';
import type { ScreenText } from '../help/screen-text.ts';
import type { Chance } from './fuzz.ts';

export interface Moment {
  readonly header: BatchHeader;
  readonly events: readonly BatchEvent[];
  readonly step: StepId;
}

/** Every moment of a batch as planned, as the events up to it. */
export function momentsOf(header: BatchHeader): readonly Moment[] {
  const { events } = straightThrough(header);
  let run = begin(header);
  const moments: Moment[] = [];
  for (const [index, event] of events.entries()) {
    const outcome = step(run, event);
    if (outcome.ok) run = outcome.run;
    if (run.batch.finishedAt === null) {
      moments.push({ header, events: events.slice(0, index + 1), step: run.batch.step });
    }
  }
  return moments;
}

const ID = '2613a';
const pathIn = (home: string) => join(home, 'batches', `${ID}.batch`);

/** The journal of a batch that another program left at this moment just now. */
export function leaveAt({ header, events }: Moment, home: string): void {
  mkdirSync(join(home, 'batches'), { recursive: true, mode: 0o700 });
  const { boot } = identifyStart();
  const ended = events.at(-1)?.t ?? 0;
  const up = uptime() * 1000;
  const beganWall = Date.now() - ended;
  const at = (t: number) => ({ uptime: up - (ended - t), boot });
  const journal = createJournal<Entry>(pathIn(home), { ...header, id: ID, beganWall, ...at(0) });
  for (const event of events)
    journal.append({ event: { ...event, wall: beganWall + event.t }, ...at(event.t) });
  journal.close();
}

/** Every state that the journal has held, oldest first. */
function statesIn(home: string): readonly Batch[] {
  const { header, entries } = readJournal(pathIn(home), readEntry);
  const known = readBatchHeader(header);
  if (!known) throw new Error('The header of the journal is gone.');
  let run = begin(known);
  const states = [run.batch];
  for (const { event } of entries) {
    const outcome = step(run, event);
    if (!outcome.ok) continue;
    run = outcome.run;
    states.push(run.batch);
  }
  return states;
}

const squeezed = (text: string): string =>
  text
    .replaceAll(/\d?\d:\d\d(:\d\d)?/g, '')
    // How long nobody watched is counted on, and written with the next beat.
    .replaceAll(/watched for [^.]*\./g, '')
    .replaceAll(/\s+/g, '');

/** What a screen must say of a batch: its place, its question, its answers. */
function saysOf(batch: Batch): readonly string[] {
  const telling = tellingOf(batch, batch.header.kitchen.units);
  const { at, of } = placeOf(batch);
  const place = batch.finishedAt === null ? `step ${at} of ${of}` : 'done';
  const answers = answersOf(batch, telling).map(({ shown, says }) => `${shown} ${says}`);
  // Long questions are cut to the lines there are.
  const question = squeezed(askWords(batch, openAsk(batch), telling)).slice(0, 60);
  return [squeezed(place), question, ...answers.map(squeezed)];
}

export class LostState extends Error {}

function check(screen: ScreenText, states: readonly Batch[], when: string): void {
  const text = squeezed(screen.text);
  // Over a list or a field only the place can be read.
  const covered = screen.tools.startsWith('Esc');
  const told = (batch: Batch) => (covered ? saysOf(batch).slice(0, 1) : saysOf(batch));
  if (states.some(batch => told(batch).every(said => text.includes(said)))) return;
  throw new LostState(
    `${when}: the screen shows what the journal does not hold.\n${screen.text}\nThe journal ends with:\n` +
      states
        .slice(-3)
        .map(batch => saysOf(batch).join(' | '))
        .join('\n'),
  );
}

const isRunning = (screen: ScreenText): boolean =>
  /step \d+ of \d+/.test(screen.head) && screen.answers !== '';

/** One press as planned, without waiting for what it does. */
async function press(program: Pty, home: string): Promise<void> {
  const batch = statesIn(home).at(-1);
  const key = batch ? PLANNED_KEYS[openAsk(batch)] : null;
  await program.press(key ?? '2');
}

export interface Killed {
  readonly kills: number;
  /** Killed while starting, before any screen. */
  readonly early: number;
  readonly steps: ReadonlySet<StepId>;
}

/** Kills the program `kills` times on the way on from this moment. Throws LostState. */
export async function killFrom(moment: Moment, kills: number, chance: Chance): Promise<Killed> {
  const home = mkdtempSync(join(tmpdir(), 'stovehand-crash-'));
  const steps = new Set<StepId>();
  let early = 0;
  try {
    leaveAt(moment, home);
    // A batch that is done is no longer opened by itself.
    const isDone = () => (statesIn(home).at(-1)?.finishedAt ?? null) !== null;
    let killed = 0;
    for (; killed < kills && !isDone(); killed += 1) {
      const program = openPty([], { home });
      const whileStarting = chance.next() < 0.15;
      if (whileStarting) {
        await pause(chance.below(500));
      } else {
        await program.until(isRunning, 'the run');
        await program.ready();
        for (let presses = 1 + chance.below(2); presses > 0; presses -= 1) await press(program, home);
        await pause(chance.below(40));
      }
      program.kill('SIGKILL');
      await program.exit;
      const screen = program.screen();
      await program.close();
      const states = statesIn(home);
      if (isRunning(screen)) check(screen, states, `Killed in ${moment.step}`);
      else early += 1;
      const now = states.at(-1);
      if (now) steps.add(now.step);
    }
    if (isDone()) return { kills: killed, early, steps };
    const again = openPty([], { home });
    try {
      const shown = await again.until(isRunning, 'the run again');
      const last = statesIn(home).at(-1);
      if (last) check(shown, [last], `Opened again in ${moment.step}`);
    } finally {
      await again.close();
    }
    return { kills: killed, early, steps };
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
}
