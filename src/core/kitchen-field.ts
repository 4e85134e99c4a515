/** One value of the kitchen as a question: what it is called, how it is written and how it is read back. */
import type { Kitchen, KitchenAnswers } from './kitchen.ts';
import { KITCHEN_LIMITS } from './kitchen-check.ts';
import { formatPressure } from './quantity-format.ts';
import { parsePressure, type Parsed, type Range } from './quantity.ts';

/** What was read; `says` is one sentence about what follows from it. */
export type FieldRead = Parsed<KitchenAnswers> & { readonly says?: string };

export interface KitchenField {
  /** The word used on the command line: `stovehand kitchen altitude "640 m"`. */
  readonly name: string;
  readonly asks: string;
  /** The part of the kitchen it is kept in. */
  readonly of: keyof Kitchen;
  readonly show: (kitchen: Kitchen) => string;
  readonly read: (text: string, kitchen: Kitchen) => FieldRead;
}

/** A number alone is in the unit of the value that is shown: "8" where "10 L" stands is "8 L". */
function withUnit(text: string, shown: string): string {
  const unit = /^[\d.,]+ ?(\D+)$/.exec(shown)?.[1];
  return unit !== undefined && /^\s*\d+([.,]\d+)?\s*$/.test(text) ? `${text.trim()} ${unit}` : text;
}

type NumberKey = Exclude<keyof typeof KITCHEN_LIMITS, 'stationKPa' | 'hobLimitKg'>;

export function quantity(
  name: string,
  asks: string,
  key: NumberKey,
  parse: (text: string, range: Range) => Parsed<number>,
  format: (value: number, kitchen: Kitchen) => string,
): KitchenField {
  return {
    name,
    asks,
    of: key,
    show: kitchen => format(kitchen[key], kitchen),
    read: (text, kitchen) => {
      const parsed = parse(withUnit(text, format(kitchen[key], kitchen)), KITCHEN_LIMITS[key]);
      return parsed.ok ? { ok: true, value: { [key]: parsed.value } } : parsed;
    },
  };
}

export function oneOf<K extends keyof Kitchen>(
  name: string,
  asks: string,
  key: K,
  values: readonly (Kitchen[K] & string)[],
): KitchenField {
  return {
    name,
    asks,
    of: key,
    show: kitchen => String(kitchen[key]),
    read: text => {
      const value = values.find(known => known === text.trim().toLowerCase());
      return value === undefined
        ? { ok: false, expected: `one of: ${values.join(', ')}` }
        : { ok: true, value: { [key]: value } };
    },
  };
}

/** A value that may be unknown: "-" takes it back. */
export function orUnknown(
  name: string,
  asks: string,
  key: 'stationKPa' | 'hobLimitKg',
  parse: (text: string, range: Range) => Parsed<number>,
  format: (value: number, kitchen: Kitchen) => string,
): KitchenField {
  return {
    name,
    asks,
    of: key,
    show: kitchen => {
      const value = kitchen[key];
      return value === null ? 'not known' : format(value, kitchen);
    },
    read: text => {
      if (/^(-|not known|none)$/i.test(text.trim())) return { ok: true, value: { [key]: null } };
      const parsed = parse(text, KITCHEN_LIMITS[key]);
      return parsed.ok
        ? { ok: true, value: { [key]: parsed.value } }
        : { ok: false, expected: `${parsed.expected}, or -` };
    },
  };
}

/** A mark in psi and the same mark in kPa are the same mark. */
const SAME_KPA = 0.1;

/** The working pressure: never more than the cooker is marked for. */
export function workingPressure(name: string, asks: string): KitchenField {
  const plain = quantity(name, asks, 'workingKPa', parsePressure, (kPa, { units }) =>
    formatPressure(kPa, units),
  );
  return {
    ...plain,
    read: (text, kitchen) => {
      const read = plain.read(text, kitchen);
      const { markedMaxKPa, units } = kitchen;
      if (!read.ok || (read.value.workingKPa ?? 0) <= markedMaxKPa + SAME_KPA) return read;
      const mark = formatPressure(markedMaxKPa, units);
      return { ok: false, expected: `at most ${mark}, the highest pressure marked on the cooker` };
    },
  };
}

/** The mark on the cooker: believed at once, and a working pressure above it comes down to it. */
export function markedMaximum(name: string, asks: string): KitchenField {
  const plain = quantity(name, asks, 'markedMaxKPa', parsePressure, (kPa, { units }) =>
    formatPressure(kPa, units),
  );
  return {
    ...plain,
    read: (text, kitchen) => {
      const read = plain.read(text, kitchen);
      const mark = read.ok ? read.value.markedMaxKPa : undefined;
      if (!read.ok || mark === undefined || mark >= kitchen.workingKPa - SAME_KPA) return read;
      const said = formatPressure(mark, kitchen.units);
      return {
        ok: true,
        value: { markedMaxKPa: mark, workingKPa: mark },
        says: `The working pressure comes down to ${said} with it: more must not be asked of the cooker.`,
      };
    },
  };
}

/** The value that is shown, confirmed: from now on it is the person's own. */
export const confirmed = (field: KitchenField, kitchen: Kitchen): KitchenAnswers => ({
  [field.of]: kitchen[field.of],
});
