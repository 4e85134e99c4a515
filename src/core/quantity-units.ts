/**
 * The units people write, and how a piece of text becomes a number of one base unit.
 *
 * Decimal prefixes are applied by moving the decimal point in the text ("4.1 cm" is read as 4.1e-2), so
 * that a metric quantity is always the double nearest to what was written and can be written back exactly.
 */

import {
  fahrenheitToCelsius,
  KG_PER_LB,
  KPA_PER_PSI,
  L_PER_QT,
  M_PER_FT,
  M_PER_IN,
} from './science/units.ts';

export interface Unit {
  /** As shown in messages. */
  readonly sign: string;
  /** Every spelling, lower case. */
  readonly names: readonly string[];
  /** Power of ten to the base unit. */
  readonly shift?: number;
  /** Factor to the base unit, after the shift. */
  readonly times?: number;
  /** Instead of a factor, where zero is not zero: temperatures. */
  readonly convert?: (value: number) => number;
}

/** Base: kilogram. Pound and ounce exact by the 1959 international yard and pound agreement. */
export const MASS_UNITS: readonly Unit[] = [
  { sign: 'kg', names: ['kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms'] },
  { sign: 'lb', names: ['lb', 'lbs', 'pound', 'pounds'], times: KG_PER_LB },
  { sign: 'oz', names: ['oz', 'ounce', 'ounces'], times: KG_PER_LB / 16 },
  { sign: 'g', names: ['g', 'gr', 'gram', 'grams'], shift: -3 },
];

/** Base: litre. US liquid gallon, quart, pint and cup (231 cubic inches to the gallon, exact). */
export const VOLUME_UNITS: readonly Unit[] = [
  { sign: 'gal', names: ['gal', 'gallon', 'gallons'], times: 4 * L_PER_QT },
  { sign: 'L', names: ['l', 'litre', 'litres', 'liter', 'liters'] },
  { sign: 'qt', names: ['qt', 'qts', 'quart', 'quarts'], times: L_PER_QT },
  { sign: 'pt', names: ['pt', 'pint', 'pints'], times: L_PER_QT / 2 },
  { sign: 'cup', names: ['cup', 'cups'], times: L_PER_QT / 4 },
  { sign: 'dL', names: ['dl'], shift: -1 },
  { sign: 'cL', names: ['cl'], shift: -2 },
  { sign: 'mL', names: ['ml', 'cc', 'millilitre', 'millilitres', 'milliliter', 'milliliters'], shift: -3 },
];

/** Base: millilitre; what syringes are marked in. */
export const MILLILITRE_UNITS: readonly Unit[] = [
  { sign: 'L', names: ['l', 'litre', 'litres', 'liter', 'liters'], shift: 3 },
  { sign: 'mL', names: ['ml', 'cc', 'millilitre', 'millilitres', 'milliliter', 'milliliters'] },
];

/** Base: gram. */
export const GRAM_UNITS: readonly Unit[] = [
  { sign: 'kg', names: ['kg'], shift: 3 },
  { sign: 'oz', names: ['oz', 'ounce', 'ounces'], times: (KG_PER_LB * 1000) / 16 },
  { sign: 'g', names: ['g', 'gr', 'gram', 'grams'] },
];

/** Base: metre. Inch exact, 25.4 mm. */
export const LENGTH_UNITS: readonly Unit[] = [
  { sign: 'km', names: ['km'], shift: 3 },
  { sign: 'm', names: ['m', 'metre', 'metres', 'meter', 'meters'] },
  { sign: 'ft', names: ['ft', 'foot', 'feet', "'", '′'], times: M_PER_FT },
  { sign: 'in', names: ['in', 'inch', 'inches', '"', '″'], times: M_PER_IN },
  { sign: 'cm', names: ['cm', 'centimetre', 'centimetres', 'centimeter', 'centimeters'], shift: -2 },
  { sign: 'mm', names: ['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'], shift: -3 },
];

/** Base: kilopascal. Conventional inch of mercury at 0 degrees. */
export const PRESSURE_UNITS: readonly Unit[] = [
  { sign: 'bar', names: ['bar', 'bars'], shift: 2 },
  { sign: 'psi', names: ['psi', 'psig', 'lb/in2'], times: KPA_PER_PSI },
  { sign: 'inHg', names: ['inhg'], times: 3.386389 },
  { sign: 'kPa', names: ['kpa'] },
  { sign: 'hPa', names: ['hpa', 'mbar', 'mb'], shift: -1 },
];

/** Base: degree Celsius. */
export const TEMPERATURE_UNITS: readonly Unit[] = [
  { sign: 'C', names: ['c', '°c', 'celsius', 'degc'] },
  { sign: 'F', names: ['f', '°f', 'fahrenheit', 'degf'], convert: fahrenheitToCelsius },
];

/** Base: second. */
export const DURATION_UNITS: readonly Unit[] = [
  { sign: 'days', names: ['d', 'day', 'days'], times: 86_400 },
  { sign: 'h', names: ['h', 'hr', 'hrs', 'hour', 'hours'], times: 3600 },
  { sign: 'min', names: ['min', 'mins', 'minute', 'minutes'], times: 60 },
  { sign: 's', names: ['s', 'sec', 'secs', 'second', 'seconds'] },
];

/** Base: watt. International-table Btu per hour, the rating on American burners. */
export const POWER_UNITS: readonly Unit[] = [
  { sign: 'kW', names: ['kw'], shift: 3 },
  { sign: 'W', names: ['w', 'watt', 'watts'] },
  { sign: 'BTU/h', names: ['btu/h', 'btu/hr', 'btu'], times: 0.29307107 },
];

/** Base: fraction of one. */
export const PERCENT_UNITS: readonly Unit[] = [
  { sign: '%', names: ['%', 'percent', 'per cent', 'pct'], shift: -2 },
];

/** Base: litres for each kilogram. */
export const WATER_UNITS: readonly Unit[] = [
  {
    sign: 'L per kg',
    names: ['l per kg', 'l/kg', 'litres per kg', 'liters per kg', 'litre per kg', 'liter per kg'],
  },
  { sign: 'mL per kg', names: ['ml per kg', 'ml/kg'], shift: -3 },
  {
    sign: 'qt per lb',
    names: ['qt per lb', 'qt/lb', 'quarts per lb', 'quarts per pound'],
    times: L_PER_QT / KG_PER_LB,
  },
];

/** Why a piece of text is no quantity. */
export type Misread = 'no number' | 'no unit' | 'unknown unit' | 'comma' | 'order';

export type Reading =
  | { readonly ok: true; readonly value: number; readonly unit: Unit }
  | { readonly ok: false; readonly why: Misread };

/** Longer texts than this are no quantity; keeps the reading of any text short. */
const LONGEST = 120;
const VULGAR: Readonly<Record<string, number>> = {
  '¼': 0.25,
  '½': 0.5,
  '¾': 0.75,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '⅛': 0.125,
};
const PART =
  /^\s*(?<sign>[-−+])?\s*(?:(?<whole>\d{1,4})?\s*(?<vulgar>[¼½¾⅓⅔⅛])|(?:(?<mixed>\d{1,4})\s+)?(?<over>\d{1,4})\/(?<under>\d{1,4})|(?<digits>\d{0,20}(?:[.,]\d{1,25})?))\s*(?<unit>[a-z°%"'′″][a-z°2]*(?:\s*\/\s*[a-z]+2?|\s+per\s+[a-z]+|\s+cent)?)?\s*/i;
const SEPARATOR = /^(?:,|and\b|\+)\s*/i;

/** A comma before exactly three digits may stand for thousands or for decimals; "0,750" cannot. */
const ambiguousComma = (digits: string): boolean => /^(?!0,)\d{1,3},\d{3}$/.test(digits);

function scale(number: string | number, sign: 1 | -1, unit: Unit): number {
  const shift = unit.shift ?? 0;
  const size = typeof number === 'string' ? Number(`${number}e${shift}`) : number * 10 ** shift;
  return unit.convert ? unit.convert(sign * size) : sign * size * (unit.times ?? 1);
}

/**
 * Reads "1.1 kg", "2 lb 4 oz", "1 h 30 min", "2½ qt" or "0,7 kg" as a number of the base unit of `units`.
 * Parts must come from the larger unit to the smaller. Never throws; no exponents, no bare numbers.
 */
export function readUnits(text: string, units: readonly Unit[]): Reading {
  let rest = text.trim();
  if (rest.length > LONGEST) return { ok: false, why: 'no number' };
  let total = 0;
  let last: Unit | undefined;
  do {
    const match = PART.exec(rest);
    const part = match?.groups;
    if (!match || !part || (last && part.sign)) return { ok: false, why: 'no number' };
    const found = numberOf(part);
    if (found === null) return { ok: false, why: 'no number' };
    if (typeof found === 'string' && ambiguousComma(found)) return { ok: false, why: 'comma' };
    if (!part.unit) return { ok: false, why: 'no unit' };
    const name = part.unit
      .toLowerCase()
      .replace(/\s*\/\s*/, '/')
      .replace(/\s+/g, ' ');
    const unit = units.find(each => each.names.includes(name));
    if (!unit) return { ok: false, why: 'unknown unit' };
    if (last && units.indexOf(unit) <= units.indexOf(last)) return { ok: false, why: 'order' };
    if (last && (unit.convert ?? last.convert)) return { ok: false, why: 'order' };
    const sign = part.sign === '-' || part.sign === '−' ? -1 : 1;
    total += scale(typeof found === 'string' ? found.replace(',', '.') : found, sign, unit);
    last = unit;
    rest = rest.slice(match[0].length);
    if (rest !== '') rest = rest.replace(SEPARATOR, '') || ',';
  } while (rest !== '');
  return { ok: true, value: total, unit: last };
}

function numberOf(part: Readonly<Record<string, string | undefined>>): string | number | null {
  if (part.vulgar) return Number(part.whole ?? 0) + (VULGAR[part.vulgar] ?? 0);
  if (part.over) {
    const under = Number(part.under);
    return under === 0 ? null : Number(part.mixed ?? 0) + Number(part.over) / under;
  }
  return part.digits ? part.digits : null;
}
