/** From a recipe and a kitchen to the numbers a batch is run by. */
import type { Kitchen } from '../kitchen.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { localAtmosphereKPa } from '../science/atmosphere.ts';
import { massAtMoistureKg } from '../science/hydration.ts';
import { boilingC, chamberC, gaugeKPaFor } from '../science/steam.ts';
import { containersPerLoad, splitLoads } from './fit.ts';
import type { RunNumbers } from './numbers.ts';
import { pressureLockS, roomS, zeroGaugeS } from './shut-time.ts';
import { stepLengths } from './step-lengths.ts';

/** Steam lost while venting 10 minutes and while holding gently, and what must be left, L (science notes, section g). */
const VENT_L_PER_S = 0.026 / 60;
const HOLD_L_PER_S = 0.006 / 60;
const RESERVE_L = 1;
/** More water than this share of the vessel would reach the rack and the containers. */
const MOST_WATER_SHARE = 0.25;

/** Gauge pressure to hold: what the recipe asks for, never above what the vessel is marked or weighted for. */
export function targetKPaFor(recipe: Recipe, kitchen: Kitchen): number {
  const atmosphereKPa = localAtmosphereKPa(kitchen);
  const wanted =
    recipe.target.by === 'pressure'
      ? recipe.target.gaugeKPa
      : gaugeKPaFor({ celsius: recipe.target.celsius, atmosphereKPa });
  const vessel = kitchen.gauge === 'weight' ? kitchen.workingKPa : kitchen.markedMaxKPa;
  return Math.min(wanted, vessel, kitchen.markedMaxKPa);
}

/** Water to pour in: vent, hold and a litre to spare, and never less than the maker's minimum. */
export function cookerWaterFor(recipe: Recipe, kitchen: Kitchen, holdS: number): number {
  const used = recipe.ventS * VENT_L_PER_S + holdS * HOLD_L_PER_S + RESERVE_L;
  return Math.ceil(Math.max(used, kitchen.minimumWaterL) * 10) / 10;
}

/**
 * All numbers of one batch. RangeError when a value is outside what a model covers: recipes and kitchens
 * are checked when they are read, so that is a fault of the program.
 */
export function runNumbers(recipe: Recipe, kitchen: Kitchen, holdS = recipe.holdS): RunNumbers {
  const { containers, storedMoisture, wantedMoisture } = recipe;
  const hydratedKg = containers.count * containers.fillKg;
  const dryKg = massAtMoistureKg({ massKg: hydratedKg, from: wantedMoisture, to: storedMoisture });
  const atmosphereKPa = localAtmosphereKPa(kitchen);
  const targetKPa = targetKPaFor(recipe, kitchen);
  const cookerWaterL = cookerWaterFor(recipe, kitchen, holdS);
  const loads = splitLoads(containers.count, containersPerLoad(containers, kitchen, cookerWaterL));
  const loadKg = (loads[0] ?? 1) * containers.fillKg;
  const vessel = { kitchen, atmosphereKPa, targetKPa, waterKg: cookerWaterL, loadKg };
  const lockS = pressureLockS(vessel);
  const numbers = {
    dryKg,
    hydratedKg,
    simmerWaterL: dryKg * recipe.simmer.waterPerKg,
    atmosphereKPa,
    boilC: boilingC(atmosphereKPa),
    targetKPa,
    targetC: chamberC({ gaugeKPa: targetKPa, atmosphereKPa }),
    ventS: recipe.ventS,
    holdS,
    cookerWaterL,
    leastWaterL: kitchen.minimumWaterL,
    mostWaterL: Math.max(cookerWaterL, kitchen.cookerL * MOST_WATER_SHARE),
    loads,
    pressureLockS: lockS,
    coolS: Math.max(recipe.coolS, lockS),
  };
  return {
    ...numbers,
    lengths: stepLengths(recipe, kitchen, numbers, { zeroS: zeroGaugeS(vessel), roomS: roomS(vessel) }),
  };
}
