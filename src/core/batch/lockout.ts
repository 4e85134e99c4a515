/**
 * What is refused now, and until when. The face asks this to explain a key; the machine asks it again,
 * because the face is not trusted.
 */
import { SECOND } from '../time.ts';
import { ventEnd } from './advance.ts';
import { GAUGE_GRAIN_KPA } from './gauge.ts';
import { fillingKg, ZERO_TOO_SOON, numbersOf, recipeOf } from './moves.ts';
import type { DipCost, Refusal } from './events.ts';
import type { Batch, MeasuredPlace } from './state.ts';
import { type AskId, choicesOf, stepRow } from './steps.ts';

/** The question that must be answered first: a doubt about time goes before the step's own question. */
export function openAsk(batch: Batch): AskId {
  if (batch.claim) return 'clock-claim';
  if (batch.away) return batch.step === 'vent' ? 'away-steam' : 'away-gauge';
  return batch.ask;
}

/** When the towel has lain long enough to be judged. */
export const towelReady = (batch: Batch) => batch.askSince + recipeOf(batch).drying.towelS * SECOND;
/** When a soak may end. */
export const soakEarliest = (batch: Batch) => batch.since + (recipeOf(batch).soak?.shortestS ?? 0) * SECOND;
export const soakLatest = (batch: Batch) => batch.since + (recipeOf(batch).soak?.longestS ?? 0) * SECOND;

/** More culture than this, ml or g, goes into no container. */
export const MOST_DOSE = 2000;

/** Sensible bounds of a typed amount, inside units: a slip of a finger, not a judgement. */
function amountRefusal(batch: Batch, ask: AskId, amount: number): Refusal | null {
  const { recipe, kitchen, numbers } = batch.header;
  const bounds = ((): [number, number, Refusal['code'], Refusal['code']] => {
    switch (ask) {
      case 'dry-weight':
        return [0.05, kitchen.potL, 'too-little', 'too-much'];
      case 'draining':
        return [fillingKg(batch) * 0.9, fillingKg(batch) * 3, 'too-little', 'too-much'];
      case 'fill':
        return [0.02, recipe.containers.mostKg, 'too-little', 'above-filter'];
      case 'cooker-water':
        return [numbers.leastWaterL, numbers.mostWaterL, 'water-below-minimum', 'water-above-rack'];
      case 'climbing':
      case 'holding':
        // No hold begins on a reading the cooker is not made for; the refusal says to take the heat away.
        return [0, kitchen.markedMaxKPa + GAUGE_GRAIN_KPA, 'too-little', 'above-marked'];
      case 'inject':
        return [0.1, MOST_DOSE, 'too-little', 'too-much'];
      default:
        return [0, 350, 'too-little', 'too-much'];
    }
  })();
  if (!Number.isFinite(amount) || amount < bounds[0]) return { code: bounds[2], limit: bounds[0] };
  if (amount <= bounds[1]) return null;
  return { code: bounds[3], limit: bounds[3] === 'above-marked' ? kitchen.markedMaxKPa : bounds[1] };
}

/** Refusals that only time, or an answer not yet given, can lift. */
function waitRefusal(batch: Batch, choice: string): Refusal | null {
  const wait = (code: Refusal['code'], until: number) => (batch.now < until ? { code, until } : null);
  switch (batch.ask) {
    case 'soaking':
      return wait('soaking', soakEarliest(batch));
    case 'towel':
      return wait('towel-down', towelReady(batch));
    case 'venting':
      return choice === 'valve-closed' ? wait('venting', ventEnd(batch)) : null;
    case 'gauge-zero':
      return choice === 'zero' ? wait('too-soon', (batch.lock?.heatOffAt ?? 0) + ZERO_TOO_SOON) : null;
    case 'pin':
      return choice === 'down'
        ? wait('locked-pressure', batch.lock?.pressureUntil ?? Number.MAX_SAFE_INTEGER)
        : null;
    case 'shut':
      return lidRefusal(batch);
    default:
      return null;
  }
}

/** Why the lid stays on: every condition of rule S1, in the order in which they can be met. */
export function lidRefusal(batch: Batch): Refusal | null {
  const { lock, now } = batch;
  if (!lock || batch.step !== 'cool') return { code: 'not-here' };
  if (now < lock.pressureUntil) return { code: 'locked-pressure', until: lock.pressureUntil };
  if (lock.zeroAt === null || lock.zeroAt < lock.heatOffAt) return { code: 'locked-gauge' };
  if (batch.ask !== 'shut') return { code: 'locked-pin' };
  return now < lock.coolUntil ? { code: 'locked-cool', until: lock.coolUntil } : null;
}

/** Sensible readings of a kitchen thermometer at the stove, C. */
const MEASURED_C = [0, 140] as const;

/** Whether a thermometer in this place means anything in this step. */
export function canMeasure({ step, finishedAt }: Batch, of: MeasuredPlace): boolean {
  if (finishedAt !== null) return false;
  return of === 'vessel' ? step === 'cool' : stepRow(step).maybePressure;
}

/** Why a thermometer's reading is not taken, or null when it is. */
export function measuredRefusal(batch: Batch, of: MeasuredPlace, celsius: number): Refusal | null {
  if (!canMeasure(batch, of)) return { code: 'not-here' };
  const [least, most] = MEASURED_C;
  if (!Number.isFinite(celsius) || celsius < least)
    return { code: 'too-little', limit: least, of: 'temperature' };
  return celsius > most ? { code: 'too-much', limit: most, of: 'temperature' } : null;
}

/** More than this was never shown by an estimate: a hold is hours, not days. */
const MOST_ADDED_S = 6 * 3600;

/** Why an estimated cost of a dip is not taken: less than nothing would end the hold before its time. */
export function dipCostRefusal({ addS, f0Min }: DipCost): Refusal | null {
  const sound = Number.isFinite(f0Min) && f0Min >= 0;
  if (!sound || !Number.isFinite(addS) || addS < 0) return { code: 'too-little', limit: 0 };
  return addS > MOST_ADDED_S ? { code: 'too-much', limit: MOST_ADDED_S } : null;
}

/** Why this answer is not taken now, or null when it is. */
export function answerRefusal(batch: Batch, ask: AskId, choice: string, amount?: number): Refusal | null {
  if (batch.finishedAt !== null) return { code: 'finished' };
  const open = openAsk(batch);
  if (ask !== open) return { code: open === batch.ask ? 'other-question' : 'answer-first' };
  const found = choicesOf(ask).find(entry => entry.id === choice);
  // An amount where none belongs would be kept in the journal, and might not come back from it.
  if (!found || (amount !== undefined && !found.amount)) return { code: 'no-such-answer' };
  if (choice === 'clock-right') return { code: 'needs-word' };
  if (ask === batch.ask) {
    const waiting = waitRefusal(batch, choice);
    if (waiting) return waiting;
  }
  if (ask === 'fill' && choice === 'used-up' && batch.cursor === 0) return { code: 'nothing-filled' };
  if (found.amount) return amountRefusal(batch, ask, amount ?? Number.NaN);
  return ask === 'cooker-water' && numbersOf(batch).cookerWaterL < numbersOf(batch).leastWaterL
    ? { code: 'water-below-minimum', limit: numbersOf(batch).leastWaterL }
    : null;
}
