/** The trainee before the cooker: gear, grain and towels. */
import { recipeOf } from '../batch/moves.ts';
import { usualSimmerS } from './grain.ts';
import { flame, type Mind, type Move, wait } from './trainee-mind.ts';

/** Cuts of the careful: the first well before the coach asks, since a soft lot is done by then. */
const FIRST_CUT = 0.6;
const OVERCOOK_S = 1800;

export function gear(mind: Mind): Move {
  if (mind.has('no-look') || mind.looked) return mind.answer('ready');
  const gasket = mind.practice.look('gasket');
  const pipe = mind.practice.look('vent-pipe');
  const wrong =
    (gasket?.kind === 'gasket' && gasket.cracked) ||
    (pipe?.kind === 'vent-pipe' && !pipe.clear) ||
    mind.dialKPa() > 3;
  mind.looked = true;
  return mind.answer(wrong ? 'missing' : 'ready');
}

export function toSimmer(mind: Mind): Move {
  const pot = mind.practice.look('pot');
  return pot?.kind === 'pot' && pot.boiling > 0.1 ? mind.answer('simmers') : wait(30);
}

export function simmering(mind: Mind): Move {
  const { batch } = mind.practice.run;
  const { second, knob } = mind.practice;
  const pot = mind.practice.look('pot');
  if (mind.has('full-flame') && knob < 10) return flame(1);
  if (!mind.has('full-flame') && pot?.kind === 'pot' && second - mind.turnedAt >= 30) {
    mind.turnedAt = second;
    if (pot.foam > 0.3 && pot.boiling > 0.15 && knob > 1) return flame(-1);
    if (pot.foam < 0.1 && pot.boiling < 0.05 && knob < 10) return flame(1);
  }
  const left = cutAtS(mind) - batch.now / 1000;
  return left > 0 ? wait(Math.min(30, left)) : mind.answer('kernels-cut');
}

/** When the next kernels are cut, in seconds of the batch. */
function cutAtS(mind: Mind): number {
  const { batch } = mind.practice.run;
  const fromS = (batch.simmerFrom ?? batch.now) / 1000;
  const lookS = (batch.lookAt ?? batch.now) / 1000;
  if (mind.has('undercook')) return fromS;
  if (mind.has('overcook')) return lookS + OVERCOOK_S;
  if (mind.has('grain-by-clock')) return Math.max(lookS, fromS + usualSimmerS(recipeOf(batch).grain));
  const first = batch.kernels.every(({ t }) => t < fromS * 1000);
  return first ? fromS + (lookS - fromS) * FIRST_CUT : lookS;
}

export function kernels(mind: Mind): Move {
  if (mind.has('grain-by-clock') || mind.has('undercook')) return mind.answer('translucent');
  const kernel = mind.practice.look('kernel');
  const core = kernel?.kind === 'kernel' ? kernel.core : 0;
  return mind.answer(core > 0.18 ? 'white-core' : core > 0.02 ? 'thin-line' : 'translucent');
}

export function handful(mind: Mind): Move {
  if (mind.has('grain-by-clock') || mind.has('overcook')) return mind.answer('none');
  const handful = mind.practice.look('handful');
  const burst = handful?.kind === 'handful' ? handful.burst : 0;
  return mind.answer(burst > 0.3 ? 'many' : burst > 0.02 ? 'few' : 'none');
}

export function drying(mind: Mind): Move {
  const { batch } = mind.practice.run;
  const { drying } = recipeOf(batch);
  if (mind.has('wet-grain') && mind.sinceS > 900) return mind.answer('towel-laid');
  // A towel right after stirring shows the whole heap, not its top.
  if (mind.stirred && mind.sinceS >= drying.aboutS * 0.4) {
    mind.stirred = false;
    return mind.answer('towel-laid');
  }
  mind.stirred = false;
  const near = batch.towels.at(-1)?.seen === 'several';
  const every = near ? 300 : Math.min(drying.stirEveryS, 1200);
  const due = (batch.askSince + every * 1000 - batch.now) / 1000;
  if (due > 0) return wait(due);
  mind.stirred = true;
  return mind.answer('stirred');
}

export function towel(mind: Mind): Move {
  const { batch } = mind.practice.run;
  const lies = recipeOf(batch).drying.towelS - (batch.now - batch.askSince) / 1000;
  if (lies > 0) return wait(lies);
  if (mind.has('wet-grain')) return mind.answer('faint');
  const towel = mind.practice.look('towel');
  const wetness = towel?.kind === 'towel' ? towel.wetness : 0;
  if (wetness > 0.8) return mind.answer('soaked');
  return mind.answer(wetness > 0.31 ? 'several' : wetness > 0.03 ? 'faint' : 'dry');
}
