/**
 * The numbers a batch is run by: frozen into its journal when it begins, so that a later change of the
 * kitchen or of a model never moves a countdown that is already running. Seconds, kilograms, litres, kPa.
 */

/**
 * An answer at the gauge vouches for so long, s: twice the pause between suggested readings, so that one of
 * them may be skipped. A flame or a draught changes the pressure sooner than this (common practice, no source).
 */
export const GAUGE_ANSWER_S = 1800;

/**
 * A towel that stays dry before this share of the usual drying time shows the tops of the grain, not all of it
 * (common practice, no source).
 */
export const DRY_TOO_SOON_SHARE = 1 / 3;

export interface RunNumbers {
  readonly dryKg: number;
  readonly hydratedKg: number;
  readonly simmerWaterL: number;
  /** The pot takes the grain in so many parts, simmered one after the other; absent in older batches: one. */
  readonly potFillings?: number;
  /** Dry grain that the pot takes at once, kg; absent in batches begun before a real weight was counted with. */
  readonly potTakesKg?: number;
  readonly atmosphereKPa: number;
  /** Water boils here at, C. */
  readonly boilC: number;
  readonly targetKPa: number;
  readonly targetC: number;
  readonly ventS: number;
  readonly holdS: number;
  /** An answer at the gauge vouches for so long; absent in older batches: for the whole hold. */
  readonly gaugeAnswerS?: number;
  /** Before this share of the drying time a dry towel is not believed; absent in older batches: it always is. */
  readonly dryTooSoonShare?: number;
  /** Water to pour into the cooker, and the least it may be. */
  readonly cookerWaterL: number;
  readonly leastWaterL: number;
  readonly mostWaterL: number;
  /** Containers in each load. */
  readonly loads: readonly number[];
  /** Containers that one load takes with the planned hold; absent in older batches: as many as the fullest has. */
  readonly perLoad?: number;
  /** From heat-off until the gauge is surely at zero, by the slow end of the estimate. */
  readonly pressureLockS: number;
  readonly coolS: number;
  /** Expected length of each step, for clock times; likely, with its low and high end. */
  readonly lengths: Readonly<Record<string, StepLength>>;
}

export interface StepLength {
  readonly lowS: number;
  readonly likelyS: number;
  readonly highS: number;
}
