/** How fast a practice runs: what was chosen, and slower by itself while an answer is wanted. */
import type { Batch } from '../batch/state.ts';
import { isDue, wantedNow } from '../batch/wanted.ts';

export const SPEEDS = [1, 2, 5, 10, 30, 60, 240] as const;
export type Speed = (typeof SPEEDS)[number];
export const isSpeed = (value: number): value is Speed => SPEEDS.some(speed => speed === value);

/** While an answer is wanted time runs no faster than this, unless the person hurries it on. */
export const WANTED_SPEED: Speed = 5;
/** Hurried once: steam that comes and a needle that climbs can still be seen; hurried twice nothing holds it. */
const HURRIED_SPEED: Speed = 60;
/** How often time was hurried on since the last answer. */
export type Hurry = 0 | 1 | 2;
/** After "still warm" nobody is asked again for so long, ms. */
const ASK_AGAIN_MS = 30 * 60_000;

/** The next speed up; from the fastest back to the slowest, so that one key reaches all. */
export function faster(speed: Speed): Speed {
  return SPEEDS[(SPEEDS.indexOf(speed) + 1) % SPEEDS.length] ?? 1;
}

/**
 * Whether an answer is wanted, by what the coach knows. Waits without a known end (first steam, the climb, a
 * simmer, a bag that cools) are wanted from the low end of their expected length on: what the kitchen really
 * does must not be told by the clock.
 */
export function isWanted(batch: Batch): boolean {
  if (batch.finishedAt !== null) return true;
  const wanted = wantedNow(batch);
  if (wanted !== null) return true;
  const { lengths } = batch.header.numbers;
  const passed = batch.now - batch.since;
  switch (batch.ask) {
    case 'steam':
    case 'climbing':
      return passed >= (lengths[batch.step]?.lowS ?? 0) * 1000;
    case 'simmer-start': {
      const boilS = (lengths.simmer?.lowS ?? 0) - batch.header.recipe.simmer.firstLookS;
      return passed >= boilS * 1000;
    }
    case 'warmth':
      return batch.askSince === batch.since || batch.now >= batch.askSince + ASK_AGAIN_MS;
    case 'drying':
      return false;
    default:
      return isDue(batch);
  }
}

/** Simulated seconds for each real one while an answer is wanted. */
export const slowed = (chosen: Speed, hurry: Hurry): number =>
  hurry === 2 ? chosen : Math.min(chosen, hurry === 1 ? HURRIED_SPEED : WANTED_SPEED);

/** Simulated seconds for each real one. */
export const paceOf = (batch: Batch, chosen: Speed, hurry: Hurry): number =>
  isWanted(batch) ? slowed(chosen, hurry) : chosen;

/** Where hurrying on leads from this pace; null where it runs as chosen already. */
export const hurriedOn = (pace: number, chosen: Speed): Speed | null =>
  pace >= chosen ? null : pace < HURRIED_SPEED && chosen > HURRIED_SPEED ? HURRIED_SPEED : chosen;

/** Steps in which the coach lets a person sleep, so that a practice may jump to the next thing wanted. */
export const maySleep = (batch: Batch): boolean =>
  batch.finishedAt === null &&
  !isWanted(batch) &&
  ['soaking', 'gauge-zero', 'pin', 'shut', 'warmth'].includes(batch.ask);
