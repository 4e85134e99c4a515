/** Limits of a recipe's quantities, and the values that only a recipe has. */

import type { Parsed, Range } from '../quantity.ts';
import { GRAM_UNITS, MILLILITRE_UNITS, readUnits } from '../quantity-units.ts';
import { KPA_PER_PSI } from '../science/units.ts';

const MIN = 60;
const HOUR = 3600;

/** Limits in the core's units. Pressure and temperature are safety limits: stovetop cookers end well below. */
export const LIMITS = {
  count: { least: 1, most: 60, example: '6' },
  fillKg: { least: 0.05, most: 6, example: '1.1 kg or 2 lb 4 oz' },
  moisture: { least: 0.03, most: 0.7, example: '48 %' },
  soakS: { least: 30 * MIN, most: 48 * HOUR, example: '12 h' },
  lookS: { least: MIN, most: 2 * HOUR, example: '5 min' },
  waterPerKg: { least: 0.8, most: 6 },
  dryS: { least: 10 * MIN, most: 12 * HOUR, example: '2 h' },
  stirS: { least: 2 * MIN, most: 2 * HOUR, example: '25 min' },
  towelS: { least: 5, most: 2 * MIN, example: '20 s' },
  cookerWaterL: { least: 0.2, most: 20, example: '2.5 L or 2.6 qt' },
  ventS: { least: MIN, most: 45 * MIN, example: '10 min' },
  gaugeKPa: { least: 5 * KPA_PER_PSI, most: 25 * KPA_PER_PSI },
  celsius: { least: 105, most: 130 },
  holdS: { least: 15 * MIN, most: 6 * HOUR, example: '90 min' },
  coolS: { least: HOUR, most: 48 * HOUR, example: '9 h' },
  cultureMl: { least: 0.2, most: 500 },
  cultureG: { least: 1, most: 1000 },
} as const satisfies Record<string, Range>;

export type Amount = { readonly unit: 'mL' | 'g'; readonly amount: number };

/** "5 ml" of liquid or "100 g" of grain spawn. */
export function parseAmount(text: string): Parsed<Amount> {
  const liquid = readUnits(text, MILLILITRE_UNITS);
  if (liquid.ok && inside(liquid.value, LIMITS.cultureMl))
    return { ok: true, value: { unit: 'mL', amount: liquid.value } };
  const weight = readUnits(text, GRAM_UNITS);
  if (weight.ok && inside(weight.value, LIMITS.cultureG))
    return { ok: true, value: { unit: 'g', amount: weight.value } };
  return {
    ok: false,
    expected:
      'an amount from 0.2 mL to 500 mL, such as 5 ml, or of grain spawn from 1 g to 1000 g, such as 100 g',
  };
}

const inside = (value: number, { least, most }: Range): boolean => value >= least && value <= most;

/** "no", or nothing at all, where soak times could stand. */
export function parseNoSoak(text: string): Parsed<'no'> {
  return /^\s*(?:no|none|false|~|null)?\s*$/i.test(text)
    ? { ok: true, value: 'no' }
    : { ok: false, expected: '"no", or the keys shortest and longest indented below' };
}
