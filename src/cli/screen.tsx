/** The full-screen program: puts the face on the terminal and gives the terminal back, whatever happens. */
import { render } from 'ink';
import type { Session } from '../core/session.ts';
import { App } from '../face/app.tsx';
import type { Opening } from '../face/places.tsx';
import { colourDepth, groundOf, lookFor } from '../face/look.ts';
import { EXIT, explain, exitCodeFor } from '../shell/failure.ts';
import { runSparingly } from '../shell/heap.ts';
import { endLostPastes } from '../shell/lost-paste.ts';
import { backlogOf, neverWait } from '../shell/terminal-output.ts';
import type { Arguments } from './arguments.ts';
import { wantedBatch } from './record-world.ts';
import {
  againRecipe,
  isKitchenUnasked,
  openAlerter,
  openServices,
  wantedRecipe,
  type World,
} from './world.ts';

/** Terminals whose font or locale cannot be trusted with more than ASCII. */
const isAsciiOnly = (env: NodeJS.ProcessEnv): boolean => {
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG || '';
  return env.TERM === 'linux' || (process.platform !== 'win32' && locale !== '' && !/utf-?8/i.test(locale));
};

type Services = ReturnType<typeof openServices>;

/** A terminal that takes nothing is not waited for longer than this when the program is told to end. */
const LAST_WORDS_MS = 2000;

/** Longest wait for a stop that does not come: nobody could continue a program that has no shell above it. */
const STOP_MS = 500;

/** Stops this program and what it was started with, as Ctrl-Z does; resolves once it was continued. */
const stopUntilContinued = (): Promise<void> =>
  new Promise(resolve => {
    const goOn = () => {
      clearTimeout(timer);
      process.off('SIGCONT', goOn);
      resolve();
    };
    const timer = setTimeout(goOn, STOP_MS);
    process.on('SIGCONT', goOn);
    process.kill(0, 'SIGTSTP');
  });

async function openingFor(said: Arguments, world: World, services: Services): Promise<Opening> {
  const notice = world.settings.notices.join(' ') || null;
  switch (said.command) {
    case 'run': {
      const choice = await wantedRecipe(world, said.words[0] ?? '');
      return { screen: isKitchenUnasked(world) ? 'welcome' : 'sheet', choice };
    }
    case 'again':
      return { screen: 'run', session: await services.begin(await againRecipe(world)) };
    case 'practise': {
      const { subjectOf, wishOf } = await import('./practise.ts');
      return { screen: 'practise', subject: await subjectOf(said, world), wish: wishOf(said) };
    }
    case 'bags':
      return {
        screen: 'after',
        place: { at: 'bags', batch: said.words[0] ? wantedBatch(world, said.words[0]).id : null },
        from: 'home',
      };
    default: {
      const open = services.batches().findLast(({ batch }) => batch !== null && batch.finishedAt === null);
      if (!open && isKitchenUnasked(world) && !notice) return { screen: 'welcome' };
      return open && !notice
        ? { screen: 'run', session: services.open(open.id) }
        : { screen: 'home', says: notice };
    }
  }
}

/** Shows the program until it is left; the answer is the exit code. */
export async function onScreen(said: Arguments, world: World): Promise<number> {
  const alerter = openAlerter(world, process.env);
  let session: Session | null = null;
  const services = openServices(world, alerter);
  const kept: Services = {
    ...services,
    begin: async choice => {
      session = await services.begin(choice);
      return session;
    },
    open: id => {
      session = services.open(id);
      return session;
    },
  };
  const opening = await openingFor(said, world, kept);
  const look = lookFor({
    colour: colourDepth(process.env, true),
    ground: groundOf(process.env),
    ascii: isAsciiOnly(process.env),
  });
  const later = (ms: number, work: () => void) => {
    const timer = setTimeout(work, ms);
    return () => clearTimeout(timer);
  };
  const endOfPastes = endLostPastes(process.stdin, later);
  neverWait(process.stdout);
  const { onStuck } = backlogOf(process.stdout, later);
  const app = render(
    <App
      look={look}
      services={kept}
      opening={opening}
      onStuck={onStuck}
      {...(process.platform === 'win32' ? {} : { stop: stopUntilContinued })}
    />,
    {
      alternateScreen: true,
      incrementalRendering: true,
      exitOnCtrlC: false,
      patchConsole: false,
      // A key just after a tick is not kept waiting for the next thirtieth of a second.
      maxFps: 200,
    },
  );
  const endOfSparing = runSparingly(later);
  let giveUp = () => {};
  let gaveUp = false;
  let endOfWords = () => {};
  const tooLong = new Promise<void>(resolve => {
    giveUp = () => {
      gaveUp = true;
      resolve();
    };
  });
  const leave = (code: number) => () => {
    process.exitCode = code;
    app.unmount();
    endOfWords = later(LAST_WORDS_MS, giveUp);
  };
  // 128 + signal number, as shells report a program ended by a signal.
  const hangUp = leave(129);
  const term = leave(143);
  // For good, not once: Ink ends the program at once where it finds nobody else listening to a signal.
  process.on('SIGHUP', hangUp);
  process.on('SIGTERM', term);
  // A mistake of ours outside of drawing, in a timer or a promise, ends the same way as one inside.
  let mistake: { readonly problem: unknown } | null = null;
  const broken = (problem: unknown) => {
    mistake ??= { problem };
    app.unmount();
  };
  process.on('uncaughtException', broken);
  let code: number = EXIT.ok;
  try {
    await Promise.race([app.waitUntilExit(), tooLong]);
    const found = mistake as { readonly problem: unknown } | null;
    if (found) throw found.problem;
    code = Number(process.exitCode ?? EXIT.ok);
  } catch (problem) {
    code = exitCodeFor(problem);
    const journal = (session as Session | null)?.path;
    process.stderr.write(explain(problem, { journal }));
  } finally {
    endOfPastes();
    endOfSparing();
    endOfWords();
    alerter.close();
    const open = session as Session | null;
    open?.close();
    if (open && open.run.batch.finishedAt === null && code === EXIT.ok) {
      process.stdout.write(
        `Batch ${open.run.batch.header.id} goes on. Start Stovehand again to go on with it.\n`,
      );
    }
    process.off('SIGHUP', hangUp);
    process.off('SIGTERM', term);
    if (!mistake) process.off('uncaughtException', broken);
  }
  // What was not taken would hold the process, and so would the last sequences, which go another way.
  if (gaveUp) {
    neverWait(process.stderr);
    process.exit(code);
  }
  return code;
}
