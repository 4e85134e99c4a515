/** The centre of a body in a chamber that was worked out before: temperature, F0 and logs along one track. */
import type { Modes } from '../science/heat-modes.ts';
import {
  type ChamberPoint,
  centreC,
  copyModes,
  type HeatState,
  runThrough,
  stateOf,
} from '../science/heat-penetration.ts';
import { F0_REFERENCE, segmentF } from '../science/lethality.ts';
import type { Band } from '../science/limits.ts';
import { GRAIN_SPORE } from '../science/spores.ts';
import { type CoachTime, SECOND } from '../time.ts';
import type { Corner } from './corners.ts';

/** Within this the centre is straight enough for the exact integral, s. */
const STEP_S = 30;
/** Points for a curve are kept no closer than this, s. */
const KEEP_S = 60;

export interface CentrePoint {
  readonly t: CoachTime;
  readonly centreC: number;
  readonly f0Min: number;
}

/** Belongs to one owner: `walk` changes it. */
export interface March {
  readonly state: HeatState;
  t: CoachTime;
  f0Min: number;
  logs: number;
  readonly points: CentrePoint[];
}

export function startMarch(modes: Modes, diffusivityM2S: number, startC: number, t: CoachTime): March {
  const state = stateOf(modes, diffusivityM2S, startC);
  return { state, t, f0Min: 0, logs: 0, points: [{ t, centreC: startC, f0Min: 0 }] };
}

/** A second owner's march from the same instant, without the points behind it. */
export const branch = (march: March): March => ({
  ...march,
  state: copyModes(march.state),
  points: [],
});

export const centreOf = (march: March): number => centreC(march.state);

/** Goes on through the corners' times on one side of their band. */
export function walk(march: March, corners: readonly Corner[], side: keyof Band): void {
  const path: readonly ChamberPoint[] = corners.map(({ t, c }) => ({
    seconds: t / SECOND,
    celsius: c[side],
  }));
  let lastS = march.t / SECOND;
  runThrough(march.state, path, STEP_S, (seconds, _chamber, now, before) => {
    const segment = { seconds: seconds - lastS, fromC: before, toC: now };
    march.f0Min += segmentF(segment, F0_REFERENCE);
    march.logs += segmentF(segment, GRAIN_SPORE) / GRAIN_SPORE.dMin;
    lastS = seconds;
    const kept = march.points.at(-1);
    if (!kept || seconds * SECOND - kept.t >= KEEP_S * SECOND - 1) {
      march.points.push({ t: seconds * SECOND, centreC: now, f0Min: march.f0Min });
    }
  });
  march.t = lastS * SECOND;
}

/** Goes on at one chamber temperature; the first instant with this F0, or null when it takes longer than `most`. */
export function walkUntil(march: March, chamberC: number, f0Min: number, most: CoachTime): CoachTime | null {
  while (march.f0Min < f0Min) {
    if (march.t >= most) return null;
    const before = { t: march.t, f0Min: march.f0Min };
    const c = { low: chamberC, likely: chamberC, high: chamberC };
    walk(
      march,
      [
        { t: march.t, c },
        { t: march.t + STEP_S * SECOND, c },
      ],
      'likely',
    );
    if (march.f0Min >= f0Min) {
      const share = (f0Min - before.f0Min) / (march.f0Min - before.f0Min);
      return before.t + (march.t - before.t) * share;
    }
  }
  return march.t;
}

/** When the points behind a march reached this F0, or null when they have not. */
export function reachedAt(march: March, f0Min: number): CoachTime | null {
  const next = march.points.findIndex(point => point.f0Min >= f0Min);
  const b = march.points[next];
  if (!b) return march.f0Min >= f0Min ? march.t : null;
  const a = march.points[next - 1] ?? b;
  return b.f0Min > a.f0Min ? a.t + ((b.t - a.t) * (f0Min - a.f0Min)) / (b.f0Min - a.f0Min) : b.t;
}
