/**
 * Air pressure outside the cooker, from the altitude or from a barometer.
 *
 * Standard atmosphere (ISO 2533 / US Standard Atmosphere 1976), lowest layer: p = p0 (1 - L h / T0)^k with
 * k = g M / (R L) = 5.25588. Weather moves the true pressure by about 3 kPa around it, which is 0.5 C at
 * 15 psi gauge, so a barometer reading (station pressure, not reduced to sea level) wins when there is one.
 */
import {
  AIR_MOLAR_MASS_KG,
  GRAVITY_M_S2,
  ISA_GAS_CONSTANT,
  ISA_LAPSE_K_PER_M,
  ISA_SEA_LEVEL_K,
  STANDARD_ATMOSPHERE_KPA,
} from './constants.ts';
import { within } from './limits.ts';

/** The lowest dry land lies at about -430 m; the layer ends at 11 km. */
export const LOWEST_ALTITUDE_M = -430;
export const HIGHEST_ALTITUDE_M = 11000;

const EXPONENT = (GRAVITY_M_S2 * AIR_MOLAR_MASS_KG) / (ISA_GAS_CONSTANT * ISA_LAPSE_K_PER_M);
const LAPSE_PER_M = ISA_LAPSE_K_PER_M / ISA_SEA_LEVEL_K;

/** Standard air pressure in kPa at a height above sea level. Valid -430 to 11000 m (RangeError outside). */
export function atmosphereKPa(altitudeM: number): number {
  within('Altitude', altitudeM, LOWEST_ALTITUDE_M, HIGHEST_ALTITUDE_M, 'm');
  return STANDARD_ATMOSPHERE_KPA * (1 - LAPSE_PER_M * altitudeM) ** EXPONENT;
}

const LOWEST_KPA = atmosphereKPa(HIGHEST_ALTITUDE_M);
const HIGHEST_KPA = atmosphereKPa(LOWEST_ALTITUDE_M);

/** Height in m at which the standard atmosphere has a pressure in kPa; the inverse of `atmosphereKPa`. */
export function altitudeM(kPa: number): number {
  within('Air pressure', kPa, LOWEST_KPA, HIGHEST_KPA, 'kPa');
  return (1 - (kPa / STANDARD_ATMOSPHERE_KPA) ** (1 / EXPONENT)) / LAPSE_PER_M;
}

export interface Place {
  readonly altitudeM: number;
  /** Measured local air pressure, kPa; null when there is none. */
  readonly stationKPa: number | null;
}

/** The barometer's pressure when given (valid 22 to 110 kPa), otherwise the standard one at the altitude. */
export function localAtmosphereKPa({ altitudeM: height, stationKPa }: Place): number {
  return stationKPa === null
    ? atmosphereKPa(height)
    : within('Measured air pressure', stationKPa, 22, 110, 'kPa');
}
