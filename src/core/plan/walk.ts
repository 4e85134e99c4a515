/**
 * The steps of a plan in the order they are walked, with who is needed for each. The batch machine has its
 * own list; a test keeps the two alike, because a plan may not depend on the machine.
 */
import type { Recipe } from '../recipe/recipe.ts';
import type { StepLength } from './numbers.ts';

export interface PlannedStep {
  readonly step: string;
  /** Which load of the cooker, from 1. */
  readonly load: number;
  readonly length: StepLength;
  /** Nobody is needed while it lasts, and it may last longer: soak, locked cooling, rest. */
  readonly waits: boolean;
  /** Longest it may last without harm, s. */
  readonly mostS: number;
}

const BEFORE = ['gear', 'measure', 'soak', 'simmer', 'drain', 'surface-dry', 'portion', 'seal'] as const;
const EACH_LOAD = ['load', 'heat', 'vent', 'climb', 'hold', 'heat-off', 'cool', 'unload'] as const;
const AFTER = ['seal-after', 'rest', 'inoculate'] as const;

/** A shut, sterile vessel and sealed containers may wait so much longer, s (common practice, no source). */
const STAYS_SHUT_S = 14 * 3600;
const RESTS_S = 24 * 3600;

const used = (recipe: Recipe, step: string): boolean => {
  if (step === 'soak') return recipe.soak !== null;
  if (step === 'seal') return recipe.seal === 'before';
  return step === 'seal-after' ? recipe.seal === 'after' : true;
};

type Lengths = Readonly<Record<string, StepLength>>;

/** One step as the timeline lays it out: its length, and how long it may last where it only waits. */
export function plannedStep(recipe: Recipe, lengths: Lengths, step: string, load: number): PlannedStep {
  const length = lengths[step] ?? { lowS: 0, likelyS: 0, highS: 0 };
  const most: Record<string, number> = {
    soak: recipe.soak?.longestS ?? 0,
    cool: length.likelyS + STAYS_SHUT_S,
    rest: length.likelyS + RESTS_S,
  };
  const mostS = most[step];
  return { step, load, length, waits: mostS !== undefined, mostS: mostS ?? length.likelyS };
}

/** The steps of this recipe with each load's own. */
export function walkOf(recipe: Recipe, loads: number, lengths: Lengths): readonly PlannedStep[] {
  const planned = (step: string, load: number) => plannedStep(recipe, lengths, step, load);
  const all = [
    ...BEFORE.map(step => planned(step, 1)),
    ...Array.from({ length: loads }, (_, index) => EACH_LOAD.map(step => planned(step, index + 1))).flat(),
    ...AFTER.map(step => planned(step, loads)),
  ];
  return all.filter(({ step }) => used(recipe, step));
}
