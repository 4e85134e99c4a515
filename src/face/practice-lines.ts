/** The debrief as lines of spans, before anything is drawn: decisions, numbers, faults, progress. */
import type { Debrief } from '../core/practice/debrief.ts';
import type { Decision, Verdict } from '../core/practice/decisions.ts';
import type { PracticeNote } from '../core/practice/session.ts';
import {
  DECISION_NAMES,
  decisionWords,
  FAULT_WORDS,
  LOSS_WORDS,
  NEXT_WORDS,
  numberRows,
} from '../core/words/practice.ts';
import type { Telling } from '../core/words/telling.ts';
import type { Look } from './look.ts';
import { type Ink, type Row, span } from './spans.ts';
import { wrapAtMost } from './wrap.ts';

const NAME_WIDTH = 21;
const VERDICT_WIDTH = 10;

const INKS: Readonly<Record<Verdict, Ink>> = {
  right: 'good',
  'too early': 'watch',
  'too late': 'watch',
  missed: 'danger',
};

function decisionLine(decision: Decision, telling: Telling, loads: number, width: number): Row {
  const name = `${DECISION_NAMES[decision.id]}${loads > 1 && decision.load > 1 ? ` (${decision.load})` : ''}`;
  const room = Math.max(10, width - NAME_WIDTH - VERDICT_WIDTH);
  const says = wrapAtMost(decisionWords(decision, telling), room, 1)[0] ?? '';
  return [
    span(name.padEnd(NAME_WIDTH), 'plain'),
    span(decision.verdict.padEnd(VERDICT_WIDTH), INKS[decision.verdict]),
    span(says, 'faint'),
  ];
}

/** One line that says how it went. */
export function verdictLines({ lost, right, decisions, next }: Debrief, width: number): readonly Row[] {
  const count = `${right} of ${decisions.length} decisions right.`;
  const head: Row =
    lost.length === 0
      ? [span('The batch came through. ', 'good'), span(count)]
      : [span(`Lost: ${lost.map(id => LOSS_WORDS[id].split(':')[0]).join('; ')}. `, 'danger'), span(count)];
  const line =
    next === null
      ? 'Practise next: a fault you do not know yet, with a new seed.'
      : `Practise next: ${NEXT_WORDS[next]}`;
  return [head, ...wrapAtMost(line, width, 2).map(text => [span(text, 'strong')])];
}

export const decisionLines = (debrief: Debrief, telling: Telling, width: number): readonly Row[] => {
  const loads = Math.max(1, ...debrief.decisions.map(({ load }) => load));
  return debrief.decisions.map(decision => decisionLine(decision, telling, loads, width));
};

const title = (text: string): Row => [span(text, 'accent')];

export const numberLines = ({ numbers }: Debrief, telling: Telling): readonly Row[] => [
  title('In numbers (lethality is an estimate and proves nothing)'),
  ...numberRows(numbers, telling).map(([name, value]) => [
    span(`${name.padStart(20)}  `, 'faint'),
    span(value, 'strong'),
  ]),
];

export const faultLines = ({ faults }: Debrief, look: Look): readonly Row[] => [
  title(faults.length === 0 ? 'Nothing was wrong this time' : 'What was wrong'),
  ...faults.map(({ id, caught }) => [
    span(
      caught ? `${look.symbols.done} caught  ` : `${look.symbols.warn} missed  `,
      caught ? 'good' : 'danger',
    ),
    span(`${FAULT_WORDS[id].name}: `, 'strong'),
    span(FAULT_WORDS[id].sign, 'faint'),
  ]),
];

const LAST = 10;

/** The trainee's own progress: the last practices and what goes wrong most. */
export function progressLines(notes: readonly PracticeNote[]): readonly Row[] {
  if (notes.length === 0) return [];
  const last = notes.slice(-LAST);
  const through = last.filter(({ lost }) => lost.length === 0).length;
  const counts = new Map<string, number>();
  for (const id of last.flatMap(({ wrong }) => wrong)) counts.set(id, (counts.get(id) ?? 0) + 1);
  const most = [...counts].sort((a, b) => b[1] - a[1])[0];
  const name = most === undefined ? null : Object.entries(DECISION_NAMES).find(([id]) => id === most[0])?.[1];
  return [
    title('Your practices'),
    [
      span(`${notes.length} so far; of the last ${last.length}, `, 'faint'),
      span(`${through} came through`, 'strong'),
      span(name && most ? `; most often not right: ${name} (${most[1]})` : '', 'faint'),
    ],
  ];
}
