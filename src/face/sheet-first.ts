/** First page of the plan sheet: what can be moved, what follows from it, when, and what to look out for. */
import {
  formatAltitude,
  formatDuration,
  formatMass,
  formatSize,
  formatTemperature,
} from '../core/quantity-format.ts';
import { WHAT_IF_LINES, type WhatIfLine } from '../core/plan/what-if.ts';
import { containerWord, planRows, type RowId } from '../core/words/plan-rows.ts';
import { clockText, minuteOfDay, whenText } from './format.ts';
import type { Look } from './look.ts';
import { holdRuler } from './sheet-ruler.ts';
import { timeRibbon } from './sheet-ribbon.ts';
import { type Columns, cell, columnsFor, pairsRow, type SheetLine, sheetLine } from './sheet-text.ts';
import { type SheetView, warningsIn } from './sheet-view.ts';
import { type Drawing, type Row, span } from './spans.ts';
import { wrapLines } from './wrap.ts';

export interface FirstPage {
  readonly width: number;
  readonly height: number;
  readonly picked: WhatIfLine | null;
}

/** To the whole minute. */
const minutes = (seconds: number): string => formatDuration(Math.round(seconds / 60) * 60);

/** The values that arrows move. */
function whatIfLines({ whatIf, plan, known }: SheetView): Readonly<Record<WhatIfLine, SheetLine>> {
  const { recipe, kitchen, gauge, hold } = plan;
  const { units } = kitchen;
  const { kind, size } = recipe.containers;
  const station = whatIf.altitudeM === null ? kitchen.stationKPa : null;
  return {
    containers: {
      label: 'containers',
      value: containerWord(kind, whatIf.count),
      more: [recipe.containers.touching ? 'pressed together' : 'with room around each'],
    },
    fill: { label: 'each', value: formatMass(whatIf.fillKg, units), more: [formatSize(size, units)] },
    altitude: {
      label: 'altitude',
      value: formatAltitude(kitchen.altitudeM, units),
      more: [
        whatIf.altitudeM !== null && 'kept in your kitchen when you begin',
        station === null
          ? `water boils at ${formatTemperature(gauge.boilC, units, 1)}`
          : `your barometer counts: ${station.toFixed(1)} kPa`,
      ].filter(part => part !== false),
      assumed: station === null && known.assumed.has('altitudeM'),
    },
    hold: {
      label: 'hold',
      value: minutes(whatIf.holdS),
      more: [
        hold.refused === 'too-cool'
          ? 'the steam is too cool for any hold'
          : hold.holdS > hold.recipeS
            ? `becomes ${minutes(hold.holdS)} here`
            : hold.likely.suggestedS === null
              ? 'not enough in 12 hours'
              : `${minutes(hold.likely.suggestedS)} would be enough, likely`,
      ],
    },
  };
}

/** Facts by what they are worth when there is little room. */
const BY_WORTH: readonly RowId[] = [
  'weigh',
  'gauge',
  'hold',
  'water',
  'cooker',
  'simmer',
  'centre',
  'gives',
  'shut',
  'soak',
  'advised',
];

function factRows(view: SheetView, count: number, columns: Columns, look: Look): Row[] {
  const kept = new Set(BY_WORTH.slice(0, count));
  return planRows(view.plan)
    .filter(({ id }) => kept.has(id))
    .map(row => sheetLine(row, columns, look));
}

function clockRow(view: SheetView, columns: Columns, look: Look): Row {
  const { timeline, now } = view;
  const at = (step: string, end: 'from' | 'to'): string => {
    const stop = timeline.stops.find(one => one.step === step);
    return stop === undefined ? '' : whenText(stop[end], now);
  };
  const pairs = [
    ['begin', whenText(timeline.startsAt, now)],
    ['heat off', at('heat-off', 'from')],
    ['inoculate', whenText(timeline.readyAt, now)],
    ['open', at('cool', 'to')],
    ['simmer', at('simmer', 'from')],
  ] as const;
  return pairsRow('clock', pairs, columns, look);
}

/** A drawing of two rows behind a label. */
function labelled(label: string, drawing: Drawing, { label: width }: Columns, look: Look): Row[] {
  return drawing.map((row, index) => [span(`  ${cell(index === 0 ? label : '', width, look)}`), ...row]);
}

const WARNING_INKS = { no: 'danger', watch: 'watch', note: 'plain' } as const;

/** Behind the last warning that has room: how many more there are. */
const moreText = (others: number): string => (others > 0 ? ` (and ${others} more: Tab)` : '');

/** Rows that the first warning needs to be told whole, without what is behind it; 0 without a warning. */
function leastWarningRows(view: SheetView, width: number): number {
  const [first, ...others] = warningsIn(view);
  return first === undefined ? 0 : wrapLines(first.what + moreText(others.length), width - 2).length;
}

function warningRows(view: SheetView, room: number, width: number, look: Look): Row[] {
  const warnings = warningsIn(view);
  const rows: Row[] = [];
  for (const [index, one] of warnings.entries()) {
    const { what, why, change } = one;
    const left = room - rows.length;
    const others = warnings.length - index - 1;
    if (left <= 0) break;
    const whole = wrapLines(`${what} ${why} ${change}`, width - 2);
    const mark = one.code === 'vessel-assumed' ? '?' : look.symbols.warn;
    const ink = WARNING_INKS[one.weight];
    const tell = (lines: readonly string[]): void => {
      lines.forEach((line, at) => {
        rows.push([
          span(at === 0 ? `${mark} ` : '  ', ink === 'plain' ? 'watch' : ink),
          span(line.trimStart(), ink),
        ]);
      });
    };
    if (whole.length <= left - others) {
      tell(whole);
      continue;
    }
    const alone = wrapLines(what, width - 2);
    // Nothing is cut: the next one comes only where it, and that there are more, have room.
    const next = warnings[index + 1];
    const nextLeast = next ? wrapLines(next.what + moreText(others - 1), width - 2).length : 0;
    if (alone.length + nextLeast <= left) {
      tell(alone);
      continue;
    }
    tell(wrapLines(what + moreText(others), width - 2).slice(0, left));
    break;
  }
  return rows;
}

const LEAST_FACTS = 6;
const MOST_FACTS = BY_WORTH.length;

/** Exactly the rows there is room for: what matters most stays, blanks go first. */
export function firstPage(view: SheetView, page: FirstPage, look: Look): Row[] {
  const { width, height, picked } = page;
  const columns = columnsFor(width);
  const lines = whatIfLines(view);
  const moved = WHAT_IF_LINES.map(id => sheetLine({ ...lines[id], picked: id === picked }, columns, look));
  // A warning is told whole, if need be in place of the fact that is worth least.
  const warned = Math.max(1, leastWarningRows(view, width));
  let room = height - moved.length - 1 - warned;
  let facts = Math.min(LEAST_FACTS, room);
  room -= facts;
  const take = (rows: number): boolean => {
    if (room < rows) return false;
    room -= rows;
    return true;
  };
  const ruler = take(2);
  const ribbon = take(2);
  const blankA = take(1);
  while (facts < Math.min(MOST_FACTS, 8) && take(1)) facts += 1;
  const blankB = take(1);
  while (facts < MOST_FACTS && take(1)) facts += 1;
  const blankC = take(1);
  const drawn = { width: width - 2 - columns.label, ascii: look.ascii };
  const blank: Row = [span(' ')];
  return [
    ...moved,
    ...(blankA ? [blank] : []),
    ...factRows(view, facts, columns, look),
    ...(blankB ? [blank] : []),
    ...(ruler ? labelled('enough?', holdRuler(view.plan.hold, drawn), columns, look) : []),
    ...(ribbon
      ? labelled(
          'nights',
          timeRibbon(view.timeline, { ...drawn, clock: clockText, minuteOfDay }),
          columns,
          look,
        )
      : []),
    clockRow(view, columns, look),
    ...(blankC ? [blank] : []),
    ...warningRows(view, warned + Math.max(0, room), width, look),
  ].slice(0, height);
}
