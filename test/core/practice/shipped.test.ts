import { describe, expect, it } from 'vitest';
import { type Debrief, debriefOf } from '../../../src/core/practice/debrief.ts';
import { FAULT_IDS, type FaultId } from '../../../src/core/practice/faults.ts';
import { LIMITS } from '../../../src/core/practice/limits.ts';
import { CARELESS_ABOUT, FAULT_FOR, MISTAKES, type Mistake } from '../../../src/core/practice/mistakes.ts';
import type { Practice } from '../../../src/core/practice/practice.ts';
import { playThrough } from '../../../src/core/practice/trainee.ts';
import type { Recipe } from '../../../src/core/recipe/recipe.ts';
import {
  CARELESS_COSTS,
  expectOneVerdict,
  MISTAKES_COST,
  plannedPractice,
  shippedRecipes,
} from '../../help/practice-kit.ts';

const SEEDS = [3, 2002] as const;

function through(recipe: Recipe, seed: number, faults: readonly FaultId[], mistakes: readonly Mistake[]) {
  const practice = plannedPractice(recipe, seed, faults);
  playThrough(practice, mistakes);
  return practice;
}
const worth = (...of: Parameters<typeof through>): Debrief => debriefOf(through(...of));

describe('with every recipe that is shipped, in the kitchen nobody has changed', () => {
  for (const recipe of shippedRecipes) {
    it(`${recipe.name}: every mistake loses what it should`, { timeout: 30_000 }, () => {
      for (const mistake of MISTAKES) {
        const needs = FAULT_FOR[mistake];
        for (const seed of SEEDS) {
          const debrief = worth(recipe, seed, needs ? [needs] : [], [mistake]);
          expect(debrief.lost, `${mistake}, seed ${seed}`).toContain(MISTAKES_COST[mistake]);
          expectOneVerdict(debrief, `${mistake}, seed ${seed}`);
        }
      }
    });

    it(`${recipe.name}: every fault is caught by care and missed without`, { timeout: 30_000 }, () => {
      for (const fault of FAULT_IDS) {
        for (const seed of SEEDS) {
          const about = `${fault}, seed ${seed}`;
          const careful = worth(recipe, seed, [fault], []);
          expect(careful.faults, about).toEqual([{ id: fault, caught: true }]);
          expect(careful.lost, about).toEqual([]);
          const careless = worth(recipe, seed, [fault], CARELESS_ABOUT[fault]);
          expect(careless.faults, about).toEqual([{ id: fault, caught: false }]);
          expect(careless.lost, about).toContain(CARELESS_COSTS[fault][0]);
        }
      }
    });

    it(`${recipe.name}: whoever inoculates warm opened early, and never under pressure`, () => {
      const practice: Practice = through(recipe, 3, [], ['warm-inoculation']);
      const { facts, kitchen } = practice.truth;
      expect((facts.inoculatedC ?? 0) - kitchen.roomC).toBeGreaterThan(LIMITS.warmLostK);
      const [load] = facts.loads;
      const { pressureLockS, coolS } = practice.run.batch.header.numbers;
      const shutS = ((load?.openT ?? 0) - (load?.offT ?? 0)) / 1000;
      expect(shutS).toBeGreaterThanOrEqual(pressureLockS);
      expect(shutS).toBeLessThan(coolS);
      expect(load?.openGaugeKPa).toBeLessThan(1);
      // The coach opens for a typed word only, and keeps it.
      expect(practice.run.batch.deviations.map(({ trouble }) => trouble)).toContain('opened-warm');
    });
  }
});
