/**
 * A trainee that plays by itself: it looks before every answer and only uses what a person could see, hear
 * and press. Mistakes are habits that can be put into it.
 */
import { openAsk } from '../batch/lockout.ts';
import { WORDS } from '../batch/machine.ts';
import type { AskId } from '../batch/steps.ts';
import { numbersOf, recipeOf } from '../batch/moves.ts';
import { nextReadingAt } from '../batch/wanted.ts';
import type { Deed } from '../session.ts';
import type { Mistake } from './mistakes.ts';
import type { Practice } from './practice.ts';

export type Move =
  | { readonly kind: 'wait'; readonly seconds: number }
  | { readonly kind: 'flame'; readonly by: 1 | -1 }
  | { readonly kind: 'deed'; readonly deed: Deed };

const wait = (seconds: number): Move => ({ kind: 'wait', seconds: Math.max(1, Math.round(seconds)) });
const flame = (by: 1 | -1): Move => ({ kind: 'flame', by });

const VENT_SURE_S = 60;
/** Cuts of the careful: the first well before the coach asks, since a soft lot is done by then. */
const FIRST_CUT = 0.6;
/** A trainee without a look drains when the plan expects it, five minutes after the first look. */
const USUAL_AFTER_S = 300;
const OVERCOOK_S = 1800;
const UNDERCOOK_S = 120;
/** Longest wait for steam, and for pressure, before a careful trainee gives the batch up, s. */
const PATIENCE_S = 3 * 3600;
/** The flame that usually holds a pot of this size: where a trainee without a look leaves it. */
const USUAL_KNOB = 5;
const LOW_KNOB = 3;

export class Trainee {
  readonly #practice: Practice;
  readonly #mistakes: ReadonlySet<Mistake>;
  #jetSince: number | null = null;
  #mended = false;
  #stirred = -1;
  #wasAway = false;
  #reported = false;
  #turnedAt = 0;
  #lastDial = 0;

  constructor(practice: Practice, mistakes: readonly Mistake[]) {
    this.#practice = practice;
    this.#mistakes = new Set(mistakes);
  }

  #has(mistake: Mistake): boolean {
    return this.#mistakes.has(mistake);
  }
  #answer(choice: string, amount?: number): Move {
    const ask = openAsk(this.#practice.run.batch);
    return {
      kind: 'deed',
      deed: { type: 'answer', ask, choice, ...(amount === undefined ? {} : { amount }) },
    };
  }
  get #batch() {
    return this.#practice.run.batch;
  }
  get #since(): number {
    return (this.#batch.now - this.#batch.since) / 1000;
  }
  #likelyS(step: string): number {
    return numbersOf(this.#batch).lengths[step]?.likelyS ?? 0;
  }
  #dialKPa(): number {
    const sight = this.#practice.look('dial');
    return sight?.kind === 'dial' ? sight.kPa : 0;
  }

  /** What this trainee does next. */
  next(): Move {
    const { awayUntil, second } = this.#practice;
    if (awayUntil !== null) {
      this.#wasAway = true;
      return wait(awayUntil - second + 1);
    }
    if (this.#smells()) return { kind: 'deed', deed: { type: 'trouble', trouble: 'water-low' } };
    return this.#onAsk(openAsk(this.#batch));
  }

  #smells(): boolean {
    const { batch } = this.#practice.run;
    const burnt = this.#practice.senses.at(-1)?.code === 'burnt-smell';
    return burnt && batch.endedEarly === null && ['heat', 'vent', 'climb', 'hold'].includes(batch.step);
  }
  #giveUp(): Move {
    return { kind: 'deed', deed: { type: 'typed', purpose: 'end-batch', word: WORDS['end-batch'] } };
  }

  #onAsk(ask: AskId): Move {
    switch (ask) {
      case 'gear-check':
        return this.#gear();
      case 'soaking': {
        const until = (recipeOf(this.#batch).soak?.shortestS ?? 0) - this.#since;
        return until > 0 ? wait(until) : this.#answer('soaked');
      }
      case 'simmer-start':
        return this.#toSimmer();
      case 'simmering':
        return this.#simmering();
      case 'kernel-centre':
        return this.#kernels();
      case 'burst':
        return this.#handful();
      case 'draining':
        return this.#answer('drained');
      case 'drying':
        return this.#drying();
      case 'towel':
        return this.#towel();
      case 'fill':
        return this.#answer('rest-as-planned');
      case 'seam':
        return this.#answer('rest-sealed');
      case 'lid':
        return this.#lid();
      case 'steam':
        return this.#steam();
      case 'venting':
        return this.#venting();
      case 'climbing':
        return this.#climbing();
      case 'holding':
        return this.#holding();
      case 'flame':
        return this.#answer('flame-off');
      case 'away-gauge':
        return this.#answer(this.#dialKPa() < this.#targetKPa - 2 ? 'fell-below-now' : 'fell-back-now');
      case 'away-steam':
        return this.#answer('unknown');
      case 'gauge-zero':
        return this.#zero();
      case 'pin': {
        const pin = this.#practice.look('pin');
        if (this.#batch.now < (this.#batch.lock?.pressureUntil ?? 0)) return this.#untilPressureLock();
        return this.#answer(pin?.kind === 'pin' && pin.up ? 'up' : 'down');
      }
      case 'shut':
        return this.#shut();
      case 'lifted':
        return this.#lift();
      case 'warmth':
        return this.#warmth();
      case 'clean':
        return this.#answer('clean');
      case 'inject':
        return this.#answer('rest-as-planned');
      case 'clock-claim':
        return this.#answer('clock-wrong');
      case 'finished':
        return wait(1);
      default:
        return this.#answer('as-planned');
    }
  }

  #gear(): Move {
    if (this.#has('no-look') || this.#mended) return this.#answer('ready');
    const gasket = this.#practice.look('gasket');
    const pipe = this.#practice.look('vent-pipe');
    const wrong =
      (gasket?.kind === 'gasket' && gasket.cracked) ||
      (pipe?.kind === 'vent-pipe' && !pipe.clear) ||
      this.#dialKPa() > 3;
    this.#mended = true;
    return this.#answer(wrong ? 'missing' : 'ready');
  }

  #toSimmer(): Move {
    const pot = this.#practice.look('pot');
    return pot?.kind === 'pot' && pot.boiling > 0.1 ? this.#answer('simmers') : wait(30);
  }

  #simmering(): Move {
    const { batch } = this.#practice.run;
    const { second, knob } = this.#practice;
    const pot = this.#practice.look('pot');
    if (this.#has('full-flame') && knob < 10) return flame(1);
    if (!this.#has('full-flame') && pot?.kind === 'pot' && second - this.#turnedAt >= 30) {
      this.#turnedAt = second;
      if (pot.foam > 0.3 && pot.boiling > 0.15 && knob > 1) return flame(-1);
      if (pot.foam < 0.1 && pot.boiling < 0.05 && knob < 10) return flame(1);
    }
    const left = this.#cutAtS() - batch.now / 1000;
    return left > 0 ? wait(Math.min(30, left)) : this.#answer('kernels-cut');
  }

  /** When the next kernels are cut, in seconds of the batch. */
  #cutAtS(): number {
    const { batch } = this.#practice.run;
    const fromS = (batch.simmerFrom ?? batch.now) / 1000;
    const lookS = (batch.lookAt ?? batch.now) / 1000;
    if (this.#has('undercook')) return fromS + UNDERCOOK_S;
    if (this.#has('overcook')) return lookS + OVERCOOK_S;
    if (this.#has('grain-by-clock')) return lookS + USUAL_AFTER_S;
    return batch.kernels.length === 0 ? fromS + (lookS - fromS) * FIRST_CUT : lookS;
  }

  #kernels(): Move {
    if (this.#has('grain-by-clock') || this.#has('undercook')) return this.#answer('translucent');
    const kernel = this.#practice.look('kernel');
    const core = kernel?.kind === 'kernel' ? kernel.core : 0;
    return this.#answer(core > 0.18 ? 'white-core' : core > 0.02 ? 'thin-line' : 'translucent');
  }

  #handful(): Move {
    if (this.#has('grain-by-clock') || this.#has('overcook')) return this.#answer('none');
    const handful = this.#practice.look('handful');
    const burst = handful?.kind === 'handful' ? handful.burst : 0;
    return this.#answer(burst > 0.3 ? 'many' : burst > 0.02 ? 'few' : 'none');
  }

  #drying(): Move {
    const { batch } = this.#practice.run;
    const { drying } = recipeOf(batch);
    if (this.#has('wet-grain') && this.#since > 900) return this.#answer('towel-laid');
    // A towel right after stirring shows the whole heap, not its top.
    if (this.#stirred >= 0 && this.#since >= drying.aboutS * 0.4) {
      this.#stirred = -1;
      return this.#answer('towel-laid');
    }
    this.#stirred = -1;
    const near = batch.towels.at(-1)?.seen === 'several';
    const every = near ? 300 : Math.min(drying.stirEveryS, 1200);
    const due = (batch.askSince + every * 1000 - batch.now) / 1000;
    if (due > 0) return wait(due);
    this.#stirred = this.#practice.second;
    return this.#answer('stirred');
  }

  #towel(): Move {
    const { batch } = this.#practice.run;
    const lies = recipeOf(batch).drying.towelS - (batch.now - batch.askSince) / 1000;
    if (lies > 0) return wait(lies);
    if (this.#has('wet-grain')) return this.#answer('faint');
    const towel = this.#practice.look('towel');
    const wetness = towel?.kind === 'towel' ? towel.wetness : 0;
    if (wetness > 0.8) return this.#answer('soaked');
    return this.#answer(wetness > 0.31 ? 'several' : wetness > 0.03 ? 'faint' : 'dry');
  }

  #lid(): Move {
    const water = this.#practice.look('water');
    const low = water?.kind === 'water' && water.share < 0.2;
    if (low && !this.#has('no-water')) {
      return { kind: 'deed', deed: { type: 'undo' } };
    }
    return this.#answer('lid-on');
  }

  #steam(): Move {
    if (this.#has('no-vent')) return this.#answer('steady');
    if (this.#has('steam-by-clock')) {
      const left = this.#likelyS('heat') - this.#since;
      return left > 0 ? wait(left) : this.#answer('steady');
    }
    // A gauge that rises over an open valve tells of a blocked pipe.
    if (this.#dialKPa() > 25 || this.#since > PATIENCE_S) return this.#giveUp();
    if (this.#practice.knob < 10) return flame(1);
    const vent = this.#practice.look('vent');
    const { second } = this.#practice;
    if (vent?.kind !== 'vent' || vent.steam <= 0.75) {
      this.#jetSince = null;
      return wait(20);
    }
    this.#jetSince ??= second;
    return second - this.#jetSince >= VENT_SURE_S ? this.#answer('steady') : wait(20);
  }

  #venting(): Move {
    const { batch } = this.#practice.run;
    const end = (batch.ventFrom ?? batch.now) + numbersOf(batch).ventS * 1000;
    const left = (end - batch.now) / 1000;
    if (left > 0) {
      const vent = this.#practice.look('vent');
      const blind = this.#has('steam-by-clock') || this.#has('no-vent');
      if (!blind && vent?.kind === 'vent' && vent.steam < 0.3) return this.#answer('stopped');
      return wait(blind ? left : Math.min(20, left));
    }
    return this.#answer('valve-closed');
  }

  get #targetKPa(): number {
    return numbersOf(this.#batch).targetKPa;
  }

  #climbing(): Move {
    const clock = this.#has('steam-by-clock') ? this.#likelyS('climb') : null;
    const early = this.#has('early-hold') ? 90 : clock;
    if (early !== null) return this.#since < early ? wait(early - this.#since) : this.#answer('at');
    const dial = this.#dialKPa();
    this.#lastDial = dial;
    if (dial >= this.#targetKPa) return this.#answer('at');
    if (this.#since > PATIENCE_S) return this.#giveUp();
    return wait(dial > this.#targetKPa - 12 ? 10 : 30);
  }

  #holding(): Move {
    if (this.#has('unwatched') || this.#has('low-flame') || this.#has('early-hold'))
      return this.#holdingBlind();
    const { batch } = this.#practice.run;
    const { second, knob } = this.#practice;
    const dial = this.#dialKPa();
    const below = dial < this.#targetKPa - 1.7;
    if (this.#wasAway && !this.#reported) {
      this.#reported = true;
      return { kind: 'deed', deed: { type: 'trouble', trouble: 'was-away' } };
    }
    if (this.#practice.flameOut) return flame(1);
    if (below && batch.hold.belief !== 'below') return this.#answer('below');
    if (!below && batch.hold.belief !== 'at') return this.#answer('at');
    if (second - this.#turnedAt >= 60) {
      // Where the needle goes counts as much as where it stands.
      const trend = dial - this.#lastDial;
      const aim = dial + 2 * trend - (this.#targetKPa + 4);
      this.#turnedAt = second;
      this.#lastDial = dial;
      if (aim > 3 && knob > 1) return flame(-1);
      if (aim < -3 && knob < 10) return flame(1);
    }
    if (batch.now >= nextReadingAt(batch) && !below) return this.#answer('at');
    return wait(30);
  }

  /** Sets the flame where it usually holds, and goes away. */
  #holdingBlind(): Move {
    const { batch } = this.#practice.run;
    if (batch.hold.belief !== 'at') return this.#answer('at');
    const knob = this.#has('low-flame') ? LOW_KNOB : USUAL_KNOB;
    if (this.#practice.knob > knob) return flame(-1);
    return wait(300);
  }

  #untilPressureLock(): Move {
    return wait(((this.#batch.lock?.pressureUntil ?? 0) - this.#batch.now) / 1000);
  }
  #zero(): Move {
    if (this.#batch.now < (this.#batch.lock?.pressureUntil ?? 0)) return this.#untilPressureLock();
    return this.#dialKPa() > 3 && !this.#has('no-look') ? wait(120) : this.#answer('zero');
  }

  #shut(): Move {
    const { lock, now, endedEarly } = this.#batch;
    const left = ((lock?.coolUntil ?? 0) - now) / 1000;
    if (left > 0 && this.#has('open-early') && !endedEarly && now >= (lock?.pressureUntil ?? 0)) {
      return { kind: 'deed', deed: { type: 'typed', purpose: 'open-early', word: WORDS['open-early'] } };
    }
    return left > 0 ? wait(left) : this.#answer('lid-open');
  }

  #lift(): Move {
    if (this.#has('torn-kept')) return this.#answer('rest-intact');
    const seen = this.#practice.look('container');
    return this.#answer(seen?.kind === 'container' && seen.torn ? 'torn' : 'intact');
  }

  #warmth(): Move {
    if (this.#has('warm-inoculation')) return this.#answer('room');
    const seen = this.#practice.look('warmth');
    return seen?.kind === 'warmth' && seen.warm ? wait(1800) : this.#answer('room');
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
