/**
 * What an onlooker with a stopwatch and a notebook knows about a batch. It is far simpler than the machine:
 * when the flame went off, whether the gauge was said to be at zero since, for how long at most the gauge
 * was believed at target. `follow` fails as soon as the machine did what the rules of the product forbid.
 */
import type { BatchEvent } from '../../src/core/batch/events.ts';
import type { Batch } from '../../src/core/batch/state.ts';
import type { StepId } from '../../src/core/batch/steps.ts';
import { SECOND } from '../../src/core/time.ts';
import { ANSWER_LASTS, gaugeSays } from './batch-gauge-says.ts';

/** What was said: undo goes back in this. */
interface Said {
  readonly heatOffAt: number | null;
  /** The same with vouched time, for the part of the lock that a claim may shorten. */
  readonly heatOffTime: number | null;
  readonly zeroAt: number | null;
  readonly awayFrom: number | null;
  /** Held time of this load that the person no longer vouches for. */
  readonly doubtedMs: number;
  /** Since when the steam has been steady without a break. */
  readonly steadyAt: number | null;
  readonly unseenSteam: boolean;
  readonly valveClosedWell: boolean;
}

export interface Onlooker extends Said {
  /** Ms that surely passed, by the stopwatch; claims of a computer's clock are not in it. */
  readonly clock: number;
  /** Ms the person vouched for by typing. */
  readonly vouched: number;
  readonly believed: boolean;
  readonly toldAt: number;
  /** Something was said since "lid on", and be it taken back: from then on the lid is shut. */
  readonly cooking: boolean;
  /** By load, from 1. */
  readonly heldAtMost: readonly number[];
  readonly past: readonly Said[];
}

export const onlooker = (): Onlooker => ({
  clock: 0,
  vouched: 0,
  heatOffAt: null,
  heatOffTime: null,
  zeroAt: null,
  awayFrom: null,
  doubtedMs: 0,
  steadyAt: null,
  unseenSteam: false,
  valveClosedWell: false,
  believed: false,
  toldAt: 0,
  cooking: false,
  heldAtMost: [],
  past: [],
});

/** Steps in which the vessel is shut and hot, or may be. Written out here, because the table is under test. */
const SHUT: readonly StepId[] = ['heat', 'vent', 'climb', 'hold', 'heat-off', 'cool'];
export const isShut = (step: StepId): boolean => SHUT.includes(step);

const time = (model: Onlooker): number => model.clock + model.vouched;

const heldIn = (model: Onlooker, load: number): number => model.heldAtMost[load] ?? 0;
function held(model: Onlooker, load: number, ms: number): readonly number[] {
  const all = [...model.heldAtMost];
  all[load] = heldIn(model, load) + ms;
  return all;
}

function insist(holds: boolean, rule: string, before: Batch, event: BatchEvent, after: Batch): void {
  if (holds) return;
  const where = `${before.step}/${before.ask} -> ${after.step}/${after.ask}`;
  throw new Error(`${rule}\n  ${where} by ${JSON.stringify(event)}`);
}

function hears(model: Onlooker, event: BatchEvent, before: Batch): Onlooker {
  const said = gaugeSays(event, before);
  const told: Onlooker =
    said === null ? model : { ...model, believed: said, toldAt: time(model), awayFrom: null };
  if (event.type === 'trouble') {
    if (['heat-failed', 'valve-opened'].includes(event.trouble)) {
      return { ...told, steadyAt: null, valveClosedWell: false };
    }
    if (event.trouble === 'was-away' && before.step === 'vent') return { ...model, unseenSteam: true };
    if (event.trouble !== 'was-away' || !model.believed) return event.trouble === 'was-away' ? model : told;
    const unseen = time(model) - model.toldAt;
    return { ...told, awayFrom: model.toldAt, doubtedMs: model.doubtedMs + unseen };
  }
  if (event.type !== 'answer') return told;
  switch (`${event.ask} ${event.choice}`) {
    case 'lid lid-on':
      return {
        ...told,
        cooking: false,
        believed: false,
        doubtedMs: 0,
        steadyAt: null,
        heatOffAt: null,
        zeroAt: null,
      };
    case 'steam steady':
      return { ...told, steadyAt: time(model), unseenSteam: false };
    case 'away-steam stayed':
      return { ...told, unseenSteam: false };
    case 'away-steam stopped':
    case 'away-steam unknown':
    case 'venting stopped':
      return { ...told, steadyAt: null, unseenSteam: false };
    case 'venting valve-closed': {
      const vented =
        model.steadyAt !== null && time(model) - model.steadyAt >= before.header.numbers.ventS * SECOND;
      return { ...told, valveClosedWell: vented && !model.unseenSteam };
    }
    case 'flame flame-off':
      return { ...told, heatOffAt: model.clock, heatOffTime: time(model), zeroAt: null };
    case 'gauge-zero zero':
      return { ...told, zeroAt: model.clock };
    case 'away-gauge stayed':
      return { ...told, heldAtMost: held(model, before.load, time(model) - (model.awayFrom ?? time(model))) };
    default:
      return told;
  }
}

const saidOf = ({ clock, vouched, believed, toldAt, cooking, heldAtMost, past, ...said }: Onlooker): Said =>
  said;

/** Time goes by, seen or not. */
function passes(model: Onlooker, ms: number, event: BatchEvent, before: Batch): Onlooker {
  const clock = model.clock + ms;
  if (event.type !== 'gap') {
    return { ...model, clock, heldAtMost: held(model, before.load, model.believed ? ms : 0) };
  }
  const ventS = before.header.numbers.ventS;
  const vented = model.steadyAt !== null && time(model) - model.steadyAt >= ventS * SECOND;
  return {
    ...model,
    clock,
    believed: false,
    awayFrom: model.believed ? time(model) : model.awayFrom,
    unseenSteam: model.unseenSteam || (before.step === 'vent' && !vented),
  };
}

/** S1: how a shut vessel may be opened, and nothing else. */
function mayOpen(model: Onlooker, event: BatchEvent, before: Batch): boolean {
  // Nothing has happened under the lid yet.
  if (event.type === 'undo') return before.step === 'heat' && !model.cooking;
  if (event.type !== 'answer' || event.ask !== 'shut' || event.choice !== 'lid-open') return false;
  const { heatOffAt, heatOffTime, zeroAt } = model;
  if (heatOffAt === null || heatOffTime === null || zeroAt === null || zeroAt < heatOffAt) return false;
  const { pressureLockS, coolS } = before.header.numbers;
  if (model.clock - heatOffAt < pressureLockS * SECOND) return false;
  const early = before.deviations.some(
    ({ trouble, load, takenBack }) => trouble === 'opened-warm' && load === before.load && !takenBack,
  );
  return early || before.endedEarly !== null || time(model) - heatOffTime >= coolS * SECOND;
}

/** One accepted event, looked at by the onlooker. Throws with the rule that was broken. */
export function follow(model: Onlooker, event: BatchEvent, before: Batch, after: Batch): Onlooker {
  const must = (holds: boolean, rule: string) => insist(holds, rule, before, event, after);
  const ms = event.t - before.now;
  const passed = passes(model, ms, event, before);

  must(after.now >= event.t, 'S6: time ran back');
  const jumped = after.now - event.t;
  must(
    jumped === 0 || (event.type === 'typed' && event.purpose === 'clock-right'),
    'S6: time jumped by itself',
  );
  if (isShut(before.step) && !isShut(after.step))
    must(mayOpen(passed, event, before), 'S1: the lid came off');
  if (before.lock && after.lock && before.load === after.load) {
    const shorter = event.type === 'typed' && event.purpose === 'open-early';
    const pressure = before.lock.pressureUntil - event.t;
    must(
      pressure <= 0 || after.lock.pressureUntil - after.now >= pressure,
      'S1: the pressure part got shorter',
    );
    must(shorter || after.lock.coolUntil >= before.lock.coolUntil, 'S6: the lock got shorter');
  }
  if (after.step === 'hold' && before.step !== 'hold' && event.type !== 'undo') {
    must(before.step === 'climb' && event.type === 'answer', 'S2: the hold began by itself');
    must(gaugeSays(event, before) === true, 'S2: the hold began without the target gauge');
    must(passed.valveClosedWell, 'S2: the hold began without an unbroken vent');
  }
  if (after.step === 'inoculate' && before.step === 'rest') {
    must(event.type === 'answer' && event.choice === 'room', 'S7: inoculation before room temperature');
  }
  if (after.step === 'inoculate' && before.step !== 'rest' && before.step !== 'inoculate') {
    must(event.type === 'undo', 'S7: inoculation without the rest');
  }

  const next = hearsOrForgets({ ...passed, vouched: passed.vouched + jumped }, event, before);
  const most = Math.max(0, heldIn(next, after.load) - next.doubtedMs);
  must(after.hold.creditMs <= most, `S3: ${after.hold.creditMs} ms held, at most ${most} believed`);
  if (before.step === 'hold' && after.step === 'heat-off' && event.type === 'tick') {
    must(most >= before.header.numbers.holdS * SECOND, 'S3: the hold ended before its time');
  }
  if (
    before.step === 'hold' &&
    after.step === 'heat-off' &&
    after.endedEarly === null &&
    event.type !== 'typed'
  ) {
    const told = event.type === 'answer' ? next.toldAt : passed.toldAt;
    must(after.since - told <= ANSWER_LASTS, 'S3: the hold ended on an answer that was too old');
  }
  must(after.header === before.header, 'S9: the header changed');
  return next;
}

function hearsOrForgets(model: Onlooker, event: BatchEvent, before: Batch): Onlooker {
  switch (event.type) {
    case 'undo': {
      const said = model.past.at(-1);
      // Nobody said that the steam went on while something else was on the screen.
      return { ...model, ...said, steadyAt: null, believed: false, past: model.past.slice(0, -1) };
    }
    case 'answer':
    case 'measured':
    case 'trouble':
      return {
        ...hears({ ...model, cooking: true }, event, before),
        past: [...model.past, saidOf(model)],
      };
    case 'typed':
      return event.purpose === 'clock-right'
        ? { ...model, past: [] }
        : { ...model, cooking: true, past: [...model.past, saidOf(model)] };
    case 'tick':
    case 'gap':
      return model;
  }
}
