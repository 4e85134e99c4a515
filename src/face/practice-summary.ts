/**
 * The debrief on one page: what was wrong first, the costliest before all, each with its numbers and what it
 * did to the batch; what was right in a tight table; then lethality, risk and water. Words give way to room in
 * steps: no decision and no number is ever left out for it.
 */
import type { Debrief } from '../core/practice/debrief.ts';
import type { Decision } from '../core/practice/decisions.ts';
import { LOSS_IDS } from '../core/practice/losses.ts';
import type { PracticeNote } from '../core/practice/session.ts';
import { FAULT_WORDS, LOSS_SHORT, LOSS_WORDS } from '../core/words/practice.ts';
import {
  CELL,
  DECISION_NAMES,
  decisionCell,
  decisionWords,
  toleranceWords,
} from '../core/words/practice-decisions.ts';
import { outcomeRows } from '../core/words/practice-numbers.ts';
import type { Telling } from '../core/words/telling.ts';
import type { Look } from './look.ts';
import { type Block, caughtWords, progressText, VERDICT_INKS, verdictBlocks } from './practice-lines.ts';
import { type Row, rowText, type Span, span } from './spans.ts';
import { wrapAtMost } from './wrap.ts';

export interface SummaryParts {
  readonly debrief: Debrief;
  readonly telling: Telling;
  readonly look: Look;
  readonly notes: readonly PracticeNote[];
  readonly width: number;
}

/** How much is said of what was not right: all with what is right, what it cost, or that in two words. */
type Detail = 'all' | 'cost' | 'short';
/** Where a line is left blank: between all parts, under the head, or nowhere. */
type Air = 'parts' | 'head' | 'none';

const STEPS: readonly (readonly [Detail, Air])[] = [
  ['all', 'parts'],
  ['cost', 'parts'],
  ['cost', 'head'],
  ['short', 'parts'],
  ['short', 'head'],
  ['cost', 'none'],
  ['short', 'none'],
];

const BLANK: Row = [];
const MARK = 2;
const VERDICT = 11;
/** Between two columns, and between two numbers of a line. */
const APART = 2;
const GAP = 3;
const MOST = 8;

const lengthOf = (row: Row): number => [...rowText(row)].length;
const wide = (texts: readonly string[]): number => Math.max(0, ...texts.map(text => [...text].length));

/** The decisions that were not right, the costliest first, and those that were, in the order of the batch. */
function sorted(
  decisions: readonly Decision[],
): readonly [wrong: readonly Decision[], right: readonly Decision[]] {
  const gravity = ({ costs }: Decision) =>
    Math.min(LOSS_IDS.length, ...costs.map(id => LOSS_IDS.indexOf(id)));
  const wrong = decisions.filter(({ verdict }) => verdict !== 'right');
  return [
    [...wrong].sort((a, b) => gravity(a) - gravity(b)),
    decisions.filter(({ verdict }) => verdict === 'right'),
  ];
}

const loadsOf = ({ decisions }: Debrief): number => Math.max(1, ...decisions.map(({ load }) => load));
const nameOf = ({ id, load }: Decision): string => `${DECISION_NAMES[id]}${load > 1 ? ` (${load})` : ''}`;

function wrongRows(decision: Decision, parts: SummaryParts, names: number, detail: Detail): Block {
  const { telling, look, width } = parts;
  const ink = VERDICT_INKS[decision.verdict];
  const head = [
    span(`${look.symbols.warn} `, ink),
    span(nameOf(decision).padEnd(names), 'strong'),
    span(decision.verdict.padEnd(VERDICT), ink),
  ];
  const start = MARK + names + VERDICT;
  const under = (text: string, by: number, of: Span['ink']): Row[] =>
    wrapAtMost(text, width - by, MOST).map(line => [span(' '.repeat(by)), span(line, of)]);
  if (detail === 'short') {
    const cell = decisionCell(decision, telling);
    const costs = decision.costs.map(id => LOSS_SHORT[id]).join(', ');
    if (costs === '') return [[...head, span(cell)]];
    // In one column where there is room, else right behind, else below.
    const padded = [CELL + 1, [...cell].length + APART].find(to => start + to + costs.length <= width);
    return padded === undefined
      ? [[...head, span(cell)], ...under(costs, MARK + names, 'danger')]
      : [[...head, span(cell.padEnd(padded)), span(costs, 'danger')]];
  }
  const [first = '', ...rest] = wrapAtMost(decisionWords(decision, telling), width - start, MOST);
  const isSaid = detail === 'all' || decision.costs.length === 0;
  return [
    [...head, span(first)],
    ...rest.map((line): Row => [span(' '.repeat(start)), span(line)]),
    ...decision.costs.flatMap(id => under(`cost: ${LOSS_WORDS[id]}`, MARK, 'danger')),
    ...(isSaid ? under(`right is: ${toleranceWords(decision, telling)}`, MARK, 'faint') : []),
  ];
}

interface Cell {
  readonly mark: string;
  readonly name: string;
  readonly says: string;
}

/** What was right, once where it was so with every load: then it is ticked as often. */
function cellsOf(right: readonly Decision[], { debrief, telling, look }: SummaryParts): readonly Cell[] {
  const tick = look.symbols.done;
  return right.flatMap((decision): Cell[] => {
    const same = right.filter(({ id }) => id === decision.id);
    const isAll = loadsOf(debrief) > 1 && same.length === loadsOf(debrief);
    if (isAll && decision !== same[0]) return [];
    const says = decisionCell(decision, telling);
    return [{ mark: isAll ? tick.repeat(same.length) : tick, name: nameOf(decision), says }];
  });
}

/** The same side by side where two columns fit, read downwards. */
function rightRows(cells: readonly Cell[], width: number): Block {
  const half = Math.ceil(cells.length / 2);
  const marks = wide(cells.map(({ mark }) => mark)) + 1;
  const columnOf = (column: readonly Cell[]) => {
    const names = wide(column.map(({ name }) => name)) + 1;
    const rows = column.map(({ mark, name, says }) => [
      span(mark.padEnd(marks), 'good'),
      span(name.padEnd(names)),
      span(says, 'faint'),
    ]);
    return { rows, width: marks + names + wide(column.map(({ says }) => says)) };
  };
  const [left, right] = [columnOf(cells.slice(0, half)), columnOf(cells.slice(half))];
  if (left.width + APART + right.width > width) return columnOf(cells).rows;
  return left.rows.map((row, index): Row => {
    const beside = right.rows[index];
    return beside ? [...row, span(' '.repeat(left.width + APART - lengthOf(row))), ...beside] : row;
  });
}

/** Pieces in as few lines as they fit, each in the first line that has room for it. */
function flowed(pieces: readonly Block[], width: number): readonly Block[] {
  const lines: Block[] = [];
  for (const piece of pieces) {
    const [row = []] = piece;
    const fits = ([other = [], ...below]: Block) =>
      piece.length === 1 && below.length === 0 && lengthOf(other) + GAP + lengthOf(row) <= width;
    const place = lines.findIndex(fits);
    if (place < 0) lines.push(piece);
    else lines[place] = [[...(lines[place]?.[0] ?? []), span(' '.repeat(GAP)), ...row]];
  }
  return lines;
}

function faultPieces({ faults }: Debrief, look: Look): readonly Row[] {
  if (faults.length === 0) return [[span('hidden in the kitchen: nothing this time', 'faint')]];
  return faults.map(({ id, caught }, index): Row => {
    const { mark, says, ink } = caughtWords(caught, look);
    return [
      span(index === 0 ? 'hidden: ' : '', 'faint'),
      span(`${mark} `, ink),
      span(FAULT_WORDS[id].name),
      span(` ${says}`, 'faint'),
    ];
  });
}

/** The parts of the page: head, wrong, right, outcome, faults. */
function partsOf(parts: SummaryParts, detail: Detail): readonly (readonly Block[])[] {
  const { debrief, telling, look, width } = parts;
  const [wrong, right] = sorted(debrief.decisions);
  const names = wide(debrief.decisions.map(nameOf)) + 1;
  const outcome = outcomeRows(debrief.numbers, telling).map(([name, value]): Block => {
    const [first = '', ...rest] = wrapAtMost(value, width - name.length - 1, MOST);
    const indent = ' '.repeat(name.length + 1);
    return [
      [span(`${name} `, 'faint'), span(first, 'strong')],
      ...rest.map((line): Row => [span(indent), span(line, 'strong')]),
    ];
  });
  return [
    verdictBlocks(debrief, width),
    wrong.map(decision => wrongRows(decision, parts, names, detail)),
    rightRows(cellsOf(right, parts), width).map(row => [row]),
    flowed(outcome, width),
    flowed(
      faultPieces(debrief, look).map(row => [row]),
      width,
    ),
  ].filter(part => part.length > 0);
}

function laidOut(groups: readonly (readonly Block[])[], air: Air): readonly Row[] {
  return groups.flatMap((group, index) => {
    const blank = index > 0 && (air === 'parts' || (air === 'head' && index === 1));
    return [...(blank ? [BLANK] : []), ...group.flat()];
  });
}

/** The page, in the most words that fit; null when not even the fewest do. */
export function summaryPage(parts: SummaryParts, height: number): readonly Row[] | null {
  const progress = progressText(parts.notes);
  for (const [detail, air] of STEPS) {
    const rows = laidOut(partsOf(parts, detail), air);
    if (rows.length > height) continue;
    const more = progress === null ? [] : wrapAtMost(progress, parts.width, MOST);
    const last = more.map((line): Row => [span(line, 'faint')]);
    return rows.length + last.length <= height ? [...rows, ...last] : rows;
  }
  return null;
}

/** The same over several pages, in the fewest words: parts that are not broken inside a decision. */
export const summaryParts = (parts: SummaryParts): readonly (readonly Block[])[] => partsOf(parts, 'short');
