/** The trainee at the cooker: water, steam, valve, pressure and flame. */
import { isAwaitingGauge } from '../batch/advance.ts';
import { numbersOf } from '../batch/moves.ts';
import { nextReadingAt } from '../batch/wanted.ts';
import { flame, type Mind, type Move, wait } from './trainee-mind.ts';

const VENT_SURE_S = 60;
/** Longest wait for steam, and for pressure, before a careful trainee gives the batch up, s. */
const PATIENCE_S = 3 * 3600;
/** The flame that usually holds a pot of this size: where a trainee without a look leaves it. */
const USUAL_KNOB = 5;
/** What holds a pressure that is there; one that is not yet there never comes with it. */
const HOLDING_KNOB = 4;
const LOW_KNOB = 3;

export function lid(mind: Mind): Move {
  const water = mind.practice.look('water');
  const low = water?.kind === 'water' && water.share < 0.2;
  if (low && !mind.has('no-water')) {
    return { kind: 'deed', deed: { type: 'undo' } };
  }
  return mind.answer('lid-on');
}

export function steam(mind: Mind): Move {
  if (mind.has('no-vent')) return mind.answer('steady');
  if (mind.has('steam-by-clock')) {
    const left = mind.shortestS('heat') - mind.sinceS;
    return left > 0 ? wait(left) : mind.answer('steady');
  }
  // A gauge that rises over an open valve tells of a blocked pipe.
  if (mind.dialKPa() > 25 || mind.sinceS > PATIENCE_S) return mind.giveUp();
  if (mind.practice.knob < 10) return flame(1);
  const vent = mind.practice.look('vent');
  const { second } = mind.practice;
  if (vent?.kind !== 'vent' || vent.steam <= 0.75) {
    mind.jetSince = null;
    return wait(20);
  }
  mind.jetSince ??= second;
  return second - mind.jetSince >= VENT_SURE_S ? mind.answer('steady') : wait(20);
}

export function venting(mind: Mind): Move {
  const { batch } = mind.practice.run;
  const end = (batch.ventFrom ?? batch.now) + numbersOf(batch).ventS * 1000;
  const left = (end - batch.now) / 1000;
  if (left > 0) {
    const vent = mind.practice.look('vent');
    const blind = mind.has('steam-by-clock') || mind.has('no-vent');
    if (!blind && vent?.kind === 'vent' && vent.steam < 0.3) return mind.answer('stopped');
    return wait(blind ? left : Math.min(20, left));
  }
  return mind.answer('valve-closed');
}

export function climbing(mind: Mind): Move {
  const clock = mind.has('steam-by-clock') ? mind.shortestS('climb') : null;
  const early = mind.has('early-hold') ? 90 : clock;
  if (early !== null) return mind.sinceS < early ? wait(early - mind.sinceS) : mind.answer('at');
  const dial = mind.dialKPa();
  mind.lastDial = dial;
  if (dial >= mind.targetKPa) return mind.answer('at');
  if (mind.sinceS > PATIENCE_S) return mind.giveUp();
  return wait(dial > mind.targetKPa - 12 ? 10 : 30);
}

export function holding(mind: Mind): Move {
  if (mind.has('unwatched') || mind.has('low-flame') || mind.has('early-hold')) return holdingBlind(mind);
  const { batch } = mind.practice.run;
  const { second, knob } = mind.practice;
  const dial = mind.dialKPa();
  const below = dial < mind.targetKPa - 1.7;
  if (mind.wasAway && !mind.reported) {
    mind.reported = true;
    return { kind: 'deed', deed: { type: 'trouble', trouble: 'was-away' } };
  }
  if (mind.practice.flameOut) return flame(1);
  if (below && batch.hold.belief !== 'below') return mind.answer('below');
  if (!below && batch.hold.belief !== 'at') {
    mind.backAt = second;
    return mind.answer('at');
  }
  // A climb takes the whole flame; holding takes about half of it, and more where that has let it dip.
  const there = mind.sinceS < 60 || second - mind.backAt < 60;
  if (there && knob > USUAL_KNOB + batch.dips.length) return flame(-1);
  if (second - mind.turnedAt >= 60) {
    // Where the needle goes counts as much as where it stands.
    const trend = dial - mind.lastDial;
    const aim = dial + 2 * trend - (mind.targetKPa + 4);
    mind.turnedAt = second;
    mind.lastDial = dial;
    if (aim > 3 && knob > 1) return flame(-1);
    if (aim < -3 && knob < 10) return flame(1);
  }
  if (batch.now >= nextReadingAt(batch) && !below) return mind.answer('at');
  return wait(30);
}

/** Sets the flame where it usually holds, goes away, and calls it at target when asked at the end. */
function holdingBlind(mind: Mind): Move {
  const { batch } = mind.practice.run;
  if (batch.hold.belief !== 'at' || isAwaitingGauge(batch)) return mind.answer('at');
  const knob = mind.has('low-flame') ? LOW_KNOB : mind.has('early-hold') ? HOLDING_KNOB : USUAL_KNOB;
  if (mind.practice.knob > knob) return flame(-1);
  return wait(300);
}
