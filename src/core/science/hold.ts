/**
 * How long to hold: the time at temperature that brings the centre of a bag to a target F at heat-off, and
 * what a given hold is worth. Credit after heat-off is real but counted only while the lid stays shut, and not
 * in a suggestion. Use it over the band of diffusivities; the middle value alone says too much.
 */
import type { Body } from './conduction.ts';
import { type ChamberPoint, centreC, type HeatState, runThrough, stateOf } from './heat-penetration.ts';
import { type Modes, modesOf } from './heat-modes.ts';
import { F0_REFERENCE, type Organism, type Reference, segmentF } from './lethality.ts';
import {
  type Band,
  isNoAnswer,
  type NoAnswer,
  noAnswer,
  notNegative,
  positive,
  temperature,
  within,
} from './limits.ts';

/** Common time from a cold start to steady steam, and from closing the valve to pressure, s. */
export const USUAL_HEAT_S = 1500;
export const USUAL_VENT_S = 600;
export const USUAL_CLIMB_S = 480;
/** Longer than a day is no answer for a stove. */
export const LONGEST_HOLD_S = 86_400;
/** Steps of the march; the log-linear integral makes them exact to 1e-4 min. */
const STEP_S = 15;

export interface ComeUp {
  readonly startC: number;
  /** Temperature of the venting steam: the local boiling point. */
  readonly ventC: number;
  readonly holdC: number;
  readonly heatS?: number;
  readonly ventS?: number;
  readonly climbS?: number;
}

/** Corners of the chamber's temperature up to the start of the hold. */
export function comeUp(times: ComeUp): readonly ChamberPoint[] {
  const { startC, ventC, holdC, heatS = USUAL_HEAT_S, ventS = USUAL_VENT_S, climbS = USUAL_CLIMB_S } = times;
  for (const celsius of [startC, ventC, holdC]) temperature('Temperature of the come-up', celsius);
  const vented = positive('Heating time', heatS, 's') + notNegative('Vent', ventS, 's');
  return [
    { seconds: 0, celsius: startC },
    { seconds: heatS, celsius: ventC },
    { seconds: vented, celsius: ventC },
    { seconds: vented + positive('Climb', climbS, 's'), celsius: holdC },
  ];
}

export interface Cook {
  readonly body: Body;
  readonly diffusivityM2S: number;
  /** 1/m; infinity when absent. */
  readonly hOverK?: number;
  /** Chamber up to the start of the hold; the bag starts at the first corner's temperature. */
  readonly comeUp: readonly ChamberPoint[];
  /** Chamber during the hold, C. */
  readonly holdC: number;
}

export interface Target {
  readonly minutes: number;
  readonly reference?: Reference;
}

export interface AtHeatOff {
  readonly holdS: number;
  /** F at the centre, minutes. */
  readonly fMin: number;
  readonly centreC: number;
}

/** Hold in s that gives the centre a target F at heat-off; no answer beyond a day. */
export function holdFor(cook: Cook, target: Target): AtHeatOff | NoAnswer {
  return search(modesOf(cook.body, cook.hOverK ?? Number.POSITIVE_INFINITY), cook, target);
}

/** The same for a cautious, a likely and a fast diffusivity: low is the shortest hold. */
export function holdBand(
  cook: Omit<Cook, 'diffusivityM2S'>,
  diffusivity: Band,
  target: Target,
): Band | NoAnswer {
  const modes = modesOf(cook.body, cook.hOverK ?? Number.POSITIVE_INFINITY);
  const at = (diffusivityM2S: number) => search(modes, { ...cook, diffusivityM2S }, target);
  const low = at(diffusivity.high);
  const likely = at(diffusivity.likely);
  const high = at(diffusivity.low);
  if (isNoAnswer(low)) return low;
  if (isNoAnswer(likely)) return likely;
  return isNoAnswer(high) ? high : { low: low.holdS, likely: likely.holdS, high: high.holdS };
}

function search(
  modes: Modes,
  cook: Cook,
  { minutes, reference = F0_REFERENCE }: Target,
): AtHeatOff | NoAnswer {
  positive('Target F', minutes, 'min');
  const { state, fMin, endS } = begin(modes, cook, reference);
  let total = fMin;
  if (total >= minutes) return { holdS: 0, fMin: total, centreC: centreC(state) };
  for (let heldS = 0; heldS < LONGEST_HOLD_S; heldS += STEP_S) {
    let gained = 0;
    let beforeC = 0;
    const step = [
      { seconds: endS + heldS, celsius: cook.holdC },
      { seconds: endS + heldS + STEP_S, celsius: cook.holdC },
    ];
    runThrough(state, step, STEP_S, (_seconds, _chamber, centre, before) => {
      gained = segmentF({ seconds: STEP_S, fromC: before, toC: centre }, reference);
      beforeC = before;
    });
    if (total + gained >= minutes) {
      const share = shareOfStep((minutes - total) / gained, beforeC, centreC(state), reference);
      return {
        holdS: heldS + share * STEP_S,
        fMin: minutes,
        centreC: beforeC + share * (centreC(state) - beforeC),
      };
    }
    total += gained;
  }
  return noAnswer(`At ${cook.holdC.toFixed(1)} C the centre does not reach F ${minutes} min within a day.`);
}

/** Where in a straight piece the share of its F is reached. */
function shareOfStep(ofF: number, fromC: number, toC: number, { zC }: Reference): number {
  const x = ((toC - fromC) * Math.LN10) / zC;
  return Math.abs(x) < 1e-9 ? ofF : Math.log1p(ofF * Math.expm1(x)) / x;
}

interface Begun {
  readonly state: HeatState;
  readonly fMin: number;
  readonly endS: number;
}

function begin(modes: Modes, { diffusivityM2S, comeUp: corners }: Cook, reference: Reference): Begun {
  const [first] = corners;
  const last = corners.at(-1);
  if (first === undefined || last === undefined)
    throw new RangeError('The come-up needs at least one corner.');
  within('Come-up', last.seconds - first.seconds, 0, LONGEST_HOLD_S, 's');
  const state = stateOf(modes, diffusivityM2S, first.celsius);
  return { state, fMin: gather(state, corners, reference), endS: last.seconds };
}

function gather(state: HeatState, corners: readonly ChamberPoint[], reference: Reference): number {
  let total = 0;
  let lastS = corners[0]?.seconds ?? 0;
  runThrough(state, corners, STEP_S, (seconds, _chamber, centre, before) => {
    total += segmentF({ seconds: seconds - lastS, fromC: before, toC: centre }, reference);
    lastS = seconds;
  });
  return total;
}

/** What a given hold (at most a day) gives the centre at heat-off. */
export function atHeatOff(cook: Cook, holdS: number, reference: Reference = F0_REFERENCE): AtHeatOff {
  return held(modesOf(cook.body, cook.hOverK ?? Number.POSITIVE_INFINITY), cook, holdS, reference);
}

/** Log reduction of an organism at the centre at heat-off, by its own D and z. */
export function logsAtHeatOff(cook: Cook, holdS: number, organism: Organism): number {
  return atHeatOff(cook, holdS, organism).fMin / positive('D-value', organism.dMin, 'min');
}

export interface Outcome {
  readonly centreC: Band;
  /** F0 at the centre at heat-off, minutes. */
  readonly f0Min: Band;
  /** Log reduction of the organism there. */
  readonly logs: Band;
}

/** What a given hold is worth over a band of diffusivities (low is the slow one), for F0 and an organism. */
export function outcomeBand(
  cook: Omit<Cook, 'diffusivityM2S'>,
  diffusivity: Band,
  holdS: number,
  organism: Organism,
): Outcome {
  const modes = modesOf(cook.body, cook.hOverK ?? Number.POSITIVE_INFINITY);
  const dMin = positive('D-value', organism.dMin, 'min');
  const of = (diffusivityM2S: number) => {
    const one = { ...cook, diffusivityM2S };
    const { centreC: celsius, fMin } = held(modes, one, holdS, F0_REFERENCE);
    return { celsius, fMin, logs: held(modes, one, holdS, organism).fMin / dMin };
  };
  const low = of(diffusivity.low);
  const likely = of(diffusivity.likely);
  const high = of(diffusivity.high);
  return {
    centreC: { low: low.celsius, likely: likely.celsius, high: high.celsius },
    f0Min: { low: low.fMin, likely: likely.fMin, high: high.fMin },
    logs: { low: low.logs, likely: likely.logs, high: high.logs },
  };
}

function held(modes: Modes, cook: Cook, holdS: number, reference: Reference): AtHeatOff {
  within('Hold', holdS, 0, LONGEST_HOLD_S, 's');
  const { state, fMin, endS } = begin(modes, cook, reference);
  const plateau = [
    { seconds: endS, celsius: temperature('Hold temperature', cook.holdC) },
    { seconds: endS + holdS, celsius: cook.holdC },
  ];
  return { holdS, fMin: fMin + gather(state, plateau, reference), centreC: centreC(state) };
}
