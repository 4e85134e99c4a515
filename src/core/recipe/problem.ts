/** What is wrong with a recipe file, and where. */

import { LineCounter } from 'yaml';
import { atMost, visible } from '../text.ts';

/** First line of a text, at most `most` characters, everything unseen made visible. */
export const excerpt = (text: string, most = 60): string =>
  atMost(visible((text.trim().split(/\r?\n/, 1)[0] ?? '').slice(0, most + 1)), most);

export interface Problem {
  readonly file: string;
  /** From 1. */
  readonly line: number;
  /** From 1, in characters. */
  readonly column: number;
  /** The offending text, one line, hidden characters spelled out; may be empty. */
  readonly text: string;
  /** One sentence: what is wrong and what is expected. */
  readonly says: string;
}

/** "rye.yaml:4:9: ..." on one line, safe to print. */
export function problemLine(problem: Problem): string {
  const found = problem.text === '' ? '' : ` Found: ${problem.text}`;
  return `${excerpt(problem.file, 200)}:${problem.line}:${problem.column}: ${problem.says}${found}`;
}

export type Report = (start: number, end: number, says: string) => void;

export interface Problems {
  /** Notes a problem with the text between two offsets. */
  readonly report: Report;
  /** Sorted by place; a long list is cut, and its last entry says so. */
  readonly list: () => readonly Problem[];
  readonly count: () => number;
}

/** More problems than anybody mends in one go. */
const MOST = 100;

/** Collects problems of one file and gives each its line and column. */
export function collectProblems(text: string, file: string): Problems {
  const found: { start: number; end: number; says: string }[] = [];
  const lines = new LineCounter();
  lines.addNewLine(0);
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) lines.addNewLine(at + 1);
  const place = (start: number, end: number, says: string): Problem => {
    const { line } = lines.linePos(start);
    const before = text.slice(lines.lineStarts[line - 1] ?? 0, start);
    return { file, line, column: [...before].length + 1, text: excerpt(text.slice(start, end)), says };
  };
  return {
    report: (start, end, says) => {
      const at = Math.max(0, Math.min(start, text.length));
      found.push({ start: at, end: Math.max(at, Math.min(end, text.length)), says });
    },
    count: () => found.length,
    list: () => {
      const sorted = found.toSorted((a, b) => a.start - b.start);
      const shown = sorted.slice(0, MOST).map(each => place(each.start, each.end, each.says));
      const next = sorted[MOST];
      if (!next) return shown;
      const rest = `${sorted.length - MOST} more problems follow from here; mend the ones above first.`;
      return [...shown, place(next.start, next.end, rest)];
    },
  };
}
