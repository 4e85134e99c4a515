/** Physical constants of the models, each with its unit and source. */

/** 0 degrees Celsius in kelvin (SI, exact). */
export const ZERO_CELSIUS_K = 273.15;

/** Standard atmosphere in kPa (exact by definition). */
export const STANDARD_ATMOSPHERE_KPA = 101.325;

/** Sea-level temperature of the standard atmosphere, K (ISO 2533, US Standard Atmosphere 1976). */
export const ISA_SEA_LEVEL_K = 288.15;

/** Temperature lapse of its lowest layer, K per metre of geopotential height (ISO 2533). */
export const ISA_LAPSE_K_PER_M = 0.0065;

/** Standard acceleration of gravity, m/s2 (exact by definition). */
export const GRAVITY_M_S2 = 9.80665;

/** Molar mass of dry air in the standard atmosphere, kg/mol (US Standard Atmosphere 1976). */
export const AIR_MOLAR_MASS_KG = 0.0289644;

/** Gas constant the 1976 standard atmosphere is defined with, J/(mol K); the modern value is 8.31446. */
export const ISA_GAS_CONSTANT = 8.31432;

/** Gas constant, J/(mol K) (SI 2019, rounded). */
export const GAS_CONSTANT = 8.314462618;

/** Critical temperature of water, K (IAPWS). */
export const WATER_CRITICAL_K = 647.096;

/** Critical density of water, kg/m3 (IAPWS). */
export const WATER_CRITICAL_KG_M3 = 322;

/** Specific heat of liquid water near 100 degrees, kJ/(kg K); IF97 gives 4.217 at 100 C, 4.243 at 120 C. */
export const WATER_CP_KJ_KGK = 4.22;

/** Specific heat of aluminium, kJ/(kg K), handbook value at room temperature. */
export const ALUMINIUM_CP_KJ_KGK = 0.9;
