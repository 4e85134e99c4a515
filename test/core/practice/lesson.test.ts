import { describe, expect, it } from 'vitest';
import { openAsk } from '../../../src/core/batch/lockout.ts';
import { choicesOf } from '../../../src/core/batch/steps.ts';
import { debriefOf } from '../../../src/core/practice/debrief.ts';
import { LESSON_RECIPE, LESSON_SEED, lessonDoes, lessonKitchen } from '../../../src/core/practice/lesson.ts';
import { lessonTip, type LessonView, type Tip } from '../../../src/core/practice/lesson-tips.ts';
import { Practice } from '../../../src/core/practice/practice.ts';
import type { SightKind } from '../../../src/core/practice/sights.ts';
import { sightKinds } from '../../../src/core/practice/sights.ts';
import { runNumbers } from '../../../src/core/plan/run-numbers.ts';
import { startPractice } from '../../../src/shell/practice-session.ts';
import { METRIC } from '../../../src/core/quantity-format.ts';

function lesson(): Practice {
  const kitchen = lessonKitchen(METRIC);
  const numbers = runNumbers(LESSON_RECIPE, kitchen);
  return new Practice({
    recipe: LESSON_RECIPE,
    kitchen,
    numbers,
    seed: LESSON_SEED,
    faults: [],
    beganWall: Date.UTC(2026, 0, 10, 18),
  });
}

const viewOf = (practice: Practice, looking: SightKind | null): LessonView => ({
  batch: practice.run.batch,
  see: kind => practice.look(kind),
  looking,
  knob: practice.knob,
  flameOut: practice.flameOut,
});

/** Does what a tip says, as a key; whatever is not a key of the practice is an answer. */
function press(practice: Practice, key: string, look: () => void): void {
  if (key === 'l') {
    look();
    return;
  }
  if (key === '+' || key === '-') {
    practice.turnFlame(key === '+' ? 1 : -1);
    return;
  }
  const ask = openAsk(practice.run.batch);
  const choice = choicesOf(ask).find(one => one.key === key);
  if (!choice) throw new Error(`${key} is no answer to ${ask}`);
  const refusal = practice.send({ type: 'answer', ask, choice: choice.id });
  if (refusal) throw new Error(`${ask}/${choice.id} was refused: ${refusal.code}`);
}

/** Plays the lesson doing nothing but what its tips say; tells every tip to `told`. */
function follow(practice: Practice, told: (tip: Tip, view: LessonView) => void): void {
  let looks = -1;
  let place = '';
  for (let turn = 0; practice.run.batch.finishedAt === null; turn += 1) {
    if (turn > 20_000) throw new Error(`The tips lead nowhere at ${openAsk(practice.run.batch)}.`);
    const { batch } = practice.run;
    if (place !== `${batch.step}${batch.ask}`) looks = -1;
    place = `${batch.step}${batch.ask}`;
    const done = lessonDoes(batch);
    if (done !== null) {
      expect(practice.send(done)).toBeNull();
      continue;
    }
    const kinds = sightKinds(batch);
    const view = viewOf(practice, looks < 0 ? null : (kinds[looks % kinds.length] ?? null));
    const tip = lessonTip(view);
    told(tip, view);
    if (tip.press === null || tip.press === 'z') practice.pass(10);
    else {
      press(practice, tip.press, () => {
        looks += 1;
      });
      practice.pass(1);
    }
  }
}

describe('the lesson', () => {
  it('leads whoever presses what its tips say, and nothing else, to decisions that are all right', () => {
    const practice = lesson();
    const asked = new Set<string>();
    follow(practice, (tip, { batch }) => {
      asked.add(openAsk(batch));
      expect(tip.says.length, tip.says).toBeLessThan(59);
    });
    const debrief = debriefOf(practice);
    expect(debrief.decisions.filter(({ verdict }) => verdict !== 'right')).toEqual([]);
    expect(debrief.lost).toEqual([]);
    expect(asked.size).toBeGreaterThan(15);
  });

  it('follows the needle: never "at the mark" while it is elsewhere, never "below" while it is there', () => {
    const said = new Set<string>();
    follow(lesson(), ({ says, press: key }, { batch, see }) => {
      const ask = openAsk(batch);
      if (ask !== 'climbing' && ask !== 'holding') return;
      const dial = see('dial');
      const apart = dial?.kind === 'dial' ? dial.kPa - batch.header.numbers.targetKPa : Number.NaN;
      said.add(says);
      // One psi is 6.9 kPa; a needle closer than 3 kPa to the mark cannot be told from one at it.
      if (/is (back )?at the mark|^At the mark/.test(says)) expect(apart, says).toBeGreaterThan(-3.01);
      if (/^Less|stands high|over the mark/.test(says)) expect(apart, says).toBeGreaterThan(-3.01);
      if (/[Bb]elow the mark|^It sinks/.test(says)) expect(apart, says).toBeLessThan(0.01);
      if (ask === 'climbing' && key === '2') expect(apart).toBeLessThan(6.01);
      if (ask === 'climbing' && apart < 0) expect(key).toBeNull();
    });
    expect(said.size).toBeGreaterThan(5);
  });

  it('says something else as soon as the needle moves, whatever was said before', () => {
    const practice = lesson();
    const at = (kPa: number, knob: number, belief: 'at' | 'below') => {
      const { batch } = practice.run;
      const { targetKPa } = batch.header.numbers;
      return lessonTip({
        batch: { ...batch, step: 'hold', ask: 'holding', hold: { ...batch.hold, belief } },
        see: kind => (kind === 'dial' ? { kind, kPa: targetKPa + kPa } : null),
        looking: 'dial',
        knob,
        flameOut: false,
      });
    };
    expect(at(1, 10, 'at').press).toBe('-');
    expect(at(1, 10, 'at').says).toContain('until it shows 6');
    expect(at(12, 6, 'at')).toMatchObject({ press: '-', says: 'It stands high: press - once.' });
    expect(at(-8, 5, 'at').press).toBe('1');
    expect(at(-8, 5, 'below').press).toBe('+');
    expect(at(0, 6, 'below').press).toBe('2');
  });

  it('says nothing of a needle that is not in sight, nor of a jet', () => {
    const practice = lesson();
    const tipAt = (ask: 'climbing' | 'holding' | 'steam' | 'venting', looking: SightKind) => {
      const view = viewOf(practice, looking);
      return lessonTip({ ...view, batch: { ...view.batch, step: 'hold', ask } });
    };
    for (const ask of ['climbing', 'holding'] as const) {
      expect(tipAt(ask, 'vent')).toMatchObject({
        press: 'l',
        says: expect.stringContaining('the gauge again'),
      });
      expect(tipAt(ask, 'dial').press).not.toBe('l');
    }
    for (const ask of ['steam', 'venting'] as const) {
      expect(tipAt(ask, 'dial')).toMatchObject({
        press: 'l',
        says: expect.stringContaining('the steam again'),
      });
      expect(tipAt(ask, 'vent').press).not.toBe('l');
    }
  });

  // Right is what the picture shows: over 0.18 of the cut white is a core, over 0.02 a thin line (the tips' own scale).
  it.each([
    ['translucent', 0.3, 'u'],
    ['thin-line', 0, 'u'],
    ['white-core', 0, 'u'],
    ['translucent', 0, '1'],
    ['thin-line', 0.1, '1'],
    ['white-core', 0.3, '1'],
  ] as const)('a cut called %s with %d of it white: %s is asked for', (centre, core, key) => {
    const { batch } = lesson().run;
    const asked = lessonTip({
      batch: { ...batch, step: 'simmer', ask: 'burst', kernels: [{ t: 0, centre, burst: null }] },
      see: kind => (kind === 'kernel' ? { kind, core } : null),
      looking: 'handful',
      knob: 3,
      flameOut: false,
    });
    expect(asked.press).toBe(key);
    expect(asked.says.length).toBeLessThan(59);
  });

  it('hurries until a key is asked for, and waits for it then', () => {
    let now = 0;
    let beat = () => {};
    const practice = lesson();
    const session = startPractice({
      practice,
      wish: { lesson: true },
      speed: 240,
      steady: () => now,
      every: (_, work) => {
        beat = work;
        return () => {};
      },
      mistakes: [],
    });
    session.send({ type: 'answer', ask: 'gear-check', choice: 'ready' });
    expect(session.run.batch.ask).toBe('simmer-start');
    expect(session.tip(null)?.press).toBeNull();
    expect(session.pace).toBe(240);
    for (let n = 0; n < 200 && session.tip(null)?.press === null; n += 1) {
      now += 200;
      beat();
    }
    expect(session.tip(null)).toMatchObject({ press: 'space', says: 'The pot bubbles: press Space.' });
    expect(session.pace).toBe(1);
  });
});
