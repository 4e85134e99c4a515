/** The trainee after the heat is off: lock, lid, bags, warmth. */
import { WORDS } from '../batch/machine.ts';
import { type Mind, type Move, wait } from './trainee-mind.ts';

function untilPressureLock(mind: Mind): Move {
  return wait(((mind.batch.lock?.pressureUntil ?? 0) - mind.batch.now) / 1000);
}

export function zero(mind: Mind): Move {
  if (mind.batch.now < (mind.batch.lock?.pressureUntil ?? 0)) return untilPressureLock(mind);
  return mind.dialKPa() > 3 && !mind.has('no-look') ? wait(120) : mind.answer('zero');
}

export function pin(mind: Mind): Move {
  if (mind.batch.now < (mind.batch.lock?.pressureUntil ?? 0)) return untilPressureLock(mind);
  const seen = mind.practice.look('pin');
  return mind.answer(seen?.kind === 'pin' && seen.up ? 'up' : 'down');
}

/** Shares of the time from heat-off to cool after which the impatient open the lid. */
const AT_ONCE = 0;
const HALFWAY = 0.5;

export function shut(mind: Mind): Move {
  const { lock, now, endedEarly } = mind.batch;
  if (lock === null || now >= lock.coolUntil) return mind.answer('lid-open');
  const hurry = mind.has('open-early') ? AT_ONCE : mind.has('warm-inoculation') ? HALFWAY : 1;
  const from = lock.heatOffAt + hurry * (lock.coolUntil - lock.heatOffAt);
  // Nobody opens by this word while the pressure part of the lock runs.
  const opensAt = hurry < 1 && !endedEarly ? Math.max(lock.pressureUntil, from) : lock.coolUntil;
  return now < opensAt
    ? wait((opensAt - now) / 1000)
    : { kind: 'deed', deed: { type: 'typed', purpose: 'open-early', word: WORDS['open-early'] } };
}

export function lift(mind: Mind): Move {
  if (mind.has('torn-kept')) return mind.answer('rest-intact');
  const seen = mind.practice.look('container');
  return mind.answer(seen?.kind === 'container' && seen.torn ? 'torn' : 'intact');
}

export function warmth(mind: Mind): Move {
  if (mind.has('warm-inoculation')) return mind.answer('room');
  const seen = mind.practice.look('warmth');
  return seen?.kind === 'warmth' && seen.warm ? wait(1800) : mind.answer('room');
}
