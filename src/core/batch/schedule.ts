/** When every step of a running batch is expected to end: what has happened is kept, the rest is laid out from now. */
import { type LocalMinute, nightOf } from '../plan/quiet.ts';
import { forwardFrom } from '../plan/timeline.ts';
import { type PlannedStep, plannedStep } from '../plan/walk.ts';
import { type CoachTime, MINUTE, SECOND } from '../time.ts';
import { countOf } from './countdown.ts';
import { soakEarliest } from './lockout.ts';
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

export interface Walked {
  readonly step: StepId;
  readonly load: number;
}

/** The steps of this batch with every load's own, in the order they are walked. */
export function walkOf(batch: Batch): readonly Walked[] {
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
function visitMs(batch: Batch, step: StepId): number {
  const whole = (numbersOf(batch).lengths[step]?.likelyS ?? 0) * SECOND;
  return step === 'simmer' || step === 'drain' ? whole / fillingsOf(batch) : whole;
}

/** What the fillings after the present one will take. */
const fillingsAheadMs = (batch: Batch): number =>
  (fillingsOf(batch) - batch.filling) * (visitMs(batch, 'simmer') + visitMs(batch, 'drain'));

/** Soonest end of the present step: a running countdown knows it, otherwise the likely length, and never the past. */
function presentEnd(batch: Batch): CoachTime {
  const { now, since, step } = batch;
  if (step === 'soak') return Math.max(now, soakEarliest(batch));
  const count = countOf(batch);
  if (count?.direction === 'down' && count.of !== 'stir' && count.of !== 'towel' && count.of !== 'look') {
    const end = now + count.ms;
    return step === 'cool' ? Math.max(end, batch.lock?.coolUntil ?? end) : end;
  }
  const more = step === 'drain' ? fillingsAheadMs(batch) : 0;
  return Math.max(now, since + visitMs(batch, step)) + more;
}

/** What is still to be walked after the present step, with the present one before it where it waits. */
function ahead(batch: Batch, end: CoachTime, later: readonly Walked[]): readonly PlannedStep[] {
  const { lengths } = numbersOf(batch);
  const planned = ({ step, load }: Walked) => plannedStep(recipeOf(batch), lengths, step, load);
  const steps = later.map(walked => {
    const step = planned(walked);
    if (walked.step !== 'drain' || batch.step !== 'simmer') return step;
    const likelyS = (visitMs(batch, 'drain') + fillingsAheadMs(batch)) / SECOND;
    return { ...step, length: { ...step.length, likelyS } };
  });
  const present = planned(batch);
  if (!present.waits) return steps;
  const mostS = Math.max(0, batch.since / SECOND + present.mostS - end / SECOND);
  return [{ ...present, length: { lowS: 0, likelyS: 0, highS: 0 }, mostS }, ...steps];
}

/**
 * Every step with its end, laid out as the plan sheet lays them out: what needs a person stays out of the
 * night where a wait can be made longer. `local` knows the time zone, the core does not.
 */
export function scheduleOf(batch: Batch, local: LocalMinute): readonly Stop[] {
  const walk = walkOf(batch);
  const present = batch.finishedAt === null ? placeOf(batch).at - 1 : walk.length;
  const past = walk.slice(0, present).map(({ step, load }): Stop => {
    const ended = batch.times.findLast(
      time => time.step === step && (time.load === load || !stepRow(step).perLoad),
    );
    return { step, load, state: 'done', endsAt: ended?.to ?? batch.since };
  });
  if (batch.finishedAt !== null) return past;
  const end = presentEnd(batch);
  const later = walk.slice(present + 1);
  // In whole minutes like the plan, so that both name the same end.
  const from = Math.ceil((batch.wall + end - batch.now) / MINUTE) * MINUTE;
  const steps = ahead(batch, end, later);
  const { stops } = forwardFrom(from, { walk: steps, night: nightOf(batch.header.kitchen), local });
  const ends = stops.map(({ to }) => batch.now + (to - batch.wall));
  const waited = steps.length > later.length ? ends.shift() : undefined;
  const presentEnds = waited === undefined ? end : Math.max(end, waited);
  return [
    ...past,
    { step: batch.step, load: batch.load, state: 'now', endsAt: presentEnds },
    ...later.map(
      ({ step, load }, index): Stop => ({ step, load, state: 'later', endsAt: ends[index] ?? presentEnds }),
    ),
  ];
}

/** When the whole batch is expected to be done. */
export const endOf = (batch: Batch, local: LocalMinute): CoachTime =>
  batch.finishedAt ?? scheduleOf(batch, local).at(-1)?.endsAt ?? batch.now;
