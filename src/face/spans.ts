/**
 * Pictures, digits and plots are drawn as rows of spans: text with the name of an ink. Only `look.ts`
 * turns an ink into a colour, so a drawing can be tested without a terminal and read without colour.
 */

export type Ink =
  | 'plain'
  | 'strong'
  | 'faint'
  | 'accent'
  | 'good'
  | 'watch'
  | 'danger'
  | 'steam'
  | 'grain'
  | 'bran'
  | 'flesh'
  | 'core'
  | 'water'
  | 'cloth'
  | 'film';

export interface Span {
  readonly text: string;
  readonly ink: Ink;
}
/** One row of cells. */
export type Row = readonly Span[];
/** A drawing: rows of equal width. */
export type Drawing = readonly Row[];

export const span = (text: string, ink: Ink = 'plain'): Span => ({ text, ink });
export const rowText = (row: Row): string => row.map(part => part.text).join('');
