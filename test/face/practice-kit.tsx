/** The practice screen over a practice driven by hand: real time, services and alerts faked. */
import { openAsk } from '../../src/core/batch/lockout.ts';
import { withDefaults } from '../../src/core/kitchen.ts';
import type { FaultId } from '../../src/core/practice/faults.ts';
import type { Mistake } from '../../src/core/practice/mistakes.ts';
import type { Practice } from '../../src/core/practice/practice.ts';
import type {
  PracticeNote,
  PracticeServices,
  PracticeSession,
  PracticeWish,
} from '../../src/core/practice/session.ts';
import { doMove, Trainee } from '../../src/core/practice/trainee.ts';
import type { Services } from '../../src/core/services.ts';
import { type Look, lookFor } from '../../src/face/look.ts';
import { type Regions, regionsFor } from '../../src/face/regions.ts';
import { PracticeScreen } from '../../src/face/screens/practice.tsx';
import { BEAT_MS, startPractice } from '../../src/shell/practice-session.ts';
import { practiceOf } from '../help/practice-kit.ts';

export const plainLook: Look = lookFor({ colour: 'none', ascii: false });
export const asciiLook: Look = lookFor({ colour: 'none', ascii: true });

export function regions(columns: number, rows: number): Regions {
  const found = regionsFor({ columns, rows });
  if (found === 'too-small') throw new Error(`${columns}x${rows} is too small`);
  return found;
}

export interface Stage {
  readonly practice: Practice;
  readonly session: PracticeSession;
  readonly again: PracticeWish[];
  readonly kept: PracticeNote[];
  leaves: number;
  steady: number;
  /** Lets real time pass on the practice's own ticker. */
  live(ms: number): void;
  view(columns: number, rows: number, look?: Look): React.JSX.Element;
}

export interface StageWishes {
  readonly seed?: number;
  readonly faults?: readonly FaultId[];
  readonly wish?: PracticeWish;
  /** Habits of the trainee. */
  readonly mistakes?: readonly Mistake[];
  /** The careful trainee has played up to this question. */
  readonly until?: string;
}

const nothing = () => {};

export function stage({ seed = 7, faults = [], wish = {}, mistakes = [], until }: StageWishes = {}): Stage {
  const practice = practiceOf(seed, faults, { soak: false, loads: [2] });
  if (until !== undefined) {
    const trainee = new Trainee(practice, mistakes);
    while (openAsk(practice.run.batch) !== until) doMove(practice, trainee.next());
  }
  let beat = nothing;
  let now = 0;
  const session = startPractice({
    practice,
    wish,
    speed: 60,
    steady: () => now,
    every: (_, work) => {
      beat = work;
      return nothing;
    },
    mistakes: [],
  });
  const made: Omit<Stage, 'view'> = {
    practice,
    session,
    again: [],
    kept: [],
    leaves: 0,
    steady: 0,
    live: ms => {
      for (let passed = 0; passed < ms; passed += BEAT_MS) {
        now += BEAT_MS;
        beat();
      }
    },
  };
  const services = {
    now: () => practice.run.batch.wall,
    steady: () => made.steady,
    kitchen: () => withDefaults({}),
    alerter: { raise: nothing, answered: nothing, show: nothing, wish: nothing, close: nothing },
    marks: [],
  } as unknown as Services;
  const practising: PracticeServices = {
    begin: () => Promise.reject(new Error('not here')),
    keep: ended => {
      const { right, lost, next, recipe } = ended.debrief();
      made.kept.push({ wall: 1, seed, recipe, right, of: 12, lost, next, wrong: [] });
      return null;
    },
    notes: () => made.kept,
    offersLesson: () => false,
    lessonAnswered: nothing,
  };
  return Object.assign(made, {
    view: (columns: number, rows: number, look: Look = plainLook) => (
      <PracticeScreen
        look={look}
        regions={regions(columns, rows)}
        services={services}
        practice={practising}
        session={session}
        onAgain={again => made.again.push(again)}
        onLeave={() => {
          made.leaves += 1;
        }}
      />
    ),
  });
}
