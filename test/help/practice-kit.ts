/** Practices of the invented kitchen, with numbers set by hand so that no plan moves a test. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect } from 'vitest';
import type { BatchHeader } from '../../src/core/batch/state.ts';
import { withDefaults } from '../../src/core/kitchen.ts';
import { runNumbers } from '../../src/core/plan/run-numbers.ts';
import type { DecisionId } from '../../src/core/practice/decisions.ts';
import type { LossId } from '../../src/core/practice/losses.ts';
import { parseRecipe } from '../../src/core/recipe/parse.ts';
import type { Recipe } from '../../src/core/recipe/recipe.ts';
import { type Debrief, debriefOf } from '../../src/core/practice/debrief.ts';
import type { FaultId } from '../../src/core/practice/faults.ts';
import { type Load, createLoad } from '../../src/core/practice/load.ts';
import type { Mistake } from '../../src/core/practice/mistakes.ts';
import { Practice } from '../../src/core/practice/practice.ts';
import { playThrough } from '../../src/core/practice/trainee.ts';
import { type Filling, type Vessel, type VesselParts, fillVessel } from '../../src/core/practice/vessel.ts';
import { type Sample, sampleHeader, sampleRecipe } from './batch-kit.ts';

const around = (minutes: number) => ({
  lowS: minutes * 42,
  likelyS: minutes * 60,
  highS: minutes * 90,
});

/** The sample batch with likely lengths near those of this kitchen's gas hob. */
export function practiceHeader(sample: Sample = { loads: [6] }): BatchHeader {
  const header = sampleHeader({ ...sample, practice: true });
  const lengths = { simmer: around(80), heat: around(45), climb: around(20) };
  return { ...header, numbers: { ...header.numbers, lengths } };
}

export function practiceOf(seed: number, faults?: readonly FaultId[], sample?: Sample): Practice {
  const { recipe, kitchen, numbers, beganWall } = practiceHeader(sample);
  return new Practice({ recipe, kitchen, numbers, seed, beganWall, ...(faults ? { faults } : {}) });
}

/** Plays a practice through and tells what it was worth. */
export function played(
  seed: number,
  faults?: readonly FaultId[],
  mistakes: readonly Mistake[] = [],
  sample?: Sample,
): Debrief {
  const practice = practiceOf(seed, faults, sample);
  playThrough(practice, mistakes);
  return debriefOf(practice);
}

/** A tight vessel without a load at sea level: what a test does not change does not leak, bleed or lift. */
export function vessel(parts: Partial<VesselParts> = {}, filling: Partial<Filling> = {}): Vessel {
  return fillVessel(
    {
      metalKJK: 5.5 * 0.9,
      roomL: 21,
      lossWK: 3.5,
      ambientC: 22,
      atmosphereKPa: 101.325,
      ventM2: 1.6e-5,
      bleedM2: 0,
      leakM2: 0,
      inM2: 0,
      weightM2: 2e-6,
      liftKPa: 1000,
      ...parts,
    },
    { waterKg: 2.5, bagGasL: 0, celsius: 22, ...filling },
  );
}

export const bags = (count: number, startC = 25): Load =>
  createLoad({ containers: sampleRecipe().containers, count, fillKg: 1, startC });

const SHIPPED = new URL('../../recipes/', import.meta.url);
/** The recipes that are shipped, as they are read by the program. */
export const shippedRecipes: readonly Recipe[] = readdirSync(SHIPPED)
  .filter(name => name.endsWith('.yaml'))
  .map(name => {
    const parsed = parseRecipe(readFileSync(new URL(name, SHIPPED), 'utf8'), name);
    if (!parsed.ok) throw new Error(`${name} cannot be read`);
    return parsed.recipe;
  });

/** A practice of a whole recipe with its own plan, in the kitchen nobody has changed. */
export function plannedPractice(recipe: Recipe, seed: number, faults?: readonly FaultId[]): Practice {
  const { kitchen } = withDefaults({});
  const numbers = runNumbers(recipe, kitchen);
  return new Practice({
    recipe,
    kitchen,
    numbers,
    seed,
    beganWall: practiceHeader().beganWall,
    ...(faults ? { faults } : {}),
  });
}

/** What carelessness about a fault costs: the loss, and the decision that was not right. */
export const CARELESS_COSTS: Readonly<Record<FaultId, readonly [LossId, DecisionId]>> = {
  'soft-grain': ['overcooked', 'kernels'],
  'stubborn-grain': ['chalky', 'kernels'],
  'starch-foam': ['boiled-over', 'pot'],
  'forgotten-water': ['boiled-dry', 'water'],
  'blocked-vent': ['blocked', 'gear'],
  'leaking-gasket': ['under-heated', 'gear'],
  'gauge-high': ['cold-hold', 'gear'],
  'weak-burner': ['under-heated', 'steady'],
  'gas-out': ['cold-hold', 'upkeep'],
  'phone-call': ['cold-hold', 'away'],
  'open-early': ['opened-hot', 'opening'],
  'torn-bag': ['torn-kept', 'unload'],
};

/** What a mistake must cost a batch, with what it needs to do harm. */
export const MISTAKES_COST: Readonly<Record<Mistake, LossId>> = {
  'no-look': 'cold-hold',
  undercook: 'chalky',
  overcook: 'overcooked',
  'grain-by-clock': 'chalky',
  'full-flame': 'boiled-over',
  'wet-grain': 'wet',
  'no-water': 'boiled-dry',
  'no-vent': 'air',
  'steam-by-clock': 'air',
  'early-hold': 'cold-hold',
  unwatched: 'cold-hold',
  'low-flame': 'under-heated',
  'open-early': 'opened-hot',
  'torn-kept': 'torn-kept',
  'warm-inoculation': 'warm-inoculated',
};

/** A debrief that says one thing: what was lost, what was right and what to practise follow from one list. */
export function expectOneVerdict({ decisions, lost, next, right }: Debrief, about: string): void {
  const wrong = decisions.filter(({ verdict }) => verdict !== 'right');
  expect(right, about).toBe(decisions.length - wrong.length);
  expect(new Set(lost), about).toEqual(new Set(decisions.flatMap(({ costs }) => costs)));
  for (const { id, costs, verdict } of decisions) {
    if (costs.length > 0) expect(verdict, `${about}: ${id} cost ${costs.join()}`).not.toBe('right');
  }
  expect(next === null, about).toBe(wrong.length === 0);
  const gravest = decisions.find(({ costs }) => costs.includes(lost[0] as LossId));
  if (next !== null) expect(next, about).toBe((gravest ?? wrong[0])?.id);
}
