/**
 * A line plot over time: temperatures on the left axis, a second small scale on the right (lethality), a
 * band around an estimate, planned events as upright marks and the present moment. Braille dots, or plain
 * letters. Series are told apart by ink, by line (whole or dotted) and by a word at their end.
 */

import { drawBand, drawLabel, drawSeries, drawUpright, frameFor, isPoint } from './pictures/plot-lines.ts';
import type { PlotBand, PlotMark, PlotSeries } from './pictures/plot-lines.ts';
import { type Range, rangeOf, roundStep, tickText, ticksIn, timeStep } from './pictures/plot-scale.ts';
import { type Drawing, type Ink, type Span, span } from './spans.ts';

export type { PlotBand, PlotMark, PlotPoint, PlotSeries } from './pictures/plot-lines.ts';

export interface PlotOptions {
  /** At least 24 by 5 cells. */
  readonly width: number;
  readonly height: number;
  readonly ascii?: boolean;
  readonly series: readonly PlotSeries[];
  readonly bands?: readonly PlotBand[];
  readonly marks?: readonly PlotMark[];
  /** The present moment, ms. */
  readonly now?: number;
  readonly xLabels: {
    readonly format: (x: number) => string;
    /** Shown at least; by default the range of the data, marks and now. */
    readonly from?: number;
    readonly to?: number;
    /** Moves the ticks, so that they fall on the full local hour. */
    readonly offset?: number;
  };
  readonly yLabels: {
    /** Unit above the left axis, for example "°C". */
    readonly unit: string;
    /** Shown at least. */
    readonly from?: number;
    readonly to?: number;
    /** Name above the right axis, for example "F0"; it always starts at 0. */
    readonly rightUnit?: string;
    readonly rightTo?: number;
  };
}

function rangesOf(options: PlotOptions): Record<'x' | 'left' | 'right', Range | null> {
  const { series, bands = [], marks = [], now, xLabels, yLabels } = options;
  const points = (axis: 'left' | 'right') =>
    series.filter(one => (one.axis ?? 'left') === axis).flatMap(one => one.points.filter(isPoint));
  const [left, right] = [points('left'), points('right')];
  const band = bands.flatMap(one => one.points);
  const times = [...left, ...right, ...band, ...marks].map(({ x }) => x);
  const lefts = [...left.map(({ y }) => y), ...band.flatMap(({ low, high }) => [low, high])];
  return {
    x: rangeOf([...times, now, xLabels.from, xLabels.to]),
    left: rangeOf([...lefts, yLabels.from, yLabels.to]),
    // Lethality only grows from nothing, so its axis stands on 0 and has some height before the first value.
    right: rangeOf([0, yLabels.rightTo ?? 1, ...right.map(({ y }) => y)]),
  };
}

interface Placed {
  readonly column: number;
  readonly text: string;
  readonly ink: Ink;
}

/** Texts laid on a row at given columns; a text that would touch an earlier one is left out. */
function textRow(width: number, texts: readonly Placed[], fill: string): Span[] {
  const cells: Span[] = Array.from({ length: width }, () => span(fill, 'faint'));
  const taken = new Set<number>();
  for (const { column, text, ink } of texts) {
    const chars = [...text];
    const start = Math.max(0, Math.min(column, width - chars.length));
    if (chars.length > width || [-1, ...chars.keys(), chars.length].some(index => taken.has(start + index)))
      continue;
    chars.forEach((char, index) => {
      cells[start + index] = span(char, ink);
      taken.add(start + index);
    });
  }
  return cells;
}

function joined(cells: readonly Span[]): Span[] {
  const parts: Span[] = [];
  for (const cell of cells) {
    const last = parts.at(-1);
    if (last?.ink === cell.ink) parts[parts.length - 1] = span(last.text + cell.text, cell.ink);
    else parts.push(cell);
  }
  return parts;
}

interface Axis {
  readonly unit: string;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
  readonly width: number;
}

function axisFor(unit: string, range: Range | null, steps: number): Axis {
  const step = range === null ? 1 : roundStep(range, Math.max(1, Math.floor(steps)));
  const ticks =
    range === null ? [] : ticksIn(range, step).map(value => ({ value, text: tickText(value, step) }));
  return { unit, ticks, width: Math.max([...unit].length, ...ticks.map(({ text }) => text.length)) };
}

const NOTHING: Range = { from: 0, to: 1 };

/**
 * The plot in exactly `width` by `height` cells; without data, the empty axes. A point that is no number
 * breaks its line. Throws RangeError below 24 by 5 cells.
 */
export function plotDrawing(options: PlotOptions): Drawing {
  const { width, height, ascii = false, series, bands = [], marks = [], now, yLabels } = options;
  if (!(Number.isInteger(width) && Number.isInteger(height) && width >= 24 && height >= 5)) {
    throw new RangeError(`A plot needs at least 24 by 5 cells, not ${width} by ${height}.`);
  }
  const ranges = rangesOf(options);
  const rows = height - 2;
  const left = axisFor(yLabels.unit, ranges.left, rows / (rows > 12 ? 3 : 2));
  const right = yLabels.rightUnit === undefined ? null : axisFor(yLabels.rightUnit, ranges.right, rows / 3);
  const columns = width - left.width - 2 - (right === null ? 0 : right.width + 2);
  const frame = frameFor(
    { columns, rows, ascii },
    { x: ranges.x ?? NOTHING, left: ranges.left ?? NOTHING, right: ranges.right ?? NOTHING },
  );

  for (const band of bands) drawBand(frame, band);
  // Drawn last to first: where lines cross, the first series keeps its ink.
  for (const [index, one] of [...series.entries()].reverse()) drawSeries(frame, one, index);
  for (const one of series) drawLabel(frame, one);
  if (now !== undefined) drawUpright(frame.area, frame.columnOf(now), ascii ? '|' : '│', 'accent');
  for (const { x, ink } of marks)
    drawUpright(frame.area, frame.columnOf(x), ascii ? ':' : '┊', ink ?? 'faint');

  const signs = ascii
    ? { axis: '|', left: '+', right: '+', now: 'v', corner: '+', end: '+', floor: '-' }
    : { axis: '│', left: '┤', right: '├', now: '▾', corner: '└', end: '┘', floor: '─' };
  const heads: Placed[] = marks.map(({ x, label, ink = 'faint' }) => ({
    column: frame.columnOf(x),
    text: label,
    ink,
  }));
  if (now !== undefined) heads.unshift({ column: frame.columnOf(now), text: signs.now, ink: 'accent' });
  const top = [
    span(`${left.unit.padStart(left.width)}  `),
    ...textRow(columns, heads, ' '),
    ...(right === null ? [] : [span(`  ${right.unit.padEnd(right.width)}`)]),
  ];
  const body = Array.from({ length: rows }, (_, row) => {
    const leftTick = left.ticks.find(({ value }) => frame.rowOf(value, 'left') === row);
    const rightTick = right?.ticks.find(({ value }) => frame.rowOf(value, 'right') === row);
    const cells = Array.from({ length: columns }, (_, column) => frame.area.cell(column, row));
    return [
      span(`${(leftTick?.text ?? '').padStart(left.width)} `),
      span(leftTick ? signs.left : signs.axis, 'faint'),
      ...cells.map(({ char, ink }) => span(char, ink)),
      ...(right === null
        ? []
        : [
            span(rightTick ? signs.right : signs.axis, 'faint'),
            span(` ${(rightTick?.text ?? '').padEnd(right.width)}`),
          ]),
    ];
  });
  const foot = [
    span(' '.repeat(left.width + 1)),
    span(signs.corner, 'faint'),
    ...textRow(columns, timesOf(options, ranges.x, columns, frame.columnOf), signs.floor),
    ...(right === null ? [] : [span(signs.end, 'faint'), span(' '.repeat(right.width + 1))]),
  ];
  return [top, ...body, foot].map(joined);
}

function timesOf(
  { xLabels }: PlotOptions,
  range: Range | null,
  columns: number,
  columnOf: (x: number) => number,
): Placed[] {
  if (range === null) return [];
  const step = timeStep(range, Math.max(1, Math.floor(columns / 12)));
  return ticksIn(range, step, xLabels.offset ?? 0).map(x => {
    const text = xLabels.format(x);
    return { column: columnOf(x) - Math.floor([...text].length / 2), text, ink: 'plain' };
  });
}
