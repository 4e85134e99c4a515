import { expect, it } from 'vitest';
import { createChance } from '../faults/fuzz.ts';
import { killFrom, momentsOf } from '../faults/crash-driver.ts';
import { STEP_IDS, type StepId } from '../../src/core/batch/steps.ts';
import { sampleHeader } from '../help/batch-kit.ts';

const KILLS = 30;

it(`S4: kill -9 at ${KILLS} chance instants over all steps; what was shown is what is kept`, async () => {
  const chance = createChance(30);
  const moments = momentsOf(sampleHeader({ loads: [1] }));
  const steps = STEP_IDS.filter(step => moments.some(moment => moment.step === step));
  const seen = new Set<StepId>();
  let early = 0;
  const stories = Array.from({ length: KILLS / 2 }, (_, index) => {
    const step = steps[Math.floor((index * steps.length) / (KILLS / 2))];
    return chance.pick(moments.filter(moment => moment.step === step));
  });
  const seeds = stories.map(() => chance.below(1e9));
  // Two at a time, as many as the machine has cores.
  const worker = async (first: number) => {
    for (let index = first; index < stories.length; index += 2) {
      const moment = stories[index];
      if (!moment) continue;
      const killed = await killFrom(moment, 2, createChance(seeds[index] ?? 0));
      early += killed.early;
      for (const step of killed.steps) seen.add(step);
    }
  };
  await Promise.all([worker(0), worker(1)]);
  console.log(`${KILLS} kills, ${early} of them before the first screen, in ${[...seen].join(', ')}`);
  expect(early).toBeLessThan(KILLS / 2);
  expect(seen.size).toBeGreaterThan(9);
});
