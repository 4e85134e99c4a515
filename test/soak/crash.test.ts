import { expect, it } from 'vitest';
import { killFrom, momentsOf } from '../faults/crash-driver.ts';
import { createChance } from '../faults/fuzz.ts';
import { VARIANTS } from '../help/batch-kit.ts';
import type { StepId } from '../../src/core/batch/steps.ts';

/** Set STOVEHAND_SOAK_KILLS for more, and STOVEHAND_SOAK_SEED for others. */
const KILLS = Number(process.env.STOVEHAND_SOAK_KILLS ?? 500);
const SEED = Number(process.env.STOVEHAND_SOAK_SEED ?? 500);
const EACH = 4;

it(`S4: kill -9 at ${KILLS} chance instants; what was shown is what is kept`, async () => {
  const chance = createChance(SEED);
  const moments = Object.values(VARIANTS).flatMap(momentsOf);
  const steps = [...new Set(moments.map(({ step }) => step))];
  const seen = new Map<StepId, number>();
  let kills = 0;
  let early = 0;
  let turn = 0;
  const worker = async () => {
    while (kills < KILLS) {
      const step = steps[turn++ % steps.length];
      const moment = chance.pick(moments.filter(each => each.step === step));
      const seed = chance.below(1e9);
      const killed = await killFrom(moment, EACH, createChance(seed)).catch(problem => {
        throw new Error(`From ${moment.step}, seed ${seed}`, { cause: problem });
      });
      kills += killed.kills;
      early += killed.early;
      for (const id of killed.steps) seen.set(id, (seen.get(id) ?? 0) + 1);
    }
  };
  await Promise.all([worker(), worker()]);
  console.log(
    `${kills} kills, ${early} before the first screen; in ${[...seen].map(([id, n]) => `${id} ${n}`).join(', ')}`,
  );
  expect(seen.size).toBeGreaterThan(17);
});
