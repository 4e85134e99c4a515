/**
 * Quantities with units as people write them, read into the units of the core: kilograms, litres, metres,
 * kPa, degrees Celsius, seconds, watts, fractions of one. Nothing here throws: text that cannot be read,
 * or lies outside the range, is answered with a phrase that completes "expected ...".
 */

import type { Units } from './kitchen.ts';
import {
  formatAltitude,
  formatDuration,
  formatLength,
  formatMass,
  formatPercent,
  formatPower,
  formatPressure,
  formatTemperature,
  formatVolume,
  formatWaterPerKg,
  METRIC,
} from './quantity-format.ts';
import {
  DURATION_UNITS,
  LENGTH_UNITS,
  MASS_UNITS,
  type Misread,
  PERCENT_UNITS,
  POWER_UNITS,
  PRESSURE_UNITS,
  readUnits,
  TEMPERATURE_UNITS,
  type Unit,
  VOLUME_UNITS,
  WATER_UNITS,
} from './quantity-units.ts';

export {
  formatAltitude,
  formatDuration,
  formatLength,
  formatMass,
  formatPercent,
  formatPower,
  formatPressure,
  formatSize,
  formatTemperature,
  formatVolume,
  formatWaterPerKg,
} from './quantity-format.ts';

/** A value, or a phrase that completes "expected ...". */
export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly expected: string };

/** Least and most that make sense, both allowed, in the core's unit. */
export interface Range {
  readonly least: number;
  readonly most: number;
  /** What a person would write here; without it the message uses the dimension's own example. */
  readonly example?: string;
}

interface Dimension {
  readonly noun: string;
  readonly example: string;
  readonly units: readonly Unit[];
  readonly range: Range;
  readonly format: (value: number, units: Units) => string;
}

/** A range is told in the units the person wrote in; pressure in psi unless they wrote another. */
const METRIC_SAID: Units = { ...METRIC, pressure: 'psi' };
const AMERICAN: Units = { mass: 'lb', volume: 'qt', pressure: 'psi', temperature: 'F', length: 'in' };
const unitsSaid = (unit: Unit | undefined): Units => {
  if (unit?.times !== undefined || unit?.convert) return AMERICAN;
  return unit && PRESSURE_UNITS.includes(unit) ? METRIC : METRIC_SAID;
};

const HINTS: Readonly<Record<Misread, (names: string) => string>> = {
  'no number': () => '',
  'no unit': names => ` with its unit (${names})`,
  'unknown unit': names => ` in ${names}`,
  comma: () => ' without a comma before three digits (1,500 can mean 1500 or 1.5)',
  order: () => ' with the larger unit first',
};

function reader(dimension: Dimension): (text: string, range?: Range) => Parsed<number> {
  const signs = dimension.units.map(unit => unit.sign);
  const names = [signs.slice(0, -1).join(', '), signs.at(-1)].filter(Boolean).join(' or ');
  return (text, range = dimension.range) => {
    const reading = readUnits(text, dimension.units);
    if (reading.ok && reading.value >= range.least && reading.value <= range.most)
      return { ok: true, value: reading.value };
    const hint = reading.ok ? '' : HINTS[reading.why](names);
    const units = unitsSaid(reading.ok ? reading.unit : undefined);
    const span = `from ${dimension.format(range.least, units)} to ${dimension.format(range.most, units)}`;
    return {
      ok: false,
      expected: `${dimension.noun}${hint} ${span}, such as ${range.example ?? dimension.example}`,
    };
  };
}

/** Kilograms from "1.1 kg", "700 g", "2 lb 4 oz". */
export const parseMass = reader({
  noun: 'a mass',
  example: '1.1 kg or 2 lb 4 oz',
  units: MASS_UNITS,
  range: { least: 0.001, most: 100 },
  format: formatMass,
});

/** Litres from "2.5 L", "500 ml", "3 qt". */
export const parseVolume = reader({
  noun: 'a volume',
  example: '10 L or 11 qt',
  units: VOLUME_UNITS,
  range: { least: 0.0001, most: 500 },
  format: formatVolume,
});

/** Metres from "30 cm", "11.8 in"; sizes of things. */
export const parseLength = reader({
  noun: 'a length',
  example: '30 cm or 12 in',
  units: LENGTH_UNITS,
  range: { least: 0.001, most: 3 },
  format: formatLength,
});

/** Metres above the sea from "640 m", "2100 ft". */
export const parseAltitude = reader({
  noun: 'a height above the sea',
  example: '640 m or 2100 ft',
  units: LENGTH_UNITS,
  range: { least: -430, most: 5000 },
  format: formatAltitude,
});

/** kPa from "15 psi", "1 bar", "103 kPa", "945 hPa"; gauge or absolute is the caller's to know. */
export const parsePressure = reader({
  noun: 'a pressure',
  example: '15 psi, 1 bar or 103 kPa',
  units: PRESSURE_UNITS,
  range: { least: 1, most: 300 },
  format: formatPressure,
});

/** Degrees Celsius from "121 C", "250 F". */
export const parseTemperature = reader({
  noun: 'a temperature',
  example: '121 C or 250 F',
  units: TEMPERATURE_UNITS,
  range: { least: -40, most: 300 },
  format: (celsius, units) => formatTemperature(celsius, units),
});

/** Seconds from "90 min", "14 h", "1 h 30 min", "20 s". */
export const parseDuration = reader({
  noun: 'a length of time',
  example: '90 min or 1 h 30 min',
  units: DURATION_UNITS,
  range: { least: 1, most: 90 * 86_400 },
  format: formatDuration,
});

/** Fraction of one from "48 %". */
export const parsePercent = reader({
  noun: 'a percentage',
  example: '48 %',
  units: PERCENT_UNITS,
  range: { least: 0, most: 1 },
  format: fraction => formatPercent(fraction),
});

/** Watts from "3 kW", "1800 W", "10000 BTU/h". */
export const parsePower = reader({
  noun: 'a power',
  example: '3 kW or 10000 BTU/h',
  units: POWER_UNITS,
  range: { least: 100, most: 20_000 },
  format: formatPower,
});

/** Litres for each kilogram from "2.5 L per kg", "1.2 qt per lb". */
export const parseWaterPerKg = reader({
  noun: 'an amount of water for the dry grain',
  example: '2.5 L per kg or 1.2 qt per lb',
  units: WATER_UNITS,
  range: { least: 0.5, most: 10 },
  format: formatWaterPerKg,
});

/** A whole number from "6": digits only, no unit. */
export function parseCount(text: string, range: Range = { least: 1, most: 1000 }): Parsed<number> {
  const value = /^\s*\d{1,6}\s*$/.test(text) ? Number(text) : Number.NaN;
  if (value >= range.least && value <= range.most) return { ok: true, value };
  return {
    ok: false,
    expected: `a whole number from ${range.least} to ${range.most}, such as ${range.example ?? 6}`,
  };
}
