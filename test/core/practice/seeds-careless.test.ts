import { describe, expect, it } from 'vitest';
import { chance } from '../../../src/core/practice/chance.ts';
import { FAULT_IDS } from '../../../src/core/practice/faults.ts';
import { CARELESS_ABOUT } from '../../../src/core/practice/mistakes.ts';
import { CARELESS_COSTS, expectOneVerdict, played } from '../../help/practice-kit.ts';

/** Spread over all seeds. */
const seeds = Array.from({ length: 1000 }, (_, n) => (n * 7919 + 17) % 10_000);

describe('1,000 seeds of a careless trainee', () => {
  it('each lose what they should, and are told by what', { timeout: 240_000 }, () => {
    for (const seed of seeds) {
      const fault = FAULT_IDS[Math.floor(chance(seed, 'careless about') * FAULT_IDS.length)] ?? 'gas-out';
      const debrief = played(seed, [fault], CARELESS_ABOUT[fault]);
      const [loss, decision] = CARELESS_COSTS[fault];
      const about = `seed ${seed}, ${fault}`;
      expect(debrief.lost, about).toContain(loss);
      expect(debrief.faults, about).toEqual([{ id: fault, caught: false }]);
      expect(debrief.decisions.find(({ id }) => id === decision)?.verdict, about).not.toBe('right');
      expectOneVerdict(debrief, about);
    }
  });
});
