/** The command line: what may be said, and one sentence for what may not. */
import { parseArgs } from 'node:util';
import { visible } from '../core/text.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';

export const COMMANDS = {
  home: { words: '', says: 'continue the open batch, or choose a recipe' },
  run: { words: 'run RECIPE', says: 'plan and begin a batch: a name as listed, or a file' },
  again: { words: 'again', says: 'last recipe and settings, straight to the first step' },
  recipes: { words: 'recipes', says: 'list the recipes, with their problems' },
  check: { words: 'check FILE', says: 'check a recipe file' },
  kitchen: { words: 'kitchen [NAME VALUE]', says: 'show the kitchen, or change one value of it' },
  batches: { words: 'batches', says: 'list the batches' },
  show: { words: 'show BATCH', says: 'everything kept of one batch' },
} as const;
export type CommandName = keyof typeof COMMANDS;

const FLAGS = {
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean' },
  plain: { type: 'boolean' },
  json: { type: 'boolean' },
  home: { type: 'string' },
} as const;

export interface Arguments {
  readonly command: CommandName;
  readonly words: readonly string[];
  readonly help: boolean;
  readonly version: boolean;
  readonly plain: boolean;
  readonly json: boolean;
  readonly home: string | undefined;
}

const isCommand = (word: string): word is CommandName => word !== 'home' && Object.hasOwn(COMMANDS, word);
const usage = (message: string): GrowerError =>
  new GrowerError(message, { tryThis: ['See: stovehand --help'], exitCode: EXIT.usage });

/** How many words a command takes besides its own: least and most. */
const WORDS: Readonly<Record<CommandName, readonly [number, number]>> = {
  home: [0, 0],
  run: [1, 1],
  again: [0, 0],
  recipes: [0, 0],
  check: [1, 1],
  kitchen: [0, 2],
  batches: [0, 0],
  show: [1, 1],
};

/** Reads the words after the program's name. Throws GrowerError with exit code 2. */
export function readArguments(argv: readonly string[]): Arguments {
  const parsed = parse(argv);
  const [first, ...rest] = parsed.positionals;
  if (first !== undefined && !isCommand(first)) {
    throw usage(`"${visible(first)}" is no command of Stovehand.`);
  }
  const command = first ?? 'home';
  const [least, most] = WORDS[command];
  const asked = parsed.values.help === true || parsed.values.version === true;
  const pair = command === 'kitchen' && rest.length === 1;
  if (!asked && (rest.length < least || rest.length > most || pair)) {
    throw usage(`It is written: stovehand ${COMMANDS[command].words}`);
  }
  return {
    command,
    words: rest,
    help: parsed.values.help === true,
    version: parsed.values.version === true,
    plain: parsed.values.plain === true,
    json: parsed.values.json === true,
    home: parsed.values.home,
  };
}

function parse(argv: readonly string[]) {
  try {
    return parseArgs({ args: [...argv], options: FLAGS, allowPositionals: true, strict: true });
  } catch (problem) {
    const option = /'(-[^'\s]*)/.exec(problem instanceof Error ? problem.message : '')?.[1];
    throw usage(
      option ? `The option ${visible(option)} is unknown or lacks its value.` : 'An option cannot be read.',
    );
  }
}

/** Text of `--help`. */
export function helpText(): string {
  const rows = Object.values(COMMANDS).map(({ words, says }) => `  stovehand ${words.padEnd(22)} ${says}`);
  return [
    'Stovehand walks one person through one batch of sterilised grain spawn, at the stove.',
    '',
    ...rows,
    '',
    'Options',
    '  --plain       line by line instead of full screen, the same batch; works with piped input',
    '  --json        machine-readable output of recipes, check, kitchen, batches and show',
    '  --home DIR    where batches, recipes and settings are kept (or the variable STOVEHAND_HOME)',
    '  --help, --version',
    '',
    'Exit codes: 0 fine, 1 a mistake in the program, 2 command line, 3 unreadable file,',
    '  4 cannot write, 5 batch is run elsewhere, 6 not a terminal, 7 Node too old.',
    '',
    "The maker's manual, local rules and licensed practice decide. Not a way to preserve food.",
    '',
  ].join('\n');
}
