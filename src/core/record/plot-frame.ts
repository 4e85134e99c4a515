/** What both plots of the batch card share: the window of time of a load, scales, time axis, shaded steps. */
import type { Batch } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import { type CoachTime, HOUR, MINUTE, type WallTime } from '../time.ts';
import { STEP_NAMES } from '../words/steps.ts';
import { batchWall } from './bags.ts';
import { escapeHtml } from './html.ts';
import { hotSpells } from './pressure-track.ts';

/** A lock of a night would flatten everything before it: so much of it is drawn. */
const MOST_COOL = 60 * MINUTE;
const LEFT = 44;
const RIGHT = 8;
const TOP = 14;
const BOTTOM = 18;
const SHADES: Partial<Record<StepId, string>> = { vent: '#e4eef5', hold: '#f8f0df', cool: '#efefef' };
/** Narrower than this, in units of the drawing, a step is drawn without its name. */
const LEAST_NAMED = 40;

export interface PlotSize {
  readonly width: number;
  readonly height: number;
}

export interface PlotFrame extends PlotSize {
  readonly from: CoachTime;
  readonly to: CoachTime;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly x: (t: CoachTime) => number;
  readonly y: (value: number) => number;
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** Mean width of a letter with some air, in units of the drawing. */
const LETTER = 6;

/** From the first flame of the load to a while after the last; null when nothing was cooked. */
export function frameOf(
  batch: Batch,
  load: number,
  { width, height }: PlotSize,
  [lowest, highest]: readonly [number, number],
): PlotFrame | null {
  const spells = hotSpells(batch, load);
  const from = spells[0]?.from;
  const to = Math.max(
    ...spells.map(spell =>
      spell.step === 'cool'
        ? Math.min(spell.to ?? batch.now, spell.from + MOST_COOL)
        : (spell.to ?? batch.now),
    ),
  );
  if (from === undefined || !(to > from)) return null;
  const [right, bottom] = [width - RIGHT, height - BOTTOM];
  return {
    width,
    height,
    from,
    to,
    left: LEFT,
    right,
    top: TOP,
    bottom,
    x: t => tenth(LEFT + ((Math.min(to, Math.max(from, t)) - from) / (to - from)) * (right - LEFT)),
    y: value => tenth(bottom - ((value - lowest) / (highest - lowest)) * (bottom - TOP)),
  };
}

/** Steps as shaded fields, with their names above. */
export function shadedSteps(
  batch: Batch,
  load: number,
  { x, top, bottom, to }: PlotFrame,
): readonly string[] {
  let namedTo = 0;
  return hotSpells(batch, load).flatMap(spell => {
    const fill = SHADES[spell.step];
    const end = Math.min(spell.to ?? batch.now, to);
    if (!fill || end <= spell.from) return [];
    const wide = tenth(x(end) - x(spell.from));
    const free = x(spell.from) >= namedTo && (wide > LEAST_NAMED || spell.step === 'vent');
    if (free) namedTo = x(spell.from) + STEP_NAMES[spell.step].length * LETTER;
    const name = free
      ? [`<text x="${x(spell.from) + 2}" y="${top - 4}">${escapeHtml(STEP_NAMES[spell.step])}</text>`]
      : [];
    return [
      `<rect x="${x(spell.from)}" y="${top}" width="${wide}" height="${bottom - top}" fill="${fill}"/>`,
      ...name,
    ];
  });
}

const tickEvery = (span: number, most: number): number =>
  [5, 10, 15, 20, 30, 60, 120, 240, 480].map(count => count * MINUTE).find(step => span / step <= most) ??
  12 * HOUR;

/** Ticks of the time of day below. */
export function timeAxis(
  batch: Batch,
  { from, to, x, left, right, bottom, height, width }: PlotFrame,
  clock: (wall: WallTime) => string,
): readonly string[] {
  const every = tickEvery(to - from, width / 80);
  const begin = batchWall(batch, from);
  const parts = [`<line x1="${left}" x2="${right}" y1="${bottom}" y2="${bottom}" class="axis"/>`];
  for (let wall = Math.ceil(begin / every) * every; wall <= batchWall(batch, to); wall += every) {
    const at = x(from + (wall - begin));
    parts.push(`<line x1="${at}" x2="${at}" y1="${bottom}" y2="${bottom + 4}" class="axis"/>`);
    if (at < right - 8)
      parts.push(`<text x="${at}" y="${height - 4}" text-anchor="middle">${escapeHtml(clock(wall))}</text>`);
  }
  return parts;
}

/** A horizontal line with its value at the left. */
export const valueLine = ({ left, right, y }: PlotFrame, value: number, says: string, kind: string): string =>
  `<line x1="${left}" x2="${right}" y1="${y(value)}" y2="${y(value)}" class="${kind}"/><text x="${left - 4}" y="${y(value) + 3}" text-anchor="end">${escapeHtml(says)}</text>`;

export const svgOf = ({ width, height }: PlotSize, label: string, parts: readonly string[]): string =>
  `<svg class="plot" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escapeHtml(label)}">${parts.join('')}</svg>`;

export const PLOT_STYLE = [
  '.plot{width:100%;display:block}',
  '.plot text{font:9px sans-serif;fill:#222}',
  '.plot .grid,.plot .axis{stroke:#bbb;stroke-width:0.6}',
  '.plot .target{stroke:#444;stroke-width:0.8;stroke-dasharray:5 3}',
  '.plot .curve{fill:none;stroke:#000;stroke-width:1.4}',
  '.plot .guess{stroke-dasharray:2 2.5;stroke-width:1}',
  '.plot .dot{fill:#000}',
  '.plot .hollow{fill:#fff;stroke:#000}',
  '.plot .dip{fill:#e9b8ab;stroke:#a33;stroke-width:0.6}',
  '.plot .band{fill:#ccc;stroke:none}',
  '.plot .vessel{fill:none;stroke:#777;stroke-width:0.9}',
  '.plot .cross{stroke:#000;stroke-width:1.2;fill:none}',
].join('\n');
