/**
 * The running estimate of a batch: temperature, F0 and log reduction at the centre for a cautious, a likely
 * and a fast diffusivity at once, advanced as the chamber's temperature becomes known. An estimate with a
 * band, never a claim of sterility; see heat-penetration.ts for what it rests on.
 */
import type { Body } from './conduction.ts';
import { EFFECTIVE_DIFFUSIVITY } from './diffusivity.ts';
import { modesOf } from './heat-modes.ts';
import { centreC, copyModes, type HeatState, runThrough, stateOf } from './heat-penetration.ts';
import { F0_REFERENCE, type Organism, segmentF } from './lethality.ts';
import { type Band, positive } from './limits.ts';
import { GRAIN_SPORE } from './spores.ts';

export interface EstimateQuestion {
  readonly body: Body;
  readonly startC: number;
  /** `EFFECTIVE_DIFFUSIVITY` when absent. */
  readonly diffusivity?: Band;
  /** 1/m; infinity when absent. */
  readonly hOverK?: number;
  /** `GRAIN_SPORE` when absent. */
  readonly organism?: Organism;
}

interface Track {
  readonly state: HeatState;
  f0Min: number;
  logs: number;
}

/** Belongs to one owner: `advanceEstimate` changes it. */
export interface CentreEstimate {
  readonly organism: Organism;
  readonly slow: Track;
  readonly likely: Track;
  readonly fast: Track;
}

export interface CentreReading {
  readonly centreC: Band;
  readonly f0Min: Band;
  readonly logs: Band;
}

/** Steps within which the centre is taken as straight for F, s. */
const STEP_S = 20;

export function createEstimate(question: EstimateQuestion): CentreEstimate {
  const { body, startC, diffusivity = EFFECTIVE_DIFFUSIVITY, organism = GRAIN_SPORE } = question;
  positive('D-value', organism.dMin, 'min');
  const modes = modesOf(body, question.hOverK ?? Number.POSITIVE_INFINITY);
  const track = (m2s: number): Track => ({ state: stateOf(modes, m2s, startC), f0Min: 0, logs: 0 });
  return {
    organism,
    slow: track(diffusivity.low),
    likely: track(diffusivity.likely),
    fast: track(diffusivity.high),
  };
}

/** A second owner's estimate at the same instant, to look ahead with. */
export function copyEstimate({ organism, slow, likely, fast }: CentreEstimate): CentreEstimate {
  const copy = (track: Track): Track => ({ ...track, state: copyModes(track.state) });
  return { organism, slow: copy(slow), likely: copy(likely), fast: copy(fast) };
}

/** Goes on by so many seconds (above 0) with the chamber running straight from one temperature to another. */
export function advanceEstimate(estimate: CentreEstimate, seconds: number, fromC: number, toC: number): void {
  positive('Time step', seconds, 's');
  const corners = [
    { seconds: 0, celsius: fromC },
    { seconds, celsius: toC },
  ];
  const { organism } = estimate;
  const each = seconds / Math.ceil(seconds / STEP_S - 1e-9);
  for (const track of [estimate.slow, estimate.likely, estimate.fast]) {
    runThrough(track.state, corners, STEP_S, (_seconds, _chamber, now, before) => {
      const segment = { seconds: each, fromC: before, toC: now };
      track.f0Min += segmentF(segment, F0_REFERENCE);
      track.logs += segmentF(segment, organism) / organism.dMin;
    });
  }
}

/** What the estimate says now; low is the cautious diffusivity while the bag heats. */
export function readEstimate({ slow, likely, fast }: CentreEstimate): CentreReading {
  const temperatures = [slow, likely, fast].map(track => centreC(track.state));
  const middle = centreC(likely.state);
  return {
    // A slow bag is the warmer one once the chamber cools.
    centreC: { low: Math.min(...temperatures), likely: middle, high: Math.max(...temperatures) },
    f0Min: sorted(slow.f0Min, likely.f0Min, fast.f0Min),
    logs: sorted(slow.logs, likely.logs, fast.logs),
  };
}

function sorted(slow: number, likely: number, fast: number): Band {
  return { low: Math.min(slow, likely, fast), likely, high: Math.max(slow, likely, fast) };
}
