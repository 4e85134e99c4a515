/** The small moves that consequences are made of: entering a step, asking, noting. Each returns a new batch. */
import { MINUTE, SECOND, type CoachTime } from '../time.ts';
import type {
  Batch,
  Container,
  Deviation,
  GaugeBelief,
  Hold,
  Lock,
  Reading,
  Unseen,
  UnseenTold,
} from './state.ts';
import { type AskId, type StepId, stepRow, stepsOf } from './steps.ts';
import type { TroubleId } from './troubles.ts';

export const NO_HOLD: Hold = {
  creditMs: 0,
  vouchedMs: 0,
  belief: 'unknown',
  dips: 0,
  lostMs: 0,
  extraMs: 0,
};

export const recipeOf = (batch: Batch) => batch.header.recipe;
export const numbersOf = (batch: Batch) => batch.header.numbers;

export const ask = (batch: Batch, id: AskId): Batch => ({ ...batch, ask: id, askSince: batch.now });

export function note(batch: Batch, trouble: TroubleId, container: number | null = null): Batch {
  const deviation: Deviation = {
    trouble,
    t: batch.now,
    step: batch.step,
    load: batch.load,
    container,
    takenBack: false,
  };
  return { ...batch, deviations: [...batch.deviations, deviation] };
}

export function read(batch: Batch, seen: GaugeBelief | 'zero', kPa: number | null): Batch {
  const reading: Reading = { t: batch.now, load: batch.load, step: batch.step, kPa, seen };
  const told = batch.step === 'hold' && seen !== 'unknown';
  const hold = told ? { ...batch.hold, vouchedMs: batch.hold.creditMs } : batch.hold;
  return { ...batch, hold, readings: [...batch.readings, reading] };
}

/**
 * From the first simmer to the first look: the recipe's, or a little before the person's own kernels used to
 * be done. Within half and twice the recipe's time, so that one odd batch cannot move it far.
 */
export function firstLookS(batch: Batch): number {
  const { firstLookS: planned, nearS } = recipeOf(batch).simmer;
  const usual = batch.header.learned?.simmerS ?? null;
  return usual === null ? planned : Math.min(2 * planned, Math.max(planned / 2, usual - nearS));
}

/** A stir falls on the moment at which the person's own grain used to be dry, when that comes sooner. */
export function nextStirAt(batch: Batch): CoachTime {
  const regular = batch.now + recipeOf(batch).drying.stirEveryS * SECOND;
  const usual = batch.header.learned?.dryingS ?? null;
  const dry = usual === null ? regular : batch.since + usual * SECOND;
  return dry > batch.now + MINUTE ? Math.min(regular, dry) : regular;
}

/** Containers of the load in the cooker. */
export const inLoad = (batch: Batch): readonly Container[] =>
  batch.containers.filter(container => container.load === batch.load);

export const lastLoad = (batch: Batch): number =>
  batch.containers.reduce((most, container) => Math.max(most, container.load), 1);

/** Index of the first container from `from` on that `wanted` picks, or -1. */
export function findContainer(batch: Batch, wanted: (container: Container) => boolean, from = 0): number {
  return batch.containers.findIndex((container, index) => index >= from && wanted(container));
}

export function changeContainer(batch: Batch, index: number, change: Partial<Container>): Batch {
  return {
    ...batch,
    containers: batch.containers.map((container, at) =>
      at === index ? { ...container, ...change } : container,
    ),
  };
}

/** Which containers a step works through, one question each. */
export function workedOn(batch: Batch, step: StepId): (container: Container) => boolean {
  switch (step) {
    case 'portion':
      return () => true;
    case 'seal':
      return container => !container.sealed;
    case 'seal-after':
      return container => container.state === 'whole' && !container.sealed;
    case 'unload':
      return container => container.load === batch.load && !container.lifted;
    case 'inoculate':
      return container => container.state === 'whole' && container.dose === null && !container.leftOut;
    default:
      return () => false;
  }
}

/** What went over its mark, or gave no steam while its gauge rose, may have a blocked vent. */
export const isVentSuspect = ({ endedEarly }: Batch): boolean =>
  endedEarly === 'over-pressure' || endedEarly === 'vent-blocked';

function lockFrom(batch: Batch, heatOffAt: CoachTime): Lock {
  const { coolS, loads } = numbersOf(batch);
  // The plan's lock is that of its fullest load; a fuller one holds more heat, at most in proportion.
  const fuller = Math.max(1, inLoad(batch).length / Math.max(1, ...loads));
  const pressureLockS = numbersOf(batch).pressureLockS * fuller;
  // A vent that may be blocked says nothing: the cooker stays shut until it is cold.
  const lockS = isVentSuspect(batch) ? Math.max(pressureLockS, coolS) : pressureLockS;
  const pressureUntil = heatOffAt + lockS * SECOND;
  // An ended batch has no containers to protect, but the pressure part is never shortened.
  const coolUntil = batch.endedEarly ? pressureUntil : Math.max(pressureUntil, heatOffAt + coolS * SECOND);
  return { heatOffAt, pressureUntil, coolUntil, zeroAt: null };
}

/** Enters a step at an instant, closing the one before it. */
export function enter(batch: Batch, step: StepId, at: CoachTime = batch.now): Batch {
  const closed = batch.times.map(time => (time.to === null ? { ...time, to: at } : time));
  const moved: Batch = {
    ...batch,
    step,
    ask: stepRow(step).opens,
    since: at,
    askSince: at,
    times: [...closed, { step, load: batch.load, from: at, to: step === 'done' ? at : null }],
  };
  const cursor = Math.max(0, findContainer(moved, workedOn(moved, step)));
  switch (step) {
    case 'surface-dry':
      return { ...moved, stirAt: nextStirAt({ ...moved, now: at }) };
    case 'load':
      return { ...moved, cookerWaterL: null, ventFrom: null, hold: NO_HOLD, lock: null };
    case 'heat':
      return { ...moved, ventFrom: null };
    case 'vent':
      return { ...moved, ventFrom: at };
    case 'cool':
      return { ...moved, lock: lockFrom(batch, at) };
    case 'portion':
    case 'seal':
    case 'seal-after':
    case 'unload':
    case 'inoculate':
      return { ...moved, cursor };
    case 'done':
      return { ...moved, finishedAt: at };
    default:
      return moved;
  }
}

/** Fillings of the pot that the weighed grain takes. */
export function fillingsOf(batch: Batch): number {
  const { potTakesKg, potFillings = 1 } = numbersOf(batch);
  return Math.max(1, potTakesKg === undefined ? potFillings : Math.ceil(batch.dryKg / potTakesKg - 1e-9));
}
/** Dry grain in the present filling, kg. */
export const fillingKg = (batch: Batch): number => batch.dryKg / fillingsOf(batch);

/** The step after this one, walking filling by filling and load by load. */
export function leave(batch: Batch, at: CoachTime = batch.now): Batch {
  if (batch.step === 'drain' && batch.filling < fillingsOf(batch)) {
    const filling = batch.filling + 1;
    return enter({ ...batch, filling, drainedKg: null, simmerFrom: null, lookAt: null }, 'simmer', at);
  }
  if (batch.step === 'unload' && batch.load < lastLoad(batch) && !batch.endedEarly) {
    return enter({ ...batch, load: batch.load + 1 }, 'load', at);
  }
  if (batch.endedEarly && (batch.step === 'cool' || !stepRow(batch.step).maybePressure)) {
    return enter(batch, 'done', at);
  }
  const steps = stepsOf(recipeOf(batch));
  const next = steps[steps.indexOf(batch.step) + 1] ?? 'done';
  const entered = enter(batch, next, at);
  const nothingLeft =
    (next === 'seal-after' || next === 'rest' || next === 'inoculate') &&
    !batch.containers.some(c => c.state === 'whole');
  return nothingLeft ? enter(batch, 'done', at) : entered;
}

/** The person has said what the gauge did while nobody watched: the doubt is over and its time is kept. */
export function recall(batch: Batch, told: UnseenTold): Batch {
  const entry: Unseen = { from: batch.away?.from ?? batch.now, to: batch.now, told };
  return { ...batch, away: null, unseen: [...batch.unseen, entry] };
}

/** Back to waiting for steady steam: what was vented or held does not count any more. */
export function steamAgain(batch: Batch): Batch {
  const given = batch.hold.creditMs;
  return {
    ...enter(batch, 'heat'),
    ventBreaks: batch.ventBreaks + (batch.step === 'vent' ? 1 : 0),
    hold: { ...NO_HOLD, dips: batch.hold.dips, lostMs: batch.hold.lostMs + given },
    away: null,
  };
}

/** A gauge answer that comes sooner than this after heat-off on a full cooker speaks of a stuck gauge. */
export const ZERO_TOO_SOON = 5 * MINUTE;
