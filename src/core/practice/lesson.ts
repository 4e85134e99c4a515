/**
 * The lesson for the very first start: a whole small batch in about four minutes, in the same screens, with
 * one sentence of guidance at every question. It is the one practice whose clock may tell what the kitchen
 * does: it hurries until there is something to see.
 */
import { openAsk } from '../batch/lockout.ts';
import type { Batch } from '../batch/state.ts';
import { type AskId, choicesOf } from '../batch/steps.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { isWanted } from './pace.ts';
import type { Sight, SightKind } from './sights.ts';

/** Small, without a soak, and otherwise as a batch is. */
export const LESSON_RECIPE: Recipe = {
  name: 'Lesson: wheat, two small bags',
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
  drying: { aboutS: 3600, stirEveryS: 1200, towelS: 20 },
  seal: 'before',
  ventS: 600,
  target: { by: 'pressure', gaugeKPa: 103.4 },
  holdS: 75 * 60,
  dips: 'make up',
  coolS: 8 * 3600,
  culture: { form: 'liquid culture', species: 'oyster', perContainer: 3 },
};
export const LESSON_SEED = 0;

const TIPS: Readonly<Record<AskId, string>> = {
  'gear-check': 'l looks: gasket, pipe, needle. All sound? {ready}.',
  'dry-weight': '{as-planned} is the plain "done": your word is taken.',
  soaking: 'Here you may sleep: z jumps to the end.',
  'simmer-start': '+ and - turn the flame. {simmers} once the pot moves.',
  simmering: '{kernels-cut} cuts kernels, any time you like.',
  'kernel-centre': 'Which picture is like what you see? Press its number.',
  burst: 'A judgement is never answered by Space.',
  draining: '{drained} when it is drained.',
  drying: 'Stir when told: {stirred}. After a stir {towel-laid} lays the towel.',
  towel: 'When its time is over: the number that fits.',
  fill: '{rest-as-planned}: the rest as planned, all bags at once.',
  seam: '{rest-sealed}: all are sealed.',
  'cooker-water': '{as-planned} pours what was planned.',
  lid: 'l looks under the rack. Water there? {lid-on}.',
  steam: 'Spurts come and go. {steady} when the jet stands unbroken.',
  venting: 'The steam carries the air out. {valve-closed} when it is over.',
  climbing: 'Watch the needle: {at} at the target, not sooner.',
  holding: 'Flame down: -, five times. Then keep it over the mark.',
  flame: '{flame-off}: the flame is off.',
  'gauge-zero': 'Locked, whatever you press. z sleeps; {zero} at zero.',
  pin: 'Look at the pin: {down} when it is down.',
  shut: 'z sleeps until it is cool. Then {lid-open} opens it.',
  lifted: 'Look at each bag: {intact} whole, {torn} damaged.',
  warmth: '{warm} while warm (z waits), {room} like the room.',
  clean: '{clean} when hands and table are clean and dry.',
  inject: '{rest-as-planned}: the rest as planned. Then the debrief.',
  finished: 'What your decisions were worth follows.',
  'away-steam': 'What nobody saw does not count: say what you saw.',
  'away-gauge': 'What nobody saw does not count: say what you saw.',
  'clock-claim': 'Say what you know.',
};

/** The sentence for the open question, with the keys that its answers really have. */
export function lessonTip(batch: Batch): string {
  const ask = openAsk(batch);
  return TIPS[ask].replaceAll(/\{([a-z-]+)\}/g, (_, id: string) => {
    const key = choicesOf(ask).find(choice => choice.id === id)?.key;
    return key === 'space' ? 'Space' : (key ?? '?');
  });
}

const FAST = 240;
const SLOW = 10;

/** Simulated seconds for each real one: fast until there is something to answer or to see. */
export function lessonPace(batch: Batch, see: (kind: SightKind) => Sight | null): number {
  const ask = openAsk(batch);
  if (ask === 'holding') return batch.now - batch.since < 180_000 ? SLOW : isWanted(batch) ? SLOW : FAST;
  if (ask === 'steam') {
    const vent = see('vent');
    return vent?.kind === 'vent' && vent.steam > 0.15 ? SLOW : FAST;
  }
  if (ask === 'climbing') {
    const dial = see('dial');
    return dial?.kind === 'dial' && dial.kPa > 0.9 * batch.header.numbers.targetKPa ? SLOW : FAST;
  }
  if (ask === 'simmer-start') {
    const pot = see('pot');
    return pot?.kind === 'pot' && pot.boiling > 0.1 ? SLOW : FAST;
  }
  return isWanted(batch) ? 1 : FAST;
}
