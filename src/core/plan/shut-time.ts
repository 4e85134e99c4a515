/**
 * How long the vessel stays shut: estimates from one lumped body that loses heat to the room, slow end
 * for the lock. The worked example and its band are in the science notes (cool-down: plus or minus 40 %).
 */
import type { Kitchen } from '../kitchen.ts';
import { boilingC, chamberC } from '../science/steam.ts';

export interface Vessel {
  readonly kitchen: Kitchen;
  readonly atmosphereKPa: number;
  readonly targetKPa: number;
  readonly waterKg: number;
  readonly loadKg: number;
}

/** Loss to the room at the start, W/K (estimate, 3 to 5). */
const LOSS_W_PER_K = 3.5;
const SLOW = 1.4;
/** Never less than published waits for full heavy-walled vessels: 45 min, then 2 min with the vent open. */
const LEAST_LOCK_S = 47 * 60;

/** Natural convection: (T - Ta)/(T0 - Ta) = (1 + t/(4 tau))^-4, solved for t, in seconds. */
function coolS({ kitchen, waterKg, loadKg }: Vessel, fromC: number, toC: number): number {
  const heatJK = kitchen.cookerMassKg * 900 + waterKg * 4220 + loadKg * 3100;
  const tau = heatJK / LOSS_W_PER_K;
  const share = (toC - kitchen.roomC) / (fromC - kitchen.roomC);
  return 4 * tau * (share ** -0.25 - 1);
}

/** From heat-off to a gauge at zero, likely, s. */
export const zeroGaugeS = (vessel: Vessel): number =>
  coolS(
    vessel,
    chamberC({ gaugeKPa: vessel.targetKPa, atmosphereKPa: vessel.atmosphereKPa }),
    boilingC(vessel.atmosphereKPa),
  );

/** From heat-off until the vessel is near room temperature (8 C above), likely, s. */
export const roomS = (vessel: Vessel): number =>
  coolS(
    vessel,
    chamberC({ gaugeKPa: vessel.targetKPa, atmosphereKPa: vessel.atmosphereKPa }),
    vessel.kitchen.roomC + 8,
  );

/** The pressure part of the lock, s: the slow end of the estimate and never under the published wait. */
export const pressureLockS = (vessel: Vessel): number =>
  Math.ceil(Math.max(LEAST_LOCK_S, zeroGaugeS(vessel) * SLOW + 120) / 60) * 60;
