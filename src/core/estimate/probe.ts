/**
 * A thermometer in the middle of one container settles what no table can: how fast this kind of container
 * warms. Its readings give the diffusivity, and with it f_h, the time for one log cycle.
 */
import type { Batch } from '../batch/state.ts';
import { ballLine, fitDiffusivity } from '../science/ball.ts';
import { isNoAnswer } from '../science/limits.ts';
import { type CoachTime, SECOND } from '../time.ts';
import { keptModes } from '../science/kept-modes.ts';
import { slowestBody } from './body.ts';
import type { Chamber } from './chamber.ts';
import { bandAt, type Corner } from './corners.ts';
import { centreOf, startMarch, walk } from './march.ts';

/** Fewer readings, or readings closer together than this, are no curve. */
export const LEAST_READINGS = 3;
const LEAST_RISE_C = 15;
/** A curve that misses the readings by more than this on average was not measured at the centre. */
const MOST_MISS_C = 4;

export interface ProbeReading {
  readonly t: CoachTime;
  readonly celsius: number;
}

export type ProbeFit =
  | { readonly ok: true; readonly diffusivityM2S: number; readonly fhS: number; readonly missC: number }
  | { readonly ok: false; readonly why: 'too-few' | 'too-flat' | 'no-fit' };

/** Readings in the middle of a container of this load. */
export const probeReadings = (batch: Batch, load = batch.load): readonly ProbeReading[] =>
  batch.measured.filter(entry => entry.load === load && entry.of === 'centre');

/** How far a curve with this diffusivity is from the readings, root mean square, C. */
function missOf(batch: Batch, load: number, chamber: Chamber, m2s: number): number {
  const march = startMarch(keptModes(slowestBody(batch, load)), m2s, chamber.startC, chamber.from);
  const readings = probeReadings(batch, load);
  let sum = 0;
  for (const { t, celsius } of readings) {
    const passed = chamber.corners.filter(corner => corner.t > march.t && corner.t < t);
    const here: Corner = { t: march.t, c: bandAt(chamber.corners, march.t) };
    walk(march, [here, ...passed, { t, c: bandAt(chamber.corners, t) }], 'likely');
    sum += (celsius - centreOf(march)) ** 2;
  }
  return Math.sqrt(sum / readings.length);
}

/** The fit of a load's probe; null without any reading. */
export function probeFit(batch: Batch, chamber: Chamber, load = batch.load): ProbeFit | null {
  const readings = probeReadings(batch, load).filter(({ t }) => t > chamber.from && t <= chamber.to);
  if (readings.length === 0) return null;
  if (readings.length < LEAST_READINGS) return { ok: false, why: 'too-few' };
  const celsius = readings.map(reading => reading.celsius);
  if (Math.max(...celsius) - Math.min(...celsius) < LEAST_RISE_C) return { ok: false, why: 'too-flat' };
  const body = slowestBody(batch, load);
  const last = readings.at(-1)?.t ?? chamber.to;
  const m2s = fitDiffusivity(body, {
    probe: readings.map(reading => ({ seconds: reading.t / SECOND, celsius: reading.celsius })),
    chamber: [
      ...chamber.corners.filter(({ t }) => t < last),
      { t: last, c: bandAt(chamber.corners, last) },
    ].map(({ t, c }) => ({ seconds: t / SECOND, celsius: c.likely })),
  });
  if (isNoAnswer(m2s)) return { ok: false, why: 'no-fit' };
  const missC = missOf(batch, load, chamber, m2s);
  if (missC > MOST_MISS_C) return { ok: false, why: 'no-fit' };
  return { ok: true, diffusivityM2S: m2s, fhS: ballLine(body, m2s).fhS, missC };
}
