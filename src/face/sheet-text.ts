/** Rows of the plan sheet: columns that line up, and parts that are left out rather than cut. */
import type { Look } from './look.ts';
import { type Ink, type Row, type Span, span } from './spans.ts';

export const cells = (text: string): number => [...text].length;

/** Exactly so many cells: padded, or cut with an ellipsis. */
export function cell(text: string, width: number, look: Look): string {
  const characters = [...text];
  if (characters.length <= width) return text.padEnd(text.length + width - characters.length);
  const { ellipsis } = look.symbols;
  return characters.slice(0, Math.max(0, width - cells(ellipsis))).join('') + ellipsis;
}

/** Where a text may end early and still say something that is true and whole. */
const CLAUSE = /, |: | and /g;

/** The text without its last clauses, so that it fits; empty when even its first clause does not. */
function fitClauses(text: string, width: number): string {
  if (cells(text) <= width) return text;
  const ends = [...text.matchAll(CLAUSE)].map(({ index }) => index);
  const end = ends.findLast(index => cells(text.slice(0, index)) <= width);
  return end === undefined ? '' : text.slice(0, end);
}

/** As many parts as fit, joined; the first loses its last clauses, or is left out, when it does not. */
export function fitParts(parts: readonly string[], width: number, look: Look): string {
  const join = ` ${look.symbols.bullet} `;
  let text = '';
  for (const part of parts) {
    const longer = text === '' ? part : text + join + part;
    if (cells(longer) <= width) text = longer;
    else if (text === '') text = fitClauses(part, width);
    else return text;
  }
  return text;
}

export interface Columns {
  readonly width: number;
  readonly label: number;
  readonly value: number;
}

/** Columns of a sheet of so many cells. */
export function columnsFor(width: number): Columns {
  const narrow = width < 70;
  return { width, label: narrow ? 11 : 12, value: narrow ? 11 : 14 };
}

export interface SheetLine {
  readonly label: string;
  readonly value: string;
  readonly more: readonly string[];
  readonly assumed?: boolean;
  readonly picked?: boolean;
  readonly ink?: Ink;
}

/** One row: mark, name, value, what stands behind it. The picked one shows that its value can be moved. */
export function sheetLine(line: SheetLine, columns: Columns, look: Look): Row {
  const { label, value, more, assumed = false, picked = false, ink = 'strong' } = line;
  const arrows = look.ascii ? ['<', '>'] : ['‹', '›'];
  const shown = picked ? `${arrows[0]} ${value} ${arrows[1]}` : value;
  // A value as wide as its column keeps a blank before the sign of what is assumed.
  const held =
    cells(shown) < columns.value ? cell(shown, columns.value, look) : `${cell(shown, columns.value, look)} `;
  const room = columns.width - 2 - columns.label - cells(held) - 2;
  return [
    span(picked ? `${look.symbols.now} ` : '  ', 'accent'),
    span(cell(label, columns.label, look), picked ? 'strong' : 'plain'),
    span(held, picked ? 'accent' : ink),
    span(assumed ? '? ' : '  ', 'watch'),
    span(fitParts(more, Math.max(0, room), look), 'faint'),
  ];
}

/** Names and times in one row, as many as fit. */
export function pairsRow(
  label: string,
  pairs: readonly (readonly [string, string])[],
  columns: Columns,
  look: Look,
): Row {
  const spans: Span[] = [span('  '), span(cell(label, columns.label, look))];
  let room = columns.width - 2 - columns.label;
  for (const [name, value] of pairs) {
    const needs = cells(name) + cells(value) + 1 + (spans.length > 2 ? 3 : 0);
    if (needs > room) break;
    if (spans.length > 2) spans.push(span('   '));
    spans.push(span(`${name} `, 'faint'), span(value, 'strong'));
    room -= needs;
  }
  return spans;
}
