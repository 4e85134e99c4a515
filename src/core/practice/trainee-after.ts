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

export function shut(mind: Mind): Move {
  const { lock, now, endedEarly } = mind.batch;
  const left = ((lock?.coolUntil ?? 0) - now) / 1000;
  if (left > 0 && mind.has('open-early') && !endedEarly && now >= (lock?.pressureUntil ?? 0)) {
    return { kind: 'deed', deed: { type: 'typed', purpose: 'open-early', word: WORDS['open-early'] } };
  }
  return left > 0 ? wait(left) : mind.answer('lid-open');
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
