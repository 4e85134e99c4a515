/** When every step of a running batch is expected to end: what has happened is kept, the rest is laid out from now. */
import type { CoachTime } from '../time.ts';
import { countOf } from './countdown.ts';
import { fillingsOf, lastLoad, numbersOf, recipeOf } from './moves.ts';
import type { Batch } from './state.ts';
import { type StepId, stepRow, stepsOf } from './steps.ts';

export interface Stop {
  readonly step: StepId;
  readonly load: number;
  readonly state: 'done' | 'now' | 'later';
  /** When it ended, or is expected to. */
  readonly endsAt: CoachTime;
}

/** The steps of this batch with every load's own, in the order they are walked. */
export function walkOf(batch: Batch): readonly { step: StepId; load: number }[] {
  const steps = stepsOf(recipeOf(batch));
  const loads = lastLoad(batch);
  const before = steps.slice(0, steps.indexOf('load')).map(step => ({ step, load: 1 }));
  const each = steps.filter(step => stepRow(step).perLoad);
  const cooked = Array.from({ length: loads }, (_, index) =>
    each.map(step => ({ step, load: index + 1 })),
  ).flat();
  const after = steps.slice(steps.indexOf('unload') + 1).map(step => ({ step, load: loads }));
  return [...before, ...cooked, ...after];
}

/** Place of the present step among all that are walked, from 1. */
export function placeOf(batch: Batch): { readonly at: number; readonly of: number } {
  const walk = walkOf(batch).filter(({ step }) => step !== 'done');
  const index = walk.findIndex(
    ({ step, load }) => step === batch.step && (load === batch.load || !stepRow(step).perLoad),
  );
  return { at: index < 0 ? walk.length : index + 1, of: walk.length };
}

/** Likely length of one visit: simmer and drain are visited once for each filling of the pot. */
function likelyMs(batch: Batch, step: StepId): number {
  const whole = (numbersOf(batch).lengths[step]?.likelyS ?? 0) * 1000;
  return step === 'simmer' || step === 'drain' ? whole / fillingsOf(batch) : whole;
}

/** What the fillings after the present one will take. */
const fillingsAhead = (batch: Batch): number =>
  (fillingsOf(batch) - batch.filling) * (likelyMs(batch, 'simmer') + likelyMs(batch, 'drain'));

/** Expected end of the present step: a running countdown knows it, otherwise the likely length, and never the past. */
function presentEnd(batch: Batch): CoachTime {
  const count = countOf(batch);
  if (count?.direction === 'down' && count.of !== 'stir' && count.of !== 'towel' && count.of !== 'look') {
    const end = batch.now + count.ms;
    return batch.step === 'cool' ? Math.max(end, batch.lock?.coolUntil ?? end) : end;
  }
  return Math.max(batch.now, batch.since + likelyMs(batch, batch.step));
}

/** Every step with its end. */
export function scheduleOf(batch: Batch): readonly Stop[] {
  const walk = walkOf(batch);
  const { at } = placeOf(batch);
  const present = batch.finishedAt === null ? at - 1 : walk.length;
  let clock = presentEnd(batch);
  return walk.map(({ step, load }, index) => {
    if (index < present) {
      const ended = batch.times.findLast(
        time => time.step === step && (time.load === load || !stepRow(step).perLoad),
      );
      return { step, load, state: 'done', endsAt: ended?.to ?? batch.since };
    }
    if (index > present) clock += likelyMs(batch, step);
    if (step === 'drain') clock += fillingsAhead(batch);
    return { step, load, state: index === present ? 'now' : 'later', endsAt: clock };
  });
}

/** When the whole batch is expected to be done. */
export const endOf = (batch: Batch): CoachTime =>
  batch.finishedAt ?? scheduleOf(batch).at(-1)?.endsAt ?? batch.now;
