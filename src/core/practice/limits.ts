/**
 * Where a decision in practice was right, and where a batch is lost by it. They follow the readiness signs of
 * the trade (science notes l and m: common practice, no source) and the recipe's own wishes; all are the
 * project's own lines, drawn so that what a careful person sees lies inside them.
 */

/** Least F0 at the likely diffusivity that is not counted as lost, min (8 is commonly quoted as the least usual). */
export const BARELY_F0_MIN = 8;

export const LIMITS = {
  /** Mean white share of the cut faces up to which kernels are done, and above which they are chalky. */
  core: 0.15,
  chalkCore: 0.17,
  /** Burst share up to which they are not overdone, and above which the lot is overcooked. */
  burst: 0.2,
  overcooked: 0.25,
  /** Water on the surface, g/kg: dry enough, and so wet that it pools. */
  filmG: 10,
  wetG: 18,
  /** Film and wet-basis points that tell of drying from inside. */
  driedG: 0.8,
  driedPoints: 0.8,
  driedOutPoints: 2,
  /** Times over the rim after which starch and water are lost; gauge behind an open valve that tells of a blocked pipe, kPa. */
  boiledOver: 1,
  behindValveKPa: 12,
  /** Share of the planned water that is still right, and seconds dry that are a cooker boiled dry. */
  poured: 0.8,
  dryS: 60,
  /** A jet worth the name, g/min, and by how much a vent may fall short of its minutes, s. */
  jetGMin: 4.5,
  ventGrainS: 15,
  /** A jet blown off unused: so long before it is called steady, or after the vent, s. */
  jetLateS: 600,
  /** Share of the cold air left at closing that is far too much; full bags keep about a tenth. */
  airLost: 0.3,
  /** The hold may begin this close under the target, K, and this far above it, kPa (1.5 psi). */
  targetK: 1.2,
  startOverKPa: 10.3,
  /** In the hold: above the target by more than this (2 psi) is too much, kPa, and so long of it still right, s. */
  overKPa: 13.8,
  mayOverS: 600,
  /** Over the highest pressure marked on the cooker by more than this was over it, kPa. */
  markKPa: 1.5,
  /** Share of the counted minutes that must really have been at target. */
  held: 0.95,
  /** Below this share of them the hold was a cold one. */
  cold: 0.6,
  /** Flame left on after the hold, s. */
  overS: 300,
  /** Chance that a container tears at opening: usual, and lost. */
  tear: 0.05,
  tearLost: 0.3,
  /** Above room temperature at inoculation, K. */
  warmK: 4,
  warmLostK: 8,
} as const;
