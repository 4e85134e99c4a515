/**
 * A trainee that plays by itself: it looks before every answer and only uses what a person could see, hear
 * and press. Mistakes are habits that can be put into it.
 */
import { openAsk } from '../batch/lockout.ts';
import { recipeOf } from '../batch/moves.ts';
import type { AskId } from '../batch/steps.ts';
import type { Mistake } from './mistakes.ts';
import type { Practice } from './practice.ts';
import { lift, pin, shut, warmth, zero } from './trainee-after.ts';
import { drying, gear, handful, kernels, simmering, toSimmer, towel } from './trainee-grain.ts';
import { Mind, type Move, wait } from './trainee-mind.ts';
import { climbing, holding, lid, steam, venting } from './trainee-stove.ts';

/** An answer that needs no thought, by its name. */
const plain =
  (choice: string) =>
  (mind: Mind): Move =>
    mind.answer(choice);

/** What is done at every question. */
const HABITS: Readonly<Record<AskId, (mind: Mind) => Move>> = {
  'gear-check': gear,
  'dry-weight': plain('as-planned'),
  soaking: mind => {
    const left = (recipeOf(mind.batch).soak?.shortestS ?? 0) - mind.sinceS;
    return left > 0 ? wait(left) : mind.answer('soaked');
  },
  'simmer-start': toSimmer,
  simmering,
  'kernel-centre': kernels,
  burst: handful,
  draining: plain('drained'),
  drying,
  towel,
  fill: plain('rest-as-planned'),
  seam: plain('rest-sealed'),
  'cooker-water': plain('as-planned'),
  lid,
  steam,
  venting,
  climbing,
  holding,
  flame: plain('flame-off'),
  'gauge-zero': zero,
  pin,
  shut,
  lifted: lift,
  warmth,
  clean: plain('clean'),
  inject: plain('rest-as-planned'),
  finished: () => wait(1),
  'away-steam': plain('unknown'),
  'away-gauge': mind => mind.answer(mind.dialKPa() < mind.targetKPa - 2 ? 'fell-below-now' : 'fell-back-now'),
  'clock-claim': plain('clock-wrong'),
};

const UNDER_FIRE: readonly string[] = ['heat', 'vent', 'climb', 'hold'];

export class Trainee {
  readonly #mind: Mind;

  constructor(practice: Practice, mistakes: readonly Mistake[]) {
    this.#mind = new Mind(practice, mistakes);
  }

  /** What this trainee does next. */
  next(): Move {
    const { practice, batch } = this.#mind;
    if (practice.awayUntil !== null) {
      this.#mind.wasAway = true;
      return wait(practice.awayUntil - practice.second + 1);
    }
    const burnt = practice.senses.some(({ code }) => code === 'burnt-smell');
    if (burnt && batch.endedEarly === null && UNDER_FIRE.includes(batch.step)) {
      return { kind: 'deed', deed: { type: 'trouble', trouble: 'water-low' } };
    }
    return HABITS[openAsk(batch)](this.#mind);
  }
}

const MOST_MOVES = 200_000;

/** Plays a practice to its end. Throws when the trainee gets nowhere, which is a fault of the program. */
export function playThrough(practice: Practice, mistakes: readonly Mistake[] = []): void {
  const trainee = new Trainee(practice, mistakes);
  for (let moves = 0; practice.run.batch.finishedAt === null; moves += 1) {
    if (moves > MOST_MOVES) throw new Error(`The trainee is stuck at ${openAsk(practice.run.batch)}.`);
    doMove(practice, trainee.next());
  }
}

/** Carries out one move; a refused answer costs half a minute, so that nobody hammers. */
export function doMove(practice: Practice, move: Move): void {
  if (move.kind === 'wait') practice.pass(move.seconds);
  else if (move.kind === 'flame') {
    practice.turnFlame(move.by);
    practice.pass(1);
  } else if (practice.send(move.deed) !== null) practice.pass(30);
  else practice.pass(2);
}
