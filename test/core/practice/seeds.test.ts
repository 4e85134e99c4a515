import { describe, expect, it } from 'vitest';
import { chance } from '../../../src/core/practice/chance.ts';
import { CARELESS_ABOUT } from '../../../src/core/practice/mistakes.ts';
import { FAULT_IDS } from '../../../src/core/practice/faults.ts';
import { played } from '../../help/practice-kit.ts';

/** 120 of each in the suite; STOVEHAND_SOAK=1 plays the thousand. */
const COUNT = process.env.STOVEHAND_SOAK ? 1000 : 120;
/** Spread over all seeds, so that the suite and the thousand do not look at the same corner. */
const seeds = Array.from({ length: COUNT }, (_, n) => (n * 7919 + 17) % 10_000);

describe(`${COUNT} seeds`, () => {
  it('of a sensible trainee end well, whatever goes wrong', { timeout: 120_000 }, () => {
    const wentWrong = new Set<string>();
    for (const seed of seeds) {
      const debrief = played(seed);
      for (const { id, caught } of debrief.faults) {
        wentWrong.add(id);
        expect(caught, `seed ${seed}, ${id}`).toBe(true);
      }
      expect(debrief.lost, `seed ${seed}`).toEqual([]);
      expect(debrief.next, `seed ${seed}`).toBeNull();
    }
    expect(wentWrong.size).toBe(FAULT_IDS.length);
  });

  it('of a careless one lose what they should', { timeout: 120_000 }, () => {
    for (const seed of seeds) {
      const fault = FAULT_IDS[Math.floor(chance(seed, 'careless about') * FAULT_IDS.length)] ?? 'gas-out';
      const debrief = played(seed, [fault], CARELESS_ABOUT[fault]);
      expect(debrief.lost.length, `seed ${seed}, ${fault}`).toBeGreaterThan(0);
      expect(debrief.faults, `seed ${seed}`).toEqual([{ id: fault, caught: false }]);
      expect(debrief.next, `seed ${seed}, ${fault}`).not.toBeNull();
    }
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
