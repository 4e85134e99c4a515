import { describe, expect, it } from 'vitest';
import { debriefOf } from '../../../src/core/practice/debrief.ts';
import { FAULT_IDS } from '../../../src/core/practice/faults.ts';
import { playThrough } from '../../../src/core/practice/trainee.ts';
import {
  expectOneVerdict,
  plannedPractice,
  played,
  practiceOf,
  shippedRecipes,
} from '../../help/practice-kit.ts';

/** Spread over all seeds. */
const seeds = Array.from({ length: 1000 }, (_, n) => (n * 7919 + 17) % 10_000);

describe('1,000 seeds of a sensible trainee', () => {
  it('end well, whatever goes wrong, with every recipe that is shipped', { timeout: 240_000 }, () => {
    const wentWrong = new Set<string>();
    seeds.forEach((seed, n) => {
      const recipe = shippedRecipes[n % 8];
      const practice = recipe ? plannedPractice(recipe, seed) : practiceOf(seed);
      playThrough(practice);
      const debrief = debriefOf(practice);
      const about = `seed ${seed}, ${debrief.recipe}`;
      for (const { id, caught } of debrief.faults) {
        wentWrong.add(id);
        expect(caught, `${about}, ${id}`).toBe(true);
      }
      expect(debrief.lost, about).toEqual([]);
      expect(debrief.next, about).toBeNull();
      expectOneVerdict(debrief, about);
    });
    expect(wentWrong.size).toBe(FAULT_IDS.length);
  });
});

it('is the same batch for the same seed, and another for another', () => {
  expect(played(4711)).toEqual(played(4711));
  expect(played(4711).numbers).not.toEqual(
    played(
      4712,
      played(4711).faults.map(({ id }) => id),
    ).numbers,
  );
});
