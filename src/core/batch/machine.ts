/**
 * The batch as a machine: a run and an event give the next run, or a refusal. Pure: the same journal
 * always gives the same batch. A plain step function over closed unions serves better than a statechart
 * library here, because deadlines are instants in the state and never timers (DEVELOPERS.md, decisions).
 */
import type { CoachTime } from '../time.ts';
import { advance } from './advance.ts';
import { consequence } from './consequences.ts';
import { fallBelow, settleDip } from './gauge.ts';
import { answerRefusal, dipCostRefusal, measuredRefusal, openAsk, soakEarliest } from './lockout.ts';
import { NO_HOLD, enter, leave, note, steamAgain } from './moves.ts';
import { emptyContainers } from './portions.ts';
import type { BatchEvent, Refusal, RefusalCode, TypedPurpose } from './events.ts';
import type { Batch, BatchHeader, Run } from './state.ts';
import { stepRow } from './steps.ts';
import { type TroubleId, troubleRow } from './troubles.ts';
import { reachableFrom, undo } from './undo.ts';
import { doubt, gap } from './unseen.ts';

export type Outcome =
  | { readonly ok: true; readonly run: Run }
  | { readonly ok: false; readonly refusal: Refusal };

/** How many answers can be taken back. */
export const UNDO_DEPTH = 12;

/** The words that a deliberate, typed act asks for. */
export const WORDS: Readonly<Record<TypedPurpose, string>> = {
  'end-batch': 'end',
  'open-early': 'open',
  'end-soak': 'soaked',
  'end-hold': 'short',
  'clock-right': 'right',
};

/** A batch that has just begun: first step, nothing answered. */
export function begin(header: BatchHeader): Run {
  const { loads, dryKg } = header.numbers;
  const batch: Batch = {
    header,
    now: 0,
    wall: header.beganWall,
    step: 'gear',
    ask: 'gear-check',
    since: 0,
    askSince: 0,
    times: [{ step: 'gear', load: 1, from: 0, to: null }],
    load: 1,
    dryKg,
    filling: 1,
    drainedKg: null,
    cookerWaterL: null,
    simmerFrom: null,
    lookAt: null,
    kernels: [],
    stirAt: null,
    stirredAt: null,
    towels: [],
    containers: emptyContainers(loads),
    cursor: 0,
    ventFrom: null,
    ventBreaks: 0,
    hold: NO_HOLD,
    lock: null,
    readings: [],
    measured: [],
    dips: [],
    unseen: [],
    deviations: [],
    away: null,
    claim: null,
    endedEarly: null,
    finishedAt: null,
  };
  return { batch, past: [] };
}

const refuse = (code: RefusalCode, until?: CoachTime): Outcome => ({
  ok: false,
  refusal: until === undefined ? { code } : { code, until },
});

/** Carries out what a trouble leads to (see `troubles.ts`). */
function trouble(batch: Batch, id: TroubleId): Batch {
  const noted = note(batch, id);
  switch (troubleRow(id).leads) {
    case 'note':
      return noted;
    case 'steam-again':
      return steamAgain(noted);
    case 'below':
      return fallBelow(noted);
    case 'doubt':
      return doubt(noted);
    case 'heat-off': {
      const why = id === 'over-pressure' || id === 'vent-blocked' ? id : 'water-low';
      const ended: Batch = { ...noted, endedEarly: why, away: null };
      return ended.step === 'heat-off' ? ended : enter(ended, 'heat-off');
    }
  }
}

/** Time the person vouches for. What is left of the pressure part of a lock has no override, so it stays left. */
function vouched(batch: Batch, ms: number): Batch {
  const now = batch.now + ms;
  const { lock } = batch;
  if (!lock || batch.now >= lock.pressureUntil) return { ...batch, now, claim: null };
  const pressureUntil = lock.pressureUntil + ms;
  const coolUntil = Math.max(lock.coolUntil, pressureUntil);
  return { ...batch, now, claim: null, lock: { ...lock, pressureUntil, coolUntil } };
}

/** Deliberate acts that a single key must never do. */
function typed(batch: Batch, purpose: TypedPurpose): Batch | RefusalCode {
  switch (purpose) {
    case 'end-batch': {
      const ended: Batch = {
        ...note(batch, 'ended-early'),
        endedEarly: 'by-choice',
        away: null,
        claim: null,
      };
      if (batch.step === 'cool' || batch.step === 'heat-off') return ended;
      return stepRow(batch.step).maybePressure ? enter(ended, 'heat-off') : enter(ended, 'done');
    }
    case 'open-early': {
      if (batch.ask !== 'shut' || !batch.lock || batch.now < batch.lock.pressureUntil) return 'not-here';
      if (batch.now >= batch.lock.coolUntil) return 'not-here';
      return { ...note(batch, 'opened-warm'), lock: { ...batch.lock, coolUntil: batch.now } };
    }
    case 'end-soak':
      return batch.step === 'soak' && batch.now < soakEarliest(batch)
        ? leave(note(batch, 'soak-cut-short'))
        : 'not-here';
    case 'end-hold':
      return batch.step === 'hold' && !batch.away
        ? enter(note(batch, 'hold-cut-short'), 'heat-off')
        : 'not-here';
    case 'clock-right': {
      if (!batch.claim) return 'not-here';
      return vouched(batch, batch.claim.ms);
    }
  }
}

/** Takes one event. `ok: false` leaves everything as it was and says why. */
export function step(run: Run, event: BatchEvent): Outcome {
  const before = run.batch;
  if (!Number.isFinite(event.t) || event.t < before.now) return refuse('time-ran-back');
  if (event.type === 'gap') {
    return { ok: true, run: { ...run, batch: { ...gap(before, event), wall: event.wall } } };
  }
  if (before.finishedAt !== null && event.type !== 'tick' && event.type !== 'undo') return refuse('finished');
  const batch: Batch = { ...advance(before, event.t), wall: event.wall };
  const answered = (after: Batch): Outcome => ({
    ok: true,
    run: { batch: after, past: [...reachableFrom(batch, run.past), batch].slice(-UNDO_DEPTH) },
  });
  switch (event.type) {
    case 'tick':
      return { ok: true, run: { ...run, batch } };
    case 'answer': {
      const refusal =
        answerRefusal(batch, event.ask, event.choice, event.amount) ??
        (event.dipCost ? dipCostRefusal(event.dipCost) : null);
      if (refusal) return { ok: false, refusal };
      const after = consequence(event.ask, event.choice)(batch, event.amount ?? Number.NaN);
      return answered(settleDip(after, event.dipCost));
    }
    case 'measured': {
      const { of, celsius, t } = event;
      const refusal = measuredRefusal(batch, of, celsius);
      if (refusal) return { ok: false, refusal };
      const measured = [...batch.measured, { t, load: batch.load, of, celsius }];
      return answered({ ...batch, measured });
    }
    case 'trouble': {
      const row = troubleRow(event.trouble);
      if (!row.offered || !row.steps.includes(batch.step)) return refuse('not-here');
      return openAsk(batch) === batch.ask || row.leads === 'heat-off'
        ? answered(trouble(batch, event.trouble))
        : refuse('answer-first');
    }
    case 'typed': {
      if (event.word.trim().toLowerCase() !== WORDS[event.purpose]) return refuse('word-differs');
      const after = typed(batch, event.purpose);
      if (typeof after === 'string') return refuse(after);
      // Time that was vouched for cannot be taken back, so nothing before it can be undone either.
      return event.purpose === 'clock-right'
        ? { ok: true, run: { batch: after, past: [] } }
        : answered(after);
    }
    case 'undo': {
      const last = run.past.at(-1);
      if (!last) return refuse('nothing-to-undo');
      return { ok: true, run: { batch: undo(last, batch), past: run.past.slice(0, -1) } };
    }
  }
}
