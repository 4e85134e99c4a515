/** The command `practise`: a practice on screen, one that plays itself, or only its debrief as JSON. */
import { withDefaults } from '../core/kitchen.ts';
import { visibleJson } from '../core/text.ts';
import { runNumbers } from '../core/plan/run-numbers.ts';
import { checkSeed, SEEDS } from '../core/practice/chance.ts';
import { debriefOf } from '../core/practice/debrief.ts';
import { FAULT_IDS, type FaultId, isFault } from '../core/practice/faults.ts';
import { LESSON_RECIPE, LESSON_SEED, lessonKitchen } from '../core/practice/lesson.ts';
import { FAULT_FOR, isMistake, MISTAKES, type Mistake } from '../core/practice/mistakes.ts';
import { isSpeed, SPEEDS, type Speed } from '../core/practice/pace.ts';
import { Practice } from '../core/practice/practice.ts';
import type { PracticeSession, PracticeSubject, PracticeWish } from '../core/practice/session.ts';
import { playThrough } from '../core/practice/trainee.ts';
import type { Recipe } from '../core/recipe/recipe.ts';
import { FAULT_WORDS, LOSS_WORDS } from '../core/words/practice.ts';
import {
  DECISION_NAMES,
  decisionWords,
  NEXT_WORDS,
  toleranceWords,
} from '../core/words/practice-decisions.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';
import { startPractice } from '../shell/practice-session.ts';
import type { Arguments } from './arguments.ts';
import { readRecipes, wantedRecipe, type World } from './world.ts';

const usage = (message: string, ...tryThis: string[]): GrowerError =>
  new GrowerError(message, { tryThis, exitCode: EXIT.usage });

function numberOf(said: string | true | undefined, name: string): number | undefined {
  if (said === undefined) return undefined;
  const value = Number(said);
  if (said === true || !/^\d{1,6}$/.test(said)) throw usage(`The option --${name} takes a whole number.`);
  return value;
}

const listOf = (said: string | true | undefined): string[] | undefined =>
  typeof said === 'string' ? said.split(',').map(part => part.trim()) : undefined;

/** What the options wish for. Throws GrowerError for a value nobody knows. */
export function wishOf({ options }: Pick<Arguments, 'options'>): PracticeWish {
  const seed = numberOf(options.seed, 'seed');
  const speed = numberOf(options.speed, 'speed');
  const faults = listOf(options.fault);
  const mistakes = listOf(options.mistake);
  if (seed !== undefined && seed >= SEEDS) throw usage(`A seed is a whole number from 0 to ${SEEDS - 1}.`);
  if (speed !== undefined && !isSpeed(speed)) throw usage(`A speed is one of ${SPEEDS.join(', ')}.`);
  for (const fault of faults ?? []) {
    if (fault !== 'none' && !isFault(fault)) {
      throw usage(`There is no fault of that name.`, `One or more of: none, ${FAULT_IDS.join(', ')}`);
    }
  }
  for (const mistake of mistakes ?? []) {
    if (!isMistake(mistake))
      throw usage('There is no mistake of that name.', `One or more of: ${MISTAKES.join(', ')}`);
  }
  return {
    ...(seed === undefined ? {} : { seed }),
    ...(speed === undefined ? {} : { speed }),
    ...(faults === undefined ? {} : { faults }),
    ...(mistakes === undefined ? {} : { mistakes }),
    ...(options.auto === true ? { auto: true } : {}),
  };
}

const mistakesOf = (wish: PracticeWish): Mistake[] => (wish.mistakes ?? []).filter(isMistake);

/** Chosen faults, with what a chosen mistake needs to do harm; undefined draws them from the seed. */
function faultsOf(wish: PracticeWish): FaultId[] | undefined {
  const needed = mistakesOf(wish).flatMap(mistake => FAULT_FOR[mistake] ?? []);
  if (wish.lesson) return [];
  if (wish.faults === undefined) return mistakesOf(wish).length > 0 ? needed : undefined;
  return [...new Set([...wish.faults.filter(isFault), ...needed])];
}

/** The recipe named on the command line, or null when none was. */
export async function subjectOf(said: Arguments, world: World): Promise<PracticeSubject | null> {
  const [name] = said.words;
  const recipe = name === undefined ? null : (await wantedRecipe(world, name)).recipe;
  return recipe === null ? null : { recipe };
}

async function lastRecipe(world: World): Promise<Recipe> {
  const last = world.settings.values.lastRecipe;
  const choice =
    last === ''
      ? (await readRecipes(world)).find(({ recipe }) => recipe !== null && recipe.soak === null)
      : await wantedRecipe(world, last);
  if (choice?.recipe) return choice.recipe;
  throw usage('There is no recipe to practise.', 'Name one: stovehand practise RECIPE');
}

async function practiceFor(
  world: World,
  subject: PracticeSubject | null,
  wish: PracticeWish,
): Promise<Practice> {
  const recipe = wish.lesson ? LESSON_RECIPE : (subject?.recipe ?? (await lastRecipe(world)));
  const own = subject?.kitchen ?? withDefaults(world.settings.values.kitchen).kitchen;
  const kitchen = wish.lesson ? lessonKitchen(own.units) : own;
  const { wall } = world.clock.sample();
  const faults = faultsOf(wish);
  return new Practice({
    recipe,
    kitchen,
    numbers: runNumbers(recipe, kitchen),
    seed: checkSeed(wish.lesson ? LESSON_SEED : (wish.seed ?? Math.floor(wall / 1000) % SEEDS)),
    beganWall: wall,
    ...(faults === undefined ? {} : { faults }),
    ...(wish.lesson ? { id: 'lesson' } : {}),
  });
}

const speedOf = (wish: PracticeWish): Speed => {
  if (wish.speed !== undefined && isSpeed(wish.speed)) return wish.speed;
  return wish.auto || wish.lesson ? 240 : 60;
};

/** Begins a practice on the machine's clock. Throws GrowerError when there is nothing to practise. */
export async function beginPractice(
  world: World,
  subject: PracticeSubject | null,
  wish: PracticeWish,
): Promise<PracticeSession> {
  return startPractice({
    practice: await practiceFor(world, subject, wish),
    wish,
    speed: speedOf(wish),
    steady: () => performance.now(),
    every: (ms, work) => {
      const timer = setInterval(work, ms);
      // The screen keeps the program running, not the simulated kitchen.
      timer.unref();
      return () => clearInterval(timer);
    },
    mistakes: mistakesOf(wish),
  });
}

/** Plays a practice without a screen and prints its debrief as JSON; the answer is the exit code. */
export async function report(said: Arguments, world: World): Promise<number> {
  const wish = wishOf(said);
  const practice = await practiceFor(world, await subjectOf(said, world), wish);
  playThrough(practice, mistakesOf(wish));
  const debrief = debriefOf(practice);
  const { units } = withDefaults(world.settings.values.kitchen).kitchen;
  const telling = { units, clock: String };
  const told = {
    ...debrief,
    mistakes: mistakesOf(wish),
    faults: debrief.faults.map(fault => ({ ...fault, ...FAULT_WORDS[fault.id] })),
    decisions: debrief.decisions.map(one => ({
      ...one,
      name: DECISION_NAMES[one.id],
      says: decisionWords(one, telling),
      rightIs: toleranceWords(one, telling),
    })),
    losses: debrief.lost.map(id => LOSS_WORDS[id]),
    practiseNext: debrief.next === null ? null : NEXT_WORDS[debrief.next],
    notice: 'Practice against a simulated cooker. Lethality is an estimate, not a claim of sterility.',
  };
  process.stdout.write(`${visibleJson(told)}\n`);
  return EXIT.ok;
}
