/** A sheet of labels, one for each bag, as a page for the printer. */
import { formatMass } from '../quantity-format.ts';
import type { Units } from '../kitchen.ts';
import type { WallTime } from '../time.ts';
import { doseText } from '../words/record.ts';
import { type DoubtId, doubtText } from './doubt.ts';
import type { Bag } from './bags.ts';
import type { DayRange, Growth } from './follow-ups.ts';
import { escapeHtml, htmlPage, mm, PAPERS, type Paper } from './html.ts';
import { qrSvg } from './qr.ts';
import { DAY } from '../time.ts';

export interface LabelGrid {
  readonly paper: Paper;
  readonly columns: number;
  readonly rows: number;
  /** Labels of the first sheet that are used up already. */
  readonly skip: number;
}
export const DEFAULT_GRID: LabelGrid = { paper: 'A4', columns: 3, rows: 8, skip: 0 };

const MARGIN_MM = 8;
const GAP_MM = 2;
/** Smaller labels hold neither a readable id nor a code that a phone can read. */
export const LEAST_LABEL = { widthMm: 34, heightMm: 18 } as const;

export interface LabelSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Size of one label, or null when the grid makes them too small or is no grid. */
export function labelSize({ paper, columns, rows }: LabelGrid): LabelSize | null {
  if (!Number.isInteger(columns) || !Number.isInteger(rows) || columns < 1 || rows < 1) return null;
  const { widthMm, heightMm } = PAPERS[paper];
  const size = {
    widthMm: (widthMm - 2 * MARGIN_MM - (columns - 1) * GAP_MM) / columns,
    heightMm: (heightMm - 2 * MARGIN_MM - (rows - 1) * GAP_MM) / rows,
  };
  return size.widthMm >= LEAST_LABEL.widthMm && size.heightMm >= LEAST_LABEL.heightMm ? size : null;
}

export interface LabelledBag {
  readonly bag: Bag;
  readonly grain: string;
  readonly growth: Growth;
  /** Null when nothing speaks against it. */
  readonly doubt: DoubtId | null;
}

/**
 * `12 to 17 Dec`, `28 Dec to 4 Jan 2027`: what both dates end in is written once, and the year not at all where
 * it is the one of inoculation, which stands above.
 */
function rangeText(from: WallTime, { low, high }: DayRange, date: (wall: WallTime) => string): string {
  const words = (wall: WallTime): string[] => date(wall).split(' ');
  const [given, first, last] = [words(from), words(from + low * DAY), words(from + high * DAY)];
  const year = given.at(-1);
  const short = (day: string[]): string[] => (day.length > 2 && day.at(-1) === year ? day.slice(0, -1) : day);
  const [begin, end] = [short(first), short(last)];
  let same = 0;
  while (same < begin.length - 1 && begin.at(-1 - same) === end.at(-1 - same)) same += 1;
  return `${begin.slice(0, begin.length - same).join(' ')} to ${end.join(' ')}`;
}

function linesOf(
  { bag, grain, growth }: LabelledBag,
  units: Units,
  date: (wall: WallTime) => string,
): readonly string[] {
  const weight = bag.kg === null ? '' : `, ${formatMass(bag.kg, units)}`;
  const culture = bag.culture ? `${bag.culture.key}, ${bag.culture.source || bag.culture.form}` : bag.form;
  const dose = doseText(bag);
  const at = bag.inoculatedWall;
  return [
    bag.species || 'species: ____________',
    `${grain}${weight}`,
    // The amount first: a long name is cut at its end.
    dose === '' ? culture : `${dose} ${culture}`,
    at === null ? 'inoculated: ____________' : `in ${date(at)}`,
    at === null ? 'done: ____________' : `done ${rangeText(at, growth.done, date)}`,
  ];
}

function styleOf(
  { paper, columns, rows }: LabelGrid,
  { widthMm, heightMm }: LabelSize,
  isDoubtful: boolean,
): string {
  const page = PAPERS[paper];
  const code = Math.min(heightMm - 3, widthMm * 0.36);
  // Six lines of text beside the code, the first of them larger, and one more for a doubt; long lines end in an ellipsis.
  const text = Math.min((heightMm - 3) / (isDoubtful ? 9.8 : 8.2), (widthMm - code - 4) / 12, 4.4);
  return [
    `@page{size:${paper === 'A4' ? 'A4' : 'letter'};margin:0}`,
    '*{box-sizing:border-box;margin:0;padding:0}',
    'body{font-family:sans-serif;color:#000;background:#fff}',
    `.sheet{width:${mm(page.widthMm)};height:${mm(page.heightMm - 0.1)};padding:${mm(MARGIN_MM)};overflow:hidden;break-after:page;display:grid;gap:${mm(GAP_MM)};grid-template:repeat(${rows},${mm(heightMm - 0.02)})/repeat(${columns},${mm(widthMm)})}`,
    '.sheet:last-child{break-after:auto}',
    `.label{border:0.2mm dotted #999;border-radius:1mm;padding:1mm;display:flex;gap:1mm;align-items:center;overflow:hidden;font-size:${mm(text)};line-height:1.22}`,
    '.blank{border-color:transparent}',
    `.qr{width:${mm(code)};height:${mm(code)};flex:none}`,
    '.says{flex:1;min-width:0}',
    '.says p{white-space:nowrap;overflow:hidden;text-overflow:ellipsis}',
    '.says .id{font-size:1.5em;font-weight:bold}',
    '.says .species{font-weight:bold}',
    '.says .doubt{font-weight:bold;border:0.3mm solid #000;padding:0 0.5mm;width:fit-content;max-width:100%}',
  ].join('\n');
}

/**
 * The sheets. `date` writes an instant as a short local date. RangeError for a grid whose labels are too
 * small, or one that skips more than a sheet; ask `labelSize` before.
 */
export function labelsPage(
  bags: readonly LabelledBag[],
  grid: LabelGrid,
  units: Units,
  date: (wall: WallTime) => string,
): string {
  const size = labelSize(grid);
  const perSheet = grid.columns * grid.rows;
  if (!size) throw new RangeError(`Labels of ${grid.columns}x${grid.rows} do not fit on ${grid.paper}.`);
  if (!Number.isInteger(grid.skip) || grid.skip < 0 || grid.skip >= perSheet) {
    throw new RangeError(`Of ${perSheet} labels on a sheet, 0 to ${perSheet - 1} can be skipped.`);
  }
  const blanks = Array.from({ length: grid.skip }, () => '<div class="label blank"></div>');
  const labels = bags.map(labelled => {
    const lines = linesOf(labelled, units, date);
    const doubt =
      labelled.doubt === null ? '' : `<p class="doubt">${escapeHtml(doubtText(labelled.doubt))}</p>`;
    const text = lines
      .map((line, index) => `<p${index === 0 ? ' class="species"' : ''}>${escapeHtml(line)}</p>`)
      .join('');
    return `<div class="label">${qrSvg(labelled.bag.id)}<div class="says"><p class="id">${escapeHtml(labelled.bag.id)}</p>${doubt}${text}</div></div>`;
  });
  const all = [...blanks, ...labels];
  const sheets = Array.from(
    { length: Math.ceil(all.length / perSheet) },
    (_, index) =>
      `<section class="sheet">${all.slice(index * perSheet, (index + 1) * perSheet).join('')}</section>`,
  );
  const isDoubtful = bags.some(({ doubt }) => doubt !== null);
  return htmlPage(`Labels ${bags[0]?.bag.batch ?? ''}`, styleOf(grid, size, isDoubtful), sheets.join(''));
}
