/** What-if on the sheet: a few values of recipe and kitchen moved by a key, the rest following from them. */
import type { KnownKitchen, Units } from '../kitchen.ts';
import type { ContainerSize, Recipe } from '../recipe/recipe.ts';
import { LIMITS } from '../recipe/values.ts';
import { KG_PER_LB, M_PER_FT } from '../science/units.ts';

export const WHAT_IF_LINES = ['containers', 'fill', 'altitude', 'hold'] as const;
export type WhatIfLine = (typeof WHAT_IF_LINES)[number];

export interface WhatIf {
  readonly count: number;
  readonly fillKg: number;
  readonly holdS: number;
  /** Null as long as the kitchen's own altitude, or its barometer, counts. */
  readonly altitudeM: number | null;
}

export const whatIfOf = ({ containers, holdS }: Recipe): WhatIf => ({
  count: containers.count,
  fillKg: containers.fillKg,
  holdS,
  altitudeM: null,
});

/** Sides that a recipe may name, and heights that a kitchen may. */
const SIDE_M = { least: 0.02, most: 0.6 };
const ALTITUDE_M = { least: -400, most: 5000 };
const HOLD_STEP_S = 5 * 60;

const fillStepKg = ({ mass }: Units): number => (mass === 'kg' ? 0.1 : KG_PER_LB / 4);
const altitudeStepM = ({ length }: Units): number => (length === 'cm' ? 100 : 500 * M_PER_FT);

/** The next multiple of a step above or below, so that odd values become round ones. */
function stepped(value: number, step: number, by: 1 | -1): number {
  const steps = value / step;
  const next = by > 0 ? Math.floor(steps + 1e-6) + 1 : Math.ceil(steps - 1e-6) - 1;
  return Number((next * step).toFixed(6));
}

const within = (value: number, { least, most }: { least: number; most: number }): boolean =>
  value >= least - 1e-9 && value <= most + 1e-9;

/** One press of an arrow on a line; the same object when the value is at its end. */
export function stepWhatIf(
  whatIf: WhatIf,
  line: WhatIfLine,
  by: 1 | -1,
  base: Recipe,
  { kitchen }: KnownKitchen,
): WhatIf {
  switch (line) {
    case 'containers': {
      const count = whatIf.count + by;
      return within(count, LIMITS.count) ? { ...whatIf, count } : whatIf;
    }
    case 'fill': {
      const fillKg = stepped(whatIf.fillKg, fillStepKg(kitchen.units), by);
      const fits =
        within(fillKg, LIMITS.fillKg) && sidesOf(filledSize(base, fillKg)).every(m => within(m, SIDE_M));
      return fits ? { ...whatIf, fillKg } : whatIf;
    }
    case 'altitude': {
      const altitudeM = stepped(whatIf.altitudeM ?? kitchen.altitudeM, altitudeStepM(kitchen.units), by);
      return within(altitudeM, ALTITUDE_M) ? { ...whatIf, altitudeM } : whatIf;
    }
    case 'hold': {
      const holdS = stepped(whatIf.holdS, HOLD_STEP_S, by);
      return within(holdS, LIMITS.holdS) ? { ...whatIf, holdS } : whatIf;
    }
  }
}

const sidesOf = (size: ContainerSize): readonly number[] =>
  size.shape === 'brick' ? [size.lengthM, size.widthM, size.thicknessM] : [size.diameterM, size.heightM];

const toMillimetres = (metres: number): number => Math.round(metres * 1000) / 1000;

/** The same bag or jar with more or less in it: a bag gets thicker, a jar is filled higher. */
function filledSize({ containers: { size, fillKg: before } }: Recipe, fillKg: number): ContainerSize {
  if (fillKg === before) return size;
  const share = fillKg / before;
  if (size.shape === 'cylinder') return { ...size, heightM: toMillimetres(size.heightM * share) };
  const sides = [size.lengthM, size.widthM, toMillimetres(size.thicknessM * share)];
  const [lengthM = 0, widthM = 0, thicknessM = 0] = sides.sort((a, b) => b - a);
  return { shape: 'brick', lengthM, widthM, thicknessM };
}

/** The recipe with the values shown; the same object when nothing of it was changed. */
export function recipeWith(base: Recipe, { count, fillKg, holdS }: WhatIf): Recipe {
  const { containers } = base;
  if (count === containers.count && fillKg === containers.fillKg && holdS === base.holdS) return base;
  const share = fillKg / containers.fillKg;
  return {
    ...base,
    // Its name may tell amounts that are no longer true.
    name: changedName(base.name),
    containers: {
      ...containers,
      count,
      fillKg,
      size: filledSize(base, fillKg),
      mostKg: share === 1 ? containers.mostKg : Number((containers.mostKg * share).toFixed(3)),
    },
    holdS,
    culture:
      share === 1
        ? base.culture
        : { ...base.culture, perContainer: Number((base.culture.perContainer * share).toFixed(1)) },
  };
}

const CHANGED = ', changed';
const LONGEST_NAME = 60;
const changedName = (name: string): string =>
  name.endsWith(CHANGED) ? name : [...name].slice(0, LONGEST_NAME - CHANGED.length).join('') + CHANGED;

/** The kitchen with the altitude shown. */
export function kitchenWith(known: KnownKitchen, { altitudeM }: WhatIf): KnownKitchen {
  if (altitudeM === null) return known;
  return {
    kitchen: { ...known.kitchen, altitudeM, stationKPa: null },
    assumed: new Set([...known.assumed].filter(key => key !== 'altitudeM' && key !== 'stationKPa')),
  };
}
