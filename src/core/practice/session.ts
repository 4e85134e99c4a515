/** How the face meets a practice: a batch session, and the kitchen's eyes and hands beside it. */
import type { Kitchen } from '../kitchen.ts';
import type { Recipe } from '../recipe/recipe.ts';
import type { Session } from '../session.ts';
import type { Debrief } from './debrief.ts';
import type { Tip } from './lesson-tips.ts';
import type { Speed } from './pace.ts';
import type { Sight, SightKind } from './sights.ts';
import type { Sense } from './world.ts';

/** What a person can want of a practice before it begins. */
export interface PracticeWish {
  readonly seed?: number;
  readonly faults?: readonly string[];
  readonly mistakes?: readonly string[];
  readonly speed?: number;
  /** Plays itself. */
  readonly auto?: boolean;
  /** The short guided one. */
  readonly lesson?: boolean;
}

export interface PracticeSession extends Session {
  readonly seed: number;
  readonly wish: PracticeWish;
  /** Whole simulated seconds since the beginning. */
  readonly second: number;
  readonly speed: Speed;
  /** Simulated seconds for each real one just now: less than `speed` while an answer is wanted. */
  readonly pace: number;
  readonly knob: number;
  readonly flameOut: boolean;
  /** Null while there is no cooker over the flame. */
  readonly valveOpen: boolean | null;
  /** Seconds until somebody is at the stove again; null when somebody is. */
  readonly awayS: number | null;
  /** What was last heard or smelt, while it is worth saying. */
  readonly heard: Sense | null;
  look(kind: SightKind): Sight | null;
  /** What the lesson says now to somebody who looks at this; null outside of a lesson. */
  tip(looking: SightKind | null): Tip | null;
  turnFlame(by: 1 | -1): boolean;
  faster(): void;
  /** Jumps to the next thing wanted where a person may sleep; false elsewhere. */
  sleep(): boolean;
  debrief(): Debrief;
}

/** One practice as it is remembered: a trainee's own progress, apart from every batch. */
export interface PracticeNote {
  /** Wall clock when it ended, ms. */
  readonly wall: number;
  readonly seed: number;
  readonly recipe: string;
  readonly right: number;
  readonly of: number;
  readonly lost: readonly string[];
  readonly next: string | null;
  /** Decisions that were not right. */
  readonly wrong: readonly string[];
}

/** What is practised: a recipe, in another kitchen than the person's own where one was tried on the sheet. */
export interface PracticeSubject {
  readonly recipe: Recipe;
  readonly kitchen?: Kitchen;
}

/** What the shell offers the face for practising. */
export interface PracticeServices {
  /** Begins one, of the last recipe when none is named; throws an error with a sentence when that cannot be. */
  readonly begin: (subject: PracticeSubject | null, wish: PracticeWish) => Promise<PracticeSession>;
  /** Keeps what a practice was worth; a sentence when it could not be kept. */
  readonly keep: (session: PracticeSession) => string | null;
  readonly notes: () => readonly PracticeNote[];
  /** Whether the lesson is still to be offered: it was neither taken nor turned down. */
  readonly offersLesson: () => boolean;
  /** It was taken or turned down; the key works ever after. */
  readonly lessonAnswered: () => void;
}
