/** How the chamber gets to temperature in this kitchen, for clock times and for the lethality at the centre. */
import type { Kitchen } from '../kitchen.ts';
import { ALUMINIUM_CP_KJ_KGK, WATER_CP_KJ_KGK } from '../science/constants.ts';
import { LOAD_CP_KJ_KGK } from '../science/cooldown.ts';
import { type ComeUp, USUAL_CLIMB_S, USUAL_HEAT_S } from '../science/hold.ts';
import { type Band, isNoAnswer, type NoAnswer } from '../science/limits.ts';
import { BURNER_EFFICIENCY, HEATED_LOSS_WK, heatUpS } from '../science/water.ts';
import type { GaugeTarget } from './gauge-target.ts';

export interface Warming {
  /** From the cold vessel to steady steam, s. */
  readonly heatS: Band;
  /** From the closed valve to the target, s. */
  readonly climbS: Band;
}

/** Share of the load's heat that has gone in by the time the vessel is hot: its middle lags (estimate). */
const LOAD_SHARE: Band = { low: 0.25, likely: 0.5, high: 0.8 };
/** Tap water at the start, C (estimate). */
const TAP_C = 15;

interface VesselLoad {
  readonly kitchen: Kitchen;
  readonly gauge: GaugeTarget;
  readonly waterKg: number;
  readonly loadKg: number;
}

/** Both times with their bands; no answer when the burner cannot reach the target. */
export function warming({ kitchen, gauge, waterKg, loadKg }: VesselLoad): Warming | NoAnswer {
  const between = (fromC: number, toC: number): Band | NoAnswer => {
    const at = (end: keyof Band) =>
      heatUpS({
        capacityKJK:
          kitchen.cookerMassKg * ALUMINIUM_CP_KJ_KGK +
          waterKg * WATER_CP_KJ_KGK +
          loadKg * LOAD_SHARE[end] * LOAD_CP_KJ_KGK,
        fromC,
        toC,
        powerW: kitchen.burnerW,
        efficiency: BURNER_EFFICIENCY[kitchen.burner][end === 'low' ? 'high' : end === 'high' ? 'low' : end],
        lossWK: HEATED_LOSS_WK[end],
        ambientC: kitchen.roomC,
      });
    const [low, likely, high] = [at('low'), at('likely'), at('high')];
    if (isNoAnswer(low)) return low;
    if (isNoAnswer(likely)) return likely;
    // The cautious end of a burner that only just manages is slow, not hopeless.
    return { low, likely, high: isNoAnswer(high) ? likely * 2 : high };
  };
  const heatS = between(Math.min(TAP_C, kitchen.roomC), gauge.boilC);
  if (isNoAnswer(heatS)) return heatS;
  const climbS = between(gauge.boilC, gauge.targetC);
  return isNoAnswer(climbS) ? climbS : { heatS, climbS };
}

/**
 * The chamber up to the hold as the lethality is counted: as fast as this burner heats, and never slower than
 * usual, so that a weak burner earns no credit.
 */
export function creditedComeUp(kitchen: Kitchen, gauge: GaugeTarget, ventS: number, warm: Warming): ComeUp {
  return {
    startC: kitchen.roomC,
    ventC: gauge.boilC,
    holdC: gauge.targetC,
    heatS: Math.min(USUAL_HEAT_S, warm.heatS.likely),
    ventS,
    climbS: Math.max(1, Math.min(USUAL_CLIMB_S, warm.climbS.likely)),
  };
}

/** The usual come-up, where this burner gives none. */
export const USUAL_WARMING: Warming = {
  heatS: { low: USUAL_HEAT_S, likely: USUAL_HEAT_S, high: 2 * USUAL_HEAT_S },
  climbS: { low: USUAL_CLIMB_S, likely: USUAL_CLIMB_S, high: 2 * USUAL_CLIMB_S },
};
