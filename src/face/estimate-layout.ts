/** What of digits, plot, numbers and pictures has room on the run screen while there is an estimate to show. */
import { choiceRowHeight, choiceRowWidth } from './widgets/choice-row.tsx';
import { LEAST_PLOT } from './estimate-plot.ts';

export interface StoveSpace {
  readonly width: number;
  /** Rows left under the texts. */
  readonly height: number;
  readonly counts: boolean;
  readonly pictures: number;
  /** Rows of numbers there are to show. */
  readonly numbers: number;
}

export interface StoveLayout {
  readonly digitRows: number;
  /** Null where only the numbers have room. */
  readonly plot: { readonly width: number; readonly height: number } | null;
  readonly numbersWidth: number;
  /** Rows of numbers shown. */
  readonly numbers: number;
  readonly pictures: 'compact' | null;
}

export const NUMBERS_WIDTH = 33;
const LEAST_DIGITS = 3;
const GOOD_DIGITS = 5;
const MOST_DIGITS = 11;
/** From here on more rows go to the digits first, and then to the plot again, up to what it can tell. */
const GOOD_PLOT = 12;
const MOST_PLOT = 20;
const GAP = 1;

/** Digits first, since they are read from three metres; then the plot, then pictures, then larger digits. */
export function stoveLayout({ width, height, counts, pictures, numbers }: StoveSpace): StoveLayout {
  const plotWidth = width - NUMBERS_WIDTH - 2;
  const gap = counts ? GAP : 0;
  const good = height >= GOOD_DIGITS + gap + LEAST_PLOT.height;
  const digits = counts ? (good ? GOOD_DIGITS : LEAST_DIGITS) : 0;
  if (plotWidth < LEAST_PLOT.width || height < digits + gap + LEAST_PLOT.height) {
    const few = Math.max(0, Math.min(numbers, height - (counts ? LEAST_DIGITS : 0)));
    return {
      digitRows: counts ? Math.min(GOOD_DIGITS, height - few) : 0,
      plot: null,
      numbersWidth: width,
      numbers: few,
      pictures: null,
    };
  }
  const picture = choiceRowHeight('compact') + GAP;
  const shown =
    pictures > 0 &&
    choiceRowWidth('compact', pictures) <= width &&
    height >= digits + gap + LEAST_PLOT.height + 2 + picture;
  const rest = height - gap - (shown ? picture : 0);
  const digitRows = counts ? Math.min(MOST_DIGITS, rest - Math.min(GOOD_PLOT, rest - digits)) : 0;
  const plotHeight = Math.min(MOST_PLOT, rest - digitRows);
  return {
    digitRows,
    plot: { width: plotWidth, height: plotHeight },
    numbersWidth: NUMBERS_WIDTH,
    numbers: Math.min(numbers, plotHeight),
    pictures: shown ? 'compact' : null,
  };
}
