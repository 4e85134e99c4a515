/**
 * The shut vessel after heat-off: when the gauge should be at zero, when vessel and bags are at room
 * temperature. Before any reading the loss to the room is an estimate (40 % either way); two gauge readings,
 * or a thermometer held to the vessel, replace it (10 %). Zero on a gauge does not prove zero.
 */
import { inLoad, numbersOf, recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { type CoachTime, MINUTE, SECOND } from '../time.ts';
import type { Body } from '../science/conduction.ts';
import { bagInPotS } from '../science/bag-cooldown.ts';
import {
  COOLING_LOSS_WK,
  type Cooling,
  FIT_SPREAD,
  coolingC,
  coolingS,
  fitCooling,
  heatCapacityKJK,
  timeConstantS,
} from '../science/cooldown.ts';
import { type Band, isNoAnswer } from '../science/limits.ts';
import { slowestBody } from './body.ts';
import { READ_KPA, temperatureC } from './gauge.ts';

/** A bag counts as cool for inoculation here, C; warmer where the room itself is. */
export const COOL_BAG_C = 30;
const ABOVE_ROOM_C = 3;
/** Half a psi at the gauge, in K. */
export const READ_K = READ_KPA / 5.2;
/** Readings closer in time than this say nothing about a rate. */
const LEAST_APART = MINUTE;

/** A load under its shut lid. */
export interface Shut {
  readonly load: number;
  readonly heatOffAt: CoachTime;
}

export interface CoolPoint {
  readonly t: CoachTime;
  readonly celsius: number;
}

/** Three ways to cool from one instant: fastest, likely, slowest. */
export interface CoolTracks {
  readonly from: CoachTime;
  readonly low: Cooling;
  readonly likely: Cooling;
  readonly high: Cooling;
}

/** Cooling laws before any reading, from a band of temperatures at an instant. */
export function freeCooling(batch: Batch, from: CoachTime, startC: Band): CoolTracks {
  const { kitchen } = batch.header;
  const capacity = heatCapacityKJK({
    potKg: kitchen.cookerMassKg,
    waterKg: batch.cookerWaterL ?? numbersOf(batch).cookerWaterL,
    loadKg: inLoad(batch).reduce((sum, { kg }) => sum + (kg ?? recipeOf(batch).containers.fillKg), 0),
  });
  const law = (start: number, lossWK: number, kind: Cooling['law']): Cooling => ({
    startC: start,
    ambientC: kitchen.roomC,
    tauS: timeConstantS(capacity, lossWK),
    law: kind,
  });
  return {
    from,
    low: law(startC.low, COOLING_LOSS_WK.high, 'newton'),
    likely: law(startC.likely, COOLING_LOSS_WK.likely, 'newton'),
    high: law(startC.high, COOLING_LOSS_WK.low, 'natural'),
  };
}

/** Temperatures along the tracks, C. */
export function alongC(tracks: CoolTracks, t: CoachTime): Band {
  const seconds = Math.max(0, (t - tracks.from) / SECOND);
  const at = (cooling: Cooling) => coolingC(cooling, seconds);
  const [low, likely, high] = [at(tracks.low), at(tracks.likely), at(tracks.high)];
  return { low: Math.min(low, likely), likely, high: Math.max(high, likely) };
}

/** What was read in the lock: gauge numbers above zero and a thermometer at the vessel, in order of time. */
export function coolPoints(batch: Batch, shut: Shut): readonly CoolPoint[] {
  const gauge = batch.readings
    .filter(({ t, kPa, load }) => load === shut.load && t > shut.heatOffAt && kPa !== null && kPa > 0)
    .map(({ t, kPa }) => {
      const value = kPa ?? 0;
      return { t, celsius: temperatureC(batch, { low: value, likely: value, high: value }).likely };
    });
  const touched = batch.measured
    .filter(({ t, of, load }) => of === 'vessel' && load === shut.load && t > shut.heatOffAt)
    .map(({ t, celsius }) => ({ t, celsius }));
  return [...gauge, ...touched]
    .filter(({ celsius }) => celsius > batch.header.kitchen.roomC)
    .sort((a, b) => a.t - b.t);
}

export interface CoolFit {
  readonly tracks: CoolTracks;
  /** Readings the prediction rests on: none, one with the hold before it, or two and more. */
  readonly readings: 0 | 1 | 2;
  /** The readings lie too close together to say much. */
  readonly weak: boolean;
}

/** The laws from heat-off on, refitted by what was read. `startC` is the chamber at heat-off. */
export function coolFit(batch: Batch, shut: Shut, startC: Band): CoolFit {
  const free = freeCooling(batch, shut.heatOffAt, startC);
  const points = coolPoints(batch, shut);
  const last = points.at(-1);
  if (!last) return { tracks: free, readings: 0, weak: false };
  const only = points.length < 2;
  const first = only ? { t: shut.heatOffAt, celsius: startC.likely } : (points[0] ?? last);
  if (last.t - first.t < LEAST_APART) return { tracks: free, readings: 0, weak: true };
  const fit = fitCooling({
    firstC: first.celsius,
    secondC: last.celsius,
    secondsApart: (last.t - first.t) / SECOND,
    ambientC: batch.header.kitchen.roomC,
  });
  if (isNoAnswer(fit)) return { tracks: free, readings: 0, weak: true };
  const from = (law: Cooling, stretch: number, offC: number): Cooling => ({
    ...law,
    startC: last.celsius + offC,
    tauS: law.tauS * stretch,
  });
  return {
    tracks: {
      from: last.t,
      low: from(fit.newton, 1 - FIT_SPREAD, -READ_K),
      likely: from(fit.newton, 1, 0),
      high: from(fit.natural, 1 + FIT_SPREAD, READ_K),
    },
    readings: only ? 1 : 2,
    weak: fit.weak,
  };
}

export interface CoolDown {
  /** Gauge at zero, by these instants; the present instant or earlier when it should be there. */
  readonly zeroAt: Band;
  /** Vessel near room temperature. */
  readonly vesselAt: Band | null;
  /** Middle of the fullest container cool enough to inoculate, left in the shut vessel. */
  readonly bagAt: Band | null;
  readonly bagC: number;
  readonly readings: CoolFit['readings'];
  readonly weak: boolean;
}

function whenC({ from, low, likely, high }: CoolTracks, celsius: number): Band | null {
  const at = (cooling: Cooling): number | null => {
    const seconds = coolingS(cooling, celsius);
    return isNoAnswer(seconds) ? null : from + seconds * SECOND;
  };
  const [a, b, c] = [at(low), at(likely), at(high)];
  if (a === null || b === null || c === null) return null;
  return { low: Math.min(a, b), likely: b, high: Math.max(b, c) };
}

let lastBag: { readonly key: string; readonly value: Band | null } | null = null;

/** When the middle of a bag that is left in the pot is cool; remembered, since the prediction moves only with a reading. */
function bagAt(
  body: Body,
  { from, low, likely, high }: CoolTracks,
  roomC: number,
  bagC: number,
): Band | null {
  const key = JSON.stringify([body, from, low, likely, high, roomC, bagC]);
  if (lastBag?.key === key) return lastBag.value;
  // The bags follow the pot from the instant the laws start at; before that they were as hot as it.
  const seconds = bagInPotS(
    { body, startC: likely.startC, ambientC: roomC, targetC: bagC },
    { low, likely, high },
  );
  const at = (value: number) => from + value * SECOND;
  const value = isNoAnswer(seconds)
    ? null
    : {
        low: at(Math.min(seconds.low, seconds.likely)),
        likely: at(seconds.likely),
        high: at(Math.max(seconds.likely, seconds.high)),
      };
  lastBag = { key, value };
  return value;
}

/** Predicted instants of the cool-down; null before the lock. */
export function coolDown(batch: Batch, startC: Band): CoolDown | null {
  const { lock, load } = batch;
  if (!lock) return null;
  const fit = coolFit(batch, { load, heatOffAt: lock.heatOffAt }, startC);
  const zeroAt = whenC(fit.tracks, numbersOf(batch).boilC);
  if (!zeroAt) return null;
  const { roomC } = batch.header.kitchen;
  const bagC = Math.max(COOL_BAG_C, roomC + ABOVE_ROOM_C);
  return {
    zeroAt,
    vesselAt: whenC(fit.tracks, roomC + ABOVE_ROOM_C),
    bagAt: bagAt(slowestBody(batch), fit.tracks, roomC, bagC),
    bagC,
    readings: fit.readings,
    weak: fit.weak,
  };
}
