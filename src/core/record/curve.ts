/** The gauge pressure of one load over its time at the stove, as inline SVG for the batch card. */
import { numbersOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { Units } from '../kitchen.ts';
import { formatDuration, formatPressure } from '../quantity-format.ts';
import { SECOND, type WallTime } from '../time.ts';
import { escapeHtml } from './html.ts';
import {
  frameOf,
  type PlotFrame,
  type PlotSize,
  shadedSteps,
  svgOf,
  timeAxis,
  valueLine,
} from './plot-frame.ts';
import { pressureTrack, type TrackPoint } from './pressure-track.ts';

/** Room above the target for readings over it. */
const HEADROOM = 1.15;

/** Fields where the gauge was below target in the hold, each with how long. */
function dipFields(batch: Batch, load: number, frame: PlotFrame): readonly string[] {
  const { x, top, bottom, to } = frame;
  const dips = batch.dips.filter(dip => dip.load === load && dip.from < to);
  return dips.flatMap((dip, index) => {
    const end = Math.min(dip.to ?? to, to);
    const wide = Math.max(1.5, Math.round((x(end) - x(dip.from)) * 10) / 10);
    const says = `dip ${formatDuration(Math.max(60, Math.round((end - dip.from) / SECOND / 60) * 60))}`;
    const field = `<rect x="${x(dip.from)}" y="${top}" width="${wide}" height="${bottom - top}" class="dip"/>`;
    // Beside one another their words would overlap: they take turns at three heights, and many go without.
    const name = `<text x="${x(dip.from) + wide / 2}" y="${bottom - 4 - (index % 3) * 11}" text-anchor="middle">${escapeHtml(says)}</text>`;
    return dips.length > 9 ? [field] : [field, name];
  });
}

/** A dotted line where only the ends are known. */
function lines(points: readonly TrackPoint[], { x, y }: PlotFrame): readonly string[] {
  return points.slice(1).flatMap((point, index) => {
    const before = points[index];
    if (!before || (before.t === point.t && before.kPa === point.kPa)) return [];
    const guess = before.kPa !== point.kPa && (before.how === 'follows' || point.how === 'follows');
    return [
      `<line x1="${x(before.t)}" y1="${y(before.kPa)}" x2="${x(point.t)}" y2="${y(point.kPa)}" class="curve${guess ? ' guess' : ''}"/>`,
    ];
  });
}

/** The curve, or null when the load was never heated. `clock` writes an instant as local time of day. */
export function curveSvg(
  batch: Batch,
  load: number,
  size: PlotSize,
  units: Units,
  clock: (wall: WallTime) => string,
): string | null {
  const { targetKPa } = numbersOf(batch);
  const track = pressureTrack(batch, load);
  const highest = Math.max(targetKPa * HEADROOM, ...track.map(({ kPa }) => kPa * 1.05));
  const frame = frameOf(batch, load, size, [0, highest]);
  if (!frame) return null;
  const shown = track.filter(({ t }) => t <= frame.to);
  const seen = shown.filter(({ how }) => how !== 'follows');
  return svgOf(size, 'gauge pressure over time', [
    ...shadedSteps(batch, load, frame),
    ...dipFields(batch, load, frame),
    valueLine(frame, 0, formatPressure(0, units), 'grid'),
    valueLine(frame, targetKPa / 2, formatPressure(targetKPa / 2, units), 'grid'),
    valueLine(frame, targetKPa, formatPressure(targetKPa, units), 'target'),
    ...lines(shown, frame),
    ...seen.map(
      ({ t, kPa, how }) =>
        `<circle cx="${frame.x(t)}" cy="${frame.y(kPa)}" r="2.6" class="dot${how === 'said' ? ' hollow' : ''}"/>`,
    ),
    ...timeAxis(batch, frame, clock),
  ]);
}
