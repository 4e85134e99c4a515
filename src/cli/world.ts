/** The real world for one start of the program: places, clock, settings, batches, alerts. */
import { homedir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { openPractice } from './practise-services.ts';
import type { Batch } from '../core/batch/state.ts';
import { learnFrom } from '../core/estimate/learn.ts';
import { withDefaults } from '../core/kitchen.ts';
import type { Alerter, Clock, Settings } from '../core/ports.ts';
import { pastSteps } from '../core/plan/past-steps.ts';
import { type Plan, planOf } from '../core/plan/plan.ts';
import type { RecipeChoice, Services } from '../core/services.ts';
import { warningWords } from '../core/words/plan-warnings.ts';
import { GAP } from '../shell/session.ts';
import { createAlerter } from '../shell/alerts.ts';
import { type BatchesOptions, beginBatch, listBatches, openBatch } from '../shell/batches.ts';
import { createClock, createSpedClock } from '../shell/clock.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';
import { findPlaces, type Places } from '../shell/paths.ts';
import { openAfter } from './record-world.ts';
import { openSettings } from '../shell/settings.ts';
import { createSpeech, findSpeech } from '../shell/speech.ts';
import { recogniseTerminal } from '../shell/terminal-signals.ts';

export interface World {
  readonly places: Places;
  readonly clock: Clock;
  readonly settings: Settings;
  readonly batches: BatchesOptions;
  readonly marks: readonly string[];
  /** Folder of the recipes that come with the program. */
  readonly shipped: string;
}

/** Nobody has answered or skipped the first questions yet. */
export const isKitchenUnasked = ({ settings }: World): boolean =>
  !settings.values.kitchenAsked && Object.keys(settings.values.kitchen).length === 0;

interface TestClock {
  readonly clock: Clock;
  readonly factor: number;
}

/** `600` or `600@1700000000000`: for the terminal tests, never offered, marked on every screen. */
function testClock(said: string | undefined): TestClock | null {
  const match = /^(\d+(?:\.\d+)?)(?:@(\d+))?$/.exec(said ?? '');
  if (!match) return null;
  const factor = Number(match[1]);
  const clock = match[2] === undefined ? createSpedClock(factor) : createSpedClock(factor, Number(match[2]));
  return { clock, factor };
}

/** Opens what every command needs; nothing is written yet. */
export function openWorld(homeFlag: string | undefined, env: NodeJS.ProcessEnv, shipped: URL): World {
  const places = findPlaces({
    platform: process.platform,
    env,
    userHome: homedir(),
    cwd: process.cwd(),
    homeFlag,
  });
  const sped = testClock(env.STOVEHAND_TEST_CLOCK);
  const clock = sped?.clock ?? createClock();
  return {
    places,
    clock,
    settings: openSettings(places.settings),
    batches: { folder: places.batches, clock, gapMs: GAP * (sped?.factor ?? 1) },
    marks: sped ? [`TEST CLOCK x${sped.factor}`] : [],
    shipped: fileURLToPath(shipped),
  };
}

/** The alerter on this terminal. */
export function openAlerter({ settings, clock }: World, env: NodeJS.ProcessEnv): Alerter {
  const { kitchen } = withDefaults(settings.values.kitchen);
  const program = kitchen.alerts.speech ? findSpeech(process.platform, env) : null;
  return createAlerter({
    terminal: recogniseTerminal(env, process.stdout.isTTY === true),
    wishes: kitchen.alerts,
    write: text => process.stdout.write(text),
    minuteOfDay: () => {
      const now = new Date(clock.sample().wall);
      return now.getHours() * 60 + now.getMinutes();
    },
    steady: () => performance.now(),
    schedule: (ms, work) => {
      const timer = setTimeout(work, ms);
      return () => clearTimeout(timer);
    },
    speech: program ? createSpeech(program) : null,
    canRing: process.stdout.isTTY === true,
  });
}

const folders = ({ places, shipped }: World) => ({ shipped, own: places.recipes });

/** All recipes there are. The YAML reader is only loaded when this is asked. */
export async function readRecipes(world: World): Promise<readonly RecipeChoice[]> {
  const { listRecipes } = await import('../shell/recipes.ts');
  return listRecipes(folders(world)).entries.map(({ name, shipped, parsed }) => ({
    name,
    own: !shipped,
    recipe: parsed.ok ? parsed.recipe : null,
    problems: parsed.ok ? [] : parsed.problems.map(problemLine),
  }));
}

interface Placed {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly says: string;
}
/** `rye.yaml:12:9 what is wrong`, as compilers write places, so that editors can jump there. */
export const problemLine = ({ file, line, column, says }: Placed): string =>
  `${file}:${line}:${column} ${says}`;

/** The recipe of that name or path; throws GrowerError when there is none or it cannot be read. */
export async function wantedRecipe(world: World, wanted: string): Promise<RecipeChoice> {
  const { findRecipe } = await import('../shell/recipes.ts');
  const { name, path, shipped, parsed } = findRecipe(wanted, folders(world), process.cwd());
  if (!parsed.ok) {
    throw new GrowerError(`The recipe ${name} cannot be used:`, {
      tryThis: parsed.problems.map(problemLine),
      exitCode: EXIT.badFile,
    });
  }
  // What `again` repeats has to be found from any folder.
  return { name: shipped ? name : path, own: !shipped, recipe: parsed.recipe, problems: [] };
}

/**
 * What `again` runs: the recipe last run, or the one of the last batch where its file was left behind in another
 * home. Throws GrowerError when there is neither, or when the file cannot be read.
 */
export async function againRecipe(world: World): Promise<RecipeChoice> {
  const { lastRecipe } = world.settings.values;
  if (lastRecipe !== '') return wantedRecipe(world, lastRecipe);
  const last = listBatches(world.batches).findLast(({ batch }) => batch !== null)?.batch;
  if (last) return { name: '', own: true, recipe: last.header.recipe, problems: [] };
  throw new GrowerError('There is no last recipe yet.', {
    tryThis: ['Begin with: stovehand run RECIPE'],
    exitCode: EXIT.usage,
  });
}

/** A plan that says no is not begun, by whatever way it was chosen. */
function refuseImpossible({ warnings, kitchen, recipe }: Plan): void {
  const no = warnings.find(({ weight }) => weight === 'no');
  if (no === undefined) return;
  const { what, why, change } = warningWords(no, kitchen.units, recipe.containers.kind);
  throw new GrowerError(`${what} ${why}`, { tryThis: [change], exitCode: EXIT.usage });
}

/** What the full-screen face may ask for. */
export function openServices(world: World, alerter: Alerter): Services {
  const { settings, batches } = world;
  const kitchen = () => withDefaults(settings.values.kitchen);
  return {
    now: () => world.clock.sample().wall,
    steady: () => performance.now(),
    kitchen,
    saveKitchen: async change => {
      try {
        await settings.save({ kitchen: { ...settings.values.kitchen, ...change } });
        alerter.wish(kitchen().kitchen.alerts);
        return null;
      } catch (problem) {
        return problem instanceof Error ? problem.message : String(problem);
      }
    },
    kitchenWasAsked: () => {
      // Asking again at the next start is the worst that can come of not keeping this.
      void settings.save({ kitchenAsked: true }).catch(() => undefined);
    },
    recipes: () => readRecipes(world),
    batches: () => listBatches(batches),
    begin: async choice => {
      if (!choice.recipe) throw new GrowerError('That recipe cannot be read.', { exitCode: EXIT.badFile });
      const known = kitchen();
      const earlier = listBatches(batches).flatMap(({ batch }) => batch ?? []);
      const plan = planOf(choice.recipe, known, pastSteps(earlier));
      refuseImpossible(plan);
      const learned = learnFrom(earlier, choice.recipe);
      const session = beginBatch(batches, {
        recipe: choice.recipe,
        kitchen: known.kitchen,
        numbers: plan.numbers,
        practice: false,
        ...(learned === null ? {} : { learned }),
      });
      // A batch that runs is worth more than the memory of its name.
      await settings.save({ lastRecipe: choice.name }).catch(() => undefined);
      return session;
    },
    open: id => openBatch(batches, id),
    saveRecipe: batch => saveRecipeOf(world, batch),
    after: openAfter(world),
    alerter,
    practice: openPractice(world),
    marks: world.marks,
  };
}

/** Saves a batch's recipe into the person's own folder, under a name that is free. */
export async function saveRecipeOf(world: World, batch: Batch): Promise<string> {
  const { sameRecipe, saveRecipe } = await import('../shell/recipes.ts');
  try {
    const { recipe, kitchen } = batch.header;
    const same = sameRecipe(recipe, kitchen.units, folders(world));
    if (same?.shipped) return `This is the shipped recipe ${same.name} unchanged: there is nothing to save.`;
    if (same) return `Already saved as ${same.path}.`;
    const saved = saveRecipe(recipe, kitchen.units, folders(world));
    return `Saved as ${saved}.`;
  } catch (problem) {
    return problem instanceof Error ? problem.message : String(problem);
  }
}
