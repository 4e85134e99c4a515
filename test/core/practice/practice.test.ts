import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openAsk } from '../../../src/core/batch/lockout.ts';
import type { BatchHeader } from '../../../src/core/batch/state.ts';
import { choicesOf } from '../../../src/core/batch/steps.ts';
import { debriefOf } from '../../../src/core/practice/debrief.ts';
import { faster, isWanted, maySleep, paceOf, SPEEDS } from '../../../src/core/practice/pace.ts';
import { Practice } from '../../../src/core/practice/practice.ts';
import { lookAt, sightKinds } from '../../../src/core/practice/sights.ts';
import { doMove, playThrough, Trainee } from '../../../src/core/practice/trainee.ts';
import type { Move } from '../../../src/core/practice/trainee-mind.ts';
import { expectOneVerdict, practiceHeader, practiceOf } from '../../help/practice-kit.ts';

interface Timed {
  readonly second: number;
  readonly move: Move;
}

/** Every move of a sensible trainee that is more than waiting, with its second. */
function script(practice: Practice): readonly Timed[] {
  const trainee = new Trainee(practice, []);
  const moves: Timed[] = [];
  while (practice.run.batch.finishedAt === null) {
    const move = trainee.next();
    if (move.kind !== 'wait') moves.push({ second: practice.second, move });
    doMove(practice, move);
  }
  return moves;
}

/** The same moves at the same seconds, with time passed in pieces of `chunk` as a screen at some speed would. */
function replayed(moves: readonly Timed[], chunk: (at: number) => number, practice: Practice): Practice {
  for (const { second, move } of moves) {
    while (practice.second < second) {
      practice.pass(Math.min(second - practice.second, Math.max(1, chunk(practice.second))));
    }
    if (move.kind === 'deed') practice.send(move.deed);
    else if (move.kind === 'flame') practice.turnFlame(move.by);
  }
  return practice;
}

describe('speed', () => {
  it('does not change a practice: 1x, 5x, 240x and any mixture give the same debrief', () => {
    const live = practiceOf(2718, ['phone-call', 'torn-bag'], { soak: false, loads: [2] });
    const moves = script(live);
    const expected = debriefOf(live);
    expect(moves.length).toBeGreaterThan(40);
    for (const chunk of [1, 5, 48, 100_000]) {
      const again = practiceOf(2718, ['phone-call', 'torn-bag'], { soak: false, loads: [2] });
      const debrief = debriefOf(replayed(moves, () => chunk, again));
      expect({ ...debrief, hours: 0 }, `pieces of ${chunk} s`).toEqual({ ...expected, hours: 0 });
    }
  });

  it('does not depend on how often anybody looks', () => {
    const looked = practiceOf(99, [], { soak: false });
    const moves = script(practiceOf(99, [], { soak: false }));
    const peek = (practice: Practice) => {
      for (const kind of sightKinds(practice.run.batch)) practice.look(kind);
      return 7;
    };
    const peeked = replayed(moves, () => peek(looked), looked);
    const plain = replayed(moves, () => 3600, practiceOf(99, [], { soak: false }));
    expect(debriefOf(peeked)).toEqual(debriefOf(plain));
  });

  it('is one key: every speed is reached, and the fastest is followed by the slowest', () => {
    let speed: (typeof SPEEDS)[number] = 1;
    const seen = SPEEDS.map(() => {
      speed = faster(speed);
      return speed;
    });
    expect(seen).toEqual([2, 5, 10, 30, 60, 240, 1]);
  });

  it('slows to 5x by itself while an answer is wanted, unless it is hurried', () => {
    const practice = practiceOf(1, []);
    expect(isWanted(practice.run.batch)).toBe(true);
    expect(paceOf(practice.run.batch, 240, 0)).toBe(5);
    expect(paceOf(practice.run.batch, 2, 0)).toBe(2);
    expect(paceOf(practice.run.batch, 240, 1)).toBe(60);
    expect(paceOf(practice.run.batch, 30, 1)).toBe(30);
    expect(paceOf(practice.run.batch, 240, 2)).toBe(240);
    practice.send({ type: 'answer', ask: 'gear-check', choice: 'ready' });
    practice.send({ type: 'answer', ask: 'dry-weight', choice: 'as-planned' });
    expect(practice.run.batch.step).toBe('soak');
    expect(paceOf(practice.run.batch, 240, 0)).toBe(240);
    expect(maySleep(practice.run.batch)).toBe(true);
    practice.pass(12 * 3600);
    expect(paceOf(practice.run.batch, 240, 0)).toBe(5);
    expect(maySleep(practice.run.batch)).toBe(false);
  });

  it('does not tell by the pace what only the kitchen knows', () => {
    const usual = practiceOf(5, [], { soak: false });
    const weak = practiceOf(5, ['weak-burner'], { soak: false });
    const paces = [usual, weak].map(practice => {
      for (const choice of ['ready', 'as-planned']) {
        practice.send({ type: 'answer', ask: openAsk(practice.run.batch), choice });
      }
      return Array.from({ length: 90 }, () => {
        practice.pass(60);
        return paceOf(practice.run.batch, 240, 0);
      });
    });
    expect(paces[0]).toEqual(paces[1]);
    expect(new Set(paces[0]).size).toBe(2);
  });
});

describe('a practice', () => {
  it('is marked in its header and uses no clock of its own', () => {
    const practice = practiceOf(8, []);
    expect(practice.run.batch.header.practice).toBe(true);
    expect(practice.run.batch.header.id).toBe('seed 0008');
    practice.pass(90);
    expect(practice.second).toBe(90);
    expect(practice.run.batch.now).toBe(90_000);
  });

  it('refuses a seed that is none, and part of a second', () => {
    expect(() => practiceOf(10_000)).toThrow('whole number from 0 to 9999');
    expect(() => practiceOf(0.5)).toThrow(RangeError);
    expect(() => practiceOf(1).pass(0.5)).toThrow(RangeError);
  });

  it('refuses answers and the flame while nobody is at the stove', () => {
    const practice = practiceOf(17, ['phone-call'], { soak: false });
    const trainee = new Trainee(practice, []);
    while (practice.awayUntil === null) doMove(practice, trainee.next());
    expect(practice.senses.at(-1)?.code).toBe('phone-rings');
    expect(practice.send({ type: 'answer', ask: 'holding', choice: 'at' })).toEqual({ code: 'not-here' });
    expect(practice.turnFlame(1)).toBe(false);
    practice.pass(practice.awayUntil - practice.second);
    expect(practice.awayUntil).toBeNull();
    expect(practice.turnFlame(1)).toBe(true);
  });

  it('lets the safety valve be heard when the flame is left on full', () => {
    const practice = practiceOf(21, [], { soak: false });
    const trainee = new Trainee(practice, []);
    while (practice.run.batch.step !== 'hold') doMove(practice, trainee.next());
    practice.pass(1800);
    expect(practice.senses.map(({ code }) => code)).toContain('safety-valve');
    expect(practice.truth.facts.loads[0]?.mostKPa).toBeLessThan(140);
  });

  it('walks two loads, each with water, steam and a hold of its own', () => {
    const practice = practiceOf(12, [], { soak: false, loads: [1, 1], seal: 'after' });
    playThrough(practice);
    const debrief = debriefOf(practice);
    expect(debrief.decisions.filter(({ id }) => id === 'valve').map(({ load }) => load)).toEqual([1, 2]);
    expect(debrief.lost).toEqual([]);
  });

  it('practises jars and a recipe without a soak as well', () => {
    for (const sample of [{ jars: true }, { soak: false }]) {
      const practice = practiceOf(31, [], sample);
      playThrough(practice);
      expect(debriefOf(practice).lost).toEqual([]);
    }
  });

  it('survives any keys: never an error, never a number that is none, never pressure behind an open lid', () => {
    const header: BatchHeader = practiceHeader({ soak: false, loads: [1] });
    const act = fc.record({
      wait: fc.integer({ min: 0, max: 4000 }),
      pick: fc.nat(5),
      flame: fc.constantFrom(-1, 0, 1),
    });
    fc.assert(
      fc.property(fc.nat(9999), fc.array(act, { minLength: 20, maxLength: 90 }), (seed, acts) => {
        const practice = new Practice({ ...header, seed });
        for (const { wait, pick, flame } of acts) {
          practice.pass(wait);
          if (flame !== 0) practice.turnFlame(flame === 1 ? 1 : -1);
          const ask = openAsk(practice.run.batch);
          const choices = choicesOf(ask).filter(({ amount }) => amount === undefined);
          const choice = choices[pick % Math.max(1, choices.length)];
          if (choice) practice.send({ type: 'answer', ask, choice: choice.id });
          for (const kind of sightKinds(practice.run.batch)) {
            for (const value of Object.values(practice.look(kind) ?? {})) {
              if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
            }
          }
          for (const { openT, openGaugeKPa } of practice.truth.facts.loads) {
            if (openT !== null) expect(openGaugeKPa).toBeLessThan(2);
          }
        }
        const debrief = debriefOf(practice);
        const { numbers } = debrief;
        expectOneVerdict(debrief, `seed ${seed}`);
        for (const value of Object.values(numbers).flat()) {
          if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        }
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});

describe('sights', () => {
  it('show what is there and never what it means', () => {
    const practice = practiceOf(3, ['gauge-high', 'leaking-gasket']);
    expect(practice.look('gasket')).toEqual({ kind: 'gasket', cracked: true });
    const dial = practice.look('dial');
    expect(dial?.kind === 'dial' && Math.abs(dial.kPa - 13.8) < 0.1).toBe(true);
    expect(practice.look('kernel')).toBeNull();
    practice.send({ type: 'answer', ask: 'gear-check', choice: 'missing' });
    expect(practice.look('gasket')).toEqual({ kind: 'gasket', cracked: false });
    expect(lookAt(practice.truth, practice.run.batch, 'kernel')).toBeNull();
  });

  it('tremble around the truth in a hold, and rest at zero when cold', () => {
    const practice = practiceOf(3, [], { soak: false });
    expect(practice.look('dial')).toEqual({ kind: 'dial', kPa: 0 });
    const trainee = new Trainee(practice, []);
    while (practice.run.batch.step !== 'hold') doMove(practice, trainee.next());
    const seen = Array.from({ length: 20 }, () => {
      practice.pass(1);
      const dial = practice.look('dial');
      return dial?.kind === 'dial' ? dial.kPa : 0;
    });
    expect(new Set(seen).size).toBe(20);
    expect(Math.max(...seen) - Math.min(...seen)).toBeLessThan(7);
  });
});
