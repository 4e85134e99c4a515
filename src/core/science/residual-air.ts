/**
 * Air left in a shut vessel: the gauge then shows steam and air together, and the steam alone sets the
 * temperature (Dalton): T = Tsat(p_steam).
 *
 * Model A leaves the air its cold partial pressure, p_steam = p_gauge + p_atm (1 - f). It reproduces the
 * handbook table of partly vented sterilisers (29 of 30 cells within 0.75 C) and is used where that table is
 * quoted: to explain why venting matters. Model B heats the air at constant volume from the temperature at
 * which the valve was closed, p_air = f p_atm T / T0, and is used for every estimate of a real chamber.
 */
import { ZERO_CELSIUS_K } from './constants.ts';
import { notNegative, positive, within } from './limits.ts';
import { brent } from './solve.ts';
import { boilingC, SATURATION_LOWEST_KPA, saturationC, saturationKPa, steamKgM3 } from './steam.ts';

const NO_STEAM =
  'With so much air and so little gauge pressure there is no steam and no temperature to give.';

export interface AiryChamber {
  readonly gaugeKPa: number;
  readonly atmosphereKPa: number;
  /** Share of the gas in the free space that was still air when the valve was closed, 0..1. */
  readonly airLeft: number;
}

/** Model A: temperature in C with the air at its cold partial pressure. Gauge 0 to 1000 kPa. */
export function chamberColdAirC({ gaugeKPa, atmosphereKPa, airLeft }: AiryChamber): number {
  within('Gauge pressure', gaugeKPa, 0, 1000, 'kPa');
  positive('Air pressure', atmosphereKPa, 'kPa');
  const steamKPa = gaugeKPa + atmosphereKPa * (1 - within('Air left', airLeft, 0, 1, ''));
  if (steamKPa >= SATURATION_LOWEST_KPA) return saturationC(steamKPa);
  throw new RangeError(NO_STEAM);
}

export interface ClosedChamber extends AiryChamber {
  /** Temperature of the gas when the valve was closed, C; the local boiling point when absent. */
  readonly closedAtC?: number;
}

/**
 * Model B: temperature in C with the air heated at constant volume since the valve was closed. Valid while
 * the gauge is at or above the pressure that air and steam have at 0 C; RangeError outside.
 */
export function chamberHeatedAirC(chamber: ClosedChamber): number {
  const { gaugeKPa, atmosphereKPa, airLeft } = chamber;
  within('Gauge pressure', gaugeKPa, 0, 1000, 'kPa');
  positive('Air pressure', atmosphereKPa, 'kPa');
  within('Air left', airLeft, 0, 1, '');
  const closedAtC = chamber.closedAtC ?? boilingC(atmosphereKPa);
  const perKelvin =
    (airLeft * atmosphereKPa) / (within('Temperature at closing', closedAtC, 0, 150, 'C') + ZERO_CELSIUS_K);
  const totalKPa = gaugeKPa + atmosphereKPa;
  const excess = (celsius: number) =>
    saturationKPa(celsius) + perKelvin * (celsius + ZERO_CELSIUS_K) - totalKPa;
  if (excess(0) > 0) throw new RangeError(NO_STEAM);
  // Without air the root is the saturation temperature itself; the bracket must reach past its rounding.
  return brent(excess, { low: 0, high: saturationC(totalKPa) + 1e-6 }, 1e-9);
}

export interface FreeSpace {
  /** Volume of gas in the loaded cooker, L. */
  readonly freeL: number;
  readonly steamGMin: number;
  readonly boilsC: number;
}

/** Time constant in s with which perfectly mixed steam clears the free space of air. */
export function purgeTimeConstantS({ freeL, steamGMin, boilsC }: FreeSpace): number {
  const litresPerS = positive('Steam rate', steamGMin, 'g/min') / steamKgM3(boilsC) / 60;
  return positive('Free volume', freeL, 'L') / litresPerS;
}

/**
 * Share of air left in the free space after venting for so many seconds. It says nothing about the air inside
 * bags and jars, which leaves only as the grain itself warms.
 */
export function freeSpaceAir(space: FreeSpace, ventS: number): number {
  return Math.exp(-notNegative('Vent', ventS, 's') / purgeTimeConstantS(space));
}

export interface OpenBag {
  /** Mean temperature of the bag's gas and of the same gas at filling, C. */
  readonly celsius: number;
  readonly filledAtC: number;
  readonly atmosphereKPa: number;
}

/** Share of the filling's air still inside a bag with an open filter: (p - psat(T)) / (p - psat(T0)) T0 / T. */
export function airLeftInBag({ celsius, filledAtC, atmosphereKPa }: OpenBag): number {
  within('Bag temperature', celsius, 0, boilingC(atmosphereKPa), 'C');
  within('Filling temperature', filledAtC, 0, 60, 'C');
  return (
    (((atmosphereKPa - saturationKPa(celsius)) / (atmosphereKPa - saturationKPa(filledAtC))) *
      (filledAtC + ZERO_CELSIUS_K)) /
    (celsius + ZERO_CELSIUS_K)
  );
}

/** Air assumed in the chamber after a steady vent; guesses, to be shown as such. Minutes to share. */
export function assumedAirLeft(ventS: number): number {
  const minutes = notNegative('Vent', ventS, 's') / 60;
  if (minutes >= 10) return 0;
  return minutes >= 5 ? 0.05 * (2 - minutes / 5) : 0.75 - (0.7 * minutes) / 5;
}
