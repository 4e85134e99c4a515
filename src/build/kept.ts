/**
 * Stands in Ink's way from a text to its cells, put there by `patches.ts`. From one second to the next nearly
 * every line of a screen is the same, and Ink takes each of them apart and puts it together again for every
 * frame, 8 MB of it on a large screen. What is kept is thrown away whole when it has grown large, so that hours
 * of changing digits leave nothing behind.
 */
import { isSimpleCells } from './segmenter.ts';

/** The same function, which remembers its last answers, at most so many. */
export function remembering<Asked, Answer>(
  work: (asked: Asked) => Answer,
  most: number,
): (asked: Asked) => Answer {
  const known = new Map<Asked, Answer>();
  return asked => {
    const before = known.get(asked);
    if (before !== undefined) return before;
    if (known.size >= most) known.clear();
    const answer = work(asked);
    known.set(asked, answer);
    return answer;
  };
}

/** The same for two things, each known by what it is and not by what is in it. */
export function rememberingPairs<Asked extends object, Answer>(
  work: (one: Asked, other: Asked) => Answer,
  most: number,
): (one: Asked, other: Asked) => Answer {
  const first = remembering((one: Asked) => remembering((other: Asked) => work(one, other), most), most);
  return (one, other) => first(one)(other);
}

interface Code {
  readonly code: string;
}

/** Of styles that say the same always the same one, so that they can be known by what they are. */
export function oneOfEach(most: number): (styles: readonly Code[]) => readonly Code[] {
  const known = new Map<string, readonly Code[]>();
  return styles => {
    const says = styles.map(({ code }) => code).join('');
    const before = known.get(says);
    if (before !== undefined) return before;
    if (known.size >= most) known.clear();
    known.set(says, styles);
    return styles;
  };
}

/** The text of each row, put together only when a cell of it is another one than on the last frame. */
export function rowTexts<Cell>(
  work: (cells: readonly Cell[]) => string,
): (cells: readonly Cell[], y: number) => string {
  const rows: { readonly cells: readonly Cell[]; readonly text: string }[] = [];
  return (cells, y) => {
    const before = rows[y];
    if (before?.cells.length === cells.length && before.cells.every((cell, x) => cell === cells[x])) {
      return before.text;
    }
    const text = work(cells);
    rows[y] = { cells, text };
    return text;
  };
}

interface Caches {
  readonly styledChars: { readonly size: number };
  readonly widths: { readonly size: number };
}

/** The same caches from frame to frame, until they hold more than so many lines or widths. */
export function keptCaches<Kept extends Caches>(make: () => Kept, lines: number, widths: number): () => Kept {
  let kept = make();
  return () => {
    if (kept.styledChars.size > lines || kept.widths.size > widths) kept = make();
    return kept;
  };
}

/** Several moves to the next line as one move of so many lines (ECMA-48, CNL). */
export const shortMoves = (frame: string): string =>
  frame.replace(/(?:\u001b\[E){2,}/g, moves => `\u001b[${moves.length / 3}E`);

/** Where the text after the last style begins; Ink ends every style, so that this text has none. */
function plainTail(text: string): number {
  const last = text.lastIndexOf('\u001b[');
  return last < 0 ? 0 : text.indexOf('m', last) + 1;
}

const cellsOf = (text: string): string => text.replace(/\u001b\[[\d;]*m/g, '');

/**
 * What is written of the rest of a line, from its first changed cell on. Where the same plain text follows at
 * the same place it is left standing; else the old rest is erased and all of the new one written. Only cells
 * that every terminal counts alike are trusted to be as many as before.
 */
export function changedPart(previous: string, next: string, styles: string, erase: string): string {
  const [from, to] = [plainTail(previous), plainTail(next)];
  const [before, after] = [cellsOf(previous.slice(0, from)), cellsOf(next.slice(0, to))];
  const isSame =
    previous.slice(from) === next.slice(to) &&
    before.length === after.length &&
    isSimpleCells(before) &&
    isSimpleCells(after);
  return isSame ? styles + next.slice(0, to) : erase + styles + next;
}
