/**
 * A practice on the machine's clock: real time drives the simulated kitchen at the chosen speed, and a
 * trainee may play by itself. Nothing of it is written to disk; a laptop that sleeps only pauses it.
 */
import type { Refusal } from '../core/batch/events.ts';
import type { Run } from '../core/batch/state.ts';
import { openAsk } from '../core/batch/lockout.ts';
import { type Debrief, debriefOf } from '../core/practice/debrief.ts';
import { LessonGuide, lessonDoes, lessonPace } from '../core/practice/lesson.ts';
import type { LessonView, Tip } from '../core/practice/lesson-tips.ts';
import type { Mistake } from '../core/practice/mistakes.ts';
import { faster, maySleep, type Speed } from '../core/practice/pace.ts';
import { Pacer } from '../core/practice/pacer.ts';
import type { Practice } from '../core/practice/practice.ts';
import type { PracticeSession, PracticeWish } from '../core/practice/session.ts';
import type { Sight, SightKind } from '../core/practice/sights.ts';
import { Trainee, doMove } from '../core/practice/trainee.ts';
import type { Sense } from '../core/practice/world.ts';
import type { Deed } from '../core/session.ts';

/** The picture moves this often; a needle that trembles faster cannot be read. */
export const BEAT_MS = 200;
/** A silence longer than this is a pause of the computer: practice pauses with it. */
const LONGEST_BEAT_MS = 1000;
/** While it plays by itself, an answer stays on screen for so long before it is given. */
const SHOWN_MS = 900;
const AWAY_SPEED = 120;
/** A sleep goes on at most for a day. */
const LONGEST_SLEEP_S = 86_400;
const SLEEP_STEP_S = 60;

export interface PracticeParts {
  readonly practice: Practice;
  readonly wish: PracticeWish;
  readonly speed: Speed;
  /** Ms of a clock that never jumps. */
  readonly steady: () => number;
  /** Calls again and again; the answer stops it. */
  readonly every: (ms: number, work: () => void) => () => void;
  /** Habits of the trainee that plays by itself. */
  readonly mistakes: readonly Mistake[];
}

class LivePractice implements PracticeSession {
  readonly role = 'running';
  readonly notices: readonly string[] = [];
  readonly trouble = null;
  readonly path = '';
  readonly wish: PracticeWish;
  run: Run;
  speed: Speed;
  readonly #parts: PracticeParts;
  readonly #listeners = new Set<() => void>();
  readonly #stop: () => void;
  readonly #trainee: Trainee | null;
  readonly #guide = new LessonGuide();
  #last: number;
  #owed = 0;
  readonly #pacer = new Pacer();
  #shownAt: number;
  #ask = '';
  /** What the screen shows: time runs by the tip that stands there. */
  #looking: SightKind | null = null;

  constructor(parts: PracticeParts) {
    this.#parts = parts;
    this.wish = parts.wish;
    this.run = parts.practice.run;
    this.speed = parts.speed;
    this.#last = parts.steady();
    this.#shownAt = this.#last;
    this.#trainee = parts.wish.auto ? new Trainee(parts.practice, parts.mistakes) : null;
    this.#stop = parts.every(BEAT_MS, () => this.#beat());
  }

  get seed(): number {
    return this.#parts.practice.seed;
  }
  get second(): number {
    return this.#parts.practice.second;
  }
  get pace(): number {
    // Away from the stove there is nothing to see, so that time passes quickly.
    return this.awayS === null ? this.#paceHere : Math.max(this.#paceHere, AWAY_SPEED);
  }
  get #paceHere(): number {
    const { wish } = this.#parts;
    if (wish.auto) return this.speed;
    if (!wish.lesson) return this.#pacer.pace(this.run.batch, this.speed, this.#last);
    const view = this.#view(this.#looking);
    return this.#pacer.isHurried ? this.speed : lessonPace(view, this.#guide.tip(view, this.#last));
  }
  get knob(): number {
    return this.#parts.practice.knob;
  }
  get flameOut(): boolean {
    return this.#parts.practice.flameOut;
  }
  get valveOpen(): boolean | null {
    return this.#parts.practice.valveOpen;
  }
  get awayS(): number | null {
    const { awayUntil, second } = this.#parts.practice;
    return awayUntil === null ? null : Math.max(0, awayUntil - second);
  }
  get heard(): Sense | null {
    return this.#pacer.heard(this.#parts.practice.senses, this.second, this.#last);
  }

  tip(looking: SightKind | null): Tip | null {
    this.#looking = looking;
    return this.wish.lesson ? this.#guide.tip(this.#view(looking), this.#last) : null;
  }
  #view(looking: SightKind | null): LessonView {
    const { practice } = this.#parts;
    const { knob, flameOut } = practice;
    return { batch: this.run.batch, see: kind => practice.look(kind), looking, knob, flameOut };
  }
  look(kind: SightKind): Sight | null {
    return this.#parts.practice.look(kind);
  }
  turnFlame(by: 1 | -1): boolean {
    const turned = this.#parts.practice.turnFlame(by);
    this.#publish();
    return turned;
  }
  /** The next speed; while slowed for an answer, time is hurried on instead, in one or two steps. */
  faster(): void {
    const { wish } = this.#parts;
    if (wish.lesson) this.#pacer.toggle();
    else if (wish.auto || !this.#pacer.hurry(this.run.batch, this.speed, this.#last)) {
      this.speed = faster(this.speed);
    }
    this.#publish();
  }
  sleep(): boolean {
    if (!maySleep(this.run.batch) || this.awayS !== null) return false;
    for (let slept = 0; slept < LONGEST_SLEEP_S && maySleep(this.run.batch); slept += SLEEP_STEP_S) {
      this.#parts.practice.pass(SLEEP_STEP_S);
      this.run = this.#parts.practice.run;
    }
    this.#pacer.slept();
    this.#publish();
    return true;
  }
  send(deed: Deed): Refusal | null {
    const refusal = this.#parts.practice.send(deed);
    this.#doForThem();
    if (refusal === null) this.#pacer.answered();
    this.#publish();
    return refusal;
  }
  debrief(): Debrief {
    return debriefOf(this.#parts.practice);
  }
  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }
  close(): void {
    this.#stop();
    this.#listeners.clear();
  }

  #beat(): void {
    const now = this.#parts.steady();
    const realMs = Math.min(LONGEST_BEAT_MS, now - this.#last);
    this.#last = now;
    if (this.run.batch.finishedAt !== null) return;
    // While a demo sleeps there is nothing to see either.
    const asleep = this.#trainee !== null && maySleep(this.run.batch);
    const pace = this.pace * (asleep ? 8 : 1);
    this.#owed += (realMs / 1000) * pace;
    const seconds = Math.floor(this.#owed);
    this.#owed -= seconds;
    if (this.#trainee) this.#play(this.#trainee, seconds, now);
    else this.#parts.practice.pass(seconds);
    this.#doForThem();
    if (!this.wish.lesson) this.#pacer.look(this.run.batch, this.#parts.practice.senses, now);
    this.#publish();
  }

  /** Spends simulated seconds on the trainee's moves; an answer waits until it could be read. */
  #play(trainee: Trainee, seconds: number, now: number): void {
    const { practice } = this.#parts;
    const until = practice.second + seconds;
    while (practice.second < until && practice.run.batch.finishedAt === null) {
      const ask = `${openAsk(practice.run.batch)}${practice.run.batch.cursor}`;
      if (ask !== this.#ask) {
        this.#ask = ask;
        this.#shownAt = now;
      }
      const move = trainee.next();
      if (move.kind === 'wait') practice.pass(Math.min(move.seconds, until - practice.second));
      else if (move.kind === 'deed' && now - this.#shownAt < SHOWN_MS) return;
      else doMove(practice, move);
    }
  }

  /** In a lesson, plain steps are done without being asked for. */
  #doForThem(): void {
    const { practice, wish } = this.#parts;
    for (let deed = wish.lesson ? lessonDoes(practice.run.batch) : null; deed !== null; ) {
      deed = practice.send(deed) === null ? lessonDoes(practice.run.batch) : null;
    }
    this.run = practice.run;
  }

  #publish(): void {
    // Flame, speed and needle move without the batch: a new run makes every view look again.
    this.run = { ...this.#parts.practice.run };
    for (const listener of [...this.#listeners]) listener();
  }
}

export const startPractice = (parts: PracticeParts): PracticeSession => new LivePractice(parts);
