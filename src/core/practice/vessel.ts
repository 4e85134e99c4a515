/**
 * The simulated pressure cooker: one well mixed body of metal, water, steam and air around a load.
 *
 * State: internal energy, water and air of the chamber; the temperature follows from them, with steam
 * saturated while there is water (Dalton adds the air), by Newton's method. `vessel-step.ts` moves it on.
 */
import { saturationKPa } from '../science/steam.ts';

/** kJ/(kg K): boiling water, dry air at constant pressure; kJ/(kg K) gas constants of steam and air. */
export const WATER_CP = 4.22;
const AIR_CP = 1.006;
export const STEAM_R = 0.4615228;
export const AIR_R = 0.287055;
export const AIR_CV = AIR_CP - AIR_R;
export const ZERO_K = 273.15;
/** Water near 100 C, kg/L. */
const WATER_KG_L = 0.958;
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
export function energyAt({ parts, waterKg, airKg, gasM3 }: Vessel, celsius: number): AtTemperature {
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
export function settle(vessel: Vessel): void {
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

export const gaugeKPa = ({ totalKPa, parts }: Vessel): number => totalKPa - parts.atmosphereKPa;
/** Share of the chamber's gas that is air, by volume. */
export const airShare = ({ airKPa, totalKPa }: Vessel): number => airKPa / totalKPa;
export const isDry = ({ liquidKg }: Vessel): boolean => liquidKg < 0.001;
