/**
 * Checks what is said about a kitchen, by hand or in the settings file: each bad value is named and left out,
 * the others are kept. The limits are common sense, no source, except the altitude's: the standard
 * atmosphere's use here is stated for -430 to 5000 m (see `kitchen.ts`).
 */

import { DEFAULT_KITCHEN, type Kitchen, type KitchenAnswers } from './kitchen.ts';
import { atMost, visible } from './text.ts';

export interface Limits {
  readonly least: number;
  readonly most: number;
  readonly unit: string;
  /** Whether null, "not known", is an answer too. */
  readonly maybeNull?: boolean;
}

type NumericKey = {
  [K in keyof Kitchen]: Kitchen[K] extends number | null ? K : never;
}[keyof Kitchen];

export const KITCHEN_LIMITS: Readonly<Record<NumericKey, Limits>> = {
  altitudeM: { least: -430, most: 5000, unit: 'm' },
  stationKPa: { least: 50, most: 110, unit: 'kPa', maybeNull: true },
  roomC: { least: 5, most: 40, unit: '°C' },
  potL: { least: 0.5, most: 200, unit: 'L' },
  cookerL: { least: 2, most: 200, unit: 'L' },
  cookerInnerDiameterM: { least: 0.1, most: 1, unit: 'm' },
  cookerInnerHeightM: { least: 0.08, most: 1.5, unit: 'm' },
  cookerMassKg: { least: 0.5, most: 60, unit: 'kg' },
  workingKPa: { least: 20, most: 200, unit: 'kPa' },
  markedMaxKPa: { least: 20, most: 250, unit: 'kPa' },
  minimumWaterL: { least: 0.1, most: 20, unit: 'L' },
  burnerW: { least: 200, most: 20_000, unit: 'W' },
  hobLimitKg: { least: 1, most: 500, unit: 'kg', maybeNull: true },
};

type Choices = Readonly<Record<string, readonly string[]>>;

const KINDS = {
  gauge: ['dial', 'weight'],
  burner: ['gas', 'electric', 'induction'],
} as const satisfies Choices;

const UNITS: Choices = {
  mass: ['kg', 'lb'],
  volume: ['L', 'qt'],
  pressure: ['psi', 'kPa', 'bar'],
  temperature: ['C', 'F'],
  length: ['cm', 'in'],
};

const MINUTES_A_DAY = 24 * 60;
const MOST_MONEY = 1e6;
/** Effective diffusivity that heat could have in moist grain at all, m2/s (science notes: 0.8 to 18e-7). */
const DIFFUSIVITY: Limits = { least: 0.5e-7, most: 20e-7, unit: 'm²/s' };

export interface CheckedKitchen {
  readonly answers: KitchenAnswers;
  /** One sentence for each value that was left out. */
  readonly problems: readonly string[];
}

/** Keeps every good value. Takes anything and never throws; unknown keys are passed over in silence. */
export function checkKitchen(said: unknown): CheckedKitchen {
  const problems: string[] = [];
  const answers: Record<string, unknown> = {};
  if (!isRecord(said)) return { answers: {}, problems: ['"kitchen" is not a group of values.'] };
  const complain = (key: string, value: unknown, wanted: string) =>
    problems.push(`"kitchen.${visible(atMost(key, 60))}" is ${quote(value)}, but must be ${wanted}.`);

  for (const [key, limits] of Object.entries(KITCHEN_LIMITS)) {
    if (!Object.hasOwn(said, key)) continue;
    if (isWithin(said[key], limits)) answers[key] = said[key];
    else complain(key, said[key], wantedNumber(limits));
  }
  for (const [key, choices] of Object.entries(KINDS)) {
    if (!Object.hasOwn(said, key)) continue;
    if (isOneOf(said[key], choices)) answers[key] = said[key];
    else complain(key, said[key], choices.join(' or '));
  }
  const group = (
    key: 'units' | 'alerts' | 'money',
    check: (part: string) => [(v: unknown) => boolean, string],
  ) => {
    if (!Object.hasOwn(said, key)) return;
    const values = said[key];
    if (!isRecord(values)) return void complain(key, values, 'a group of values');
    const kept: Record<string, unknown> = { ...DEFAULT_KITCHEN[key] };
    for (const part of Object.keys(kept)) {
      if (!Object.hasOwn(values, part)) continue;
      const [good, wanted] = check(part);
      if (good(values[part])) kept[part] = values[part];
      else complain(`${key}.${part}`, values[part], wanted);
    }
    answers[key] = kept;
  };
  group('units', part => [v => isOneOf(v, UNITS[part] ?? []), (UNITS[part] ?? []).join(' or ')]);
  group('alerts', part =>
    part.endsWith('Min')
      ? [v => isMinute(v), 'a whole number of minutes after midnight, 0 to 1439']
      : [v => typeof v === 'boolean', 'true or false'],
  );
  group('money', part =>
    part === 'currency'
      ? [v => typeof v === 'string' && v.length <= 12, 'a text of at most 12 characters']
      : [v => isWithin(v, { least: 0, most: MOST_MONEY, unit: '' }), `a number from 0 to ${MOST_MONEY}`],
  );
  if (Object.hasOwn(said, 'measuredDiffusivity')) {
    answers.measuredDiffusivity = measured(said.measuredDiffusivity, complain);
  }
  return { answers: answers as KitchenAnswers, problems };
}

/**
 * The same without a working pressure above the cooker's mark. Apart from the check of single values, because
 * a batch that was begun with such a kitchen must still be read: its plan never asked for more than the mark.
 */
export function underTheMark({ answers, problems }: CheckedKitchen): CheckedKitchen {
  const { workingKPa, markedMaxKPa, ...others } = answers;
  if (workingKPa === undefined || markedMaxKPa === undefined || workingKPa <= markedMaxKPa + 0.1) {
    return { answers, problems };
  }
  const said = `"kitchen.workingKPa" is ${workingKPa}, but must not be above "kitchen.markedMaxKPa", ${markedMaxKPa}.`;
  return { answers: { ...others, markedMaxKPa }, problems: [...problems, said] };
}

function measured(
  said: unknown,
  complain: (key: string, value: unknown, wanted: string) => void,
): Record<string, number> {
  if (!isRecord(said)) {
    complain('measuredDiffusivity', said, 'a group of values');
    return {};
  }
  const good: [string, number][] = [];
  for (const [container, value] of Object.entries(said)) {
    if (isWithin(value, DIFFUSIVITY) && typeof value === 'number') good.push([container, value]);
    else complain(`measuredDiffusivity.${container}`, value, wantedNumber(DIFFUSIVITY));
  }
  return Object.fromEntries(good);
}

function wantedNumber({ least, most, unit, maybeNull }: Limits): string {
  return `a number from ${least} to ${most} ${unit}${maybeNull === true ? ', or null' : ''}`;
}

function isWithin(value: unknown, { least, most, maybeNull }: Limits): boolean {
  if (value === null) return maybeNull === true;
  return typeof value === 'number' && value >= least && value <= most;
}

function isOneOf(value: unknown, choices: readonly string[]): boolean {
  return typeof value === 'string' && choices.includes(value);
}

function isMinute(value: unknown): boolean {
  return Number.isInteger(value) && typeof value === 'number' && value >= 0 && value < MINUTES_A_DAY;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A value as the person may have written it, short enough for a sentence. */
function quote(value: unknown): string {
  return visible(atMost(JSON.stringify(value) ?? String(value), 40));
}
