import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/core/batch/state.ts';
import type { StepId } from '../../src/core/batch/steps.ts';
import { HOUR, MINUTE, SECOND } from '../../src/core/time.ts';
import { VARIANTS } from '../help/batch-kit.ts';
import { createChance } from './fuzz.ts';
import { Fingers, hand, type Place, plain, placesOf, repeat } from './key-path.ts';

const SEQUENCES = 200_000;
const places: readonly Place[] = Object.values(VARIANTS).flatMap(placesOf);
const endings = (batch: Batch) => [batch.finishedAt === null, batch.endedEarly, batch.lock?.coolUntil].join();

describe('S1 to S9: whatever fingers, towels and cats do', () => {
  it(`holds over ${SEQUENCES} key sequences from every moment of a batch`, () => {
    const chance = createChance(2026);
    const reached = new Map<StepId, number>();
    let strokes = 0;
    let deeds = 0;
    let words = 0;
    for (let sequence = 0; sequence < SEQUENCES; ) {
      const fingers = new Fingers(chance.pick(places));
      for (let part = 0; part < 25 && sequence < SEQUENCES; part += 1, sequence += 1) {
        for (const [before, stroke] of hand(chance)) {
          fingers.wait(before);
          const was = fingers.batch;
          const typing = fingers.panel.kind === 'word';
          const sent = fingers.stroke(stroke);
          strokes += 1;
          // S5: one input event is one deed at most, and only a typed word ends or shortens anything.
          expect(sent).toBeLessThanOrEqual(1);
          if (sent === 1 && typing) words += 1;
          else if (fingers.batch !== was && was.endedEarly === null) {
            const byTrouble = fingers.batch.deviations.at(-1)?.trouble === 'water-low';
            if (!byTrouble) expect(fingers.batch.endedEarly).toBeNull();
          }
        }
        if (chance.next() < 0.3)
          fingers.wait(chance.pick([SECOND, 20 * SECOND, MINUTE, 10 * MINUTE, HOUR, 9 * HOUR]));
      }
      deeds += fingers.deeds;
      reached.set(fingers.batch.step, (reached.get(fingers.batch.step) ?? 0) + 1);
    }
    console.log(
      `${SEQUENCES} key sequences, ${strokes} strokes, ${deeds} deeds taken, ${words} words; ended in ` +
        [...reached].map(([step, count]) => `${step} ${count}`).join(', '),
    );
    expect(reached.size).toBe(20);
  });
});

describe('S5: no held key and no burst', () => {
  const KEYS = ['1', '2', '3', '4', ' ', '\r', 't', 'u', 'e', 'w', 'q', '?', 'n', 'p', 'm', 'k'];

  it('a key held down for a minute is one press, at every moment and whatever the keyboard’s delay', () => {
    let moments = 0;
    for (const place of places) {
      for (const key of KEYS) {
        const fingers = new Fingers(place);
        fingers.wait(MINUTE);
        let sent = 0;
        for (const [before, stroke] of repeat(plain(key), 660, 40, 60)) {
          fingers.wait(before);
          sent += fingers.stroke(stroke);
        }
        expect(sent, `${key} held in ${place.run.batch.step}`).toBeLessThanOrEqual(1);
        moments += 1;
      }
    }
    console.log(`${moments} held keys`);
  });

  it('a towel over the keyboard answers at most once, ends nothing and shortens nothing', () => {
    const chance = createChance(9);
    for (const place of places) {
      for (let towel = 0; towel < 12; towel += 1) {
        const fingers = new Fingers(place);
        fingers.wait(800);
        const before = endings(fingers.batch);
        const { step } = fingers.batch;
        let sent = 0;
        for (let keys = 3 + chance.below(40); keys > 0; keys -= 1) {
          sent += fingers.stroke(
            plain(Array.from({ length: 1 + chance.below(3) }, () => chance.pick(KEYS)).join('')),
          );
          fingers.wait(chance.below(110));
        }
        expect(sent, `in ${step}`).toBeLessThanOrEqual(1);
        if (fingers.batch.step === step) expect(endings(fingers.batch)).toBe(before);
      }
    }
  });
});
