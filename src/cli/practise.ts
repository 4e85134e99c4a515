/** The command `practise`: a practice on screen, one that plays itself, or only its debrief as JSON. */
import { withDefaults } from '../core/kitchen.ts';
import { runNumbers } from '../core/plan/run-numbers.ts';
import { checkSeed, SEEDS } from '../core/practice/chance.ts';
import { FAULT_IDS, type FaultId, isFault } from '../core/practice/faults.ts';
import { LESSON_RECIPE, LESSON_SEED, lessonKitchen } from '../core/practice/lesson.ts';
import { FAULT_FOR, isMistake, MISTAKES, type Mistake } from '../core/practice/mistakes.ts';
import { isSpeed, SPEEDS, type Speed } from '../core/practice/pace.ts';
import { Practice } from '../core/practice/practice.ts';
import type { PracticeSession, PracticeSubject, PracticeWish } from '../core/practice/session.ts';
import type { Recipe } from '../core/recipe/recipe.ts';
import { FAULT_WORDS, MISTAKE_WORDS } from '../core/words/practice.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';
import { startPractice } from '../shell/practice-session.ts';
import type { Arguments } from './arguments.ts';
import { readRecipes, wantedRecipe, type World } from './world.ts';

const usage = (message: string, ...tryThis: string[]): GrowerError =>
  new GrowerError(message, { tryThis, exitCode: EXIT.usage });

/** Digits of an option, or undefined when it was not said; anything else is refused in one sentence. */
function numberOf(said: string | true | undefined, refused: string): number | undefined {
  if (said === undefined) return undefined;
  if (said === true || !/^\d{1,6}$/.test(said)) throw usage(refused);
  return Number(said);
}

/** Names separated by commas, each once. */
const listOf = (said: string | true | undefined): string[] | undefined =>
  typeof said === 'string' ? [...new Set(said.split(',').map(part => part.trim()))] : undefined;

const SEED_WORDS = `A seed is a whole number from 0 to ${SEEDS - 1}.`;
const SPEED_WORDS = `A speed is one of ${SPEEDS.join(', ')}.`;

function checkFaults(faults: readonly string[]): void {
  if (!faults.every(fault => fault === 'none' || isFault(fault))) {
    const known = FAULT_IDS.map(id => `${id}: ${FAULT_WORDS[id].sign}`);
    throw usage(
      'There is no fault of that name.',
      'none, or one or more of these, with commas between:',
      ...known,
    );
  }
  if (faults.includes('none') && faults.length > 1)
    throw usage('The fault "none" stands alone: it means that nothing is wrong.');
  if (faults.includes('soft-grain') && faults.includes('stubborn-grain'))
    throw usage('Grain is soft or stubborn, not both.');
}

function checkMistakes(mistakes: readonly string[], plays: boolean): void {
  if (!mistakes.every(isMistake)) {
    const known = MISTAKES.map(id => `${id}: ${MISTAKE_WORDS[id]}`);
    throw usage('There is no mistake of that name.', 'One or more of these, with commas between:', ...known);
  }
  if (!plays) {
    throw usage(
      'A mistake is made by the trainee that plays by itself; on the screen you make your own.',
      'Add --report to see what it costs, or --auto to watch it.',
    );
  }
}

/** What the options wish for. Throws GrowerError for a value nobody knows, and for two that exclude each other. */
export function wishOf({ options }: Pick<Arguments, 'options'>): PracticeWish {
  const seed = numberOf(options.seed, SEED_WORDS);
  const speed = numberOf(options.speed, SPEED_WORDS);
  const faults = listOf(options.fault);
  const mistakes = listOf(options.mistake);
  if (seed !== undefined && seed >= SEEDS) throw usage(SEED_WORDS);
  if (speed !== undefined && !isSpeed(speed)) throw usage(SPEED_WORDS);
  if (faults) checkFaults(faults);
  if (mistakes) checkMistakes(mistakes, options.auto === true || options.report === true);
  return {
    ...(seed === undefined ? {} : { seed }),
    ...(speed === undefined ? {} : { speed }),
    ...(faults === undefined ? {} : { faults }),
    ...(mistakes === undefined ? {} : { mistakes }),
    ...(options.auto === true ? { auto: true } : {}),
  };
}

/** Habits of the trainee that plays by itself. */
export const mistakesOf = (wish: PracticeWish): Mistake[] => (wish.mistakes ?? []).filter(isMistake);

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

/** The practice wished for, before anything was done in it. Throws GrowerError when there is nothing to practise. */
export async function practiceFor(
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
