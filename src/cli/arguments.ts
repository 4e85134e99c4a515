/** The command line: what may be said, and one sentence for what may not. */
import { parseArgs } from 'node:util';
import { visible } from '../core/text.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';

export const COMMANDS = {
  home: { words: '', says: 'continue the open batch, or choose a recipe' },
  run: { words: 'run RECIPE', says: 'plan and begin a batch: a name as listed, or a file' },
  plan: {
    words: 'plan RECIPE',
    says: 'the plan sheet: amounts, gauge, hold, times (--at 18:30, or --ready 09:00)',
  },
  again: { words: 'again', says: 'last recipe and settings, straight to the first step' },
  practise: {
    words: 'practise [RECIPE]',
    says: 'walk it all against a simulated cooker (--auto --report --seed --fault --mistake --speed)',
  },
  recipes: { words: 'recipes', says: 'list the recipes, with their problems' },
  check: { words: 'check FILE', says: 'check a recipe file' },
  kitchen: { words: 'kitchen [NAME VALUE]', says: 'show the kitchen, or change one value of it' },
  batches: { words: 'batches', says: 'list the batches' },
  show: { words: 'show BATCH', says: 'everything kept of one batch' },
  due: { words: 'due', says: 'what the bags want today, and what is late' },
  bags: { words: 'bags [BATCH]', says: 'go through the bags with number keys and Space' },
  bag: {
    words: 'bag BAG [WHAT ...]',
    says: 'one bag, or what became of it: "bag 2648a-3 contaminated green"',
  },
  cultures: { words: 'cultures [add SPECIES]', says: 'your cultures, or a new one (--form --source --made)' },
  labels: {
    words: 'labels BATCH',
    says: 'a label for each bag, to print (--sheet --grid --skip --out --open)',
  },
  card: { words: 'card BATCH', says: 'the whole batch on one page, to print (--sheet --out --open)' },
  calendar: { words: 'calendar [BATCH]', says: 'the follow-ups as a calendar file (--out)' },
  record: { words: 'record', says: 'all batches: rates, losses, cost (--json, --csv)' },
  compare: { words: 'compare BATCH BATCH', says: 'two batches side by side' },
  next: { words: 'next BATCH', says: 'what to change next time (--save: "again" runs it so)' },
  export: { words: 'export FILE', says: 'everything as one archive' },
  import: { words: 'import FILE', says: 'merge an archive into this home' },
} as const;
export type CommandName = keyof typeof COMMANDS;

const FLAGS = {
  help: { type: 'boolean', short: 'h' },
  version: { type: 'boolean' },
  plain: { type: 'boolean' },
  json: { type: 'boolean' },
  home: { type: 'string' },
  photo: { type: 'string' },
  sheet: { type: 'string' },
  grid: { type: 'string' },
  skip: { type: 'string' },
  out: { type: 'string' },
  open: { type: 'boolean' },
  csv: { type: 'boolean' },
  save: { type: 'boolean' },
  form: { type: 'string' },
  source: { type: 'string' },
  made: { type: 'string' },
  auto: { type: 'boolean' },
  report: { type: 'boolean' },
  seed: { type: 'string' },
  fault: { type: 'string' },
  mistake: { type: 'string' },
  speed: { type: 'string' },
  at: { type: 'string' },
  ready: { type: 'string' },
} as const;

/** Options that only some commands know. */
const OPTION_HOMES = {
  photo: ['bag'],
  sheet: ['labels', 'card'],
  grid: ['labels'],
  skip: ['labels'],
  out: ['labels', 'card', 'calendar'],
  open: ['labels', 'card'],
  csv: ['record'],
  save: ['next'],
  form: ['cultures'],
  source: ['cultures'],
  made: ['cultures'],
  auto: ['practise'],
  report: ['practise'],
  seed: ['practise'],
  fault: ['practise'],
  mistake: ['practise'],
  speed: ['practise'],
  at: ['plan'],
  ready: ['plan'],
} as const satisfies Partial<Record<keyof typeof FLAGS, readonly CommandName[]>>;
type OptionName = keyof typeof OPTION_HOMES;
export type Options = Readonly<Partial<Record<OptionName, string | true>>>;

export interface Arguments {
  readonly command: CommandName;
  readonly words: readonly string[];
  readonly help: boolean;
  readonly version: boolean;
  readonly plain: boolean;
  readonly json: boolean;
  readonly home: string | undefined;
  /** Options of the commands after the batch. */
  readonly options: Options;
}

const isCommand = (word: string): word is CommandName => word !== 'home' && Object.hasOwn(COMMANDS, word);
const usage = (message: string): GrowerError =>
  new GrowerError(message, { tryThis: ['See: stovehand --help'], exitCode: EXIT.usage });

/** A command with too few or too many words: how it is written, and for a value of the kitchen what went wrong. */
function misused(command: CommandName, rest: readonly string[]): GrowerError {
  const says = `Write it as: stovehand ${COMMANDS[command].words}`;
  const [name, ...value] = rest;
  if (command !== 'kitchen' || name === undefined) return usage(says);
  const example =
    value.length > 0
      ? `A value of several words stands in quotes: stovehand kitchen ${visible(name)} "${visible(value.join(' '))}"`
      : `A value is missing after "${visible(name)}", as in: stovehand kitchen altitude "640 m"`;
  return new GrowerError(says, {
    tryThis: [example, 'All names and what they hold: stovehand kitchen'],
    exitCode: EXIT.usage,
  });
}

/** How many words a command takes besides its own: least and most. */
const WORDS: Readonly<Record<CommandName, readonly [number, number]>> = {
  home: [0, 0],
  run: [1, 1],
  plan: [1, 1],
  again: [0, 0],
  practise: [0, 1],
  recipes: [0, 0],
  check: [1, 1],
  kitchen: [0, 2],
  batches: [0, 0],
  show: [1, 1],
  due: [0, 0],
  bags: [0, 3],
  bag: [1, 100],
  cultures: [0, 8],
  labels: [1, 1],
  card: [1, 1],
  calendar: [0, 1],
  record: [0, 0],
  compare: [2, 2],
  next: [1, 1],
  export: [1, 1],
  import: [1, 1],
};

/** The options given, each of them one that the command knows. */
function optionsOf(values: Readonly<Record<string, unknown>>, command: CommandName): Options {
  const options: Partial<Record<OptionName, string | true>> = {};
  for (const [name, homes] of Object.entries(OPTION_HOMES)) {
    const value = values[name];
    if (typeof value !== 'string' && value !== true) continue;
    if (!(homes as readonly CommandName[]).includes(command)) {
      throw usage(`The option --${name} belongs to: ${homes.join(', ')}.`);
    }
    options[name as OptionName] = value;
  }
  return options;
}

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
    throw misused(command, rest);
  }
  return {
    command,
    words: rest,
    help: parsed.values.help === true,
    version: parsed.values.version === true,
    plain: parsed.values.plain === true,
    json: parsed.values.json === true,
    home: parsed.values.home,
    options: optionsOf(parsed.values, command),
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
    '  --json        machine-readable output of the commands that list or tell something',
    '  --at, --ready TIME   for plan: when it begins, or when it is ready to inoculate;',
    '                18:30 is the next one, or a date and time such as 2026-11-26T18:30',
    '  --home DIR    where batches, recipes and settings are kept (or the variable STOVEHAND_HOME)',
    '  --help, --version',
    '',
    'A plan that says no is an answer: it prints why and what to change, and exits with 0.',
    'Exit codes: 0 fine, 1 a mistake in the program, 2 command line, 3 unreadable file,',
    '  4 cannot write, 5 batch is run elsewhere, 6 not a terminal, 7 Node too old.',
    '',
    "The maker's manual, local rules and licensed practice decide. Not a way to preserve food.",
    '',
  ].join('\n');
}
