/** How long the vessel stays shut: zero gauge, the pressure part of the lock, and the centre of a container. */
import type { Kitchen } from '../kitchen.ts';
import type { Body } from '../science/conduction.ts';
import { bagInPotS } from '../science/bag-cooldown.ts';
import { COOLING_LOSS_WK, heatCapacityKJK, timeConstantS, vesselCoolingS } from '../science/cooldown.ts';
import { type Band, isNoAnswer } from '../science/limits.ts';
import { boilingC, chamberC } from '../science/steam.ts';

export interface Vessel {
  readonly kitchen: Kitchen;
  readonly atmosphereKPa: number;
  readonly targetKPa: number;
  readonly waterKg: number;
  readonly loadKg: number;
}

/** The likely estimate may be off by so much before anybody reads a gauge (open question on cool-down). */
const SLOW = 1.4;
/** With the vent open before the lid is touched. */
const VENT_OPEN_S = 120;
/** Never less than published waits for full heavy-walled vessels: 45 min, then 2 min with the vent open. */
const LEAST_LOCK_S = 45 * 60 + VENT_OPEN_S;
/** A container this far above the room counts as cool, and none is warmer than 30 C; K and C. */
const OVER_ROOM_K = 5;
const COOL_C = 30;

const capacityOf = ({ kitchen, waterKg, loadKg }: Vessel): number =>
  heatCapacityKJK({ potKg: kitchen.cookerMassKg, waterKg, loadKg });
const startOf = ({ targetKPa, atmosphereKPa }: Vessel): number =>
  chamberC({ gaugeKPa: targetKPa, atmosphereKPa });

/** From heat-off to a gauge at zero, s. RangeError when the room is as hot as boiling water. */
export function zeroGaugeS(vessel: Vessel): Band {
  const answer = vesselCoolingS(
    { startC: startOf(vessel), ambientC: vessel.kitchen.roomC, capacityKJK: capacityOf(vessel) },
    boilingC(vessel.atmosphereKPa),
  );
  if (isNoAnswer(answer)) throw new RangeError(answer.reason);
  return answer;
}

/**
 * The pressure part of the lock, s: never under the published wait, never under the slow end of the estimate,
 * in whole minutes.
 */
export function pressureLockS(vessel: Vessel): number {
  const { likely, high } = zeroGaugeS(vessel);
  const slowS = Math.max(high, likely * SLOW) + VENT_OPEN_S;
  return Math.ceil(Math.max(LEAST_LOCK_S, slowS) / 60) * 60;
}

/**
 * From heat-off until the centre of a container left in the shut vessel is at room temperature (5 K above, or
 * 30 C when that is warmer), s.
 */
export function coolThroughS(vessel: Vessel, body: Body): Band {
  const startC = startOf(vessel);
  const ambientC = vessel.kitchen.roomC;
  const capacity = capacityOf(vessel);
  const pot = (lossWK: number, law: 'newton' | 'natural') => ({
    startC,
    ambientC,
    tauS: timeConstantS(capacity, lossWK),
    law,
  });
  const answer = bagInPotS(
    { body, startC, ambientC, targetC: Math.max(COOL_C, ambientC + OVER_ROOM_K) },
    {
      low: pot(COOLING_LOSS_WK.high, 'newton'),
      likely: pot(COOLING_LOSS_WK.likely, 'newton'),
      high: pot(COOLING_LOSS_WK.low, 'natural'),
    },
  );
  // Four days is where the model stops; a plan that long is refused by its other warnings.
  return isNoAnswer(answer) ? { low: 96 * 3600, likely: 96 * 3600, high: 96 * 3600 } : answer;
}
