/** The other pages of the plan sheet: every step with its times, and everything that has to be known in full. */
import { formatDuration } from '../core/quantity-format.ts';
import type { TimelineStop } from '../core/plan/timeline.ts';
import { nightMs } from '../core/plan/quiet.ts';
import { visible, visibleLines } from '../core/text.ts';
import { costLines, shoppingText } from '../core/words/plan-lists.ts';
import { estimateText, planRows } from '../core/words/plan-rows.ts';
import { STEP_NAMES } from '../core/words/steps.ts';
import { whenText } from './format.ts';
import type { Look } from './look.ts';
import { cell, fitParts } from './sheet-text.ts';
import { type SheetView, type SheetWarning, warningsIn } from './sheet-view.ts';
import { type Ink, type Row, span } from './spans.ts';
import { wrapLines } from './wrap.ts';

/** Rows of the page of times that arrows move. */
export const TIME_LINES = ['start', 'ready'] as const;
export type TimeLine = (typeof TIME_LINES)[number];

const stepName = (step: string): string =>
  Object.hasOwn(STEP_NAMES, step) ? STEP_NAMES[step as keyof typeof STEP_NAMES] : step;

/** When the batch begins and is ready; the picked one is moved by half hours. */
export function aimRows(view: SheetView, picked: TimeLine | null, look: Look): readonly Row[] {
  const { timeline, now, aim } = view;
  const arrows = look.ascii ? ['<', '>'] : ['‹', '›'];
  const row = (line: TimeLine, name: string, value: string, says: string): Row => {
    const here = line === picked;
    return [
      span(here ? `${look.symbols.now} ` : '  ', 'accent'),
      span(cell(name, 20, look), here ? 'strong' : 'plain'),
      span(cell(here ? `${arrows[0]} ${value} ${arrows[1]}` : value, 16, look), here ? 'accent' : 'strong'),
      span(says, 'faint'),
    ];
  };
  return [
    row(
      'start',
      'begin',
      whenText(timeline.startsAt, now),
      aim?.by === 'start' || aim === null ? 'asked' : 'latest for that',
    ),
    row('ready', 'ready to inoculate', whenText(timeline.readyAt, now), aim?.by === 'ready' ? 'asked' : ''),
  ];
}

/** A row of the list of steps: one step, or a few that follow one another without a pause. */
interface Stretch {
  readonly stops: readonly TimelineStop[];
  readonly name: string;
}

const OF_LOAD = new Set(['load', 'heat', 'vent', 'climb', 'hold', 'heat-off', 'cool', 'unload']);
/** Steps that may share a row with the one before them where there is little room. */
const JOINS = new Set(['measure', 'drain', 'seal', 'load', 'vent', 'climb', 'heat-off', 'seal-after']);

function stretches(stops: readonly TimelineStop[], loads: number, close: boolean): readonly Stretch[] {
  const rows: Stretch[] = [];
  for (const stop of stops) {
    const last = rows.at(-1);
    const name = close ? shortName(stop.step) : stepName(stop.step);
    if (close && last !== undefined && JOINS.has(stop.step) && last.stops.at(-1)?.waits === false) {
      rows[rows.length - 1] = {
        stops: [...last.stops, stop],
        name: `${last.name}, ${name.toLowerCase()}`,
      };
    } else {
      rows.push({ stops: [stop], name: loads > 1 && OF_LOAD.has(stop.step) ? `${name} ${stop.load}` : name });
    }
  }
  return rows;
}

const roundly = (seconds: number): string => formatDuration(Math.round(seconds / 60) * 60);
/** Nobody needs five minutes of a long range; the likely length always lies within what is shown. */
const COARSE_S = 300;
function between(lowS: number, likelyS: number, highS: number): string {
  const from = lowS < 3600 || likelyS - lowS < COARSE_S ? 60 : COARSE_S;
  const to = highS < 3600 || highS - likelyS < COARSE_S ? 60 : COARSE_S;
  const high = formatDuration(Math.ceil(highS / to - 1e-6) * to);
  if (lowS < 60) return `up to ${high}`;
  return `${formatDuration(Math.floor(lowS / from + 1e-6) * from)} to ${high}`;
}
/** A step that is over as it begins shows no length. */
const lasting = (ms: number): string => (ms < 30_000 ? '' : roundly(ms / 1000));
/** "Heat, valve open" as it stands in a row with others. */
const shortName = (step: string): string => stepName(step).replace(/,.*$/, '');

/** One row for each step, or fewer when they would not fit: when, what, how long, and how sure. */
export function stepRows(view: SheetView, width: number, height: number, look: Look): readonly Row[] {
  const { plan, timeline, now } = view;
  const loads = plan.numbers.loads.length;
  const close = timeline.stops.length > height;
  const nameWidth = close ? 26 : 19;
  const lengthWidth = 13;
  return stretches(timeline.stops, loads, close).map(({ stops, name }) => {
    const [first] = stops;
    const last = stops.at(-1);
    if (first === undefined || last === undefined) return [];
    const lengths = stops.map(({ step }) => plan.lengths[step]).filter(length => length !== undefined);
    const sum = (key: 'lowS' | 'likelyS' | 'highS') =>
      lengths.reduce((total, length) => total + length[key], 0);
    const own = Math.max(0, ...lengths.map(({ batches }) => batches));
    const darkMs = first.waits ? 0 : nightMs({ from: first.from, to: last.to }, timeline.nights);
    const night = darkMs > 0;
    // Of a step that only reaches into the night, as much as the warning counts.
    const dark = darkMs < last.to - first.from ? `${roundly(darkMs / 1000)} at night` : 'at night';
    const parts = [
      night && dark,
      first.stretched && (timeline.readyAt === last.to ? 'until the time asked' : 'longer, for the night'),
      !first.stretched && sum('highS') > sum('lowS') && between(sum('lowS'), sum('likelyS'), sum('highS')),
      own > 0 && `yours, of ${own}`,
      first.waits && !first.stretched && 'by itself',
    ].filter(part => part !== false);
    const ink = first.waits ? 'plain' : 'strong';
    return [
      span(cell(whenText(first.from, now), 11, look), ink),
      span(cell(name, nameWidth, look), ink),
      span(cell(lasting(last.to - first.from), lengthWidth, look)),
      span(
        fitParts(parts, Math.max(0, width - 11 - nameWidth - lengthWidth), look),
        night ? 'watch' : 'faint',
      ),
    ];
  });
}

/** A text behind a mark, wrapped under itself. */
const marked = (text: string, mark: string, width: number, ink: Ink = 'plain'): readonly Row[] =>
  wrapLines(text, width - 4).map((line, index) => [
    span(index === 0 ? mark.padEnd(4) : '    ', 'faint'),
    span(line, ink),
  ]);

/** Warnings in full: what, why and what to change. */
export const warningRows = (warnings: readonly SheetWarning[], width: number, look: Look): readonly Row[] =>
  warnings.flatMap(({ what, why, change, weight }) => [
    ...marked(what, `  ${look.symbols.warn}`, width, weight === 'no' ? 'danger' : 'strong'),
    ...marked(why, '', width),
    ...marked(change, '', width),
  ]);

/** Everything in full, wrapped: warnings, what stands behind the facts, shopping, cost, note. */
export function fullRows(view: SheetView, width: number, look: Look): readonly Row[] {
  const { plan } = view;
  const { units } = plan.kitchen;
  const rows: Row[] = [];
  const head = (text: string) => {
    if (rows.length > 0) rows.push([span(' ')]);
    rows.push([span(text, 'accent')]);
  };
  const wrapped = (text: string, mark: string, ink: Ink = 'plain') => {
    rows.push(...marked(text, mark, width, ink));
  };
  head('Look out for');
  const warnings = warningRows(warningsIn(view), width, look);
  if (warnings.length === 0) wrapped('Nothing unusual.', '');
  rows.push(...warnings);
  head('To have in the house');
  for (const line of plan.shopping) {
    wrapped(visible(shoppingText(line, plan.recipe, plan.kitchen)), `  ${look.symbols.bullet}`);
  }
  head('Cost');
  for (const line of costLines(plan.cost, plan.recipe.containers.kind)) wrapped(visible(line), '');
  head('How heat gets to the centre');
  for (const name of ['cautious', 'likely', 'fast'] as const) {
    const shown = plan.hold.source === 'yours' && name === 'likely' ? 'yours' : name;
    wrapped(estimateText(shown, plan.hold[name], units), `  ${look.symbols.bullet}`);
  }
  wrapped(
    'Estimates of conduction with a band, never a proof that anything is sterile. F0 counts 121.1 °C with z 10; log kill is the smaller of that and a tough grain spore with z 6.1.',
    '',
    'faint',
  );
  head('Behind the numbers');
  for (const { label, value, more, assumed } of planRows(plan)) {
    wrapped(
      `${label} ${value}: ${more.join('; ')}${assumed ? ' (kitchen values assumed)' : ''}`,
      `  ${look.symbols.bullet}`,
    );
  }
  const note = plan.recipe.note.trim();
  if (note !== '') {
    head('Note of the recipe');
    // A file breaks its lines where it likes; only an empty line means a new paragraph.
    for (const paragraph of visibleLines(note).split(/\n\s*\n/))
      wrapped(paragraph.replaceAll(/\s*\n\s*/g, ' '), '');
  }
  return rows;
}
