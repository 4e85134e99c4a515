/**
 * What a dip costs: the lethality that the centre lacks at the planned end, and the minutes that bring the
 * likely lethality back to what it would have been. Worked out once, when the gauge is back at target, and
 * kept in the journal, so that a later version of the model never moves a running countdown.
 */
import { holdLeftMs } from '../batch/advance.ts';
import { believe, openDip } from '../batch/gauge.ts';
import { numbersOf, recipeOf } from '../batch/moves.ts';
import type { BatchEvent, DipCost } from '../batch/events.ts';
import type { Batch, Dip, Reading } from '../batch/state.ts';
import { type CoachTime, HOUR, SECOND } from '../time.ts';
import { keptModes } from '../science/kept-modes.ts';
import { slowestBody } from './body.ts';
import { type Chamber, chamberOf } from './chamber.ts';
import { bandAt } from './corners.ts';
import { estimateAt } from './estimate.ts';
import { targetBandC } from './gauge.ts';
import { type March, startMarch, walk, walkUntil } from './march.ts';

/** Added minutes are whole ones: the gauge is not read finer than that. */
const GRAIN_S = 60;
const LONGEST_ADDED = 4 * HOUR;

/** The likely centre in a chamber as it was or might have been, at an instant that is not after its end. */
function centreAt(batch: Batch, chamber: Chamber, diffusivityM2S: number, t: CoachTime): March {
  const march = startMarch(keptModes(slowestBody(batch)), diffusivityM2S, chamber.startC, chamber.from);
  const passed = chamber.corners.filter(corner => corner.t < t);
  walk(march, [...passed, { t, c: bandAt(chamber.corners, t - 1e-6) }], 'likely');
  return march;
}

/** Lethality at an instant, with the chamber at target from the end of what is known on, min. */
function f0At(batch: Batch, chamber: Chamber, diffusivityM2S: number, t: CoachTime): number {
  const march = centreAt(batch, chamber, diffusivityM2S, Math.min(t, chamber.to));
  const c = targetBandC(batch);
  walk(
    march,
    [
      { t: march.t, c },
      { t: Math.max(march.t, t), c },
    ],
    'likely',
  );
  return march.f0Min;
}

const atTarget = (batch: Batch, t: CoachTime): Reading => ({
  t,
  load: batch.load,
  step: 'hold',
  kPa: null,
  seen: 'at',
});

/** The chamber with the dip, back at target now; and as it would have been without the dip. */
function bothChambers(batch: Batch, from: CoachTime): readonly [Chamber | null, Chamber | null] {
  const { load, now } = batch;
  const readings = batch.readings.filter(reading => reading.load === load);
  const others = readings.filter(({ t }) => t < from || t > now);
  const unseen = batch.unseen.filter(gap => gap.from < from);
  return [
    chamberOf({ ...batch, away: null, unseen: seenAs(batch) }, load, [...readings, atTarget(batch, now)]),
    chamberOf({ ...batch, away: null, unseen }, load, [
      ...others,
      atTarget(batch, from),
      atTarget(batch, now),
    ]),
  ];
}

/** The cost of a dip that began at `from` and ends now; null when the estimate has nothing to go by. */
export function dipCost(batch: Batch, from: CoachTime): DipCost | null {
  const diffusivity = estimateAt(batch)?.diffusivity.band.likely;
  const [dipped, steady] = bothChambers(batch, from);
  if (diffusivity === undefined || !dipped || !steady) return null;
  const { now } = batch;
  const shownEnd = now + holdLeftMs(batch);
  // Without the dip its minutes, and those that the policy took back, would have counted.
  const plannedEnd = shownEnd - (openDip(batch)?.lostMs ?? 0) - (now - from);
  const wanted = f0At(batch, steady, diffusivity, plannedEnd);
  const lacking = Math.max(0, wanted - f0At(batch, dipped, diffusivity, plannedEnd));
  const latest = shownEnd + LONGEST_ADDED;
  const real = centreAt(batch, dipped, diffusivity, now);
  const reached = walkUntil(real, targetBandC(batch).likely, wanted, latest) ?? latest;
  const missingS = Math.max(0, (reached - shownEnd) / SECOND);
  return { addS: Math.max(0, Math.ceil(missingS / GRAIN_S - 1e-6)) * GRAIN_S, f0Min: lacking };
}

/** An open doubt that is being answered with "fell" is kept as a time nobody watched. */
const seenAs = (batch: Batch) =>
  batch.away
    ? [...batch.unseen, { from: batch.away.from, to: batch.now, told: 'fell-back-now' as const }]
    : batch.unseen;

/** When the dip that this answer ends began; null when it ends none. */
function endsDipFrom(batch: Batch, event: Extract<BatchEvent, { type: 'answer' }>): CoachTime | null {
  if (batch.step !== 'hold') return null;
  if (event.ask === 'away-gauge') return event.choice === 'fell-back-now' ? (batch.away?.from ?? null) : null;
  if (event.ask !== 'holding') return null;
  const back =
    event.choice === 'reading'
      ? believe(event.amount ?? 0, numbersOf(batch).targetKPa) !== 'below'
      : event.choice === 'at' || event.choice === 'above';
  return back ? (openDip(batch)?.from ?? null) : null;
}

type Answer = Omit<Extract<BatchEvent, { type: 'answer' }>, 't' | 'wall'>;

/**
 * The same deed with the cost of the dip that it ends, if it ends one. `batch` stands at the instant of the
 * deed. A cost that the model cannot give is left out: then nothing is added, and the record says "unknown".
 */
export function priced<D extends { readonly type: string }>(deed: D, batch: Batch): D {
  if (deed.type !== 'answer') return deed;
  const answer = deed as unknown as Answer;
  const from = endsDipFrom(batch, { ...answer, t: batch.now, wall: batch.wall });
  const cost = from === null ? null : dipCost(batch, from);
  return cost === null ? deed : { ...deed, dipCost: cost };
}

export interface DipShown extends Dip {
  /** How long it lasted so far, ms. */
  readonly ms: number;
  /** Nobody saw when it began: it may have been shorter. */
  readonly unseen: boolean;
  readonly policy: 'restart' | 'make up';
}

/** Every dip of a load, for screen and record. */
export const dipsOf = (batch: Batch, load = batch.load): readonly DipShown[] =>
  batch.dips
    .filter(dip => dip.load === load)
    .map(dip => ({
      ...dip,
      ms: Math.max(0, (dip.to ?? batch.now) - dip.from),
      unseen: batch.unseen.some(({ from, told }) => from === dip.from && told !== null && told !== 'stayed'),
      policy: recipeOf(batch).dips,
    }));
