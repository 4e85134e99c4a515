import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  FRESH_GUARD,
  guardAnswers,
  type Guarded,
  guardTurning,
  guardTyping,
  QUIET_MS,
  SAME_KEY_MS,
  TURNING_SAME_MS,
  TYPED_CHUNK,
  TYPING_SAME_MS,
  WIPE_MS,
} from '../../src/face/key-guard.ts';

type Guarding = typeof guardAnswers;
type Pressed = readonly [keys: readonly string[], at: number];

/** Everything a guard took of a story of presses. */
function taken(guarding: Guarding, story: readonly Pressed[]): readonly string[] {
  let guard = FRESH_GUARD;
  const all: string[] = [];
  for (const [keys, at] of story) {
    const guarded: Guarded = guarding(guard, keys, at);
    guard = guarded.guard;
    all.push(...guarded.taken);
  }
  return all;
}

/** A key held down: the keyboard's own delay, then its repeats. */
const held = (key: string, from: number, delay: number, every: number, forMs: number): readonly Pressed[] => {
  const presses: Pressed[] = [[[key], from]];
  for (let at = from + delay; at < from + forMs; at += every) presses.push([[key], at]);
  return presses;
};

/** Presses with the time between them, as presses at instants. */
function timed(presses: readonly (readonly [keys: readonly string[], gap: number])[]): readonly Pressed[] {
  let at = 0;
  return presses.map(([keys, gap]): Pressed => {
    at += gap;
    return [keys, at];
  });
}

describe('S5: keys that answer', () => {
  // Delays and rates that keyboards are set to (xset, Windows, macOS: 225 to 660 ms, 10 to 40 a second).
  it.each([225, 250, 400, 500, 660])(
    'a key held for a minute, first repeat after %i ms, is one press',
    delay => {
      for (const every of [25, 33, 100]) {
        expect(taken(guardAnswers, held('space', 1000, delay, every, 60_000))).toEqual(['space']);
      }
    },
  );

  it('the same key twice within its time is one press, after it two', () => {
    expect(
      taken(guardAnswers, [
        [['1'], 0],
        [['1'], SAME_KEY_MS - 1],
      ]),
    ).toEqual(['1']);
    expect(
      taken(guardAnswers, [
        [['1'], 0],
        [['1'], SAME_KEY_MS],
      ]),
    ).toEqual(['1', '1']);
  });

  it('two keys nearer than two fingers of one hand: only the first, and then quiet is waited for', () => {
    const wipe: Pressed[] = [
      [['1'], 0],
      [['2'], WIPE_MS - 1],
    ];
    expect(taken(guardAnswers, wipe)).toEqual(['1']);
    expect(taken(guardAnswers, [...wipe, [['3'], WIPE_MS + QUIET_MS - 2]])).toEqual(['1']);
    expect(taken(guardAnswers, [...wipe, [['3'], WIPE_MS + QUIET_MS]])).toEqual(['1', '3']);
  });

  it('a chunk of different keys is none, a chunk of one key is one', () => {
    expect(guardAnswers(FRESH_GUARD, ['1', '2'], 0)).toMatchObject({ taken: [], dropped: 'wiped' });
    expect(guardAnswers(FRESH_GUARD, ['enter', 'enter'], 0)).toMatchObject({
      taken: ['enter'],
      dropped: 'held',
    });
    expect(guardAnswers(FRESH_GUARD, [], 0)).toMatchObject({ taken: [], dropped: null });
  });

  it('a wipe of any length takes at most its first key', () => {
    const wipe = fc.array(
      fc.tuple(
        fc.array(fc.constantFrom('space', '1', '2', '3', 'e', 'q', 'enter'), { minLength: 1, maxLength: 5 }),
        fc.integer({ min: 0, max: WIPE_MS - 1 }),
      ),
      { minLength: 2, maxLength: 60 },
    );
    fc.assert(
      fc.property(wipe, chunks => {
        const story = timed(chunks);
        const all = taken(guardAnswers, story);
        expect(all.length).toBeLessThanOrEqual(1);
        if (all.length === 1) expect(all[0]).toBe(story[0]?.[0][0]);
      }),
      { numRuns: 500 },
    );
  });

  it('a person who presses one key a second is always heard', () => {
    const keys = fc.array(
      fc.tuple(fc.constantFrom('space', '1', '2', '3'), fc.integer({ min: SAME_KEY_MS, max: 5000 })),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(keys, presses => {
        const story = timed(presses.map(([key, gap]) => [[key], gap]));
        expect(taken(guardAnswers, story)).toEqual(presses.map(([key]) => key));
      }),
      { numRuns: 300 },
    );
  });
});

describe('keys that turn a knob', () => {
  const tapped = (key: string, times: number, every: number, from = 0) =>
    Array.from({ length: times }, (_, index): Pressed => [[key], from + index * every]);

  // Fingers tap up to seven times a second (common practice, no source): 143 ms.
  it.each([143, 200, 300, 500, 699])('every press counts, one each %i ms', every => {
    expect(taken(guardTurning, tapped('-', 4, every))).toHaveLength(4);
    expect(taken(guardAnswers, tapped('-', 4, every))).toHaveLength(1);
  });

  // Delays and rates that keyboards are set to, as above.
  it.each([225, 500, 660])('a key held down turns on after the delay of %i ms, a step each 100 ms', delay => {
    for (const every of [25, 33, 100]) {
      const steps = taken(guardTurning, held('+', 0, delay, every, delay + 1000)).length;
      expect(steps).toBeGreaterThanOrEqual(8);
      expect(steps).toBeLessThanOrEqual(1 + 1000 / TURNING_SAME_MS);
    }
  });

  it('a bounce is one step, a wipe turns nothing on', () => {
    expect(taken(guardTurning, tapped('+', 2, 20))).toEqual(['+']);
    expect(guardTurning(FRESH_GUARD, ['+', '-'], 0)).toMatchObject({ taken: [], dropped: 'wiped' });
    const wipe: Pressed[] = [
      [['+'], 0],
      [['-'], WIPE_MS - 1],
    ];
    expect(taken(guardTurning, [...wipe, ...tapped('-', 3, 150, WIPE_MS + 50)])).toEqual(['+']);
  });
});

describe('keys of a number or a word', () => {
  it('quick fingers are heard, a bounce is not', () => {
    expect(
      taken(guardTyping, [
        [['1'], 0],
        [['6'], 50],
        [['.'], 130],
      ]),
    ).toEqual(['1', '6', '.']);
    expect(
      taken(guardTyping, [
        [['1'], 0],
        [['1'], TYPING_SAME_MS - 1],
      ]),
    ).toEqual(['1']);
    expect(
      taken(guardTyping, [
        [['1'], 0],
        [['1'], TYPING_SAME_MS],
      ]),
    ).toEqual(['1', '1']);
  });

  it('more than a finger types at once is none of it', () => {
    const burst = [...'open'];
    expect(burst.length).toBeGreaterThan(TYPED_CHUNK);
    expect(guardTyping(FRESH_GUARD, burst, 0)).toMatchObject({ taken: [], dropped: 'wiped' });
  });

  it('a burst never ends what it typed', () => {
    expect(guardTyping(FRESH_GUARD, ['1', 'enter'], 0)).toMatchObject({ taken: [], dropped: 'wiped' });
    expect(
      taken(guardTyping, [
        [['1'], 0],
        [['enter'], WIPE_MS - 1],
      ]),
    ).toEqual(['1']);
    expect(
      taken(guardTyping, [
        [['1'], 0],
        [['enter'], WIPE_MS],
      ]),
    ).toEqual(['1', 'enter']);
  });

  it('Enter still held down from the screen before ends nothing', () => {
    expect(taken(guardTyping, held('enter', 0, 500, 33, 5000))).toEqual(['enter']);
  });
});
