/** The estimate as a plot: chamber, centre with its band and lethality on the real clock, past and planned. */
import type { Batch } from '../core/batch/state.ts';
import type { CentrePoint } from '../core/estimate/march.ts';
import type { Estimate } from '../core/estimate/estimate.ts';
import type { Units } from '../core/kitchen.ts';
import type { WallTime } from '../core/time.ts';
import { clockText } from './format.ts';
import { plotDrawing, type PlotPoint } from './plot.ts';
import type { Drawing } from './spans.ts';

export interface PlotSpace {
  readonly width: number;
  readonly height: number;
  readonly ascii: boolean;
}
/** From coach time to the wall clock, ms, and where water boils here, C. */
export interface PlotPlace {
  readonly shift: number;
  readonly boilC: number;
}
/** Least cells in which the three curves can be told apart. */
export const LEAST_PLOT = { width: 34, height: 7 } as const;

const SECOND = 1000;
/** Corners closer than a dot only cost time to draw. */
const MOST_POINTS = 240;

/** The wall clock of the batch's instants, without the jitter of two clocks read one after the other. */
export const wallShift = (batch: Batch): number => Math.round((batch.wall - batch.now) / SECOND) * SECOND;

function thinned<T>(points: readonly T[]): readonly T[] {
  const every = Math.ceil(points.length / MOST_POINTS);
  return points.filter((_, index) => index % every === 0 || index === points.length - 1);
}

/** Throws RangeError below the plot's own least size. */
export function estimatePlot(
  estimate: Estimate,
  { shift, boilC }: PlotPlace,
  units: Units,
  space: PlotSpace,
): Drawing {
  const degrees = (celsius: number) => (units.temperature === 'C' ? celsius : celsius * 1.8 + 32);
  const { chamber, ahead, behindPoints, aheadPoints, end } = estimate;
  const wall = (t: number): WallTime => t + shift;
  const side = (which: 'low' | 'likely' | 'high'): readonly CentrePoint[] =>
    thinned([...behindPoints[which], ...aheadPoints[which]]);
  // A bag cools by other laws than it warms: below boiling the centre is left out.
  const steamUntil = chamber.corners.find(
    ({ t, c }) => chamber.heatOffAt !== null && t > chamber.heatOffAt && c.likely < boilC,
  )?.t;
  const likely = side('likely').filter(({ t }) => steamUntil === undefined || t <= steamUntil);
  const [low, high] = [side('low'), side('high')];
  const corners = [...chamber.corners, ...(ahead?.corners ?? [])];
  const at = (points: readonly CentrePoint[], index: number, fallback: CentrePoint) =>
    degrees((points[index] ?? fallback).centreC);
  const line = (read: (point: CentrePoint) => number): readonly PlotPoint[] =>
    likely.map(point => ({ x: wall(point.t), y: read(point) }));
  const marks = [
    ...(chamber.holdFrom === null ? [] : [{ x: wall(chamber.holdFrom), label: 'hold' }]),
    ...(end ? [{ x: wall(end.at), label: end.planned ? `off ${clockText(wall(end.at))}` : 'off' }] : []),
  ];
  return plotDrawing({
    width: space.width,
    height: space.height,
    ascii: space.ascii,
    series: [
      {
        points: corners.map(({ t, c }) => ({ x: wall(t), y: degrees(c.likely) })),
        ink: 'accent',
        label: 'chamber',
      },
      { points: line(({ centreC }) => degrees(centreC)), ink: 'strong', label: 'centre' },
      { points: line(({ f0Min }) => f0Min), ink: 'watch', label: 'F0', line: 'dotted', axis: 'right' },
    ],
    bands: [
      {
        points: likely.map((point, index) => {
          const sides = [at(low, index, point), at(high, index, point)];
          return { x: wall(point.t), low: Math.min(...sides), high: Math.max(...sides) };
        }),
        ink: 'faint',
      },
    ],
    marks,
    ...(end?.planned ? { now: wall(estimate.at) } : {}),
    xLabels: { format: clockText, offset: new Date(wall(chamber.from)).getTimezoneOffset() * 60_000 },
    yLabels: {
      unit: units.temperature === 'C' ? '°C' : '°F',
      rightUnit: 'F0',
      rightTo: 15,
    },
  });
}
