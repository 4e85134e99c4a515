/** The centre of a container over the evening: chamber, likely centre with its band, and F0 as it gathers. */
import type { CentrePoint } from '../core/plan/centre.ts';
import type { HoldPlan } from '../core/plan/hold-plan.ts';
import { celsiusToFahrenheit } from '../core/science/units.ts';
import type { Units } from '../core/kitchen.ts';
import { plotDrawing } from './plot.ts';
import type { Drawing } from './spans.ts';

export interface SheetPlotOptions {
  readonly width: number;
  readonly height: number;
  readonly ascii: boolean;
  readonly units: Units;
}

/** A point a minute is finer than any terminal. */
const EVERY_S = 60;

function thinned(points: readonly CentrePoint[], untilS: number): readonly CentrePoint[] {
  const kept: CentrePoint[] = [];
  let next = 0;
  for (const point of points) {
    if (point.seconds > untilS + 1e-6) break;
    if (point.seconds < next) continue;
    kept.push(point);
    next = point.seconds + EVERY_S;
  }
  return kept;
}

const elapsed = (ms: number): string => {
  const minutes = Math.round(ms / 60_000);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
};

/** The plot in exactly `width` by `height` cells, hours from the lit stove along its foot. */
export function sheetPlot({ curves, holdS }: HoldPlan, options: SheetPlotOptions): Drawing {
  const { width, height, ascii, units } = options;
  const degrees = (celsius: number) => (units.temperature === 'C' ? celsius : celsiusToFahrenheit(celsius));
  const untilS = curves.likely.holdFromS + holdS;
  const likely = thinned(curves.likely.points, untilS);
  const low = thinned(curves.cautious.points, untilS);
  const high = thinned(curves.fast.points, untilS);
  const x = ({ seconds }: CentrePoint) => seconds * 1000;
  return plotDrawing({
    width,
    height,
    ascii,
    series: [
      {
        points: likely.map(point => ({ x: x(point), y: degrees(point.centreC) })),
        ink: 'accent',
        label: 'centre',
      },
      {
        points: likely.map(point => ({ x: x(point), y: degrees(point.chamberC) })),
        ink: 'steam',
        label: 'chamber',
        line: 'dotted',
      },
      {
        points: likely.map(point => ({ x: x(point), y: point.f0Min })),
        ink: 'good',
        label: 'F0',
        axis: 'right',
      },
    ],
    bands: [
      {
        ink: 'faint',
        points: likely.map((point, index) => ({
          x: x(point),
          low: degrees(low[index]?.centreC ?? point.centreC),
          high: degrees(high[index]?.centreC ?? point.centreC),
        })),
      },
    ],
    marks: [{ x: curves.likely.holdFromS * 1000, label: 'hold' }],
    xLabels: { format: elapsed, from: 0, to: untilS * 1000 },
    yLabels: {
      unit: units.temperature === 'C' ? '°C' : '°F',
      to: degrees(125),
      rightUnit: 'F0',
      rightTo: 30,
    },
  });
}
