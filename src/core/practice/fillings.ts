/**
 * Grain that is simmered in several fillings of the pot: what waits lies on in its soak, each filling has
 * kernels of its own, and all of it is drained and dried together.
 */
import { fillingKg, fillingsOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { CoachTime } from '../time.ts';
import type { Drained } from './facts.ts';
import { burstShare, createGrain, type Grain, hydrate, meanCore, meanX, moistureOf } from './grain.ts';
import { fillPot, takeUp } from './pot.ts';
import type { World } from './world.ts';

/** The same kernels in another vessel: a filling of so much dry matter, as wet as the lot it comes from. */
const portionOf = (lot: Grain, dryKg: number): Grain => ({
  ...lot,
  dryKg,
  x: lot.x.slice(),
  burst: lot.burst.slice(),
});

/** The pot stands ready for the filling the coach is at; one that stands already is left alone. */
export function fillTheirPot(world: World, batch: Batch): void {
  const { recipe, numbers, kitchen, seed, faults } = world;
  world.lot ??= createGrain(recipe, batch.dryKg, seed, faults);
  const { lot } = world;
  const index = batch.filling - 1;
  const known = world.fillings[index];
  // A soak takes everything at once, in the pot or in a bucket.
  const grain = known ?? (fillingsOf(batch) === 1 ? lot : portionOf(lot, lot.dryKg / fillingsOf(batch)));
  if (grain === world.grain && world.pot !== null) return;
  world.fillings[index] = grain;
  world.grain = grain;
  world.pot = fillPot({
    boilC: numbers.boilC,
    roomC: kitchen.roomC,
    dryKg: grain.dryKg,
    innerKg: grain.dryKg * meanX(grain),
    waterKg: (numbers.simmerWaterL * fillingKg(batch)) / numbers.dryKg,
    starchy: faults.has('starch-foam'),
  });
}

/** What waits for the next filling soaks on. */
export function soakOn(world: World, seconds: number): void {
  const { lot, grain, pot, kitchen, recipe } = world;
  if (recipe.soak === null || lot === null) return;
  const kg = hydrate(lot, kitchen.roomC, 0, seconds);
  if (grain === lot && pot !== null) takeUp(pot, kg);
}

/** Drained: the worst of all fillings so far is what the batch has to live with. */
export function noteDrained(world: World, t: CoachTime): void {
  const { fillings, facts } = world;
  const worst = (of: (grain: Grain) => number) => Math.max(...fillings.map(of));
  const moisture = fillings.reduce((sum, one) => sum + moistureOf(one), 0) / fillings.length;
  const drained: Drained = { t, moisture, core: worst(meanCore), burst: worst(burstShare) };
  if (fillings.length > 0) facts.drained = drained;
}

/** All fillings on one heap: the grain that is dried and bagged. */
export function heap(world: World): Grain | null {
  const { fillings, lot } = world;
  const [first, ...others] = fillings;
  if (!first || !lot) return null;
  if (others.length === 0) return first;
  const mean = (of: (grain: Grain, n: number) => number) =>
    Float64Array.from(
      first.x,
      (_, n) => fillings.reduce((sum, one) => sum + of(one, n), 0) / fillings.length,
    );
  const burst = mean((one, n) => one.burst[n] ?? 0);
  return {
    ...lot,
    x: mean((one, n) => one.x[n] ?? one.startX),
    burst: Uint8Array.from(burst, share => (share >= 0.5 ? 1 : 0)),
  };
}
