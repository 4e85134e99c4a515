/** How long each step is expected to take, for clock times: low, likely and high end, in seconds. */
import type { Kitchen } from '../kitchen.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { WATER_CP_KJ_KGK } from '../science/constants.ts';
import { GRAIN_PROPERTIES } from '../science/grains.ts';
import type { Band } from '../science/limits.ts';
import { BURNER_EFFICIENCY } from '../science/water.ts';
import type { Warming } from './come-up.ts';
import type { GrainPlan } from './grain-plan.ts';
import type { StepLength } from './numbers.ts';
import { ownLength, type PastStep } from './past-steps.ts';

export interface LengthQuestion {
  readonly recipe: Recipe;
  readonly kitchen: Kitchen;
  readonly grain: GrainPlan;
  readonly warm: Warming;
  /** Containers in the fullest load. */
  readonly inLoad: number;
  readonly holdS: number;
  readonly coolS: number;
  /** From heat-off until the centre of a container is at room temperature, s. */
  readonly coolThroughS: Band;
  readonly past: readonly PastStep[];
}

/** A length, and how many of the person's own batches it is the median of; 0 when it is an estimate. */
export type PlannedLength = StepLength & { readonly batches: number };

const minutes = (low: number, likely: number, high: number): StepLength => ({
  lowS: low * 60,
  likelyS: likely * 60,
  highS: high * 60,
});
const exactly = (seconds: number, slack = 0): StepLength => ({
  lowS: seconds,
  likelyS: seconds,
  highS: seconds + slack,
});
const times = ({ lowS, likelyS, highS }: StepLength, factor: number): StepLength => ({
  lowS: lowS * factor,
  likelyS: likelyS * factor,
  highS: highS * factor,
});
const ofBand = ({ low, likely, high }: Band): StepLength => ({ lowS: low, likelyS: likely, highS: high });

/** Specific heat of dry grain, kJ/(kg K), from memory of handbook values. */
const DRY_CP_KJ_KGK = 1.9;
/** From tap water to the boil, K, and how many common pots lose on the way (estimate). */
const TO_BOIL_K = 80;
/** Usual simmer where practice names none, min. */
const ANY_SIMMER: readonly [number, number] = [10, 40];

/** One filling of the pot, from cold to kernels that are done. */
function simmer({ recipe, kitchen, grain: { pot } }: LengthQuestion): StepLength {
  const usual = GRAIN_PROPERTIES[recipe.grain].simmerMin ?? ANY_SIMMER;
  const heatKJ = (pot.dryKg * DRY_CP_KJ_KGK + pot.waterL * WATER_CP_KJ_KGK) * TO_BOIL_K;
  const boil = (efficiency: number) => (heatKJ * 1000) / (kitchen.burnerW * efficiency);
  const { low, likely, high } = BURNER_EFFICIENCY[kitchen.burner];
  const first = Math.max(recipe.simmer.firstLookS, usual[0] * 60);
  const last = Math.max(first, usual[1] * 60);
  return {
    lowS: boil(high) + recipe.simmer.firstLookS,
    likelyS: boil(likely) * 1.15 + first + recipe.simmer.everyS,
    highS: boil(low) * 1.5 + last + 3 * recipe.simmer.everyS,
  };
}

/**
 * Every step's length. Hand work (portioning, sealing and the like) is common practice without a source; the
 * rest follows from recipe and kitchen. Where earlier batches are known, hand work takes what it took.
 */
export function stepLengths(question: LengthQuestion): Record<string, PlannedLength> {
  const { recipe, warm, inLoad, holdS, coolS, coolThroughS, past } = question;
  const { count } = recipe.containers;
  const { fillings } = question.grain.pot;
  const dry = recipe.drying.aboutS;
  const estimates: Record<string, StepLength> = {
    gear: minutes(3, 5, 10),
    measure: minutes(3, 5, 10),
    soak: recipe.soak
      ? { lowS: recipe.soak.shortestS, likelyS: recipe.soak.shortestS, highS: recipe.soak.longestS }
      : exactly(0),
    simmer: times(simmer(question), fillings),
    drain: times(minutes(5, 10, 15), fillings),
    'surface-dry': { lowS: dry * 0.7, likelyS: dry, highS: dry * 1.5 },
    portion: minutes(count * 1.5, count * 2.5, count * 4),
    seal: minutes(count, count * 1.5, count * 3),
    load: minutes(3, 6, 12),
    heat: ofBand(warm.heatS),
    vent: exactly(recipe.ventS, 120),
    climb: ofBand(warm.climbS),
    hold: exactly(holdS, 300),
    'heat-off': exactly(60),
    cool: exactly(coolS, 3600),
    unload: minutes(3, Math.max(3, inLoad), Math.max(6, inLoad * 2)),
    'seal-after': minutes(count, count * 1.5, count * 3),
    rest: ofBand({
      low: Math.max(0, coolThroughS.low - coolS),
      likely: Math.max(0, coolThroughS.likely - coolS),
      high: Math.max(0, coolThroughS.high - coolS),
    }),
    inoculate: minutes(count * 2, count * 3, count * 5),
    done: exactly(0),
  };
  return Object.fromEntries(
    Object.entries(estimates).map(([step, length]) => [
      step,
      ownLength(step, recipe.grain, step === 'unload' ? inLoad : count, past) ?? { ...length, batches: 0 },
    ]),
  );
}
