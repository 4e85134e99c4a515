/**
 * Whether the person is wanted, and how urgently: a function of the batch alone, so that a coach that was
 * closed and opened again rings for the same reason.
 */
import { MINUTE, SECOND, type CoachTime } from '../time.ts';
import { holdLeftMs, ventEnd } from './advance.ts';
import { countOf } from './countdown.ts';
import { gaugeToldAt, isGaugeOverdue } from './gauge.ts';
import { openAsk, soakEarliest, soakLatest, towelReady } from './lockout.ts';
import type { Batch } from './state.ts';

export type WantedCode =
  | 'answer-doubt'
  | 'soak-earliest'
  | 'soak-latest'
  | 'look'
  | 'stir'
  | 'towel'
  | 'vent-done'
  | 'vent-soon'
  | 'below-target'
  | 'gauge-unknown'
  | 'gauge-overdue'
  | 'above-target'
  | 'hold-soon'
  | 'hold-done'
  | 'flame-on'
  | 'gauge-look'
  | 'pin-look'
  | 'cool-done'
  | 'read-gauge';

export interface Wanted {
  readonly kind: 'wanted' | 'soon' | 'well' | 'danger';
  readonly code: WantedCode;
  readonly since: CoachTime;
}

const SOON = 2 * MINUTE;
const FLAME_DANGER = 5 * MINUTE;
/** Between readings of a steady gauge; sooner at first, while the flame is still being found (common practice, no source). */
const READ_EARLY = 5 * MINUTE;
const READ_LATER = 15 * MINUTE;

/** When the gauge should be looked at next: a rhythm that slows down once it has been steady. */
export function nextReadingAt(batch: Batch): CoachTime {
  const inHold = batch.readings.filter(reading => reading.step === 'hold' && reading.t >= batch.since);
  const last = inHold.at(-1)?.t ?? batch.since;
  return last + (inHold.length < 2 ? READ_EARLY : READ_LATER);
}

/**
 * When a climbing gauge should be looked at: once the climb should be over, by its expected length; after a
 * reading when its own pace has it at target, and at the latest after the early rhythm. Null without an idea.
 */
export function climbLookAt(batch: Batch): CoachTime | null {
  const { lengths, targetKPa } = batch.header.numbers;
  const last = batch.readings.findLast(({ step, t }) => step === 'climb' && t > batch.since);
  if (!last) return lengths.climb ? batch.since + lengths.climb.likelyS * SECOND : null;
  const pace = last.kPa === null ? 0 : last.kPa / (last.t - batch.since);
  const there = pace > 0 ? batch.since + targetKPa / pace : Number.POSITIVE_INFINITY;
  return Math.min(last.t + READ_EARLY, Math.max(last.t + MINUTE, there));
}

function duringHold(batch: Batch): Wanted | null {
  const { hold, now, askSince } = batch;
  const told = batch.readings.at(-1)?.t ?? askSince;
  if (hold.belief === 'below') return { kind: 'danger', code: 'below-target', since: told };
  if (hold.belief === 'unknown') return { kind: 'wanted', code: 'gauge-unknown', since: told };
  if (isGaugeOverdue(batch)) {
    const { gaugeAnswerS = 0 } = batch.header.numbers;
    return { kind: 'wanted', code: 'gauge-overdue', since: gaugeToldAt(batch) + gaugeAnswerS * SECOND };
  }
  const left = holdLeftMs(batch);
  if (left <= SOON) return { kind: 'soon', code: 'hold-soon', since: now - (SOON - left) };
  if (hold.belief === 'above') return { kind: 'soon', code: 'above-target', since: told };
  const due = nextReadingAt(batch);
  return now >= due ? { kind: 'soon', code: 'read-gauge', since: due } : null;
}

function duringLock(batch: Batch): Wanted | null {
  const { lock, now } = batch;
  if (!lock) return null;
  if (batch.ask === 'shut') {
    return now >= lock.coolUntil ? { kind: 'well', code: 'cool-done', since: lock.coolUntil } : null;
  }
  if (now < lock.pressureUntil) return null;
  return { kind: 'soon', code: batch.ask === 'pin' ? 'pin-look' : 'gauge-look', since: lock.pressureUntil };
}

/** What the person is wanted for at this instant, or null when nothing is due. */
export function wantedNow(batch: Batch): Wanted | null {
  const { now } = batch;
  if (openAsk(batch) !== batch.ask)
    return { kind: 'wanted', code: 'answer-doubt', since: batch.away?.to ?? now };
  const due = (at: CoachTime, kind: Wanted['kind'], code: WantedCode): Wanted | null =>
    now >= at ? { kind, code, since: at } : null;
  switch (batch.ask) {
    case 'soaking':
      return (
        due(soakLatest(batch), 'wanted', 'soak-latest') ?? due(soakEarliest(batch), 'well', 'soak-earliest')
      );
    case 'simmering':
      return due(batch.lookAt ?? Number.POSITIVE_INFINITY, 'wanted', 'look');
    case 'drying':
      return due(batch.stirAt ?? Number.POSITIVE_INFINITY, 'wanted', 'stir');
    case 'towel':
      return due(towelReady(batch), 'wanted', 'towel');
    case 'venting':
      return due(ventEnd(batch), 'wanted', 'vent-done') ?? due(ventEnd(batch) - MINUTE, 'soon', 'vent-soon');
    case 'climbing':
      return due(climbLookAt(batch) ?? Number.POSITIVE_INFINITY, 'soon', 'read-gauge');
    case 'holding':
      return duringHold(batch);
    case 'flame':
      return (
        due(batch.since + FLAME_DANGER, 'danger', 'flame-on') ?? {
          kind: 'wanted',
          code: 'hold-done',
          since: batch.since,
        }
      );
    case 'gauge-zero':
    case 'pin':
    case 'shut':
      return duringLock(batch);
    default:
      return null;
  }
}

/** Whether the open question can be answered as planned without waiting any longer. */
export function isDue(batch: Batch): boolean {
  if (openAsk(batch) !== batch.ask) return true;
  switch (batch.ask) {
    case 'holding':
      return batch.hold.belief === 'below' || batch.hold.belief === 'unknown' || isGaugeOverdue(batch);
    case 'gauge-zero':
    case 'pin':
      return batch.now >= (batch.lock?.pressureUntil ?? 0);
    case 'shut':
      return batch.now >= (batch.lock?.coolUntil ?? 0);
    default: {
      const count = countOf(batch);
      return count === null || count.direction === 'up' || count.ms === 0;
    }
  }
}
