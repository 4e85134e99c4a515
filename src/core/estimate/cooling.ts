/**
 * How the shut vessel cools after heat-off. Before any reading the loss to the room is an estimate (40 % either way); two gauge readings,
 * or a thermometer held to the vessel, replace it (10 %). Zero on a gauge does not prove zero.
 */
import { inLoad, numbersOf, recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { type CoachTime, MINUTE, SECOND } from '../time.ts';
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
import { READ_KPA, temperatureC } from './gauge.ts';

/** Half a psi at the gauge, in K. */
export const READ_K = READ_KPA / 5.2;
/** Readings closer in time than this say nothing about a rate. */
const LEAST_APART = MINUTE;
/** A single reading further than this from what was predicted is doubted, K: some three psi. */
const FAR_K = 4;

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
  /** The only reading lies far from what was predicted: a gauge can stick, or be misread. */
  readonly doubted: boolean;
}

/** The same law, told from a later instant on; a natural one cools ever more slowly. */
const later = (cooling: Cooling, seconds: number): Cooling => ({
  ...cooling,
  startC: coolingC(cooling, seconds),
  tauS: cooling.law === 'newton' ? cooling.tauS : cooling.tauS + seconds / 4,
});

/** Which of two laws from one instant gets to a temperature last. */
function slower(a: Cooling, b: Cooling, celsius: number): Cooling {
  const [first, second] = [coolingS(a, celsius), coolingS(b, celsius)];
  if (isNoAnswer(first)) return a;
  return isNoAnswer(second) || second > first ? b : a;
}

/**
 * The tracks of a single reading beside the prediction. The slow end stays at least the predicted one, since
 * one look at a gauge must not make anybody open early; a reading far from the prediction only widens it.
 */
function singly(batch: Batch, free: CoolTracks, fitted: CoolTracks, celsius: number): CoolFit {
  const seconds = (fitted.from - free.from) / SECOND;
  const predicted = alongC(free, fitted.from);
  const cold = celsius < predicted.low - FAR_K;
  const hot = celsius > predicted.high + FAR_K;
  return {
    tracks: {
      from: fitted.from,
      low: hot ? later(free.low, seconds) : fitted.low,
      likely: cold ? later(free.likely, seconds) : fitted.likely,
      high: slower(later(free.high, seconds), fitted.high, numbersOf(batch).boilC),
    },
    readings: 1,
    weak: false,
    doubted: cold || hot,
  };
}

/** The laws from heat-off on, refitted by what was read. `startC` is the chamber at heat-off. */
export function coolFit(batch: Batch, shut: Shut, startC: Band): CoolFit {
  const free = freeCooling(batch, shut.heatOffAt, startC);
  const unfitted: CoolFit = { tracks: free, readings: 0, weak: true, doubted: false };
  const points = coolPoints(batch, shut);
  const last = points.at(-1);
  if (!last) return { ...unfitted, weak: false };
  const only = points.length < 2;
  const first = only ? { t: shut.heatOffAt, celsius: startC.likely } : (points[0] ?? last);
  if (last.t - first.t < LEAST_APART) return unfitted;
  const fit = fitCooling({
    firstC: first.celsius,
    secondC: last.celsius,
    secondsApart: (last.t - first.t) / SECOND,
    ambientC: batch.header.kitchen.roomC,
  });
  if (isNoAnswer(fit)) return unfitted;
  const from = (law: Cooling, stretch: number, offC: number): Cooling => ({
    ...law,
    startC: last.celsius + offC,
    tauS: law.tauS * stretch,
  });
  const tracks: CoolTracks = {
    from: last.t,
    low: from(fit.newton, 1 - FIT_SPREAD, -READ_K),
    likely: from(fit.newton, 1, 0),
    high: from(fit.natural, 1 + FIT_SPREAD, READ_K),
  };
  if (only) return { ...singly(batch, free, tracks, last.celsius), weak: fit.weak };
  return { tracks, readings: 2, weak: fit.weak, doubted: false };
}
