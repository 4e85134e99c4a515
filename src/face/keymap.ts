/**
 * Every key: where it works, what act it stands for, what it is called. The one table that dispatch, the key
 * lines, the help screen and the README are made of. The answers to a question are not here: they belong to
 * the question (`core/batch/steps.ts`).
 */
import type { KeyName } from './keys.ts';

export type Place =
  | 'run'
  | 'done'
  | 'practice'
  | 'welcome'
  | 'home'
  | 'sheet'
  | 'batches'
  | 'due'
  | 'bags'
  | 'bag'
  | 'culture'
  | 'record'
  | 'compare'
  | 'next'
  | 'amount'
  | 'word'
  | 'list'
  | 'everywhere';

export interface KeyRow {
  readonly place: Place;
  /** What the screen is asked to do. */
  readonly act: string;
  readonly keys: readonly KeyName[];
  /** As it is written on screen. */
  readonly shown: string;
  /** A word or two for the key line; without it the key is left to the help screen. */
  readonly bar?: string;
  /** Left out of a narrow key line, highest number first. */
  readonly spare?: number;
  readonly says: string;
}

type Bar = { readonly bar?: string; readonly spare?: number };

const row = (
  place: Place,
  act: string,
  keys: readonly KeyName[],
  says: string,
  { shown = keys[0] ?? '', ...bar }: Bar & { readonly shown?: string } = {},
): KeyRow => ({ place, act, keys, shown, says, ...bar });

export const KEYMAP: readonly KeyRow[] = [
  row('run', 'plain', ['space', 'enter'], 'the plain "done" of a step; never answers a judgement', {
    shown: 'Space',
  }),
  row('run', 'answer', ['1', '2', '3', '4'], 'the answers to a judgement, each with its picture', {
    shown: '1 2 3 4',
  }),
  row('run', 'trouble', ['t'], 'trouble: what can go wrong here, what it means, what to do', {
    bar: 'trouble',
  }),
  row('run', 'numbers', ['n'], 'numbers: the estimate in words, what it takes for granted, what dips cost', {
    bar: 'numbers',
  }),
  row('run', 'measure', ['m'], 'thermometer: a reading in a bag, or on the vessel in the lock', {
    bar: 'probe',
    spare: 3,
  }),
  row('run', 'pictures', ['p'], 'pictures of the answers, large', { bar: 'look', spare: 2 }),
  row('run', 'keep', ['k'], 'keep what your thermometer measured for the next plan', { bar: 'keep' }),
  row('run', 'undo', ['u'], 'undo: take back the last answer, after asking', { bar: 'undo' }),
  row('run', 'ending', ['e'], 'end: this countdown or the batch early, by a typed word', {
    bar: 'end',
    spare: 1,
  }),
  row('run', 'wipe', ['w'], 'wipe: lock the keyboard; w, then Enter unlocks it', { bar: 'wipe', spare: 4 }),
  row('done', 'bags', ['g'], 'its bags: which culture, how they grow, what became of them', { bar: 'bags' }),
  row('done', 'labels', ['l'], 'labels to print, one for each bag', { bar: 'labels' }),
  row('done', 'calendar', ['c'], 'a calendar file: when to look, to shake, to expect it done', {
    bar: 'calendar',
  }),
  row('done', 'card', ['p'], 'the whole batch on one page, to print', { bar: 'page' }),
  row('done', 'next', ['n'], 'what to change next time', { bar: 'next time' }),
  row('done', 'record', ['r'], 'the record of all batches: rates, losses, cost', { bar: 'record' }),
  row('done', 'save', ['s'], 'save its recipe as yours', { bar: 'save recipe' }),
  row('done', 'open', ['o'], 'open the page that was written last in the browser', { bar: 'open page' }),
  row('practice', 'hotter', ['+', '='], 'flame up', { shown: '+' }),
  row('practice', 'cooler', ['-', '_'], 'flame down', { shown: '-' }),
  row('practice', 'look', ['l'], 'look: kernels, towel, steam or gauge as they are in the simulated kitchen'),
  row(
    'practice',
    'faster',
    ['s'],
    'speed of the simulated clock; it slows by itself while an answer is wanted',
  ),
  row('practice', 'sleep', ['z'], 'sleep until the next thing to do'),
  row('welcome', 'take', ['enter'], 'what you typed is yours; with nothing typed it stays assumed', {
    shown: 'Enter',
  }),
  row('welcome', 'yes', ['y'], 'yes: what stands there is so with you'),
  row('welcome', 'before', ['up'], 'one question back', { shown: '↑', bar: 'one back' }),
  row('welcome', 'pass', ['down'], 'leave this one assumed', { shown: '↓' }),
  row('welcome', 'skip', ['esc', 'ctrl-c'], 'skip the questions: usual values are assumed', {
    shown: 'Esc',
    bar: 'skip them all',
  }),
  row('home', 'kitchen', ['k'], 'the kitchen: altitude, vessels, burner, alerts, prices', { bar: 'kitchen' }),
  row('home', 'batches', ['b'], 'all batches', { bar: 'batches' }),
  row('home', 'due', ['d'], 'what the bags want today', { bar: 'due' }),
  row('home', 'record', ['r'], 'the record: rates, losses, cost', { bar: 'record', spare: 1 }),
  row('home', 'practise', ['p'], 'practise the recipe against a simulated cooker', { bar: 'practise' }),
  row('home', 'lesson', ['l'], 'a lesson of about four minutes'),
  row('home', 'no-lesson', ['x'], 'do not offer the lesson any more'),
  row(
    'sheet',
    'begin',
    ['space', 'enter'],
    'begin; first it shows what is assumed of your kitchen, and warnings that weigh',
    {
      shown: 'Space',
    },
  ),
  row('sheet', 'change', ['left', 'right'], 'change the chosen line: the whole sheet moves', {
    shown: '← →',
  }),
  row('sheet', 'page', ['tab'], 'next page: times, then warnings, shopping and cost', { shown: 'Tab' }),
  row('sheet', 'practise', ['p'], 'practise what stands on the sheet', { bar: 'practise' }),
  row('batches', 'save', ['s'], 'save its recipe as yours'),
  row('batches', 'bags', ['g'], 'its bags'),
  row('batches', 'next', ['n'], 'what to change next time'),
  row('batches', 'compare', ['c'], 'compare with another'),
  row('due', 'through', ['space', 'enter'], 'go through the bags that want this', {
    shown: 'Space',
    bar: 'go through these',
  }),
  row('bags', 'through', ['space', 'enter'], 'go through the bags, from this one on', {
    shown: 'Space',
    bar: 'go through them from here',
  }),
  row('bags', 'culture', ['c'], 'which culture each of them was given, from this one on', {
    bar: 'which culture',
  }),
  row('bags', 'new', ['n'], 'a new culture for your list: species, form, source, day', {
    bar: 'new culture',
  }),
  row('bag', 'answer', ['1', '2', '3', '4'], 'what became of the bag, each with its picture', {
    shown: '1 2 3 4',
  }),
  row('bag', 'plain', ['space', 'enter'], 'on to the next bag', { shown: 'Space' }),
  row('bag', 'undo', ['u'], 'undo: take back what was said of the bag before', { bar: 'undo' }),
  row('bag', 'new', ['n'], 'where its culture is asked: a new one for your list first', {
    bar: 'new culture',
  }),
  row('culture', 'line', ['up', 'down'], 'species or source: another line; its day: a day later, earlier', {
    shown: '↑ ↓',
  }),
  row('culture', 'week', ['right', 'left'], 'its day: a week later, earlier', { shown: '→ ←' }),
  row('culture', 'form', ['1', '2', '3'], 'liquid culture, spore syringe or grain spawn', {
    shown: '1 2 3',
  }),
  row('culture', 'take', ['space', 'enter'], 'take what is chosen, and on; Enter ends what is typed', {
    shown: 'Space',
  }),
  row('culture', 'unknown', ['0'], 'its day is not known'),
  row('record', 'group', ['1', '2', '3', '4'], 'rates by grain, size, hold, culture', { shown: '1 2 3 4' }),
  row('record', 'loss', ['space', 'enter'], 'expected loss for other bag sizes, and cost', {
    shown: 'Space',
    bar: 'loss and cost',
  }),
  row('compare', 'narrow', ['space', 'enter'], 'only what differs, or everything', { shown: 'Space' }),
  row('next', 'accept', ['space', 'enter'], 'take the changes into a recipe of yours; "again" runs it', {
    shown: 'Space',
    bar: 'take into a recipe of mine; "again" runs it',
  }),
  row('amount', 'finely', ['up', 'down'], 'a little more, a little less', { shown: '↑ ↓' }),
  row('amount', 'coarsely', ['right', 'left'], 'much more, much less', { shown: '→ ←' }),
  row('amount', 'digit', [...'0123456789.,'], 'type the number', { shown: '0-9 .' }),
  row('amount', 'take', ['enter', 'space'], 'take it', { shown: 'Enter' }),
  row('word', 'letter', [], 'type the word that is asked for, then Enter', { shown: 'letters' }),
  row('list', 'choose', ['up', 'down'], 'choose a line', { shown: '↑ ↓' }),
  row('list', 'open', ['enter', 'space'], 'open it', { shown: 'Enter' }),
  row('everywhere', 'back', ['esc'], 'back, nothing changed', { shown: 'Esc' }),
  row('everywhere', 'help', ['?'], 'help for this screen', { bar: 'help' }),
  row('everywhere', 'leave', ['q', 'ctrl-c'], 'leave: always safe, and a batch under way goes on', {
    bar: 'leave',
  }),
];

/** The act of a key in a place, or of a key that works everywhere; null when it has none. */
export function actOf(place: Place, key: KeyName): string | null {
  const found =
    KEYMAP.find(entry => entry.place === place && entry.keys.includes(key)) ??
    KEYMAP.find(entry => entry.place === 'everywhere' && entry.keys.includes(key));
  return found?.act ?? null;
}

export interface BarKey {
  readonly act: string;
  readonly shown: string;
  readonly says: string;
  readonly spare?: number;
}

/** Help, for the key lines that are written out. */
export const HELP_KEY = { shown: '?', says: 'help' } as const;

/** The key line of a place, without the answers. */
export const barOf = (place: Place): readonly BarKey[] => [...ownBarOf(place), ...ownBarOf('everywhere')];

/** Everything that works in a place, for a screen that lists it. */
export const rowsOf = (place: Place): readonly KeyRow[] => KEYMAP.filter(entry => entry.place === place);

/** The keys of a place alone, without those that work everywhere. */
export const ownBarOf = (place: Place): readonly BarKey[] =>
  KEYMAP.filter(entry => entry.bar !== undefined && entry.place === place).map(
    ({ act, shown, bar = '', spare }) => ({
      act,
      shown,
      says: bar,
      ...(spare === undefined ? {} : { spare }),
    }),
  );
