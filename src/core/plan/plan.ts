/**
 * The plan sheet of one batch: everything that follows from a recipe and a kitchen before the stove is lit.
 * Inside units throughout; clock times are laid out apart (`timeline.ts`), because they need a time of day.
 */
import type { Kitchen, KnownKitchen } from '../kitchen.ts';
import { heatedBody } from '../recipe/body.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { type Band, isNoAnswer } from '../science/limits.ts';
import { creditedComeUp, USUAL_WARMING, warming } from './come-up.ts';
import { type CookerWater, cookerWater, mostWaterL } from './cooker-water.ts';
import { type Cost, costOf } from './cost.ts';
import { type Fit, fitIn, splitLoads } from './fit.ts';
import { type GaugeTarget, gaugeTarget } from './gauge-target.ts';
import { type GrainPlan, grainPlan } from './grain-plan.ts';
import { type HoldPlan, holdPlan } from './hold-plan.ts';
import { DRY_TOO_SOON_SHARE, GAUGE_ANSWER_S, type RunNumbers } from './numbers.ts';
import type { PastStep } from './past-steps.ts';
import { type ShoppingLine, shoppingList } from './shopping.ts';
import { coolThroughS, pressureLockS, zeroGaugeS } from './shut-time.ts';
import { type PlannedLength, stepLengths } from './step-lengths.ts';
import { type PlannedStep, walkOf } from './walk.ts';
import type { Warning } from './warning.ts';
import { warningsOf } from './warnings.ts';

export interface PlanParts {
  readonly recipe: Recipe;
  readonly kitchen: Kitchen;
  /** Parts of the kitchen the person never said. */
  readonly assumed: ReadonlySet<keyof Kitchen>;
  readonly numbers: RunNumbers;
  readonly gauge: GaugeTarget;
  readonly grain: GrainPlan;
  readonly fit: Fit;
  /** Hydrated grain in the fullest load, kg. */
  readonly loadKg: number;
  readonly water: CookerWater;
  readonly hold: HoldPlan;
  /** From heat-off to a gauge at zero, and to a centre at room temperature, s. */
  readonly zeroGaugeS: Band;
  readonly coolThroughS: Band;
  /** From lighting the stove to the open lid, for one load, s. */
  readonly loadS: number;
  /** Why this burner cannot bring the cooker to its target; null when it can. */
  readonly burnerFails: string | null;
  readonly lengths: Readonly<Record<string, PlannedLength>>;
  readonly walk: readonly PlannedStep[];
}

export interface Plan extends PlanParts {
  /** `no`: a warning says why it must not be begun so. */
  readonly verdict: 'go' | 'no';
  readonly warnings: readonly Warning[];
  readonly shopping: readonly ShoppingLine[];
  /** Null while no price was said. */
  readonly cost: Cost | null;
}

/**
 * The whole plan. RangeError when a value is outside what a model covers: recipes and kitchens are checked
 * when they are read, so that is a fault of the program.
 */
export function planOf(
  recipe: Recipe,
  { kitchen, assumed }: KnownKitchen,
  past: readonly PastStep[] = [],
): Plan {
  const parts = partsOf(recipe, kitchen, assumed, past);
  const warnings = warningsOf(parts);
  return {
    ...parts,
    verdict: warnings.some(({ weight }) => weight === 'no') ? 'no' : 'go',
    warnings,
    shopping: shoppingList(recipe, parts.grain),
    cost: costOf(kitchen.money, parts.grain.dryKg, recipe.containers.count),
  };
}

const STEPS_OF_A_LOAD = ['load', 'heat', 'vent', 'climb', 'hold', 'heat-off', 'cool', 'unload'] as const;

export function partsOf(
  recipe: Recipe,
  kitchen: Kitchen,
  assumed: ReadonlySet<keyof Kitchen>,
  past: readonly PastStep[],
): PlanParts {
  const { containers } = recipe;
  const gauge = gaugeTarget(recipe, kitchen);
  const grain = grainPlan(recipe, kitchen);
  // How many fit depends on the water, the water on the hold, and the hold a little on how many fit: the
  // water of the recipe's own hold settles the first.
  const firstFit = fitIn(containers, kitchen, cookerWater(recipe, kitchen, gauge, recipe.holdS).pourL);
  const hold = holdOf(recipe, kitchen, gauge, Math.min(containers.count, Math.max(1, firstFit.perLoad)));
  const water = cookerWater(recipe, kitchen, gauge, hold.holdS);
  const fit = fitIn(containers, kitchen, water.pourL);
  const loads = splitLoads(containers.count, fit.perLoad);
  const inLoad = loads[0] ?? 1;
  const loadKg = inLoad * containers.fillKg;
  const vessel = {
    kitchen,
    atmosphereKPa: gauge.atmosphereKPa,
    targetKPa: gauge.targetKPa,
    waterKg: water.pourL,
    loadKg,
  };
  const warm = warming({ kitchen, gauge, waterKg: water.pourL, loadKg });
  const lockS = pressureLockS(vessel);
  const coolS = Math.max(recipe.coolS, lockS);
  const through = coolThroughS(vessel, heatedBody(containers, inLoad));
  const lengths = stepLengths({
    recipe,
    kitchen,
    grain,
    warm: isNoAnswer(warm) ? USUAL_WARMING : warm,
    inLoad,
    holdS: hold.holdS,
    coolS,
    coolThroughS: through,
    past,
  });
  const numbers: RunNumbers = {
    dryKg: grain.dryKg,
    hydratedKg: grain.hydratedKg.likely,
    simmerWaterL: grain.simmerWaterL,
    potFillings: grain.pot.fillings,
    potTakesKg: grain.pot.takesKg,
    // Touching containers heat as one block: the hold was worked out for this one and no larger.
    perLoad: containers.touching ? inLoad : Math.max(1, fit.perLoad),
    atmosphereKPa: gauge.atmosphereKPa,
    boilC: gauge.boilC,
    targetKPa: gauge.targetKPa,
    targetC: gauge.targetC,
    ventS: recipe.ventS,
    holdS: hold.holdS,
    gaugeAnswerS: GAUGE_ANSWER_S,
    dryTooSoonShare: DRY_TOO_SOON_SHARE,
    cookerWaterL: water.pourL,
    leastWaterL: kitchen.minimumWaterL,
    mostWaterL: mostWaterL(kitchen, water.pourL),
    loads,
    pressureLockS: lockS,
    coolS,
    lengths: Object.fromEntries(
      Object.entries(lengths).map(([step, { lowS, likelyS, highS }]) => [step, { lowS, likelyS, highS }]),
    ),
  };
  return {
    recipe,
    kitchen,
    assumed,
    numbers,
    gauge,
    grain,
    fit,
    loadKg,
    water,
    hold,
    zeroGaugeS: zeroGaugeS(vessel),
    coolThroughS: through,
    loadS: STEPS_OF_A_LOAD.reduce((sum, step) => sum + (lengths[step]?.likelyS ?? 0), 0),
    burnerFails: isNoAnswer(warm) ? warm.reason : null,
    lengths,
    walk: walkOf(recipe, loads.length, lengths),
  };
}

/** The hold, for the come-up that this burner gives the load. */
function holdOf(recipe: Recipe, kitchen: Kitchen, gauge: GaugeTarget, inLoad: number): HoldPlan {
  const waterKg = cookerWater(recipe, kitchen, gauge, recipe.holdS).pourL;
  const warm = warming({ kitchen, gauge, waterKg, loadKg: inLoad * recipe.containers.fillKg });
  const comeUp = creditedComeUp(kitchen, gauge, recipe.ventS, isNoAnswer(warm) ? USUAL_WARMING : warm);
  return holdPlan({ recipe, kitchen, gauge, comeUp, inLoad });
}
