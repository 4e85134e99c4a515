/**
 * The gauge pressure of a load as far as anybody knows it: through every number read, down where somebody said
 * "below", open while the valve was open, and to zero in the lock.
 */
import { GAUGE_GRAIN_KPA } from '../batch/gauge.ts';
import { numbersOf } from '../batch/moves.ts';
import type { Batch, Reading, StepTime } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import { readingKPa } from '../estimate/gauge.ts';
import type { CoachTime } from '../time.ts';

export interface TrackPoint {
  readonly t: CoachTime;
  readonly kPa: number;
  /** A number was read; the eye said so; or it follows from what was done. */
  readonly how: 'read' | 'said' | 'follows';
}

export const HOT_STEPS: readonly StepId[] = ['heat', 'vent', 'climb', 'hold', 'heat-off', 'cool'];

/** The hot steps of a load, in order. */
export const hotSpells = (batch: Batch, load: number): readonly StepTime[] =>
  batch.times.filter(time => time.load === load && HOT_STEPS.includes(time.step));

interface Event {
  readonly t: CoachTime;
  readonly reading: Reading | null;
}

/** Readings of a spell, and dips that nobody saw begin. */
function eventsIn(batch: Batch, { step, load, from, to }: StepTime): readonly Event[] {
  const end = to ?? batch.now;
  const readings = batch.readings.filter(
    reading => reading.load === load && reading.step === step && reading.t >= from && reading.t <= end,
  );
  const unseen =
    step === 'hold'
      ? batch.dips.filter(
          dip =>
            dip.load === load &&
            dip.from >= from &&
            dip.from < end &&
            !readings.some(({ t }) => t === dip.from),
        )
      : [];
  return [
    ...readings.map((reading): Event => ({ t: reading.t, reading })),
    ...unseen.map((dip): Event => ({ t: dip.from, reading: null })),
  ].sort((a, b) => a.t - b.t);
}

/** The track of a load; empty before its flame is lit. */
export function pressureTrack(batch: Batch, load: number): readonly TrackPoint[] {
  const { targetKPa } = numbersOf(batch);
  const points: TrackPoint[] = [];
  let level = 0;
  const put = (t: CoachTime, kPa: number, how: TrackPoint['how']): void => {
    points.push({ t, kPa, how });
    level = kPa;
  };
  const fallTo = (t: CoachTime, kPa: number, how: TrackPoint['how']): void => {
    if (level > kPa) put(t, level, 'follows');
    put(t, kPa, how);
  };
  const below = readingKPa(batch, { t: 0, load, step: 'hold', kPa: null, seen: 'below' })?.likely ?? 0;
  const take = ({ t, reading }: Event, step: StepId): void => {
    const seen = reading === null ? null : (readingKPa(batch, reading)?.likely ?? null);
    if (reading === null) fallTo(t, below, 'follows');
    else if (reading.kPa !== null) put(t, reading.kPa, 'read');
    else if (seen === null) return;
    else if (reading.seen !== 'below') put(t, seen, 'said');
    // Said of a hold that was at target, it fell just before; said again, it is as low as it was.
    else if (step === 'hold' && level >= targetKPa - GAUGE_GRAIN_KPA) fallTo(t, seen, 'said');
    else if (step === 'hold') put(t, Math.min(level, seen), 'said');
    else put(t, Math.max(level, Math.min(seen, targetKPa / 2)), 'said');
  };
  for (const spell of hotSpells(batch, load)) {
    const { step, from, to } = spell;
    const end = to ?? batch.now;
    if (step === 'heat' || step === 'vent') {
      fallTo(from, 0, 'follows');
      put(end, 0, 'follows');
      continue;
    }
    if (points.at(-1)?.t !== from) put(from, level, 'follows');
    for (const event of eventsIn(batch, spell)) take(event, step);
    if (step !== 'cool' && step !== 'climb') put(end, level, 'follows');
  }
  return points;
}
