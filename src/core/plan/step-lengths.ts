/** How long each step is expected to take, for clock times: low, likely and high end, in seconds. */
import type { Kitchen } from '../kitchen.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { GRAIN_PROPERTIES } from '../science/grains.ts';
import type { RunNumbers, StepLength } from './numbers.ts';

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

interface Shut {
  readonly zeroS: number;
  readonly roomS: number;
}

/** Usual share of a burner's power that reaches the vessel (household cooking tests, two sources). */
const EFFICIENCY = { gas: 0.36, electric: 0.77, induction: 0.84 } as const;

/** Seconds to bring masses from one temperature to another on this burner, losses left out. */
function heatingS(kitchen: Kitchen, waterKg: number, loadKg: number, rise: number): number {
  const joules = (kitchen.cookerMassKg * 900 + waterKg * 4190 + loadKg * 3100) * rise;
  return joules / (kitchen.burnerW * EFFICIENCY[kitchen.burner]);
}

/** Hand work (portioning, sealing and the like) is common practice without a source; the rest follows from recipe and kitchen. */
export function stepLengths(
  recipe: Recipe,
  kitchen: Kitchen,
  numbers: Omit<RunNumbers, 'lengths'>,
  shut: Shut,
): Record<string, StepLength> {
  const each = recipe.containers.count;
  const simmer = GRAIN_PROPERTIES[recipe.grain].simmerMin ?? [10, 40];
  const boilS =
    ((numbers.dryKg * 2000 + numbers.simmerWaterL * 4190) * 75) /
    (kitchen.burnerW * EFFICIENCY[kitchen.burner]);
  const simmerLow = Math.max(recipe.simmer.firstLookS, simmer[0] * 60);
  const loadKg = (numbers.loads[0] ?? 1) * recipe.containers.fillKg;
  // Half the load's heat goes in while the vessel climbs: its middle is still cold when the steam is steady.
  const heatS = heatingS(kitchen, numbers.cookerWaterL, loadKg / 2, numbers.boilC - 18);
  const climbS = heatingS(kitchen, numbers.cookerWaterL, loadKg / 2, numbers.targetC - numbers.boilC) + 60;
  const around = (likely: number): StepLength => ({
    lowS: likely * 0.7,
    likelyS: likely,
    highS: likely * 1.5,
  });
  return {
    gear: minutes(3, 5, 10),
    measure: minutes(3, 5, 10),
    soak: recipe.soak
      ? { lowS: recipe.soak.shortestS, likelyS: recipe.soak.shortestS, highS: recipe.soak.longestS }
      : exactly(0),
    simmer: {
      lowS: boilS * 0.7 + simmerLow,
      likelyS: boilS + simmerLow + 300,
      highS: boilS * 1.5 + simmer[1] * 60 + 900,
    },
    drain: minutes(5, 10, 15),
    'surface-dry': around(recipe.drying.aboutS),
    portion: minutes(each * 1.5, each * 2.5, each * 4),
    seal: minutes(each, each * 1.5, each * 3),
    load: minutes(3, 6, 12),
    heat: around(heatS),
    vent: exactly(numbers.ventS, 120),
    climb: around(climbS),
    hold: exactly(numbers.holdS, 300),
    'heat-off': exactly(60),
    cool: exactly(Math.max(numbers.coolS, shut.zeroS), 3600),
    unload: minutes(3, each, each * 2),
    'seal-after': minutes(each, each * 1.5, each * 3),
    rest: {
      lowS: 0,
      likelyS: Math.max(0, shut.roomS - numbers.coolS),
      highS: Math.max(7200, shut.roomS * 1.4 - numbers.coolS),
    },
    inoculate: minutes(each * 2, each * 3, each * 5),
    done: exactly(0),
  };
}
