/** From the command line to a command, and from whatever goes wrong to last words and an exit code. */
import { EXIT, explain, exitCodeFor, GrowerError } from '../shell/failure.ts';
import { neverWait } from '../shell/terminal-output.ts';
import { type Arguments, helpText, readArguments } from './arguments.ts';
import { openWorld, type World } from './world.ts';

const VERSION = '0.1.0';

/** Runs the program; the answer is its exit code. Data goes to stdout, errors to stderr. */
export async function run(argv: readonly string[], shipped: URL): Promise<number> {
  process.stdout.on('error', (problem: NodeJS.ErrnoException) => {
    // A reader that has seen enough, as `head` has, is no failure.
    if (problem.code === 'EPIPE') process.exit(EXIT.ok);
    // The terminal is gone, as when its window is closed: what was answered is on disk. 128 + SIGHUP.
    if (problem.code === 'EIO' || problem.code === 'ENXIO') process.exit(129);
    throw problem;
  });
  try {
    const said = readArguments(argv);
    if (said.help || said.version) {
      process.stdout.write(said.help ? helpText() : `stovehand ${VERSION}\n`);
      return EXIT.ok;
    }
    return await carryOut(said, openWorld(said.home, process.env, shipped));
  } catch (problem) {
    process.stderr.write(explain(problem));
    return exitCodeFor(problem);
  }
}

async function carryOut(said: Arguments, world: World): Promise<number> {
  switch (said.command) {
    case 'recipes':
    case 'check':
    case 'kitchen':
    case 'batches':
    case 'show': {
      const { listing } = await import('./listings.ts');
      return listing(said, world);
    }
    case 'plan':
      return (await import('./plan.ts')).plan(said, world);
    case 'due':
    case 'bag':
    case 'cultures':
    case 'labels':
    case 'card':
    case 'calendar':
    case 'record':
    case 'compare':
    case 'next':
    case 'export':
    case 'import': {
      const { afterwards } = await import('./record-commands.ts');
      return afterwards(said, world);
    }
    case 'bags':
      if (said.plain || said.json || said.words.length > 1 || process.stdout.isTTY !== true) {
        const { afterwards } = await import('./record-commands.ts');
        return afterwards(said, world);
      }
      return (await import('./screen.tsx')).onScreen(said, world);
    case 'practise':
      if (said.options.report) return (await import('./practise-report.ts')).report(said, world);
      if (said.plain) {
        throw new GrowerError('Practice needs the full screen: it is about looking.', {
          tryThis: ['Add --report to play it through and print what it was worth.'],
          exitCode: EXIT.usage,
        });
      }
      // What cannot be wished for is said before the screen is asked for.
      (await import('./practise.ts')).wishOf(said);
      return fullScreen(said, world);
    case 'home':
    case 'run':
    case 'again':
      if (said.plain) {
        neverWait(process.stdout);
        const { plainly } = await import('./plain.ts');
        return plainly(said, world);
      }
      return fullScreen(said, world);
  }
}

async function fullScreen(said: Arguments, world: World): Promise<number> {
  if (process.stdin.isTTY !== true || process.stdout.isTTY !== true) {
    const instead =
      said.command === 'practise'
        ? 'Add --report to play it through and print what it was worth.'
        : 'Add --plain to run the same batch line by line; it works with piped input.';
    throw new GrowerError('This is not a terminal, so there is no full screen.', {
      tryThis: [instead],
      exitCode: EXIT.notATerminal,
    });
  }
  return (await import('./screen.tsx')).onScreen(said, world);
}
