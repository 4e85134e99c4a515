import { describe, expect, it } from 'vitest';
import { openAsk } from '../../src/core/batch/lockout.ts';
import { type AskId, choicesOf } from '../../src/core/batch/steps.ts';
import { LESSON_RECIPE, LESSON_SEED, lessonKitchen } from '../../src/core/practice/lesson.ts';
import { Practice } from '../../src/core/practice/practice.ts';
import type { PracticeSession } from '../../src/core/practice/session.ts';
import { mustLook, type SightKind, sightKinds } from '../../src/core/practice/sights.ts';
import { runNumbers } from '../../src/core/plan/run-numbers.ts';
import { METRIC } from '../../src/core/quantity-format.ts';
import { askWords } from '../../src/core/words/asks.ts';
import { tellingOf } from '../../src/face/format.ts';
import { answersOf } from '../../src/face/run-view.ts';
import { BEAT_MS, startPractice } from '../../src/shell/practice-session.ts';

/** A slow adult reader of plain text (common figures are 200 to 250 words a minute), and a first-timer's key. */
const WORDS_A_MINUTE = 200;
const KEY_MS = 1000;

const wordsOf = (text: string): number => text.trim().split(/\s+/).length;

/** Somebody who reads every question, its answers and every tip once, whole, and then presses what is asked. */
class Reader {
  readonly session: PracticeSession;
  ms = 0;
  readonly #read = new Set<string>();
  #beat = () => {};
  #nextBeat = 0;
  #place = '';
  #looks = 0;

  constructor(practice: Practice) {
    this.session = startPractice({
      practice,
      wish: { lesson: true },
      speed: 240,
      steady: () => this.ms,
      every: (_, work) => {
        this.#beat = work;
        return () => {};
      },
      mistakes: [],
    });
  }

  /** Reads what stands there, and does what it says if it still says so. */
  step(): void {
    const { batch } = this.session.run;
    const ask = openAsk(batch);
    const looking = this.#looking();
    const tip = this.session.tip(looking);
    const telling = tellingOf(batch, METRIC);
    const labels = answersOf(batch, telling).map(({ says }) => says);
    const words =
      this.#once(tip?.says ?? '') +
      this.#once(`${ask}: ${askWords(batch, ask, telling)}`) +
      this.#once(`${ask}: ${labels.join(' ')}`);
    this.#pass((words * 60_000) / WORDS_A_MINUTE);
    const now = this.session.tip(looking);
    if (now?.says !== tip?.says) return;
    if (now?.press == null) this.#pass(BEAT_MS);
    else {
      this.#pass(KEY_MS);
      this.#press(now.press, openAsk(this.session.run.batch));
    }
  }

  #looking(): SightKind | null {
    const { batch } = this.session.run;
    const place = `${batch.step}${batch.ask}${batch.cursor}`;
    if (place !== this.#place) this.#looks = mustLook(batch) ? -1 : 0;
    this.#place = place;
    const kinds = sightKinds(batch);
    return this.#looks < 0 ? null : (kinds[this.#looks % Math.max(1, kinds.length)] ?? null);
  }
  #once(text: string): number {
    // Numbers that run are not read again.
    const kind = text.replaceAll(/\d+/g, '#');
    if (this.#read.has(kind)) return 0;
    this.#read.add(kind);
    return wordsOf(text.replace(/^[a-z-]+: /, ''));
  }
  #pass(ms: number): void {
    const end = this.ms + ms;
    for (; this.#nextBeat <= end; this.#nextBeat += BEAT_MS) {
      this.ms = this.#nextBeat;
      this.#beat();
    }
    this.ms = end;
  }
  #press(key: string, ask: AskId): void {
    if (key === 'l') this.#looks += 1;
    else if (key === '+' || key === '-') this.session.turnFlame(key === '+' ? 1 : -1);
    else if (key === 'z') this.session.sleep();
    else {
      const choice = choicesOf(ask).find(one => one.key === key);
      if (choice) this.session.send({ type: 'answer', ask, choice: choice.id });
    }
  }
}

describe('the lesson', () => {
  it('takes about four minutes at 200 words a minute and a second for each key, and ends well', () => {
    const kitchen = lessonKitchen(METRIC);
    const reader = new Reader(
      new Practice({
        recipe: LESSON_RECIPE,
        kitchen,
        numbers: runNumbers(LESSON_RECIPE, kitchen),
        seed: LESSON_SEED,
        faults: [],
        beganWall: Date.UTC(2026, 0, 10, 18),
      }),
    );
    for (let turn = 0; turn < 5000 && reader.session.run.batch.finishedAt === null; turn += 1) reader.step();
    expect(reader.session.run.batch.finishedAt).not.toBeNull();
    expect(reader.session.debrief().decisions.filter(({ verdict }) => verdict !== 'right')).toEqual([]);
    expect(reader.ms / 1000).toBeGreaterThan(3.5 * 60);
    expect(reader.ms / 1000).toBeLessThan(4.2 * 60);
  });
});
