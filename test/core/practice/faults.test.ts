import { describe, expect, it } from 'vitest';
import { drawFaults, FAULT_IDS, type FaultId } from '../../../src/core/practice/faults.ts';
import { CARELESS_ABOUT, FAULT_FOR, MISTAKES } from '../../../src/core/practice/mistakes.ts';
import { FAULT_WORDS, LOSS_WORDS, MISTAKE_WORDS, SENSE_WORDS } from '../../../src/core/words/practice.ts';
import { DECISION_NAMES, NEXT_WORDS } from '../../../src/core/words/practice-decisions.ts';
import { CARELESS_COSTS, expectOneVerdict, MISTAKES_COST, played } from '../../help/practice-kit.ts';

const SEEDS = [3, 141, 592, 6535] as const;

describe('every fault', () => {
  for (const fault of FAULT_IDS) {
    it(`${fault}: a careful trainee catches it, a careless one does not`, () => {
      const [loss, decision] = CARELESS_COSTS[fault];
      for (const seed of SEEDS) {
        const careful = played(seed, [fault]);
        expect(careful.faults, `seed ${seed}`).toEqual([{ id: fault, caught: true }]);
        expect(careful.lost, `seed ${seed}`).toEqual([]);
        const careless = played(seed, [fault], CARELESS_ABOUT[fault]);
        expect(careless.faults, `seed ${seed}`).toEqual([{ id: fault, caught: false }]);
        expect(careless.lost, `seed ${seed}`).toContain(loss);
        const wrong = careless.decisions.filter(({ verdict }) => verdict !== 'right').map(({ id }) => id);
        expect(wrong, `seed ${seed}`).toContain(decision);
        expectOneVerdict(careless, `seed ${seed}`);
      }
    });
  }

  it('can be drawn, alone or with another, and never together with what would hide it', () => {
    const drawn = Array.from({ length: 2000 }, (_, seed) => drawFaults(seed));
    for (const fault of FAULT_IDS)
      expect(drawn.filter(list => list.includes(fault)).length).toBeGreaterThan(80);
    expect(drawn.some(list => list.length === 0)).toBe(true);
    expect(drawn.every(list => list.length <= 2 && new Set(list).size === list.length)).toBe(true);
    const both = (a: FaultId, b: FaultId) => drawn.some(list => list.includes(a) && list.includes(b));
    expect(both('soft-grain', 'stubborn-grain')).toBe(false);
    expect(both('weak-burner', 'gas-out')).toBe(false);
  });
});

describe('every mistake', () => {
  for (const mistake of MISTAKES.filter(id => id !== 'steam-by-clock')) {
    it(`${mistake} costs what it should`, () => {
      const needs = FAULT_FOR[mistake];
      for (const seed of SEEDS) {
        const debrief = played(seed, needs ? [needs] : [], [mistake]);
        expect(debrief.lost, `seed ${seed}`).toContain(MISTAKES_COST[mistake]);
        expectOneVerdict(debrief, `seed ${seed}, ${mistake}`);
        // What it does is there in numbers, beside those of a careful trainee in the same kitchen.
        const { numbers, decisions } = played(seed, needs ? [needs] : []);
        const careful = [numbers, decisions.map(({ value }) => value)];
        expect([debrief.numbers, debrief.decisions.map(({ value }) => value)]).not.toEqual(careful);
      }
    });
  }

  it('calling steam by the clock over a weak burner is called too early', () => {
    for (const seed of SEEDS) {
      const { decisions } = played(seed, ['weak-burner'], ['steam-by-clock']);
      expect(decisions.find(({ id }) => id === 'steady')?.verdict).toBe('too early');
      expect(decisions.find(({ id }) => id === 'valve')?.verdict).toBe('too early');
    }
  });

  it('costs lethality that the numbers show', () => {
    const good = played(77, []).numbers;
    const early = played(77, [], ['early-hold']).numbers;
    const airy = played(77, [], ['no-vent']).numbers;
    expect(early.f0Min?.[1]).toBeLessThan((good.f0Min?.[1] ?? 0) / 3);
    expect(airy.f0Min?.[1]).toBeLessThan(good.f0Min?.[1] ?? 0);
    expect(airy.airLeft).toBeGreaterThan(0.5);
    expect(good.airLeft).toBeLessThan(0.15);
    expect(good.minutesAbove).toBeGreaterThan(88);
    const [low, likely, high] = good.f0Min ?? [0, 0, 0];
    expect(low < likely && likely < high).toBe(true);
  });
});

it('has words for every fault, decision, loss and mistake, each short enough for a line of 60 columns', () => {
  for (const { name, sign } of Object.values(FAULT_WORDS)) expect(`${name}: ${sign}`.length).toBeLessThan(90);
  // A notice of two lines would push the top off a small screen.
  for (const text of Object.values(SENSE_WORDS)) expect(text.length, text).toBeLessThan(59);
  for (const text of Object.values(DECISION_NAMES)) expect(text.length).toBeLessThan(21);
  for (const text of [
    ...Object.values(LOSS_WORDS),
    ...Object.values(MISTAKE_WORDS),
    ...Object.values(NEXT_WORDS),
  ]) {
    expect(text.length).toBeGreaterThan(10);
    expect(text.length).toBeLessThan(116);
  }
});
