/**
 * What the lesson says at every moment: one sentence that follows what is to be seen, and the key it asks
 * for. A tip without a key says that there is nothing to press yet, and the clock hurries.
 */
import { ventEnd } from '../batch/advance.ts';
import { openAsk, towelReady } from '../batch/lockout.ts';
import type { Batch } from '../batch/state.ts';
import { type AskId, choicesOf } from '../batch/steps.ts';
import { wantedNow } from '../batch/wanted.ts';
import type { Sight, SightKind } from './sights.ts';

export interface Tip {
  readonly says: string;
  /** The key it asks for, as it is pressed; null while there is nothing to do but to wait. */
  readonly press: string | null;
}

/** What the person has before the eyes. */
export interface LessonView {
  readonly batch: Batch;
  readonly see: (kind: SightKind) => Sight | null;
  /** What was gone and looked at, if anything. */
  readonly looking: SightKind | null;
  readonly knob: number;
  readonly flameOut: boolean;
}

const tip = (press: string | null, says: string): Tip => ({ press, says });

/** The sight of this kind, or null: narrows to its own fields. */
function seen<Kind extends SightKind>(view: LessonView, kind: Kind): Extract<Sight, { kind: Kind }> | null {
  const sight = view.see(kind);
  return sight?.kind === kind ? (sight as Extract<Sight, { kind: Kind }>) : null;
}

/** A needle this far from the mark is told from one at it, kPa. */
const APART_KPA = 3;
/** About this flame holds the pressure of the lesson's pot; each so many kPa off ask for one step. */
const HOLDING_KNOB = 6;
const KPA_A_STEP = 6;
/** A jet stands unbroken above this, and there are puffs from here on (see `ventDrawing`). */
const JET = 0.75;
const PUFFS = 0.15;
/** Grain that shines less than this after stirring is worth a towel. */
const DULL = 0.2;
/** Grain shows its whole heap for so long after it was stirred. */
const STIRRED_MS = 120_000;
/** So many steps of the flame off, and it is turned: a needle trembles. */
const OFF_STEPS = 1.3;

function gear(view: LessonView): Tip {
  switch (view.looking) {
    case 'gasket':
      return seen(view, 'gasket')?.cracked
        ? tip('1', 'The ring is cracked: 1 has it mended.')
        : tip('l', 'A whole ring. l again: the vent pipe.');
    case 'vent-pipe':
      return seen(view, 'vent-pipe')?.clear
        ? tip('l', 'It is clear. l again: the gauge.')
        : tip('1', 'No light comes through: 1 has it mended.');
    case 'dial':
      return (seen(view, 'dial')?.kPa ?? 0) > APART_KPA
        ? tip('1', 'The needle should rest at zero: 1 has it mended.')
        : tip('space', 'At zero: all sound. Press Space.');
    default:
      return tip('l', 'l looks: ring, then pipe, then gauge.');
  }
}

function drying(view: LessonView): Tip {
  const { batch } = view;
  const shine = seen(view, 'grain')?.shine ?? 1;
  const stirred = batch.askSince > batch.since && batch.now - batch.askSince < STIRRED_MS;
  if (stirred && batch.towels.every(({ t }) => t < batch.askSince) && shine < DULL) {
    return tip('1', 'Little of it shines: 1 lays a towel.');
  }
  return wantedNow(batch)
    ? tip('space', 'Time to stir: press Space.')
    : tip(null, 'Drained for you. Wet kernels shine: wait.');
}

function steam(view: LessonView): Tip {
  const steamNow = seen(view, 'vent')?.steam ?? 0;
  if (steamNow > JET) return tip('2', 'Now it stands unbroken: press 2.');
  return steamNow > PUFFS
    ? tip(null, 'Spurts come and go: not yet. Press nothing.')
    : tip(null, 'The clock runs until steam comes.');
}

function venting(view: LessonView): Tip {
  const { batch } = view;
  if ((seen(view, 'vent')?.steam ?? 1) < PUFFS * 2)
    return tip('1', 'The jet has stopped: press 1, and + for more flame.');
  return batch.now >= (ventEnd(batch) ?? Number.POSITIVE_INFINITY)
    ? tip('space', 'Vented. Space shuts the valve.')
    : tip(null, 'The jet carries the air out. Wait.');
}

function climbing(view: LessonView): Tip {
  const apart = (seen(view, 'dial')?.kPa ?? 0) - view.batch.header.numbers.targetKPa;
  if (apart > 2 * APART_KPA) return tip('3', 'The needle is over the mark: press 3.');
  if (apart >= 0) return tip('2', 'The needle is at the mark: press 2, now.');
  return apart > -12
    ? tip(null, 'Nearly there. Not before it touches the mark.')
    : tip(null, 'It climbs. Wait until it touches the mark.');
}

function holding(view: LessonView): Tip {
  const { batch, knob } = view;
  if (view.flameOut) return tip('+', 'The flame is out: + lights it again.');
  const apart = (seen(view, 'dial')?.kPa ?? 0) - batch.header.numbers.targetKPa;
  const { belief } = batch.hold;
  // What was called below is back only when it has reached the mark again.
  const below = apart < (belief === 'below' ? 0 : -APART_KPA);
  if (below && belief !== 'below') return tip('1', 'The needle is below the mark: press 1.');
  if (!below && belief === 'below') return tip('2', 'The needle is back at the mark: press 2.');
  const wanted = HOLDING_KNOB - apart / KPA_A_STEP;
  if (knob - wanted > OFF_STEPS && knob > 1) {
    return tip(
      '-',
      knob > HOLDING_KNOB
        ? `Less flame holds it: press - until it shows ${HOLDING_KNOB}.`
        : 'It stands high: press - once.',
    );
  }
  if (wanted - knob > OFF_STEPS && knob < 10) return tip('+', 'It sinks: press + once.');
  if (below) return tip(null, 'Below the mark nothing counts. Let it climb back.');
  return wantedNow(batch)?.code === 'read-gauge' || belief !== 'at'
    ? tip('2', 'Asked again: at the mark, press 2.')
    : tip(null, 'At the mark: its minutes count.');
}

function gaugeZero(view: LessonView): Tip {
  const { batch } = view;
  if (batch.now < (batch.lock?.pressureUntil ?? 0)) {
    return tip('z', 'Locked, whatever you press. z sleeps through it.');
  }
  return (seen(view, 'dial')?.kPa ?? 0) > APART_KPA
    ? tip('2', 'It is not at zero yet: press 2.')
    : tip('1', 'The needle is at zero: press 1.');
}

/** The cut was called something that it plainly was not; cuts differ a little, so a near miss is none. */
function kernelsMisjudged(view: LessonView): boolean {
  const core = seen(view, 'kernel')?.core;
  if (core === undefined) return false;
  const centre = view.batch.kernels.at(-1)?.centre;
  if (centre === 'thin-line') return core <= 0.02 || core > 0.25;
  return centre === 'translucent' ? core > 0.06 : centre === 'white-core' && core < 0.12;
}

/** What has to be before the eyes for the tips of a question, where something else can be looked at. */
const STEAM = ['vent', 'l shows the steam again: it is what counts now.'] as const;
const GAUGE = ['dial', 'l shows the gauge again: it is what counts now.'] as const;
const EYES: Partial<Record<AskId, typeof STEAM | typeof GAUGE>> = {
  steam: STEAM,
  venting: STEAM,
  climbing: GAUGE,
  holding: GAUGE,
};

const plain = (press: string, says: string) => (): Tip => tip(press, says);
/** Where the lesson answers by itself. */
const DONE = (): Tip => tip(null, 'Done for you.');
const UNSEEN = plain('3', 'What nobody saw does not count: say what you saw.');

const TIPS: Readonly<Record<AskId, (view: LessonView) => Tip>> = {
  'gear-check': gear,
  'dry-weight': DONE,
  soaking: plain('z', 'Here you may sleep: z jumps to the end.'),
  'simmer-start': view =>
    (seen(view, 'pot')?.boiling ?? 0) > 0.1
      ? tip('space', 'The pot bubbles: press Space.')
      : tip(null, 'Full flame. The clock runs till it bubbles.'),
  simmering: view =>
    wantedNow(view.batch)
      ? tip('space', 'Time to look: Space cuts three kernels.')
      : tip(null, 'Flame lowered. The clock runs to the look.'),
  'kernel-centre': view => {
    const core = seen(view, 'kernel')?.core ?? 0;
    const key = core > 0.18 ? '1' : core > 0.02 ? '2' : '3';
    return tip(key, 'Yours is top right: press the one like it.');
  },
  burst: view => {
    if (kernelsMisjudged(view)) return tip('u', 'Your cut looked otherwise: u, then 1 takes it back.');
    const burst = seen(view, 'handful')?.burst ?? 0;
    const key = burst > 0.3 ? '3' : burst > 0.02 ? '2' : '1';
    return tip(key, 'Your handful is top right: which fits?');
  },
  draining: DONE,
  drying,
  towel: view => {
    if (view.batch.now < towelReady(view.batch)) return tip(null, 'Its seconds run down.');
    const wetness = seen(view, 'towel')?.wetness ?? 0;
    const key = wetness > 0.8 ? '1' : wetness > 0.31 ? '2' : wetness > 0.03 ? '3' : '4';
    return tip(key, 'Your towel is top right: which fits?');
  },
  fill: DONE,
  seam: DONE,
  'cooker-water': DONE,
  lid: view => {
    if (view.looking !== 'water') return tip('l', 'Bagged, water in. l looks under the rack.');
    return (seen(view, 'water')?.share ?? 1) < 0.2
      ? tip('u', 'Hardly any water: u goes back to pour it.')
      : tip('space', 'Water is there: Space puts the lid on.');
  },
  steam,
  venting,
  climbing,
  holding,
  flame: plain('space', 'Done: Space turns the flame off.'),
  'gauge-zero': gaugeZero,
  pin: view =>
    seen(view, 'pin')?.up ? tip('1', 'The pin is up: press 1.') : tip('2', 'The pin is down: press 2.'),
  shut: view =>
    view.batch.now < (view.batch.lock?.coolUntil ?? 0)
      ? tip('z', 'z sleeps until it is cool.')
      : tip('space', 'Cool: Space opens the lid.'),
  lifted: view =>
    seen(view, 'container')?.torn
      ? tip('2', 'There is a slit in this one: press 2.')
      : tip('1', 'This one is whole: press 1.'),
  warmth: view => {
    if (!seen(view, 'warmth')?.warm) return tip('2', 'It is like the room: press 2.');
    return view.batch.askSince === view.batch.since
      ? tip('1', 'It is still warm: press 1.')
      : tip('z', 'z sleeps until it can be felt again.');
  },
  clean: DONE,
  inject: DONE,
  finished: plain('space', 'What your decisions were worth follows.'),
  'away-steam': UNSEEN,
  'away-gauge': UNSEEN,
  'clock-claim': plain('2', 'Say what you know.'),
};

/** The tip of this moment. */
export function lessonTip(view: LessonView): Tip {
  const ask = openAsk(view.batch);
  const [eyes, back] = EYES[ask] ?? [];
  // No word about a needle or a jet that is not in sight.
  if (back !== undefined && view.looking !== null && view.looking !== eyes) return tip('l', back);
  const found = TIPS[ask](view);
  // A key of an answer that this question does not have would be a mistake of the lesson.
  const answers = choicesOf(ask).map(({ key }) => String(key));
  const known = found.press === null || [...answers, 'l', 'z', 'u', '+', '-'].includes(found.press);
  return known ? found : { ...found, press: null };
}
