/**
 * Modes of bodies whose surface has the chamber's temperature, remembered: they are costly to expand, depend
 * on nothing but the body, and a what-if, a running batch or a practice asks for the same few again and again.
 */
import { type Body, factors } from './conduction.ts';
import { type Modes, modesOf } from './heat-modes.ts';

const MOST_KEPT = 24;
const kept = new Map<string, Modes>();

/** The same as `modesOf(body, infinity)`; nobody may change what it returns. */
export function keptModes(body: Body): Modes {
  const key = factors(body)
    .map(({ side, lengthM }) => `${side} ${lengthM}`)
    .join();
  const known = kept.get(key);
  if (known !== undefined) return known;
  const modes = modesOf(body, Number.POSITIVE_INFINITY);
  const [oldest] = kept.keys();
  if (kept.size >= MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  kept.set(key, modes);
  return modes;
}
