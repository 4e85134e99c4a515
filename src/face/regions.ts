/** Where things go on a terminal of a given size; no screen asks the terminal itself. */

export interface Size {
  readonly columns: number;
  readonly rows: number;
}
export interface Regions {
  readonly columns: number;
  readonly rows: number;
  /** Width of the step list, 0 where there is no room for one. */
  readonly margin: number;
  /** What a screen may fill between head and keys. */
  readonly body: { readonly width: number; readonly height: number };
}

export const LEAST: Size = { columns: 60, rows: 18 };
const WIDE = 104;
/** The longest name of a step with the number of its load, a mark and a clock time with its day. */
const MARGIN = 32;
const HEAD_ROWS = 2;
const FOOT_ROWS = 4;

/** Regions of a terminal, or `too-small` under 60x18. */
export function regionsFor({ columns, rows }: Size): Regions | 'too-small' {
  if (columns < LEAST.columns || rows < LEAST.rows) return 'too-small';
  const margin = columns >= WIDE ? MARGIN : 0;
  return {
    columns,
    rows,
    margin,
    body: { width: columns - margin - 2, height: rows - HEAD_ROWS - FOOT_ROWS },
  };
}
