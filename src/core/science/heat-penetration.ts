/**
 * Temperature at the centre of a bag or jar while the chamber's temperature changes.
 *
 * Conduction with a constant effective diffusivity; the chamber runs in straight pieces, for which the modes
 * are exact: T_c = T_a - r tau - sum c w, where r is the chamber's slope, tau the lag behind a steady ramp and
 * each w decays by exp(-lambda t), takes up every jump of the chamber and, at every change of slope, the
 * change over lambda (kept as c w, so that the sum is all that a step costs). A state is advanced in place, cheaply, by a live run or a simulator. The model is a
 * calibration to practice, not a measurement: always show it with its band of diffusivities.
 */
import type { Body } from './conduction.ts';
import { type Modes, modesOf } from './heat-modes.ts';
import { positive, within } from './limits.ts';

export interface Penetration {
  readonly body: Body;
  /** Effective thermal diffusivity, m2/s; 1e-8 to 1e-4. */
  readonly diffusivityM2S: number;
  /** Uniform temperature at the start, C. */
  readonly startC: number;
  /** Surface coefficient over conductivity, 1/m; infinity when absent. */
  readonly hOverK?: number;
}

/** Everything needed to go on from an instant. Belongs to one owner: `advance` changes it. */
export interface HeatState {
  /** Decay constants 1/s, rising. */
  readonly lambda: Float64Array;
  /** Weight of each mode at the centre, and the same over its decay constant, s. */
  readonly weight: Float64Array;
  readonly lagWeight: Float64Array;
  /** What is left of each mode at the centre, K. */
  readonly rest: Float64Array;
  /** Lag behind a steady ramp, s. */
  readonly tauS: number;
  chamberC: number;
  slopeCPerS: number;
  /** Sum of what is left, K. */
  lagC: number;
  /** Modes not yet dead since the last change of slope, and the time since. */
  alive: number;
  steadyS: number;
  /** Decay factors of the last step length, valid for the first `decayCount` modes. */
  readonly decay: Float64Array;
  decayS: number;
  decayCount: number;
}

/** Conduction is linear: nothing of it depends on how hot it is, so that a vessel left dry on a burner goes too. */
const celsius = (name: string, value: number): number => within(name, value, -273.15, 10_000, 'C');

/** exp(-40) is below the last digit of any temperature. */
const DEAD = 40;

/** A body at rest at its start temperature, in a chamber of the same temperature. */
export function createModes(penetration: Penetration): HeatState {
  const { body, diffusivityM2S, startC, hOverK = Number.POSITIVE_INFINITY } = penetration;
  if (hOverK !== Number.POSITIVE_INFINITY) positive('h/k', hOverK, '1/m');
  return stateOf(modesOf(body, hOverK), diffusivityM2S, startC);
}

/** The same from modes that were made before: bodies are costly to expand, diffusivities cheap to try. */
export function stateOf({ kappa, weight, lagM2 }: Modes, diffusivityM2S: number, startC: number): HeatState {
  within('Diffusivity', diffusivityM2S, 1e-8, 1e-4, 'm2/s');
  celsius('Start temperature', startC);
  const lambda = kappa.map(value => value * diffusivityM2S);
  return {
    lambda,
    weight,
    lagWeight: lambda.map((value, n) => (weight[n] as number) / value),
    rest: new Float64Array(lambda.length),
    tauS: lagM2 / diffusivityM2S,
    chamberC: startC,
    slopeCPerS: 0,
    lagC: 0,
    alive: 0,
    steadyS: 0,
    decay: new Float64Array(lambda.length),
    decayS: -1,
    decayCount: 0,
  };
}

/** A second owner's state at the same instant. */
export function copyModes(state: HeatState): HeatState {
  return { ...state, rest: state.rest.slice(), decay: state.decay.slice() };
}

/**
 * Goes on by so many seconds (above 0) while the chamber runs straight from one temperature (-273.15 to 10 000 C) to another. A
 * `fromC` other than the chamber's last temperature is a jump at the beginning.
 */
export function advance(state: HeatState, seconds: number, fromC: number, toC: number): void {
  positive('Time step', seconds, 's');
  const jump = celsius('Chamber temperature', fromC) - state.chamberC;
  const slope = (celsius('Chamber temperature', toC) - fromC) / seconds;
  // A straight line cut in pieces has the same slope but for rounding, and must not wake the dead modes.
  const straight = Math.abs(slope - state.slopeCPerS) * seconds <= 1e-11 && Math.abs(jump) <= 1e-11;
  const kink = state.slopeCPerS - slope;
  if (!straight) {
    state.slopeCPerS = slope;
    state.alive = state.lambda.length;
    state.steadyS = 0;
  }
  prepare(state, seconds);
  state.lagC = straight ? decayAll(state) : kickAll(state, jump, kink);
  state.chamberC = toC;
  state.steadyS += seconds;
  bury(state);
}

/** Temperature at the centre now, C. */
export function centreC(state: HeatState): number {
  return state.chamberC - state.slopeCPerS * state.tauS - state.lagC;
}

function prepare(state: HeatState, seconds: number): void {
  const { lambda, decay, alive } = state;
  if (seconds !== state.decayS) {
    state.decayS = seconds;
    state.decayCount = 0;
  }
  for (let n = state.decayCount; n < alive; n += 1) decay[n] = Math.exp(-(lambda[n] as number) * seconds);
  if (alive > state.decayCount) state.decayCount = alive;
}

/** Without a kink, which is most of the time, every mode only decays. */
function decayAll({ rest, decay, alive }: HeatState): number {
  let lag = 0;
  for (let n = 0; n < alive; n += 1) {
    const left = (rest[n] as number) * (decay[n] as number);
    rest[n] = left;
    lag += left;
  }
  return lag;
}

function kickAll({ rest, decay, weight, lagWeight, alive }: HeatState, jump: number, kink: number): number {
  let lag = 0;
  for (let n = 0; n < alive; n += 1) {
    const kicked = (rest[n] as number) + jump * (weight[n] as number) + kink * (lagWeight[n] as number);
    const left = kicked * (decay[n] as number);
    rest[n] = left;
    lag += left;
  }
  return lag;
}

function bury(state: HeatState): void {
  const { lambda, rest, steadyS } = state;
  let alive = state.alive;
  while (alive > 0 && (lambda[alive - 1] as number) * steadyS > DEAD) {
    alive -= 1;
    rest[alive] = 0;
  }
  state.alive = alive;
}

/** One corner of a chamber's temperature, seconds from the start. */
export interface ChamberPoint {
  readonly seconds: number;
  readonly celsius: number;
}

/** A course longer than a thousand days is a mistake, and would be marched for minutes. */
const LONGEST_S = 1000 * 86_400;

/** Seen at every step: seconds from the start, chamber and centre in C, and the centre one step before. */
export type Watcher = (seconds: number, chamberC: number, centreC: number, beforeC: number) => void;

/**
 * Runs a state through corners (the first is where it stands now) in equal steps of at most `stepS`, telling
 * a watcher. Two corners at one time are a jump. RangeError when the corners run backwards in time or lie more
 * than a thousand days apart.
 */
export function runThrough(
  state: HeatState,
  corners: readonly ChamberPoint[],
  stepS: number,
  watch: Watcher,
): void {
  positive('Time step', stepS, 's');
  let before = centreC(state);
  corners.forEach((end, corner) => {
    const start = corners[corner - 1];
    if (start === undefined) return;
    const span = within('Time between two chamber readings', end.seconds - start.seconds, 0, LONGEST_S, 's');
    const steps = Math.ceil(span / stepS - 1e-9);
    for (let step = 0; step < steps; step += 1) {
      const at = (share: number) => start.celsius + (end.celsius - start.celsius) * share;
      advance(state, span / steps, at(step / steps), at((step + 1) / steps));
      const now = centreC(state);
      watch(start.seconds + (span * (step + 1)) / steps, state.chamberC, now, before);
      before = now;
    }
  });
}
