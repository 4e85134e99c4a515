/**
 * The same batch line by line, for screen readers, dumb terminals and pipes: what to do is printed, a line
 * is an answer. Piped lines are taken in their order, and `wait` holds the next one back until it is due.
 */
import { createInterface } from 'node:readline';
import { countOf } from '../core/batch/countdown.ts';
import { openAsk } from '../core/batch/lockout.ts';
import { placeOf } from '../core/batch/schedule.ts';
import type { Batch } from '../core/batch/state.ts';
import { choicesOf } from '../core/batch/steps.ts';
import { isDue, wantedNow } from '../core/batch/wanted.ts';
import { withDefaults } from '../core/kitchen.ts';
import type { Session } from '../core/session.ts';
import { visibleLines } from '../core/text.ts';
import { askWords, choiceWords } from '../core/words/asks.ts';
import { STEP_CAUTIONS } from '../core/words/cautions.ts';
import { refusalWords } from '../core/words/refusals.ts';
import { STEP_NAMES } from '../core/words/steps.ts';
import { TROUBLE_WORDS } from '../core/words/troubles.ts';
import { wantedWords } from '../core/words/wanted.ts';
import { countText, tellingOf } from '../face/format.ts';
import { listBatches } from '../shell/batches.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';
import type { Arguments } from './arguments.ts';
import { PLAIN_HELP, readLine } from './plain-lines.ts';
import { openAlerter, openServices, readRecipes, wantedRecipe, type World } from './world.ts';

const print = (text: string): void => void process.stdout.write(`${visibleLines(text)}\n`);

/** Which session the words on the command line ask for. */
async function sessionFor(
  said: Arguments,
  world: World,
  ask: (question: string) => Promise<string | null>,
): Promise<Session | null> {
  const services = openServices(world, openAlerter(world, process.env));
  if (said.command === 'run') return services.begin(await wantedRecipe(world, said.words[0] ?? ''));
  if (said.command === 'again') {
    const last = world.settings.values.lastRecipe;
    if (last === '') {
      throw new GrowerError('There is no last recipe yet.', {
        tryThis: ['Begin with: stovehand run RECIPE'],
        exitCode: EXIT.usage,
      });
    }
    return services.begin(await wantedRecipe(world, last));
  }
  const open = listBatches(world.batches).findLast(
    ({ batch }) => batch !== null && batch.finishedAt === null,
  );
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

/** What has to be said again when it changes. */
const signature = (batch: Batch): string =>
  [
    batch.step,
    openAsk(batch),
    batch.load,
    batch.cursor,
    batch.hold.belief,
    batch.kernels.length,
    batch.towels.length,
  ].join('/');

class PlainTeller {
  readonly #session: Session;
  #said = '';
  #wanted = '';
  #minute = '';
  #troubles = 0;

  constructor(session: Session) {
    this.#session = session;
    this.#troubles = session.run.batch.deviations.length;
  }

  /** Prints whatever is new: the question, an alert, a deviation, a minute gone by. */
  tell(): void {
    const { batch } = this.#session.run;
    this.#tellTroubles(batch);
    const now = signature(batch);
    if (now !== this.#said) {
      this.#said = now;
      this.#minute = this.#countOf(batch);
      this.ask();
    }
    const wanted = wantedNow(batch);
    const code = wanted?.code ?? '';
    if (code !== this.#wanted) {
      this.#wanted = code;
      if (wanted) print(`! ${wantedWords(wanted)}`);
    }
    const minute = this.#countOf(batch);
    if (minute !== this.#minute) {
      this.#minute = minute;
      if (minute !== '') print(`  ${minute}`);
    }
    if (this.#session.trouble) print(`! ${this.#session.trouble}`);
  }

  ask(): void {
    const { batch } = this.#session.run;
    const telling = tellingOf(batch, batch.header.kitchen.units);
    const { at, of } = placeOf(batch);
    const ask = openAsk(batch);
    print('');
    print(batch.finishedAt === null ? `[${at} of ${of}] ${STEP_NAMES[batch.step]}` : STEP_NAMES.done);
    print(askWords(batch, ask, telling));
    const caution = STEP_CAUTIONS[batch.step];
    if (caution && batch.askSince === batch.since) print(`Caution: ${caution}`);
    for (const { id, key } of choicesOf(ask)) {
      print(`  ${key === 'space' ? 'Enter' : key}: ${choiceWords(batch, ask, id, telling)}`);
    }
  }

  #tellTroubles(batch: Batch): void {
    for (const { trouble, takenBack } of batch.deviations.slice(this.#troubles)) {
      const { name, means, act } = TROUBLE_WORDS[trouble];
      if (!takenBack) print(`! ${name}: ${means} ${act}`);
    }
    this.#troubles = batch.deviations.length;
  }

  /** The count to the whole minute; the last one by quarters. */
  #countOf(batch: Batch): string {
    const count = countOf(batch);
    if (!count || openAsk(batch) !== batch.ask || count.direction === 'up') return '';
    const grain = count.ms > 60_000 ? 60_000 : 15_000;
    return `${countText(Math.ceil(count.ms / grain) * grain, 'down')} left`;
  }
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

/** Runs a batch by lines until it is done, left, or the input ends. */
export async function plainly(said: Arguments, world: World): Promise<number> {
  const lines = lineReader();
  const marked = [...world.marks, ...world.settings.notices];
  for (const mark of marked) print(mark);
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
      else {
        const refusal = session.send(act.deed);
        const { batch } = session.run;
        if (refusal) print(`- ${refusalWords(batch, refusal, tellingOf(batch, units))}`);
      }
    }
  } finally {
    stop();
    session.close();
    lines.close();
  }
  if (session.run.batch.finishedAt === null)
    print(`Batch ${session.run.batch.header.id} goes on. Start again to go on with it.`);
  return EXIT.ok;
}
