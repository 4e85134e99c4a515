/**
 * The centre of the slowest container from the cold vessel to heat-off: one march gives temperature, F0 and
 * what the second organism got, for every hold up to its end.
 */
import type { Body } from '../science/conduction.ts';
import { centreC, runThrough, stateOf } from '../science/heat-penetration.ts';
import { type ComeUp, comeUp } from '../science/hold.ts';
import { keptModes } from '../science/kept-modes.ts';
import { decimalReductionMin, F0_REFERENCE, segmentF } from '../science/lethality.ts';
import { GRAIN_SPORE } from '../science/spores.ts';

/** Exact to 1e-3 min of F0, since the integral is exact for straight pieces. */
const STEP_S = 15;
/** No hold beyond this is worth asking a kitchen for. */
export const LONGEST_LOOK_S = 12 * 3600;
/** State of the centre at an instant, seconds from the cold vessel. */
export interface CentrePoint {
  readonly seconds: number;
  readonly chamberC: number;
  readonly centreC: number;
  /** F0 gathered so far, min. */
  readonly f0Min: number;
  /** Log reduction so far: the smaller of the second organism's own and the one its D121 would give from F0. */
  readonly logs: number;
}

export interface CentreCurve {
  readonly points: readonly CentrePoint[];
  /** When the hold begins, s. */
  readonly holdFromS: number;
}

export interface CentreQuestion {
  readonly body: Body;
  readonly diffusivityM2S: number;
  readonly comeUp: ComeUp;
  /** Runs at least through this hold, s. */
  readonly holdS: number;
  /** And on until this F0 and a minute more, or until `LONGEST_LOOK_S` of hold. */
  readonly untilF0Min?: number;
}

const D121_MIN = decimalReductionMin(GRAIN_SPORE, F0_REFERENCE.atC);

/** Marches the centre through come-up and hold. RangeError outside the models' ranges. */
export function centreCurve(question: CentreQuestion): CentreCurve {
  const { body, diffusivityM2S, holdS, untilF0Min = 0 } = question;
  const corners = comeUp(question.comeUp);
  const state = stateOf(keptModes(body), diffusivityM2S, question.comeUp.startC);
  let f0Min = 0;
  let sporeMin = 0;
  let lastS = 0;
  const points: CentrePoint[] = [];
  const note = (seconds: number, chamberC: number, now: number, before: number) => {
    const segment = { seconds: seconds - lastS, fromC: before, toC: now };
    f0Min += segmentF(segment);
    sporeMin += segmentF(segment, GRAIN_SPORE);
    lastS = seconds;
    const logs = Math.min(sporeMin / GRAIN_SPORE.dMin, f0Min / D121_MIN);
    points.push({ seconds, chamberC, centreC: now, f0Min, logs });
  };
  note(0, question.comeUp.startC, centreC(state), centreC(state));
  runThrough(state, corners, STEP_S, note);
  const holdFromS = lastS;
  const { holdC } = question.comeUp;
  let reachedS = f0Min >= untilF0Min ? 0 : null;
  // A hold is rounded up to a whole minute, which the curve has to reach.
  const enoughS = () => Math.max(holdS, reachedS === null ? LONGEST_LOOK_S : reachedS + 60) - 1e-6;
  while (lastS - holdFromS < enoughS()) {
    const step = [
      { seconds: lastS, celsius: holdC },
      { seconds: lastS + STEP_S, celsius: holdC },
    ];
    runThrough(state, step, STEP_S, note);
    if (reachedS === null && f0Min >= untilF0Min) reachedS = lastS - holdFromS;
  }
  return { points, holdFromS };
}

/** The centre after a hold of so many seconds; the curve must reach so far. */
export function afterHold({ points, holdFromS }: CentreCurve, holdS: number): CentrePoint {
  const seconds = holdFromS + holdS;
  const next = points.findIndex(point => point.seconds >= seconds - 1e-6);
  const b = points[next];
  if (b === undefined) throw new RangeError(`The curve ends before a hold of ${holdS} s.`);
  const a = points[next - 1] ?? b;
  const share = b.seconds > a.seconds ? (seconds - a.seconds) / (b.seconds - a.seconds) : 1;
  const mix = (key: keyof CentrePoint) => a[key] + (b[key] - a[key]) * share;
  return {
    seconds,
    chamberC: mix('chamberC'),
    centreC: mix('centreC'),
    f0Min: mix('f0Min'),
    logs: mix('logs'),
  };
}

/** Hold in s after which the centre has this F0; null when the curve never gets there. */
export function holdForF0({ points, holdFromS }: CentreCurve, f0Min: number): number | null {
  const next = points.findIndex(point => point.f0Min >= f0Min);
  const b = points[next];
  if (b === undefined) return null;
  const a = points[next - 1] ?? b;
  const share = b.f0Min > a.f0Min ? (f0Min - a.f0Min) / (b.f0Min - a.f0Min) : 1;
  return Math.max(0, a.seconds + (b.seconds - a.seconds) * share - holdFromS);
}
