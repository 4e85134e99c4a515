/** What really was, at the moments that decide a batch: noted by the world, told only in the debrief. */
import type { CoachTime } from '../time.ts';
import type { FaultId } from './faults.ts';

export interface Drained {
  readonly t: CoachTime;
  readonly moisture: number;
  /** Mean white share of the cut kernels, and share that had burst. */
  readonly core: number;
  readonly burst: number;
}

export interface Bagged {
  readonly t: CoachTime;
  readonly moisture: number;
  /** Water on the surface, g for each kg. */
  readonly filmG: number;
  /** Wet-basis points lost from inside while drying. */
  readonly driedPoints: number;
}

/** One load of the cooker; null where it never got there. */
export interface LoadFacts {
  readonly load: number;
  plannedL: number;
  pouredL: number;
  steadyT: CoachTime | null;
  /** Steam leaving when it was called steady, g/min, and whether it was pure. */
  steadyGMin: number;
  /** How long the jet had stood by then, s. */
  steadyJetS: number;
  shutT: CoachTime | null;
  /** Air left in chamber and containers at closing, share of what was there cold. */
  airLeft: number;
  /** Seconds of a real, unbroken jet before closing. */
  jetS: number;
  holdT: CoachTime | null;
  holdGaugeKPa: number;
  holdC: number;
  /** Seconds really at or above the target temperature before heat-off, and lowest gauge while time counted. */
  aboveS: number;
  leastKPa: number;
  mostKPa: number;
  /** Seconds of the hold and of the time until heat-off spent more than `LIMITS.overKPa` above the target. */
  overS: number;
  /** Seconds that the coach counted, or had to count, until the heat went off. */
  countedS: number;
  /** What the coach counted before the hold began again, and took back. */
  givenUpS: number;
  /** Highest gauge pressure behind an open valve, kPa. */
  openKPa: number;
  offT: CoachTime | null;
  waterLeftL: number;
  dryS: number;
  openT: CoachTime | null;
  openGaugeKPa: number;
  openMeanC: number;
  tearRisk: number;
  /** At heat-off, centre of the fullest: low, likely, high diffusivity. */
  f0Min: readonly [number, number, number];
  logs: readonly [number, number, number];
}

export interface Facts {
  gearFound: readonly FaultId[];
  drained: Drained | null;
  bagged: Bagged | null;
  boiledOver: number;
  readonly loads: LoadFacts[];
  /** Nobody watched: when, and whether the coach was told. */
  away: { readonly from: CoachTime; readonly to: CoachTime; told: boolean } | null;
  tempted: boolean;
  /** Container numbers that were really damaged. */
  readonly torn: number[];
  inoculatedC: number | null;
}

export const noFacts = (): Facts => ({
  gearFound: [],
  drained: null,
  bagged: null,
  boiledOver: 0,
  loads: [],
  away: null,
  tempted: false,
  torn: [],
  inoculatedC: null,
});

export const newLoad = (load: number, plannedL: number, pouredL: number): LoadFacts => ({
  load,
  plannedL,
  pouredL,
  steadyT: null,
  steadyGMin: 0,
  steadyJetS: 0,
  shutT: null,
  airLeft: 1,
  jetS: 0,
  holdT: null,
  holdGaugeKPa: 0,
  holdC: 0,
  aboveS: 0,
  leastKPa: Number.POSITIVE_INFINITY,
  mostKPa: 0,
  overS: 0,
  countedS: 0,
  givenUpS: 0,
  openKPa: 0,
  offT: null,
  waterLeftL: 0,
  dryS: 0,
  openT: null,
  openGaugeKPa: 0,
  openMeanC: 0,
  tearRisk: 0,
  f0Min: [0, 0, 0],
  logs: [0, 0, 0],
});
