/**
 * How much culture a container gets, and how clean work goes. Amounts are ranges for each kg of hydrated
 * grain from the science notes (section i) with their tags; order of work and needle care are common
 * practice, no source, except the caution about alcohol and flame (section k 7, read).
 */
import type { CultureForm } from '../recipe/recipe.ts';
import { INOCULATION_PER_KG } from '../science/species.ts';

/** Liquid goes by the mL, grain spawn by the g. */
export type DoseUnit = 'ml' | 'g';
export const doseUnitOf = (form: CultureForm): DoseUnit => (form === 'grain spawn' ? 'g' : 'ml');

export interface DoseRange {
  /** mL, or g of grain spawn, for this container. */
  readonly low: number;
  readonly likely: number;
  readonly high: number;
  readonly unit: DoseUnit;
  /** Whether a source was opened for it. */
  readonly tag: 'read' | 'memory';
  readonly source: string;
}

const SOURCES: Readonly<Record<CultureForm, string>> = {
  'liquid culture': 'common practice; fermenter growers give 41 to 62 ml for each kg (read)',
  'spore syringe': 'common practice',
  'grain spawn': 'common practice, 5 to 20 % of the weight; 3 % was read for mother spawn',
};

/** The range for a container of so many kg of hydrated grain, above 0. RangeError otherwise. */
export function doseFor(form: CultureForm, kg: number): DoseRange {
  if (!Number.isFinite(kg) || kg <= 0)
    throw new RangeError(`A container must hold more than 0 kg, not ${kg}.`);
  const { low, likely, high } = INOCULATION_PER_KG[form];
  const round = (perKg: number): number => {
    const amount = perKg * kg;
    return amount < 10 ? Math.round(amount * 10) / 10 : Math.round(amount);
  };
  return {
    low: round(low),
    likely: round(likely),
    high: round(high),
    unit: doseUnitOf(form),
    tag: 'memory',
    source: SOURCES[form],
  };
}

export type DoseVerdict = 'within' | 'little' | 'much';
export function judgeDose(form: CultureForm, kg: number, dose: number): DoseVerdict {
  const { low, high } = doseFor(form, kg);
  if (dose < low) return 'little';
  return dose > high ? 'much' : 'within';
}

/** Order of work with a syringe or with spawn, one short sentence each. */
export function inoculationSteps(form: CultureForm, kind: 'bag' | 'jar'): readonly string[] {
  const port = kind === 'bag' ? 'port' : 'port in the lid';
  const still =
    'Still air: windows shut, fans off, a quarter of an hour of rest. Under a flow hood: culture and hands downstream of the grain.';
  const alcohol =
    'Alcohol on hands, table and ports must be dry before there is any flame; never spray towards one.';
  if (form === 'grain spawn') {
    return [
      still,
      alcohol,
      'Break the spawn up in its own bag first. Look at it: only clean white spawn is given on.',
      `Open one ${kind} at a time, as briefly as you can, pour, and close it before the next.`,
      'Mix by shaking, so that white kernels lie everywhere.',
    ];
  }
  return [
    still,
    alcohol,
    'Shake the syringe. Flame the needle red, let it cool, and push a drop through it.',
    `Wipe the ${port}, let it dry, put the needle straight in and aim at the side, so that the liquid runs down the film.`,
    `Wipe and flame again before every ${kind}. A needle that touched anything is flamed or changed.`,
  ];
}
