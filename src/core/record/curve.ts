/** The pressure of a batch over the time at the stove, as inline SVG for the batch card. */
import { numbersOf } from '../batch/moves.ts';
import type { Batch, Reading } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import type { Units } from '../kitchen.ts';
import { formatPressure } from '../quantity-format.ts';
import { type CoachTime, HOUR, MINUTE, type WallTime } from '../time.ts';
import { STEP_NAMES } from '../words/steps.ts';
import { batchWall } from './bags.ts';
import { escapeHtml } from './html.ts';

const WIDTH = 720;
const HEIGHT = 170;
const LEFT = 46;
const RIGHT = 10;
const TOP = 16;
const BOTTOM = 22;
const SHOWN: readonly StepId[] = ['heat', 'vent', 'climb', 'hold', 'heat-off', 'cool'];
const SHADES: Partial<Record<StepId, string>> = { vent: '#e4eef5', hold: '#f6ead2', cool: '#efefef' };
/** A lock of a night would flatten everything before it: so much of it is drawn. */
const MOST_COOL = 90 * MINUTE;

interface Window {
  readonly from: CoachTime;
  readonly to: CoachTime;
}

/** What is drawn: from the first flame to a while after the last, or null when nothing was cooked. */
function windowOf(batch: Batch): Window | null {
  const spells = batch.times.filter(({ step }) => SHOWN.includes(step));
  const [first] = spells;
  if (!first) return null;
  const ends = spells.map(({ step, from, to }) =>
    step === 'cool' ? Math.min(to ?? batch.now, from + MOST_COOL) : (to ?? batch.now),
  );
  const to = Math.max(...ends);
  return to > first.from ? { from: first.from, to } : null;
}

/** kPa that a reading stands for: its number, or the target when it was only called "at target". */
function levelOf(reading: Reading, targetKPa: number): number | null {
  if (reading.kPa !== null) return reading.kPa;
  if (reading.seen === 'zero') return 0;
  return reading.seen === 'at' ? targetKPa : null;
}

const tickEvery = (span: number): number =>
  [5, 10, 20, 30, 60, 120, 240, 480].map(count => count * MINUTE).find(step => span / step <= 9) ?? 12 * HOUR;

/** The curve, or null when there is nothing to draw. `clock` writes an instant as local time of day. */
export function curveSvg(batch: Batch, units: Units, clock: (wall: WallTime) => string): string | null {
  const shown = windowOf(batch);
  if (!shown) return null;
  const { targetKPa } = numbersOf(batch);
  const inside = batch.readings.filter(({ t }) => t >= shown.from && t <= shown.to);
  const highest = Math.max(targetKPa * 1.15, ...inside.map(({ kPa }) => kPa ?? 0));
  const x = (t: CoachTime): number =>
    Math.round((LEFT + ((t - shown.from) / (shown.to - shown.from)) * (WIDTH - LEFT - RIGHT)) * 10) / 10;
  const y = (kPa: number): number =>
    Math.round((HEIGHT - BOTTOM - (kPa / highest) * (HEIGHT - TOP - BOTTOM)) * 10) / 10;
  const parts: string[] = [];
  for (const { step, from, to } of batch.times) {
    const fill = SHADES[step];
    const end = Math.min(to ?? batch.now, shown.to);
    if (!fill || end <= from) continue;
    const wide = x(end) - x(from);
    parts.push(
      `<rect x="${x(from)}" y="${TOP}" width="${Math.round(wide * 10) / 10}" height="${HEIGHT - TOP - BOTTOM}" fill="${fill}"/>`,
    );
    if (wide > 34)
      parts.push(`<text x="${x(from) + 3}" y="${TOP - 4}">${escapeHtml(STEP_NAMES[step])}</text>`);
  }
  for (const kPa of [0, targetKPa / 2, targetKPa]) {
    parts.push(
      `<line x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${y(kPa)}" y2="${y(kPa)}" class="${kPa === targetKPa ? 'target' : 'grid'}"/>`,
    );
    parts.push(
      `<text x="${LEFT - 4}" y="${y(kPa) + 3}" text-anchor="end">${escapeHtml(formatPressure(kPa, units))}</text>`,
    );
  }
  const every = tickEvery(shown.to - shown.from);
  const first = Math.ceil(batchWall(batch, shown.from) / every) * every;
  for (let wall = first; wall <= batchWall(batch, shown.to); wall += every) {
    const at = x(shown.from + (wall - batchWall(batch, shown.from)));
    parts.push(
      `<line x1="${at}" x2="${at}" y1="${HEIGHT - BOTTOM}" y2="${HEIGHT - BOTTOM + 4}" class="axis"/>`,
    );
    if (at < WIDTH - 16)
      parts.push(`<text x="${at}" y="${HEIGHT - 7}" text-anchor="middle">${escapeHtml(clock(wall))}</text>`);
  }
  const loads = [...new Set(inside.map(({ load }) => load))];
  for (const load of loads) {
    const points = inside
      .filter(reading => reading.load === load)
      .map(reading => ({ reading, kPa: levelOf(reading, targetKPa) }))
      .filter((point): point is { reading: Reading; kPa: number } => point.kPa !== null);
    const line = points.map(({ reading, kPa }) => `${x(reading.t)},${y(kPa)}`).join(' ');
    if (points.length > 1) parts.push(`<polyline points="${line}" class="curve"/>`);
    for (const { reading, kPa } of points) {
      const hollow = reading.kPa === null ? ' hollow' : '';
      parts.push(`<circle cx="${x(reading.t)}" cy="${y(kPa)}" r="2.6" class="dot${hollow}"/>`);
    }
    for (const { t, seen } of inside.filter(reading => reading.load === load && reading.kPa === null)) {
      if (seen === 'below' || seen === 'above') {
        parts.push(
          `<text x="${x(t)}" y="${y(targetKPa) + (seen === 'below' ? 12 : -5)}" text-anchor="middle">${seen === 'below' ? '▼' : '▲'}</text>`,
        );
      }
    }
  }
  return `<svg class="plot" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="gauge pressure over time">${parts.join('')}</svg>`;
}

export const CURVE_STYLE = [
  '.plot{width:100%;display:block}',
  '.plot text{font:9px sans-serif;fill:#333}',
  '.plot .grid,.plot .axis{stroke:#bbb;stroke-width:0.7}',
  '.plot .target{stroke:#555;stroke-width:0.8;stroke-dasharray:4 3}',
  '.plot .curve{fill:none;stroke:#000;stroke-width:1.3}',
  '.plot .dot{fill:#000}',
  '.plot .hollow{fill:#fff;stroke:#000}',
].join('\n');
