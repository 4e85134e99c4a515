/** The debrief as lines of spans, before anything is drawn: decisions, numbers, faults, progress. */
import type { Debrief } from '../core/practice/debrief.ts';
import type { Decision, Verdict } from '../core/practice/decisions.ts';
import type { PracticeNote } from '../core/practice/session.ts';
import { FAULT_WORDS, LOSS_SHORT, LOSS_WORDS } from '../core/words/practice.ts';
import {
  DECISION_NAMES,
  decisionWords,
  NEXT_WORDS,
  toleranceWords,
} from '../core/words/practice-decisions.ts';
import { numberRows } from '../core/words/practice-numbers.ts';
import type { Telling } from '../core/words/telling.ts';
import type { Look } from './look.ts';
import { type Ink, type Row, span } from './spans.ts';
import { wrapAtMost } from './wrap.ts';

/** Lines that stay together on a page. */
export type Block = readonly Row[];

const NAME_WIDTH = 15;
const VERDICT_WIDTH = 10;
/** Narrower than this, what a decision came to stands under its name. */
const NARROW = 70;
/** More lines than any sentence of a debrief takes. */
const MOST = 8;
const NUMBER_WIDTH = 22;

export const VERDICT_INKS: Readonly<Record<Verdict, Ink>> = {
  right: 'good',
  'too early': 'watch',
  'too late': 'watch',
  missed: 'danger',
};

/** A decision in numbers; one that was not right also says what it cost and what would have been right. */
function decisionRows(decision: Decision, telling: Telling, loads: number, width: number): readonly Row[] {
  const name = `${DECISION_NAMES[decision.id]}${loads > 1 && decision.load > 1 ? ` (${decision.load})` : ''}`;
  const narrow = width < NARROW;
  const indent = narrow ? 4 : NAME_WIDTH + VERDICT_WIDTH;
  const under = (text: string, ink: Ink): Row[] =>
    wrapAtMost(text, width - indent, MOST).map(line => [span(' '.repeat(indent)), span(line, ink)]);
  const head = [
    span(name.padEnd(NAME_WIDTH), 'plain'),
    span(decision.verdict, VERDICT_INKS[decision.verdict]),
  ];
  const [first = '', ...rest] = narrow
    ? ['']
    : wrapAtMost(decisionWords(decision, telling), width - indent, MOST);
  const gap = ' '.repeat(VERDICT_WIDTH - decision.verdict.length);
  return [
    first === '' ? head : [...head, span(gap), span(first, 'faint')],
    ...rest.map((line): Row => [span(' '.repeat(indent)), span(line, 'faint')]),
    ...(narrow ? under(decisionWords(decision, telling), 'faint') : []),
    ...decision.costs.flatMap(id => under(`cost: ${LOSS_WORDS[id]}`, 'danger')),
    ...(decision.verdict === 'right' ? [] : under(`right is: ${toleranceWords(decision, telling)}`, 'plain')),
  ];
}

/** In a sentence, how it went: nothing but what the decisions say; in few words where many do not fit a line. */
function verdictText(
  { lost, right, decisions }: Debrief,
  width: number,
): { readonly text: string; readonly ink: Ink } {
  const count = `${right} of ${decisions.length} decisions right.`;
  if (lost.length > 0) {
    const long = `Lost: ${lost.map(id => LOSS_WORDS[id].split(':')[0]).join('; ')}. ${count}`;
    const short = `Lost: ${lost.map(id => LOSS_SHORT[id]).join(', ')}. ${count}`;
    return { text: long.length <= width ? long : short, ink: 'danger' };
  }
  return right === decisions.length
    ? { text: `The batch came through. ${count}`, ink: 'good' }
    : { text: `The batch came through, though not all was right. ${count}`, ink: 'watch' };
}

/** How it went and what to practise next, whole at every width. */
export function verdictBlocks(debrief: Debrief, width: number): readonly Block[] {
  const { next } = debrief;
  const { text, ink } = verdictText(debrief, width);
  const line =
    next === null
      ? 'Practise next: a fault you do not know yet, with a new seed.'
      : `Practise next: ${NEXT_WORDS[next]}`;
  return [
    wrapAtMost(text, width, MOST).map((row): Row => [span(row, ink)]),
    wrapAtMost(line, width, MOST).map((row): Row => [span(row, 'strong')]),
  ];
}

export const decisionBlocks = (debrief: Debrief, telling: Telling, width: number): readonly Block[] => {
  const loads = Math.max(1, ...debrief.decisions.map(({ load }) => load));
  return debrief.decisions.map(decision => decisionRows(decision, telling, loads, width));
};

const title = (text: string): Row => [span(text, 'accent')];

/** A title stays with what follows it. */
const titled = (text: string, blocks: readonly Block[]): readonly Block[] => [
  [title(text), ...(blocks[0] ?? [])],
  ...blocks.slice(1),
];

export const numberBlocks = ({ numbers }: Debrief, telling: Telling, width: number): readonly Block[] =>
  titled(
    'In numbers (lethality is an estimate and proves nothing)',
    numberRows(numbers, telling).map(([name, value]) =>
      wrapAtMost(value, width - NUMBER_WIDTH, MOST).map(
        (line, index): Row => [
          span((index === 0 ? name : '').padStart(NUMBER_WIDTH - 2).padEnd(NUMBER_WIDTH), 'faint'),
          span(line, 'strong'),
        ],
      ),
    ),
  );

/** What became of a fault: its mark, its word and their ink. */
export function caughtWords(caught: boolean | null, look: Look) {
  if (caught === null) return { mark: look.symbols.later, says: 'not met', ink: 'faint' } as const;
  return caught
    ? ({ mark: look.symbols.done, says: 'caught', ink: 'good' } as const)
    : ({ mark: look.symbols.warn, says: 'missed', ink: 'danger' } as const);
}

export const faultBlocks = ({ faults }: Debrief, look: Look, width: number): readonly Block[] =>
  titled(
    faults.length === 0 ? 'No fault was hidden in the kitchen this time' : 'Hidden in the kitchen',
    faults.map(({ id, caught }): Block => {
      const { mark: symbol, says, ink } = caughtWords(caught, look);
      const mark = `${symbol} ${says}  `;
      const name = `${FAULT_WORDS[id].name}: `;
      const [first = '', ...rest] = wrapAtMost(name + FAULT_WORDS[id].sign, width - mark.length, MOST);
      return [
        [
          span(mark, ink),
          span(first.slice(0, name.length), 'strong'),
          span(first.slice(name.length), 'faint'),
        ],
        ...rest.map((line): Row => [span(' '.repeat(mark.length)), span(line, 'faint')]),
      ];
    }),
  );

const LAST = 10;

/** The trainee's own progress: the last practices and what goes wrong most; null before the first. */
export function progressText(notes: readonly PracticeNote[]): string | null {
  if (notes.length === 0) return null;
  const last = notes.slice(-LAST);
  const through = last.filter(({ lost }) => lost.length === 0).length;
  const counts = new Map<string, number>();
  for (const id of last.flatMap(({ wrong }) => wrong)) counts.set(id, (counts.get(id) ?? 0) + 1);
  const most = [...counts].sort((a, b) => b[1] - a[1])[0];
  const name = most === undefined ? null : Object.entries(DECISION_NAMES).find(([id]) => id === most[0])?.[1];
  const weak = name && most ? `; weakest: ${name} (${most[1]})` : '';
  if (notes.length === 1) return `1 practice; it ${through === 1 ? 'came' : 'did not come'} through${weak}`;
  return `${notes.length} practices; ${through} of the last ${last.length} came through${weak}`;
}

export function progressBlocks(notes: readonly PracticeNote[], width: number): readonly Block[] {
  const text = progressText(notes);
  if (text === null) return [];
  return titled('Your practices', [wrapAtMost(text, width, MOST).map((line): Row => [span(line, 'plain')])]);
}
