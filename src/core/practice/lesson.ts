/**
 * The lesson for the very first start: a whole small batch in about four minutes, in the same screens, with
 * one sentence of guidance at every moment; what has nothing to look at is done for the person. It is the one practice whose clock may tell what the kitchen
 * does: it hurries until there is something to press.
 */
import { openAsk } from '../batch/lockout.ts';
import type { Batch } from '../batch/state.ts';
import type { AskId } from '../batch/steps.ts';
import { DEFAULT_KITCHEN, type Kitchen, type Units } from '../kitchen.ts';
import type { Recipe } from '../recipe/recipe.ts';
import type { Deed } from '../session.ts';
import { lessonTip, type LessonView, type Tip } from './lesson-tips.ts';

/** Small, without a soak, and otherwise as a batch is. */
export const LESSON_RECIPE: Recipe = {
  name: 'Two small bags',
  grain: 'wheat',
  note: '',
  containers: {
    kind: 'bag',
    count: 2,
    fillKg: 0.5,
    size: { shape: 'brick', lengthM: 0.13, widthM: 0.1, thicknessM: 0.06 },
    mostKg: 0.6,
    touching: false,
  },
  storedMoisture: 0.12,
  wantedMoisture: 0.48,
  soak: null,
  simmer: { firstLookS: 1200, everyS: 300, nearS: 120, waterPerKg: 2.5 },
  drying: { aboutS: 2700, stirEveryS: 1200, towelS: 20 },
  seal: 'before',
  ventS: 600,
  target: { by: 'pressure', gaugeKPa: 103.4 },
  holdS: 60 * 60,
  dips: 'make up',
  coolS: 8 * 3600,
  culture: { form: 'liquid culture', species: 'oyster', perContainer: 3 },
};
export const LESSON_SEED = 0;
/** One kitchen for everybody, so that the lesson goes as it was written; in the person's own units. */
export const lessonKitchen = (units: Units): Kitchen => ({ ...DEFAULT_KITCHEN, units });

/** Answers the lesson gives by itself: there is nothing to look at, and reading them would take too long. */
const DONE_FOR_YOU: Readonly<Partial<Record<AskId, string>>> = {
  'dry-weight': 'as-planned',
  draining: 'drained',
  fill: 'rest-as-planned',
  seam: 'rest-sealed',
  'cooker-water': 'as-planned',
  clean: 'clean',
  inject: 'rest-as-planned',
};

/** What the lesson does for the person now; null where they answer themselves. */
export function lessonDoes(batch: Batch): Deed | null {
  const ask = openAsk(batch);
  const choice = DONE_FOR_YOU[ask];
  return choice === undefined ? null : { type: 'answer', ask, choice };
}

/** Simulated seconds for each real one while there is nothing to press. */
const FAST = 240;
/** Where one minute is like the other. */
const FASTEST = 480;
const ALIKE: readonly AskId[] = ['drying', 'holding'];
/** Where a needle or a jet is about to be there, a screen a fifth of a second old must not be far behind. */
const NEAR = 30;
/** While a key is wanted at the stove, and where nothing moves by itself. */
const CALM = 3;
const STILL = 1;
const AT_THE_STOVE: readonly AskId[] = ['steam', 'venting', 'climbing', 'holding'];

/** How fast the lesson runs under this tip: it hurries until a key is asked for. */
export function lessonPace(view: LessonView, tip: Tip): number {
  const ask = openAsk(view.batch);
  if (tip.press !== null) return AT_THE_STOVE.includes(ask) ? CALM : STILL;
  const { see, batch } = view;
  if (ask === 'steam') {
    const vent = see('vent');
    return vent?.kind === 'vent' && vent.steam > 0.15 ? 2 * NEAR : FAST;
  }
  if (ask === 'climbing') {
    const dial = see('dial');
    return dial?.kind === 'dial' && dial.kPa > 0.85 * batch.header.numbers.targetKPa ? NEAR : FAST / 2;
  }
  return ALIKE.includes(ask) ? FASTEST : FAST;
}

/** A needle trembles: a key once asked for is asked for at least so long, real ms. */
const STANDS_MS = 2500;

/** Keeps a tip on the screen long enough to be read. */
export class LessonGuide {
  #tip: Tip | null = null;
  #since = 0;
  #place = '';

  /** The tip to be shown at this moment of real time, ms. */
  tip(view: LessonView, realMs: number): Tip {
    const { batch, knob, looking } = view;
    const ask = openAsk(batch);
    const place = [ask, batch.cursor, batch.askSince, batch.hold.belief, knob, looking].join();
    const now = lessonTip(view);
    const old = this.#tip;
    const stands = old?.press != null && place === this.#place && realMs - this.#since < STANDS_MS;
    if (stands) return old;
    if (old?.says !== now.says || place !== this.#place) this.#since = realMs;
    this.#place = place;
    this.#tip = now;
    return now;
  }
}
