/**
 * Quantities as text, in the unit the person chose. Values come in the units of the core (kg, L, kPa,
 * Celsius, metres, seconds); every function throws RangeError on NaN and infinities, since a number that
 * is not one must never reach a screen.
 */

import type { Units } from './kitchen.ts';
import type { ContainerSize } from './recipe/recipe.ts';
import { KG_PER_LB, KPA_PER_PSI, L_PER_QT, M_PER_FT, M_PER_IN } from './science/units.ts';

export const METRIC: Units = { mass: 'kg', volume: 'L', pressure: 'kPa', temperature: 'C', length: 'cm' };

/** Rounded to at most `decimals`, without trailing zeros and without "-0". */
export function trimmed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`not a number that can be shown: ${value}`);
  const fixed = value.toFixed(decimals);
  const short = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return short === '-0' ? '0' : short;
}

/** "1.1 kg", "25 g" below 100 g; "2 lb 4 oz", "12 oz" below a pound. */
export function formatMass(kg: number, units: Units): string {
  if (units.mass === 'kg') return Math.abs(kg) < 0.1 ? `${trimmed(kg * 1000, 0)} g` : `${trimmed(kg, 2)} kg`;
  const tenths = Math.round((Math.abs(kg) / KG_PER_LB) * 160);
  const pounds = Math.floor(tenths / 160);
  const ounces = trimmed((tenths - pounds * 160) / 10, 1);
  const sign = kg < 0 && tenths > 0 ? '-' : '';
  if (pounds === 0) return `${sign}${ounces} oz`;
  return ounces === '0' ? `${sign}${pounds} lb` : `${sign}${pounds} lb ${ounces} oz`;
}

/** "2.5 L" or "2.64 qt"; below 100 mL in mL for everybody, since syringes are marked so. */
export function formatVolume(litres: number, units: Units): string {
  if (litres !== 0 && Math.abs(litres) < 0.1) return `${trimmed(litres * 1000, 1)} mL`;
  return units.volume === 'L' ? `${trimmed(litres, 2)} L` : `${trimmed(litres / L_PER_QT, 2)} qt`;
}

/** "15 psi", "16.2 psi", "103 kPa", "1.03 bar". */
export function formatPressure(kPa: number, units: Units): string {
  if (units.pressure === 'psi') return `${trimmed(kPa / KPA_PER_PSI, 1)} psi`;
  return units.pressure === 'bar' ? `${trimmed(kPa / 100, 2)} bar` : `${trimmed(kPa, 0)} kPa`;
}

/** "121 °C" or "250 °F"; more decimals on request. */
export function formatTemperature(celsius: number, units: Units, decimals = 0): string {
  if (units.temperature === 'C') return `${trimmed(celsius, decimals)} °C`;
  return `${trimmed(celsius * 1.8 + 32, decimals)} °F`;
}

/** "18 cm", "16.5 cm" or "7.09 in": sizes of pots, bags and jars. */
export function formatLength(metres: number, units: Units): string {
  return units.length === 'cm' ? `${trimmed(metres * 100, 1)} cm` : `${trimmed(metres / M_PER_IN, 2)} in`;
}

/** "640 m" or "2100 ft": height above the sea. */
export function formatAltitude(metres: number, units: Units): string {
  return units.length === 'cm' ? `${trimmed(metres, 0)} m` : `${trimmed(metres / M_PER_FT, 0)} ft`;
}

/** "18 x 11 x 8 cm" or "9 cm wide, 12.5 cm high". */
export function formatSize(size: ContainerSize, units: Units): string {
  if (size.shape === 'cylinder')
    return `${formatLength(size.diameterM, units)} wide, ${formatLength(size.heightM, units)} high`;
  const sides = [size.lengthM, size.widthM, size.thicknessM].map(side =>
    units.length === 'cm' ? trimmed(side * 100, 1) : trimmed(side / M_PER_IN, 2),
  );
  return `${sides.join(' x ')} ${units.length}`;
}

/**
 * A length of time as said aloud: "20 s", "2 min 30 s", "90 min", "8 h 30 min", "12 days". Seconds are
 * dropped from ten minutes on, minutes from three days on.
 */
export function formatDuration(seconds: number): string {
  if (!Number.isFinite(seconds)) throw new RangeError(`not a length of time: ${seconds}`);
  if (seconds < 0) return `-${formatDuration(-seconds)}`;
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 600) return joined(whole, 60, 'min', 's');
  const minutes = Math.round(whole / 60);
  if (minutes < 120 && minutes !== 60) return `${minutes} min`;
  if (minutes < 72 * 60) return joined(minutes, 60, 'h', 'min');
  return joined(Math.round(minutes / 60), 24, 'days', 'h');
}

function joined(amount: number, base: number, large: string, small: string): string {
  const rest = amount % base;
  const first = `${(amount - rest) / base} ${large}`;
  return rest === 0 ? first : `${first} ${rest} ${small}`;
}

/** "48 %" from 0.48. */
export const formatPercent = (fraction: number, decimals = 1): string =>
  `${trimmed(fraction * 100, decimals)} %`;

/** "3 kW", "800 W". */
export const formatPower = (watts: number): string =>
  Math.abs(watts) >= 1000 ? `${trimmed(watts / 1000, 2)} kW` : `${trimmed(watts, 0)} W`;

/** "2.5 L per kg" or "1.2 qt per lb". */
export function formatWaterPerKg(litresPerKg: number, units: Units): string {
  return units.mass === 'lb' && units.volume === 'qt'
    ? `${trimmed((litresPerKg * KG_PER_LB) / L_PER_QT, 2)} qt per lb`
    : `${trimmed(litresPerKg, 2)} L per kg`;
}
