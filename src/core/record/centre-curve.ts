/** The estimate of one load over its time at the stove: the middle of the fullest container, with its band. */
import type { Batch } from '../batch/state.ts';
import { estimateAt } from '../estimate/estimate.ts';
import type { Units } from '../kitchen.ts';
import { formatTemperature } from '../quantity-format.ts';
import type { CoachTime, WallTime } from '../time.ts';
import { bandText, f0Text } from '../words/estimate.ts';
import { escapeHtml } from './html.ts';
import { frameOf, type PlotSize, shadedSteps, svgOf, timeAxis, valueLine } from './plot-frame.ts';

/** Axis from a cool kitchen to a little above any hold, C. */
const LOWEST_C = 10;
const HIGHEST_C = 130;
const TICKS_C = [25, 50, 75, 100, 121];

type At = readonly [t: CoachTime, celsius: number];

/** The curve, or null while there is nothing to estimate. */
export function centreSvg(
  batch: Batch,
  load: number,
  size: PlotSize,
  units: Units,
  clock: (wall: WallTime) => string,
): string | null {
  const estimate = estimateAt(batch, load);
  const frame = frameOf(batch, load, size, [LOWEST_C, HIGHEST_C]);
  if (!estimate || !frame) return null;
  // Once the flame is off other laws hold, and no lethality is claimed from them.
  const until = Math.min(frame.to, estimate.chamber.heatOffAt ?? frame.to);
  const inside = (points: readonly At[]): readonly At[] => points.filter(([t]) => t <= until);
  const at = ([t, celsius]: At): string => `${frame.x(t)},${frame.y(celsius)}`;
  const side = (which: 'low' | 'likely' | 'high'): readonly At[] =>
    inside(estimate.behindPoints[which].map(({ t, centreC }) => [t, centreC]));
  const vessel = inside(estimate.chamber.corners.map(({ t, c }) => [t, c.likely]));
  const band = [...side('high'), ...side('low').toReversed()].map(at).join(' ');
  const probes = batch.measured.filter(
    entry => entry.load === load && entry.of === 'centre' && entry.t <= frame.to,
  );
  const end = estimate.end;
  const spread = end ? bandText(end.f0Min, f0Text) : '';
  const says = end
    ? `F0 ${f0Text(end.f0Min.likely)}${spread === '' ? '' : ` (${spread})`} ${end.planned ? 'at the planned end' : 'when the flame went off'}`
    : '';
  return svgOf(size, 'estimated temperature in the middle over time', [
    ...shadedSteps(batch, load, frame),
    ...TICKS_C.map(celsius =>
      valueLine(frame, celsius, formatTemperature(celsius, units), celsius === 121 ? 'target' : 'grid'),
    ),
    `<polygon points="${band}" class="band"/>`,
    `<polyline points="${vessel.map(at).join(' ')}" class="vessel"/>`,
    `<polyline points="${side('likely').map(at).join(' ')}" class="curve"/>`,
    ...probes.map(({ t, celsius }) => {
      const [x, y] = [frame.x(t), frame.y(celsius)];
      return `<path d="M${x - 3} ${y - 3}l6 6m0 -6l-6 6" class="cross"/>`;
    }),
    `<text x="${frame.right - 4}" y="${frame.bottom - 5}" text-anchor="end">${escapeHtml(says)}</text>`,
    ...timeAxis(batch, frame, clock),
  ]);
}
