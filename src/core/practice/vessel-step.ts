/**
 * One second of the simulated cooker, or one slow step of a shut one that only cools: heat from the burner, losses to the room, heat into the load, what
 * leaves and enters through openings, then the new temperature. Energy and mass are conserved to
 * `STEP_ERROR_KJ` and rounding: what the ledger says went in and out is what the state holds.
 *
 * Openings let out what is inside, mixed as it is, as through a sharp hole (mass rate = area sqrt(2 rho dp);
 * choked flow is taken the same way, which is 20 to 30 % too fast at 15 psi and stands inside the guess of
 * the area). Losses follow the law of natural convection of the cool-down notes.
 */
import { saturationKPa } from '../science/steam.ts';
import { type Load, loadKJ, meanC, SLOW_S, warmLoad } from './load.ts';
import {
  AIR_CV,
  AIR_R,
  STEAM_R,
  type Vessel,
  WATER_CP,
  ZERO_K,
  energyAt,
  latentKJKg,
  settle,
} from './vessel.ts';

/** Losses are quoted at this distance from the room, K: 121 C in a kitchen. */
const QUOTED_AT_K = 99;
/** A hot burner under the pot adds to its losses, W/K (4.5 heated against 3.5 cooling, science notes g and f). */
const FLAME_LOSS_WK = 1;
/** A weight lifts over this many kPa. */
const LIFT_KPA = 3;
/** Below this a pressure difference drives flow in proportion, so that still air stays still, Pa. */
const STILL_PA = 20;

/** Opening through which the inside leaves now, m2. */
function outM2({ parts, open }: Vessel, gaugeKPa: number): number {
  const lift = Math.min(1, Math.max(0, (gaugeKPa - parts.liftKPa) / LIFT_KPA));
  return parts.bleedM2 + parts.leakM2 + (open ? parts.ventM2 : 0) + lift * parts.weightM2;
}

/** Steam and air leave: implicit in the pressure, so that no step overshoots. */
function blowOut(vessel: Vessel, gaugeKPa: number, seconds: number): void {
  const gasKg = vessel.steamKg + vessel.airKg;
  const pa = gaugeKPa * 1000;
  const density = gasKg / vessel.gasM3;
  const perPa = outM2(vessel, gaugeKPa) * Math.sqrt((2 * density) / Math.max(pa, STILL_PA)) * seconds;
  const airShare = vessel.airKg / gasKg;
  const kelvin = vessel.celsius + ZERO_K;
  const latent = latentKJKg(vessel.celsius);
  // Pressure given up for each kg that leaves: air is gone for good, steam is made up by the water, which cools.
  const capacity = vessel.parts.metalKJK + vessel.waterKg * WATER_CP;
  const steamFalls =
    vessel.liquidKg > 0
      ? (latent * vessel.steamKPa * latent) / (STEAM_R * kelvin * kelvin * capacity)
      : vessel.steamKPa / Math.max(1e-9, vessel.steamKg);
  const paPerKg = 1000 * (vessel.airKPa / gasKg + (1 - airShare) * steamFalls);
  const leftKg = (perPa * pa) / (1 + perPa * paPerKg);
  const airKg = Math.min(leftKg * airShare, 0.9 * vessel.airKg);
  const steamKg = Math.min(leftKg * (1 - airShare), vessel.waterKg);
  const carried =
    steamKg * (WATER_CP * vessel.celsius + latent) + airKg * (AIR_CV * vessel.celsius + AIR_R * kelvin);
  vessel.waterKg -= steamKg;
  vessel.airKg -= airKg;
  vessel.energyKJ -= carried;
  vessel.steamGS = (steamKg * 1000) / seconds;
  vessel.airGS = (airKg * 1000) / seconds;
  vessel.ledger.waterOut += steamKg;
  vessel.ledger.airOut += airKg;
  vessel.ledger.carriedOut += carried;
}

/** Under vacuum the room's air is drawn in, slowly past a shut valve, at once through an open one. */
function drawIn(vessel: Vessel, gaugeKPa: number, seconds: number): void {
  const { parts, open } = vessel;
  const pa = -gaugeKPa * 1000;
  const roomK = parts.ambientC + ZERO_K;
  const density = parts.atmosphereKPa / (AIR_R * roomK);
  const areaM2 = parts.inM2 + (open ? parts.ventM2 : 0);
  const perPa = areaM2 * Math.sqrt((2 * density) / Math.max(pa, STILL_PA)) * seconds;
  const paPerKg = (1000 * AIR_R * (vessel.celsius + ZERO_K)) / vessel.gasM3;
  const airKg = (perPa * pa) / (1 + perPa * paPerKg);
  addAir(vessel, airKg, parts.ambientC);
  vessel.steamGS = 0;
  vessel.airGS = 0;
}

function addAir(vessel: Vessel, airKg: number, celsius: number): void {
  const carried = airKg * (AIR_CV * celsius + AIR_R * (celsius + ZERO_K));
  vessel.airKg += airKg;
  vessel.energyKJ += carried;
  vessel.ledger.airIn += airKg;
  vessel.ledger.carriedIn += carried;
}

/** Air leaves a container only as steam from its own grain takes its place: when that is as hot as the steam around it, none is left. */
function emptyBags(vessel: Vessel, load: Load): void {
  if (vessel.bagAirKg <= 0) return;
  const celsius = meanC(load);
  const kelvin = celsius + ZERO_K;
  const driven = vessel.totalKPa - saturationKPa(celsius);
  const stays = Math.max(0, (driven * vessel.bagGasM3) / (AIR_R * kelvin));
  if (stays >= vessel.bagAirKg) return;
  const leaves = vessel.bagAirKg - stays;
  vessel.bagAirKg = stays;
  addAir(vessel, leaves, celsius);
}

/** One second over a flame of so many watts; `slow`: one slow step. */
export function stepVessel(vessel: Vessel, load: Load | null, powerW: number, slow = false): void {
  const seconds = slow ? SLOW_S : 1;
  const { parts, ledger } = vessel;
  const above = vessel.celsius - parts.ambientC;
  const convection = parts.lossWK * (Math.abs(above) / QUOTED_AT_K) ** 0.25;
  const loss = (((convection + (powerW > 0 ? FLAME_LOSS_WK : 0)) * above) / 1000) * seconds;
  const heat = (powerW / 1000) * seconds;
  const taken = load === null ? 0 : warmLoad(load, vessel.celsius, slow);
  vessel.energyKJ += heat - loss - taken;
  ledger.heat += heat;
  ledger.loss += loss;
  ledger.load += taken;
  if (load !== null) emptyBags(vessel, load);
  const gaugeKPa = vessel.totalKPa - parts.atmosphereKPa;
  if (gaugeKPa > 0) blowOut(vessel, gaugeKPa, seconds);
  else drawIn(vessel, gaugeKPa, seconds);
  settle(vessel);
}

/** Energy in chamber and load by the state, less what the ledger says: zero but for rounding, kJ. */
export function energyError(vessel: Vessel, load: Load | null, startKJ: number): number {
  const { heat, loss, carriedIn, carriedOut } = vessel.ledger;
  const held = energyAt(vessel, vessel.celsius).energyKJ + (load === null ? 0 : loadKJ(load));
  return held - (startKJ + heat - loss + carriedIn - carriedOut);
}
