import { choicePictures } from '../../src/face/pictures/choices.ts';
import { COMPACT, LARGE } from '../../src/face/pictures/frame.ts';
import { type Drawing, type Ink, rowText } from '../../src/face/spans.ts';

export const lines = (drawing: Drawing) => drawing.map(rowText);
export const SCALES = ['compact', 'large'] as const;
export const sizeOf = { compact: COMPACT, large: LARGE };

export function picture(ask: string, choice: string, scale: 'compact' | 'large', ascii: boolean): Drawing {
  const drawing = choicePictures(ask, choice, scale, ascii);
  if (drawing === null) throw new Error(`no picture for ${ask} ${choice}`);
  return drawing;
}

/** Cells of an ink, each with its place. */
export function cellsOf(drawing: Drawing, ink: Ink): { char: string; column: number; row: number }[] {
  return drawing.flatMap((row, rowIndex) => {
    let column = 0;
    return row.flatMap(part =>
      [...part.text].flatMap(char => {
        const cell = { char, column, row: rowIndex };
        column += 1;
        return part.ink === ink && char !== ' ' ? [cell] : [];
      }),
    );
  });
}
