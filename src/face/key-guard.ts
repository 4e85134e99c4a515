/**
 * Towels, cats and held keys: what reaches the keyboard without being meant is taken once or not at all.
 * Pure: the instants come in as data, in milliseconds of a clock that never jumps.
 */
import type { KeyName } from './keys.ts';

/**
 * The same key again within this time is one press. Longer than the quarter second of a bounce: a held key
 * begins to repeat only after the keyboard's own delay, 250 to 660 ms in the usual settings.
 */
export const SAME_KEY_MS = 700;
/** Another key within this time is more than one finger. */
export const WIPE_MS = 120;
/** After a wipe the keyboard has to be quiet for so long before a key counts. */
export const QUIET_MS = 600;
/** While a number or a word is typed, fingers may be this quick. */
export const TYPING_SAME_MS = 60;
/**
 * A knob that is turned step by step follows quick fingers, and a key held down turns it on at this pace: fingers
 * tap six or seven times a second at most, keyboards repeat 10 to 40 times (usual settings; common practice).
 */
export const TURNING_SAME_MS = 100;
/** More characters than this in one event were not typed by a finger. */
export const TYPED_CHUNK = 3;

export interface Guard {
  readonly last: KeyName | null;
  readonly lastAt: number;
  readonly quietUntil: number;
  /** When a knob was turned last. */
  readonly turnedAt: number;
}
export const FRESH_GUARD: Guard = {
  last: null,
  lastAt: Number.NEGATIVE_INFINITY,
  quietUntil: Number.NEGATIVE_INFINITY,
  turnedAt: Number.NEGATIVE_INFINITY,
};

export interface Guarded {
  readonly guard: Guard;
  readonly taken: readonly KeyName[];
  /** Why keys were dropped, for the screen; null when none were. */
  readonly dropped: 'held' | 'wiped' | null;
}

function wiped(last: KeyName | null, now: number): Guarded {
  const guard: Guard = { last, lastAt: now, quietUntil: now + QUIET_MS, turnedAt: now };
  return { guard, taken: [], dropped: 'wiped' };
}

/** Keys that answer: at most one of an event, and none out of a wipe. */
export function guardAnswers(guard: Guard, keys: readonly KeyName[], now: number): Guarded {
  const [first] = keys;
  const last = keys.at(-1) ?? null;
  if (first === undefined) return { guard, taken: [], dropped: null };
  if (keys.some(key => key !== first) || now < guard.quietUntil) return wiped(last, now);
  const since = now - guard.lastAt;
  const next: Guard = { ...guard, last: first, lastAt: now };
  if (first === guard.last && since < SAME_KEY_MS) return { guard: next, taken: [], dropped: 'held' };
  if (first !== guard.last && since < WIPE_MS) return wiped(last, now);
  return { guard: next, taken: [first], dropped: keys.length > 1 ? 'held' : null };
}

/** Keys of a number or a word being typed: quicker, but no bursts, and a word is never ended by its own burst. */
export function guardTyping(guard: Guard, keys: readonly KeyName[], now: number): Guarded {
  const last = keys.at(-1) ?? null;
  if (last === null) return { guard, taken: [], dropped: null };
  if (keys.length > TYPED_CHUNK || now < guard.quietUntil) return wiped(last, now);
  const since = now - guard.lastAt;
  const next: Guard = { ...guard, last, lastAt: now };
  // What ends a number may still be held down from the screen before, where it meant something else.
  const same = keys[0] === 'enter' || keys[0] === 'space' ? SAME_KEY_MS : TYPING_SAME_MS;
  if (keys[0] === guard.last && since < same) return { guard: next, taken: [], dropped: 'held' };
  const ends = keys.includes('enter') || keys.includes('space');
  if (ends && (keys.length > 1 || since < WIPE_MS)) return wiped(last, now);
  return { guard: next, taken: keys, dropped: null };
}

/** Keys that turn a knob: every press is a step, a key held down goes on step by step, a wipe turns nothing. */
export function guardTurning(guard: Guard, keys: readonly KeyName[], now: number): Guarded {
  const [first] = keys;
  if (first === undefined || first !== guard.last) {
    const guarded = guardAnswers(guard, keys, now);
    return { ...guarded, guard: { ...guarded.guard, turnedAt: now } };
  }
  if (keys.some(key => key !== first) || now < guard.quietUntil) return wiped(first, now);
  const next: Guard = { ...guard, lastAt: now };
  // Repeats that come faster are the same turn of the hand: nothing that was meant is lost, so nothing is said.
  if (now - guard.turnedAt < TURNING_SAME_MS) return { guard: next, taken: [], dropped: null };
  return { guard: { ...next, turnedAt: now }, taken: [first], dropped: null };
}
