/**
 * All of the machine, with time folded into bands: two runs are the same state when they ask the same, have
 * the same deadlines behind them and would be the same after any undo. From one run of each state every event
 * is tried, breadth first, so that the first way found to a state is a shortest one.
 */
import { holdLeftMs, ventEnd } from '../../src/core/batch/advance.ts';
import { isGaugeOverdue } from '../../src/core/batch/gauge.ts';
import { openAsk, soakEarliest, towelReady } from '../../src/core/batch/lockout.ts';
import { WORDS, begin, step } from '../../src/core/batch/machine.ts';
import type { BatchEvent, TypedPurpose } from '../../src/core/batch/events.ts';
import type { Batch, BatchHeader, Run } from '../../src/core/batch/state.ts';
import { choicesOf } from '../../src/core/batch/steps.ts';
import { troublesIn } from '../../src/core/batch/troubles.ts';
import { undo } from '../../src/core/batch/undo.ts';
import { HOUR, MINUTE, SECOND } from '../../src/core/time.ts';
import { amountsAt } from './batch-commands.ts';
import { type Onlooker, follow, onlooker } from './batch-model.ts';

const TOO_SOON = 5 * MINUTE;
const LONG = 13 * HOUR;

/** Instants at which something becomes allowed or happens by itself. */
function deadlines(batch: Batch): number[] {
  const at: number[] = [];
  if (batch.ask === 'soaking') at.push(soakEarliest(batch));
  if (batch.ask === 'towel') at.push(towelReady(batch));
  if (batch.step === 'vent') at.push(ventEnd(batch));
  if (batch.step === 'hold') at.push(batch.now + holdLeftMs(batch));
  if (batch.lock && batch.step === 'cool') {
    at.push(batch.lock.heatOffAt + TOO_SOON, batch.lock.pressureUntil, batch.lock.coolUntil);
  }
  return at;
}

const passedBy = (batch: Batch, at: number): string =>
  deadlines(batch)
    .map(deadline => (at >= deadline ? '1' : '0'))
    .join('');

/** One batch without its times: what it asks, which deadlines are behind it, what it believes. */
function bands(batch: Batch): string {
  const { hold, away, claim, lock } = batch;
  const holding =
    batch.step === 'hold' &&
    [
      hold.belief,
      hold.creditMs > 0,
      hold.vouchedMs > 0,
      isGaugeOverdue(batch),
      away && batch.now - away.from >= holdLeftMs(batch),
    ].join(' ');
  return [
    batch.step,
    batch.ask,
    batch.load,
    batch.cursor,
    passedBy(batch, batch.now),
    holding,
    away?.why,
    claim ? `claim ${passedBy(batch, batch.now + claim.ms)}` : '-',
    lock && lock.zeroAt !== null,
    batch.endedEarly,
    batch.finishedAt !== null,
    batch.kernels.at(-1)?.centre,
    batch.containers
      .map(each => [each.state, each.sealed, each.lifted, each.dose !== null, each.leftOut].join())
      .join('/'),
  ].join('|');
}

function knows(model: Onlooker, batch: Batch): string {
  const { heatOffAt, zeroAt } = model;
  const lockMs = batch.header.numbers.pressureLockS * SECOND;
  return [
    model.believed,
    model.cooking,
    model.steadyAt !== null,
    model.unseenSteam,
    model.valveClosedWell,
    heatOffAt !== null && model.clock - heatOffAt >= lockMs,
    heatOffAt !== null && zeroAt !== null && zeroAt >= heatOffAt,
  ].join();
}

function keyOf(run: Run, model: Onlooker): string {
  const keys = [bands(run.batch), knows(model, run.batch)];
  let gone = run.batch;
  for (const before of [...run.past].reverse()) {
    gone = undo(before, gone);
    keys.push(bands(gone));
  }
  return keys.join('\n');
}

type Bare = BatchEvent extends infer E ? (E extends BatchEvent ? Omit<E, 't' | 'wall'> : never) : never;

/** Everything that can happen to a run, with the time it takes. */
export function eventsAt(batch: Batch): readonly (readonly [number, Bare])[] {
  const next = deadlines(batch)
    .filter(deadline => deadline > batch.now)
    .sort((a, b) => a - b)[0];
  const waits = next === undefined ? [SECOND, LONG] : [SECOND, next - batch.now - 1, next - batch.now, LONG];
  const ask = openAsk(batch);
  return [
    ...waits.map(ms => [ms, { type: 'tick' }] as const),
    ...[MINUTE, LONG].map(ms => [ms, { type: 'gap', why: 'asleep' }] as const),
    ...[MINUTE, LONG].map(ms => [MINUTE, { type: 'gap', why: 'restart', claimedMs: ms }] as const),
    ...choicesOf(ask).flatMap(choice =>
      (choice.amount ? amountsAt(ask, batch) : [undefined]).map(
        amount =>
          [
            0,
            { type: 'answer', ask, choice: choice.id, ...(amount === undefined ? {} : { amount }) },
          ] as const,
      ),
    ),
    ...troublesIn(batch.step).map(({ id }) => [0, { type: 'trouble', trouble: id }] as const),
    ...(Object.keys(WORDS) as TypedPurpose[]).map(
      purpose => [0, { type: 'typed', purpose, word: WORDS[purpose] }] as const,
    ),
    [0, { type: 'measured', of: 'centre', celsius: 110 }],
    [0, { type: 'measured', of: 'vessel', celsius: 40 }],
    [0, { type: 'undo' }],
  ];
}

export interface Found {
  readonly run: Run;
  readonly model: Onlooker;
  /** The event that first led here, and from where; null for the beginning. */
  readonly from: { readonly index: number; readonly event: BatchEvent } | null;
}

export interface Explored {
  readonly found: readonly Found[];
  /** Edges tried and taken. */
  readonly edges: number;
  readonly refused: number;
}

/** Called for every edge that was taken, also for those that lead to a known state. */
type OnEdge = (before: Batch, event: BatchEvent, after: Batch) => void;

/** All states within reach. `undoDepth` answers can be taken back; every edge is looked at by the onlooker. */
export function explore(header: BatchHeader, undoDepth: number, onEdge?: OnEdge): Explored {
  const trim = (run: Run): Run => ({ ...run, past: undoDepth === 0 ? [] : run.past.slice(-undoDepth) });
  const first: Found = { run: begin(header), model: onlooker(), from: null };
  const found: Found[] = [first];
  const seen = new Set([keyOf(first.run, first.model)]);
  let edges = 0;
  let refused = 0;
  for (let index = 0; index < found.length; index += 1) {
    const here = found[index];
    if (!here) break;
    const { batch } = here.run;
    for (const [ms, bare] of eventsAt(batch)) {
      const event = { ...bare, t: batch.now + ms, wall: batch.wall + ms } as BatchEvent;
      const outcome = step(here.run, event);
      if (!outcome.ok) {
        refused += 1;
        continue;
      }
      edges += 1;
      const run = trim(outcome.run);
      const model = follow(here.model, event, batch, run.batch);
      onEdge?.(batch, event, run.batch);
      const key = keyOf(run, model);
      if (seen.has(key)) continue;
      seen.add(key);
      found.push({ run, model, from: { index, event } });
    }
  }
  return { found, edges, refused };
}

/** The events of a shortest way to a state. */
export function wayTo(explored: Explored, index: number): readonly BatchEvent[] {
  const way: BatchEvent[] = [];
  for (let at = explored.found[index]; at?.from; at = explored.found[at.from.index])
    way.unshift(at.from.event);
  return way;
}
