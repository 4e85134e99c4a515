/**
 * The same batch line by line, for screen readers, dumb terminals and pipes: what to do is printed, a line
 * is an answer. Piped lines are taken in their order, and `wait` holds the next one back until it is due.
 */
import { createInterface } from 'node:readline';
import type { Batch } from '../core/batch/state.ts';
import { isDue } from '../core/batch/wanted.ts';
import { keepingProbe } from '../core/estimate/probe-kept.ts';
import { withDefaults } from '../core/kitchen.ts';
import { containerKey } from '../core/recipe/recipe.ts';
import type { Session } from '../core/session.ts';
import { refusalWords } from '../core/words/refusals.ts';
import { estimateParagraphs } from '../face/estimate-pages.ts';
import { tellingOf } from '../face/format.ts';
import { listBatches } from '../shell/batches.ts';
import { EXIT } from '../shell/failure.ts';
import type { Arguments } from './arguments.ts';
import { PLAIN_HELP, readLine } from './plain-lines.ts';
import { askKitchen } from './plain-kitchen.ts';
import {
  isKitchenUnasked,
  openAlerter,
  openServices,
  readRecipes,
  wantedRecipe,
  againRecipe,
  type World,
} from './world.ts';
import { PlainTeller, print, signature } from './plain-teller.ts';

const openBatch = (world: World) =>
  listBatches(world.batches).findLast(({ batch }) => batch !== null && batch.finishedAt === null);

/** Which session the words on the command line ask for. */
async function sessionFor(
  said: Arguments,
  world: World,
  ask: (question: string) => Promise<string | null>,
): Promise<Session | null> {
  const services = openServices(world, openAlerter(world, process.env));
  if (said.command === 'run') return services.begin(await wantedRecipe(world, said.words[0] ?? ''));
  if (said.command === 'again') return services.begin(await againRecipe(world));
  const open = openBatch(world);
  if (open) return services.open(open.id);
  const recipes = (await readRecipes(world)).filter(({ recipe }) => recipe !== null);
  recipes.forEach(({ recipe }, index) => {
    print(`${index + 1}  ${recipe?.name ?? ''}`);
  });
  const chosen = recipes[Number(await ask('Which recipe? A number, or q.')) - 1];
  return chosen ? services.begin(chosen) : null;
}

/** Lines of the input, one at a time; null at its end. */
function lineReader() {
  const reader = createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
  const lines: string[] = [];
  let waiting: ((line: string | null) => void) | null = null;
  let ended = false;
  reader.on('line', line => {
    if (waiting) {
      waiting(line);
      waiting = null;
    } else lines.push(line);
  });
  reader.on('close', () => {
    ended = true;
    waiting?.(null);
    waiting = null;
  });
  return {
    next: (): Promise<string | null> => {
      const line = lines.shift();
      if (line !== undefined) return Promise.resolve(line);
      if (ended) return Promise.resolve(null);
      return new Promise(resolve => {
        waiting = resolve;
      });
    },
    close: () => reader.close(),
  };
}

/** Resolves once the open question is another one, can be answered as planned, or the batch is over. */
function untilDue(session: Session): Promise<void> {
  const began = signature(session.run.batch);
  const over = (): boolean => {
    const { batch } = session.run;
    return signature(batch) !== began || isDue(batch) || batch.finishedAt !== null;
  };
  if (over()) return Promise.resolve();
  return new Promise(resolve => {
    const stop = session.subscribe(() => {
      if (!over()) return;
      stop();
      resolve();
    });
  });
}

/** Keeps what the thermometer of this batch measured; a sentence either way. */
async function keepProbe(batch: Batch, { settings }: World): Promise<string> {
  const change = keepingProbe(batch, withDefaults(settings.values.kitchen).kitchen);
  if (!change) return 'No thermometer in a container has measured anything to keep.';
  try {
    await settings.save({ kitchen: { ...settings.values.kitchen, ...change } });
    return `Kept for ${containerKey(batch.header.recipe.containers)}: the next plan counts with yours.`;
  } catch (problem) {
    return problem instanceof Error ? problem.message : String(problem);
  }
}

const WATCHING = '! Another Stovehand runs this batch: here it is only watched. Answer there; q leaves.';

/** Runs a batch by lines until it is done, left, or the input ends. */
export async function plainly(said: Arguments, world: World): Promise<number> {
  const lines = lineReader();
  const marked = [...world.marks, ...world.settings.notices];
  for (const mark of marked) print(mark);
  const isOpen = said.command === 'home' && openBatch(world) !== undefined;
  if (isKitchenUnasked(world) && !isOpen) await askKitchen(world, process.stdin.isTTY, lines.next);
  const session = await sessionFor(said, world, async question => {
    print(question);
    return lines.next();
  });
  if (!session) {
    lines.close();
    return EXIT.ok;
  }
  const { units } = withDefaults(world.settings.values.kitchen).kitchen;
  const teller = new PlainTeller(session);
  print(`Batch ${session.run.batch.header.id}: ${session.run.batch.header.recipe.name}`);
  for (const notice of session.notices) print(`! ${notice}`);
  if (session.role === 'watching') print(WATCHING);
  teller.tell();
  const stop = session.subscribe(() => teller.tell());
  try {
    while (session.run.batch.finishedAt === null) {
      const line = await lines.next();
      if (line === null) break;
      const act = readLine(session.run, line, units);
      if (act.kind === 'leave') break;
      if (act.kind === 'wait') await untilDue(session);
      else if (act.kind === 'again') teller.ask();
      else if (act.kind === 'help') print(PLAIN_HELP);
      else if (act.kind === 'say') print(act.says);
      else if (act.kind === 'numbers') {
        const { batch } = session.run;
        for (const said of estimateParagraphs(batch, tellingOf(batch, units))) print(said);
      } else if (act.kind === 'keep-probe') print(await keepProbe(session.run.batch, world));
      else {
        const refusal = session.role === 'watching' ? null : session.send(act.deed);
        const { batch } = session.run;
        if (session.role === 'watching') print(WATCHING);
        else if (refusal) print(`- ${refusalWords(batch, refusal, tellingOf(batch, units))}`);
      }
    }
  } finally {
    stop();
    session.close();
    lines.close();
  }
  if (session.run.batch.finishedAt === null)
    print(`Batch ${session.run.batch.header.id} goes on. Start again to go on with it.`);
  else {
    const { id } = session.run.batch.header;
    print(`Afterwards: stovehand bags ${id}, labels ${id}, calendar ${id}, card ${id}, next ${id}, record.`);
  }
  return EXIT.ok;
}
