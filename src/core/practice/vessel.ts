/**
 * The simulated pressure cooker: one well mixed body of metal, water, steam and air around a load.
 *
 * State: internal energy, water and air of the chamber; the temperature follows from them, with steam
 * saturated while there is water (Dalton adds the air). Energy enters from the burner, leaves by losses to
 * the room, through openings, and into the load. One step is one second: heat, load, openings, then the new
 * temperature by Newton's method. Energy and mass are conserved to `STEP_ERROR_KJ` and rounding: what the
 * ledger says went in and out is what the state holds.
 *
 * Openings let out what is inside, mixed as it is, as through a sharp hole (mass rate = area sqrt(2 rho dp);
 * choked flow is taken the same way, which is 20 to 30 % too fast at 15 psi and stands inside the guess of
 * the area). Losses follow the law of natural convection of the cool-down notes.
 */
import { saturationKPa } from '../science/steam.ts';
import { type Load, loadKJ, meanC, warmLoad } from './load.ts';

/** kJ/(kg K): boiling water, dry air at constant pressure; kJ/(kg K) gas constants of steam and air. */
const WATER_CP = 4.22;
const AIR_CP = 1.006;
const STEAM_R = 0.4615228;
const AIR_R = 0.287055;
const AIR_CV = AIR_CP - AIR_R;
const ZERO_K = 273.15;
/** Water near 100 C, kg/L. */
const WATER_KG_L = 0.958;
/** Losses are quoted at this distance from the room, K: 121 C in a kitchen. */
const QUOTED_AT_K = 99;
/** A hot burner under the pot adds to its losses, W/K (4.5 heated against 3.5 cooling, science notes g and f). */
const FLAME_LOSS_WK = 1;
/** A weight lifts over this many kPa. */
const LIFT_KPA = 3;
/** Below this a pressure difference drives flow in proportion, so that still air stays still, Pa. */
const STILL_PA = 20;
/** What Newton's method leaves of an energy in one step, kJ. */
export const STEP_ERROR_KJ = 1e-6;

/** Latent heat, kJ/kg: within 0.02 % of IF97 from 100 to 130 C, 0.1 % from 20 C (science notes a). */
export const latentKJKg = (celsius: number): number =>
  2256.47 - 2.68 * (celsius - 100) - 0.0026 * (celsius - 100) ** 2;

export interface VesselParts {
  /** Heat capacity of the metal, kJ/K. */
  readonly metalKJK: number;
  /** Room inside without the load, L. */
  readonly roomL: number;
  /** Loss to the room 99 K above it without a flame, W/K. */
  readonly lossWK: number;
  readonly ambientC: number;
  readonly atmosphereKPa: number;
  /** Openings, m2: the vent pipe, what always bleeds, a leak, what lets air in under vacuum, the weight. */
  readonly ventM2: number;
  readonly bleedM2: number;
  readonly leakM2: number;
  readonly inM2: number;
  readonly weightM2: number;
  /** The weight (or the safety valve) lifts here, kPa gauge. */
  readonly liftKPa: number;
}

/** Sums since the vessel was filled: kJ and kg. */
export interface Ledger {
  heat: number;
  loss: number;
  load: number;
  carriedOut: number;
  carriedIn: number;
  waterOut: number;
  airOut: number;
  airIn: number;
}

export interface Vessel {
  readonly parts: VesselParts;
  open: boolean;
  /** Internal energy above water and air at 0 C, kJ. */
  energyKJ: number;
  /** Water and steam, air of the chamber, air still inside the containers, kg. */
  waterKg: number;
  airKg: number;
  bagAirKg: number;
  readonly bagGasM3: number;
  /** Air the containers were filled with, kg. */
  coldBagAirKg: number;
  /** Follow from the above; the room for gas is that of the second before. */
  celsius: number;
  gasM3: number;
  liquidKg: number;
  steamKg: number;
  steamKPa: number;
  airKPa: number;
  totalKPa: number;
  /** Leaving now, g/s. */
  steamGS: number;
  airGS: number;
  readonly ledger: Ledger;
}

const gasRoomM3 = (parts: VesselParts, liquidKg: number): number =>
  Math.max(0.0005, (parts.roomL - liquidKg / WATER_KG_L) / 1000);

export interface Filling {
  readonly waterKg: number;
  /** Free gas inside the containers at filling, L. */
  readonly bagGasL: number;
  readonly celsius: number;
}

/** A cold vessel, valve open, full of the air of the room. */
export function fillVessel(parts: VesselParts, { waterKg, bagGasL, celsius }: Filling): Vessel {
  const vessel: Vessel = {
    parts,
    open: true,
    energyKJ: 0,
    waterKg,
    airKg: 0,
    bagAirKg: 0,
    bagGasM3: bagGasL / 1000,
    coldBagAirKg: 0,
    celsius,
    gasM3: gasRoomM3(parts, waterKg),
    liquidKg: waterKg,
    steamKg: 0,
    steamKPa: 0,
    airKPa: 0,
    totalKPa: 0,
    steamGS: 0,
    airGS: 0,
    ledger: {
      heat: 0,
      loss: 0,
      load: 0,
      carriedOut: 0,
      carriedIn: 0,
      waterOut: 0,
      airOut: 0,
      airIn: 0,
    },
  };
  const steamKPa = saturationKPa(celsius);
  const kelvin = celsius + ZERO_K;
  const airPerM3 = (parts.atmosphereKPa - steamKPa) / (AIR_R * kelvin);
  vessel.airKg = airPerM3 * vessel.gasM3;
  vessel.bagAirKg = airPerM3 * vessel.bagGasM3;
  vessel.coldBagAirKg = vessel.bagAirKg;
  vessel.energyKJ = energyAt(vessel, celsius).energyKJ;
  settle(vessel);
  return vessel;
}

interface AtTemperature {
  readonly energyKJ: number;
  readonly slopeKJK: number;
  readonly steamKg: number;
}

/** Energy the chamber would hold at a temperature, and how steeply it grows. */
function energyAt({ parts, waterKg, airKg, gasM3 }: Vessel, celsius: number): AtTemperature {
  const kelvin = celsius + ZERO_K;
  const latent = latentKJKg(celsius);
  const fixed = parts.metalKJK + waterKg * WATER_CP + airKg * AIR_CV;
  const saturated = (saturationKPa(celsius) * gasM3) / (STEAM_R * kelvin);
  const steamKg = Math.min(saturated, waterKg);
  const gain = latent - STEAM_R * kelvin;
  const grows =
    saturated < waterKg ? steamKg * (latent / (STEAM_R * kelvin * kelvin) - 1 / kelvin) * gain : 0;
  const bends = -2.68 - 0.0052 * (celsius - 100) - STEAM_R;
  return {
    energyKJ: fixed * celsius + steamKg * gain,
    slopeKJK: fixed + steamKg * bends + grows,
    steamKg,
  };
}

/** Temperature and pressures from energy and masses; the water's own volume is that of the step before. */
function settle(vessel: Vessel): void {
  vessel.gasM3 = gasRoomM3(vessel.parts, vessel.liquidKg);
  let celsius = vessel.celsius;
  let at = energyAt(vessel, celsius);
  for (let turn = 0; turn < 8; turn += 1) {
    const missing = vessel.energyKJ - at.energyKJ;
    if (Math.abs(missing) < STEP_ERROR_KJ) break;
    celsius += missing / at.slopeKJK;
    at = energyAt(vessel, celsius);
  }
  vessel.celsius = celsius;
  vessel.steamKg = at.steamKg;
  vessel.liquidKg = vessel.waterKg - at.steamKg;
  const kelvin = celsius + ZERO_K;
  vessel.steamKPa = (at.steamKg * STEAM_R * kelvin) / vessel.gasM3;
  vessel.airKPa = (vessel.airKg * AIR_R * kelvin) / vessel.gasM3;
  vessel.totalKPa = vessel.steamKPa + vessel.airKPa;
}

/** Opening through which the inside leaves now, m2. */
function outM2({ parts, open }: Vessel, gaugeKPa: number): number {
  const lift = Math.min(1, Math.max(0, (gaugeKPa - parts.liftKPa) / LIFT_KPA));
  return parts.bleedM2 + parts.leakM2 + (open ? parts.ventM2 : 0) + lift * parts.weightM2;
}

/** Steam and air leave: implicit in the pressure, so that no step overshoots. */
function blowOut(vessel: Vessel, gaugeKPa: number): void {
  const gasKg = vessel.steamKg + vessel.airKg;
  const pa = gaugeKPa * 1000;
  const density = gasKg / vessel.gasM3;
  const perPa = outM2(vessel, gaugeKPa) * Math.sqrt((2 * density) / Math.max(pa, STILL_PA));
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
  vessel.steamGS = steamKg * 1000;
  vessel.airGS = airKg * 1000;
  vessel.ledger.waterOut += steamKg;
  vessel.ledger.airOut += airKg;
  vessel.ledger.carriedOut += carried;
}

/** Under vacuum the room's air is drawn in, slowly past a shut valve, at once through an open one. */
function drawIn(vessel: Vessel, gaugeKPa: number): void {
  const { parts, open } = vessel;
  const pa = -gaugeKPa * 1000;
  const roomK = parts.ambientC + ZERO_K;
  const density = parts.atmosphereKPa / (AIR_R * roomK);
  const perPa = (parts.inM2 + (open ? parts.ventM2 : 0)) * Math.sqrt((2 * density) / Math.max(pa, STILL_PA));
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

/** One second over a flame of so many watts. */
export function stepVessel(vessel: Vessel, load: Load | null, powerW: number): void {
  const { parts, ledger } = vessel;
  const above = vessel.celsius - parts.ambientC;
  const convection = parts.lossWK * (Math.abs(above) / QUOTED_AT_K) ** 0.25;
  const loss = ((convection + (powerW > 0 ? FLAME_LOSS_WK : 0)) * above) / 1000;
  const heat = powerW / 1000;
  const taken = load === null ? 0 : warmLoad(load, vessel.celsius);
  vessel.energyKJ += heat - loss - taken;
  ledger.heat += heat;
  ledger.loss += loss;
  ledger.load += taken;
  if (load !== null) emptyBags(vessel, load);
  const gaugeKPa = vessel.totalKPa - parts.atmosphereKPa;
  if (gaugeKPa > 0) blowOut(vessel, gaugeKPa);
  else drawIn(vessel, gaugeKPa);
  settle(vessel);
}

export const gaugeKPa = ({ totalKPa, parts }: Vessel): number => totalKPa - parts.atmosphereKPa;
/** Share of the chamber's gas that is air, by volume. */
export const airShare = ({ airKPa, totalKPa }: Vessel): number => airKPa / totalKPa;
export const isDry = ({ liquidKg }: Vessel): boolean => liquidKg < 0.001;

/** Energy in chamber and load by the state, less what the ledger says: zero but for rounding, kJ. */
export function energyError(vessel: Vessel, load: Load | null, startKJ: number): number {
  const { heat, loss, carriedIn, carriedOut } = vessel.ledger;
  const held = energyAt(vessel, vessel.celsius).energyKJ + (load === null ? 0 : loadKJ(load));
  return held - (startKJ + heat - loss + carriedIn - carriedOut);
}
