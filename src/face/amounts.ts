/** Typing a quantity with wet fingers: a number in the person's unit, by digits or by arrows. */
import type { AmountKind } from '../core/batch/steps.ts';
import type { Units } from '../core/kitchen.ts';
import {
  barToKPa,
  celsiusToFahrenheit,
  fahrenheitToCelsius,
  kPaToBar,
  kPaToPsi,
  kgToLb,
  lToQt,
  lbToKg,
  psiToKPa,
  qtToL,
} from '../core/science/units.ts';

interface Measure {
  readonly unit: string;
  readonly fromInside: (value: number) => number;
  readonly toInside: (value: number) => number;
  readonly small: number;
  readonly large: number;
  readonly decimals: number;
}
const same = (value: number): number => value;
const measure = (
  unit: string,
  small: number,
  large: number,
  decimals: number,
  fromInside = same,
  toInside = same,
): Measure => ({ unit, fromInside, toInside, small, large, decimals });

const PRESSURE: Readonly<Record<Units['pressure'], Measure>> = {
  psi: measure('psi', 0.5, 2, 1, kPaToPsi, psiToKPa),
  kPa: measure('kPa', 2, 10, 0),
  bar: measure('bar', 0.02, 0.1, 2, kPaToBar, barToKPa),
};

/** How amounts of a kind are typed in these units. */
export function measureFor(kind: AmountKind, units: Units): Measure {
  switch (kind) {
    case 'mass':
      return units.mass === 'kg' ? measure('kg', 0.01, 0.1, 2) : measure('lb', 0.02, 0.2, 2, kgToLb, lbToKg);
    case 'volume':
      return units.volume === 'L' ? measure('L', 0.1, 0.5, 1) : measure('qt', 0.1, 0.5, 1, lToQt, qtToL);
    case 'pressure':
      return PRESSURE[units.pressure];
    case 'temperature':
      return units.temperature === 'C'
        ? measure('C', 0.5, 5, 1)
        : measure('F', 1, 10, 0, celsiusToFahrenheit, fahrenheitToCelsius);
    case 'dose':
      return measure('ml or g', 0.5, 5, 1);
  }
}

/** A number as it stands in the field. */
export const fieldText = (value: number, { decimals }: Measure): string => value.toFixed(decimals);

const LONGEST = 7;

/** The field after a key; null when the key does not belong to it. `fresh` text is replaced by the first digit. */
export function typeAmount(text: string, fresh: boolean, key: string, scale: Measure): string | null {
  const step = { up: scale.small, down: -scale.small, right: scale.large, left: -scale.large }[key];
  if (step !== undefined) return fieldText(Math.max(0, (Number(text) || 0) + step), scale);
  const before = fresh ? '' : text;
  if (/^\d$/.test(key)) return before.length < LONGEST ? before + key : before;
  if (key === '.' || key === ',') return before.includes('.') ? before : `${before === '' ? '0' : before}.`;
  return key === 'backspace' ? before.slice(0, -1) : null;
}

/** The typed number in inside units; NaN when there is none. */
export const amountOf = (text: string, scale: Measure): number =>
  text.trim() === '' ? Number.NaN : scale.toInside(Number(text));
