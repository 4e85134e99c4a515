/**
 * Seeded chance without a running state: the same seed, name and count always give the same number, so that
 * looking once more, or at another speed, never changes what happens next.
 */

/** FNV-1a (public domain), 32 bit. */
function hash(text: string): number {
  let value = 0x811c9dc5;
  for (let index = 0; index < text.length; index += 1) {
    value = Math.imul(value ^ text.charCodeAt(index), 0x01000193);
  }
  return value >>> 0;
}

/** A number from 0 up to 1 that belongs to this seed, name and count. */
export function chance(seed: number, name: string, count = 0): number {
  // The finishing steps of a mulberry32 generator spread neighbouring seeds over the whole range.
  let mixed = (hash(name) + Math.imul(seed | 0, 0x9e3779b1) + Math.imul(count | 0, 0x6d2b79f5)) | 0;
  mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
  mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
  return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
}

/** Evenly spread between two ends. */
export const between = (low: number, high: number, share: number): number => low + (high - low) * share;

/** Normal deviate, mean 0 and spread 1, from two chances of this name (Box and Muller 1958). */
export function deviate(seed: number, name: string, count = 0): number {
  const radius = Math.sqrt(-2 * Math.log(1 - chance(seed, name, 2 * count)));
  return radius * Math.cos(2 * Math.PI * chance(seed, name, 2 * count + 1));
}

/** Seeds are shown and typed, so they are short. */
export const SEEDS = 10_000;

/** A seed from 0 to 9999, or a RangeError that says so. */
export function checkSeed(seed: number): number {
  if (Number.isInteger(seed) && seed >= 0 && seed < SEEDS) return seed;
  throw new RangeError(`A seed is a whole number from 0 to ${SEEDS - 1}, not ${seed}.`);
}
