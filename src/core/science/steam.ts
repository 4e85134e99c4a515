/**
 * Saturated steam: pressure, temperature and latent heat, and what a gauge reading means.
 *
 * Saturation line: IAPWS-IF97 region 4 (equations 30 and 31), both directions closed, consistent to 1e-9.
 * Latent heat: Clapeyron's equation on that line with the saturated densities of IAPWS SR1-86(1992);
 * within 0.01 % of IF97 regions 1 and 2 from 60 to 140 C. Pressures are absolute kPa unless named gauge.
 */
import { WATER_CRITICAL_K, WATER_CRITICAL_KG_M3, ZERO_CELSIUS_K } from './constants.ts';
import { finite, outside, positive } from './limits.ts';

export const SATURATION_LOWEST_C = 0;
export const SATURATION_HIGHEST_C = WATER_CRITICAL_K - ZERO_CELSIUS_K;
/** Pressure at 0 C; a hair below 0.611213 so that both directions accept each other's ends. */
export const SATURATION_LOWEST_KPA = 0.6112;
/** Pressure at the critical point, 22.064 MPa. */
export const SATURATION_HIGHEST_KPA = 22064;

// Imported and exported constants are looked up at every call; these copies the compiler can fold.
const LOWEST_C = SATURATION_LOWEST_C;
const HIGHEST_C = SATURATION_HIGHEST_C;
const LOWEST_KPA = SATURATION_LOWEST_KPA;
const HIGHEST_KPA = SATURATION_HIGHEST_KPA;
const KELVIN = ZERO_CELSIUS_K;

// IF97 Table 34.
const N1 = 0.11670521452767e4;
const N2 = -0.72421316703206e6;
const N3 = -0.17073846940092e2;
const N4 = 0.1202082470247e5;
const N5 = -0.32325550322333e7;
const N6 = 0.1491510861353e2;
const N7 = -0.48232657361591e4;
const N8 = 0.40511340542057e6;
const N9 = -0.23855557567849;
const N10 = 0.65017534844798e3;
// Half of the standard's B, which spares its 2 and 4, and N10 in C.
const HALF_N3 = N3 / 2;
const HALF_N4 = N4 / 2;
const HALF_N5 = N5 / 2;
const N10_C = N10 - KELVIN;

/**
 * Absolute pressure of saturated steam in kPa at a temperature in C.
 * Valid 0 to 373.946 C (RangeError outside). Source: IAPWS-IF97 equation 30.
 */
export function saturationKPa(celsius: number): number {
  if (!(celsius >= LOWEST_C && celsius <= HIGHEST_C)) {
    throw outside('Steam temperature', celsius, LOWEST_C, HIGHEST_C, 'C');
  }
  const theta = celsius + KELVIN + N9 / (celsius - N10_C);
  const a = (theta + N1) * theta + N2;
  const halfB = (HALF_N3 * theta + HALF_N4) * theta + HALF_N5;
  const c = (N6 * theta + N7) * theta + N8;
  const root = c / (Math.sqrt(halfB * halfB - a * c) - halfB);
  const square = root * root;
  return square * square * 1000;
}

/**
 * Temperature in C at which steam of an absolute pressure in kPa condenses (the boiling point).
 * Valid 0.6112 to 22064 kPa (RangeError outside). Source: IAPWS-IF97 equation 31.
 */
export function saturationC(kPa: number): number {
  if (!(kPa >= LOWEST_KPA && kPa <= HIGHEST_KPA)) {
    throw outside('Steam pressure', kPa, LOWEST_KPA, HIGHEST_KPA, 'kPa absolute');
  }
  const beta = Math.sqrt(Math.sqrt(kPa / 1000));
  const e = (beta + N3) * beta + N6;
  const f = (N1 * beta + N4) * beta + N7;
  const g = (N2 * beta + N5) * beta + N8;
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  const sum = N10 + d;
  return 0.5 * (sum - Math.sqrt(sum * sum - 4 * (N9 + N10 * d))) - KELVIN;
}

/** Slope of the saturation line, kPa per K, by differentiating the IF97 equation. Valid 0 to 373.946 C. */
export function saturationSlopeKPaPerK(celsius: number): number {
  const beta = Math.sqrt(Math.sqrt(saturationKPa(celsius) / 1000));
  const kelvin = celsius + KELVIN;
  const gap = kelvin - N10;
  const theta = kelvin + N9 / gap;
  const byTheta = 2 * theta * (beta * beta + N3 * beta + N6) + (N1 * beta + N4) * beta + N7;
  const byBeta = 2 * beta * ((theta + N1) * theta + N2) + (N3 * theta + N4) * theta + N5;
  return -4000 * beta ** 3 * (byTheta / byBeta) * (1 - N9 / (gap * gap));
}

/** Density of saturated steam, kg/m3. Valid 0 to 373.946 C. Source: IAPWS SR1-86(1992) equation 3. */
export function steamKgM3(celsius: number): number {
  saturationKPa(celsius);
  const x = Math.max(0, 1 - (celsius + KELVIN) / WATER_CRITICAL_K) ** (1 / 6);
  return (
    WATER_CRITICAL_KG_M3 *
    Math.exp(
      -2.0315024 * x ** 2 -
        2.6830294 * x ** 4 -
        5.38626492 * x ** 8 -
        17.2991605 * x ** 18 -
        44.7586581 * x ** 37 -
        63.9201063 * x ** 71,
    )
  );
}

/** Density of boiling water, kg/m3. Valid 0 to 373.946 C. Source: IAPWS SR1-86(1992) equation 2. */
export function waterKgM3(celsius: number): number {
  saturationKPa(celsius);
  const x = Math.cbrt(Math.max(0, 1 - (celsius + KELVIN) / WATER_CRITICAL_K));
  return (
    WATER_CRITICAL_KG_M3 *
    (1 +
      1.99274064 * x +
      1.09965342 * x ** 2 -
      0.510839303 * x ** 5 -
      1.75493479 * x ** 16 -
      45.5170352 * x ** 43 -
      6.7469445e5 * x ** 110)
  );
}

/** Latent heat of evaporation, kJ/kg, by Clapeyron's equation. Valid 0 to 373.946 C. */
export function latentHeatKJKg(celsius: number): number {
  const volumeChange = 1 / steamKgM3(celsius) - 1 / waterKgM3(celsius);
  return (celsius + KELVIN) * volumeChange * saturationSlopeKPaPerK(celsius);
}

/** Boiling point in C of open water under a local air pressure in kPa. */
export function boilingC(atmosphereKPa: number): number {
  return saturationC(atmosphereKPa);
}

export interface GaugeReading {
  /** Pressure above the air outside; negative under vacuum. */
  readonly gaugeKPa: number;
  readonly atmosphereKPa: number;
}

/** Temperature in C of pure saturated steam at a gauge reading; with air left inside it is lower. */
export function chamberC({ gaugeKPa, atmosphereKPa }: GaugeReading): number {
  return saturationC(
    finite('Gauge pressure', gaugeKPa, 'kPa') + positive('Air pressure', atmosphereKPa, 'kPa'),
  );
}

export interface SteamWanted {
  readonly celsius: number;
  readonly atmosphereKPa: number;
}

/** Gauge pressure in kPa that pure steam needs for a temperature; negative when it boils below that. */
export function gaugeKPaFor({ celsius, atmosphereKPa }: SteamWanted): number {
  return saturationKPa(celsius) - positive('Air pressure', atmosphereKPa, 'kPa');
}
