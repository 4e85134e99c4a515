/** What is drawn into the field of a plot: bands, lines, upright marks and words. */

import type { Ink } from '../spans.ts';
import { type AreaSize, type Dot, PlotArea } from './plot-area.ts';
import type { Range } from './plot-scale.ts';

/** `x` in milliseconds, `y` in the unit of the axis. */
export interface PlotPoint {
  readonly x: number;
  readonly y: number;
}

export interface PlotSeries {
  readonly points: readonly PlotPoint[];
  readonly ink: Ink;
  /** Short word at the end of the line; left out where there is no room. */
  readonly label?: string;
  readonly line?: 'whole' | 'dotted';
  readonly axis?: 'left' | 'right';
}

export interface PlotBand {
  readonly points: readonly { readonly x: number; readonly low: number; readonly high: number }[];
  readonly ink: Ink;
}

export interface PlotMark {
  readonly x: number;
  readonly label: string;
  readonly ink?: Ink;
}

export interface PlotFrame {
  readonly area: PlotArea;
  readonly dotAt: (x: number, y: number, axis: 'left' | 'right') => Dot;
  readonly columnOf: (x: number) => number;
  readonly rowOf: (y: number, axis: 'left' | 'right') => number;
}

export const isPoint = ({ x, y }: PlotPoint): boolean => Number.isFinite(x) && Number.isFinite(y);
const LETTERS = ['*', 'o', '+', 'x'] as const;

/** Ties positions in the field to values on the axes. */
export function frameFor(
  size: AreaSize,
  { x, left, right }: Record<'x' | 'left' | 'right', Range>,
): PlotFrame {
  const area = new PlotArea(size);
  const share = (value: number, { from, to }: Range) => (value - from) / (to - from);
  // Half a dot of margin keeps the extreme values inside the field.
  const dotAt = (at: number, y: number, axis: 'left' | 'right'): Dot => ({
    x: share(at, x) * (area.across - 1) + 0.5,
    y: (1 - share(y, axis === 'left' ? left : right)) * (area.down - 1) + 0.5,
  });
  const columnOf = (at: number) =>
    Math.min(area.columns - 1, Math.max(0, Math.floor(dotAt(at, 0, 'left').x / (area.ascii ? 1 : 2))));
  const rowOf = (y: number, axis: 'left' | 'right') => Math.floor(dotAt(0, y, axis).y / (area.ascii ? 1 : 4));
  return { area, dotAt, columnOf, rowOf };
}

export function drawBand({ area, dotAt }: PlotFrame, { points, ink }: PlotBand): void {
  const known = points.filter(({ x, low, high }) => [x, low, high].every(Number.isFinite));
  known.forEach((point, index) => {
    const next = known[index + 1] ?? point;
    const start = dotAt(point.x, 0, 'left').x;
    const end = dotAt(next.x, 0, 'left').x;
    for (let x = Math.floor(start); x <= Math.floor(end); x += 1) {
      if (x < 0 || x >= area.across) continue;
      const part = end > start ? Math.min(1, Math.max(0, (x - start) / (end - start))) : 0;
      const top = dotAt(0, point.high + (next.high - point.high) * part, 'left').y;
      const bottom = dotAt(0, point.low + (next.low - point.low) * part, 'left').y;
      for (let y = Math.max(0, Math.floor(top)); y <= Math.min(area.down - 1, Math.floor(bottom)); y += 1) {
        if (area.ascii || (x % 2 === 0 && (y + x) % 4 === 0)) area.tint(x, y, ink);
      }
    }
  });
}

export function drawSeries({ area, dotAt }: PlotFrame, series: PlotSeries, index: number): void {
  const letter = LETTERS[index % LETTERS.length] ?? '*';
  const { points, ink, axis = 'left', line = 'whole' } = series;
  let before: Dot | null = null;
  for (const point of points) {
    // A value that is no number breaks the line rather than bending it.
    if (!isPoint(point)) {
      before = null;
      continue;
    }
    const dot = dotAt(point.x, point.y, axis);
    area.line(before ?? dot, dot, ink, letter, line === 'dotted' && before !== null ? 3 : 1);
    before = dot;
  }
}

export function drawUpright(area: PlotArea, column: number, char: string, ink: Ink): void {
  for (let row = 0; row < area.rows; row += 1) {
    if (area.isFree(column, row)) area.char(column, row, char, ink);
  }
}

/** Writes the series' word beside its line, as near its end as there is room; nowhere when there is none. */
export function drawLabel(frame: PlotFrame, { points, ink, label = '', axis = 'left' }: PlotSeries): void {
  const known = points.filter(isPoint);
  const length = [...label].length;
  const fits = (column: number, row: number) =>
    Array.from({ length: length + 2 }, (_, index) => frame.area.isFree(column - 1 + index, row)).every(
      Boolean,
    );
  for (const back of length > 0 ? [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7] : []) {
    const point = known[Math.floor((known.length - 1) * (1 - back))];
    if (point === undefined) return;
    const [column, row] = [frame.columnOf(point.x), frame.rowOf(point.y, axis)];
    const places = [
      [column + 2, row],
      ...[1, -1].map(rows => [column - length, row + rows] as const),
    ] as const;
    const place = places.find(([at, line]) => fits(at, line));
    if (place === undefined) continue;
    [...label].forEach((char, index) => {
      frame.area.char(place[0] + index, place[1], char, ink);
    });
    return;
  }
}
