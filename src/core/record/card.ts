/** The batch card: everything kept of one batch on one page. Type and plots take the room that is left. */
import { numbersOf, recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import {
  BAG_DATE,
  bagRows,
  type CardTelling,
  deviationRows,
  estimateRows,
  readingTexts,
  settingRows,
  stepRows,
  type TableRow,
} from './card-rows.ts';
import { batchWall } from './bags.ts';
import { centreSvg } from './centre-curve.ts';
import { curveSvg } from './curve.ts';
import { escapeHtml, htmlPage, mm, PAPERS, type Paper } from './html.ts';
import { PLOT_STYLE } from './plot-frame.ts';
import type { RecordedBatch } from './record.ts';

export type { CardTelling } from './card-rows.ts';

/** What fits on the page; the rest is counted, and stays in the record. */
const MOST = { deviations: 8, estimates: 3, bags: 60, notes: 2, loads: 3 } as const;

/** So many readings are written out, fewer on a crowded page. */
const MOST_READINGS = [40, 20, 8] as const;
/** Steps of three loads with a vent that was begun again; on a page without that room, of two. */
const MOST_STEPS = [40, 26] as const;

const PADDING_MM = 11;
/** Smallest type last: it is taken when nothing larger leaves the plots their height. */
const TYPES_PT = [8.6, 8.2, 7.7, 7.2] as const;
const PLOT_UNITS = 720;
const PLOT_MM = { least: 34, most: 66 } as const;
const MM_PER_PT = 25.4 / 72;
const SEPARATOR = ' · ';
/** Of the width, for the left of two columns. */
const LEFT_SHARE = 0.57;

const moreText = (count: number): string =>
  count > 0 ? `<p class="more">and ${count} more in the record</p>` : '';

function table(title: string, rows: readonly TableRow[], most: number, head: TableRow = []): string {
  if (rows.length === 0) return '';
  const cells = (row: TableRow, tag: 'th' | 'td'): string =>
    `<tr>${row.map(text => `<${tag}>${escapeHtml(text)}</${tag}>`).join('')}</tr>`;
  const shown = rows.slice(0, most).map(row => cells(row, 'td'));
  return `<section><h2>${escapeHtml(title)}</h2><table>${head.length > 0 ? cells(head, 'th') : ''}${shown.join('')}</table>${moreText(rows.length - most)}</section>`;
}

/** More than 26 bags stand in three columns, and then without their dates: the steps have those. */
const bagColumns = (bags: number): number => (bags > 26 ? 3 : 2);

/** Bags in two or three columns, so that all of a large batch are on the page. */
function bagTables(kind: string, rows: readonly TableRow[]): string {
  const columns = bagColumns(rows.length);
  const shown = rows
    .slice(0, MOST.bags)
    .map(row => (columns > 2 ? row.filter((_, cell) => cell !== BAG_DATE) : row));
  const each = Math.ceil(shown.length / columns);
  const head = ['', 'filled', 'given', ...(columns > 2 ? [] : ['on']), 'state'];
  const more = rows.length - shown.length;
  const titled = (part: readonly TableRow[]): string => {
    const [from, to] = [part[0]?.[0] ?? '', part.at(-1)?.[0] ?? ''];
    if (from === to) return `${kind === 'jar' ? 'Jar' : 'Bag'} ${from}`;
    return `${kind === 'jar' ? 'Jars' : 'Bags'} ${from} to ${to}`;
  };
  const tables = Array.from({ length: columns }, (_, index) => {
    const part = shown.slice(index * each, (index + 1) * each);
    const rest = index === columns - 1 && more > 0 ? `, ${more} more in the record` : '';
    return table(`${titled(part)}${rest}`, part, each, head);
  });
  return `<div class="${columns > 2 ? 'thirds' : 'halves'} bags">${tables.join('')}</div>`;
}

interface Content {
  readonly settings: readonly TableRow[];
  readonly estimates: readonly TableRow[];
  readonly deviations: readonly TableRow[];
  readonly steps: readonly TableRow[];
  readonly readings: readonly string[];
  readonly bags: readonly TableRow[];
  readonly notes: readonly TableRow[];
}

interface Fit {
  readonly typePt: number;
  readonly steps: number;
  readonly readings: number;
  readonly plots: number;
  readonly plotMm: number;
}

/** Height of everything but the plots in a type of so many points, mm; a little generous. */
function textMm(content: Content, steps: number, typePt: number, widthMm: number): number {
  const line = typePt * MM_PER_PT * 1.25 + 0.3;
  const headMm = typePt * 1.18 * MM_PER_PT * 1.25 + 3.1;
  const block = (rows: number, most: number, extra = 0): number =>
    rows === 0 ? 0 : headMm + (Math.min(rows, most) + extra + (rows > most ? 1 : 0)) * line;
  const letters = content.readings.join(SEPARATOR).length;
  // Half a character's height is the mean width of one; a setting may take two lines.
  const perLine = (widthMm * LEFT_SHARE) / (typePt * MM_PER_PT * 0.5);
  const left =
    block(content.settings.length, 20, 1) +
    block(content.estimates.length, MOST.estimates) +
    block(content.deviations.length, MOST.deviations) +
    block(Math.ceil(letters / perLine), 99, 1);
  const right = block(content.steps.length, steps, 1);
  const count = content.bags.length;
  const bags = block(Math.ceil(Math.min(count, MOST.bags) / bagColumns(count)), MOST.bags, 1);
  return 14 + Math.max(left, right) + line + bags + block(content.notes.length, MOST.notes);
}

/** A heading and a caption to each plot, mm. */
const captionsMm = (plots: number, typePt: number): number => plots * (typePt * MM_PER_PT * 2.9 + 4.5);

/**
 * The largest type with which the plots keep their least height. A crowded page first gives up readings, which
 * the curve shows as well, then the second plot, and then steps.
 */
function fitTo(content: Content, most: number, paper: Paper): Fit {
  const { widthMm, heightMm } = PAPERS[paper];
  const room = (steps: number, readings: number, typePt: number, plots: number): number =>
    heightMm -
    2 * PADDING_MM -
    captionsMm(plots, typePt) -
    textMm(
      { ...content, readings: content.readings.slice(0, readings) },
      steps,
      typePt,
      widthMm - 2 * PADDING_MM,
    );
  const ways = MOST_STEPS.flatMap(steps =>
    (most > 1 ? [most, 1] : [most]).flatMap(plots =>
      MOST_READINGS.map(readings => ({ steps, plots, readings })),
    ),
  );
  for (const { steps, plots, readings } of ways) {
    for (const typePt of TYPES_PT) {
      const each = plots === 0 ? PLOT_MM.least : room(steps, readings, typePt, plots) / plots;
      if (each >= PLOT_MM.least)
        return { typePt, steps, readings, plots, plotMm: Math.min(PLOT_MM.most, each) };
    }
  }
  const [steps, readings] = [MOST_STEPS.at(-1) ?? 0, MOST_READINGS.at(-1) ?? 0];
  return { typePt: 7, steps, readings, plots: 0, plotMm: 0 };
}

function styleFor(paper: Paper, { typePt }: Fit): string {
  const { widthMm, heightMm } = PAPERS[paper];
  return [
    `@page{size:${paper === 'A4' ? 'A4' : 'letter'};margin:0}`,
    '*{box-sizing:border-box;margin:0;padding:0}',
    `body{font:${typePt}pt/1.25 sans-serif;color:#000;background:#fff}`,
    `.card{width:${mm(widthMm)};height:${mm(heightMm - 0.1)};padding:${mm(PADDING_MM)};overflow:hidden}`,
    'h1{font-size:14pt}h2{font-size:1.18em;border-bottom:0.3mm solid #000;margin:2mm 0 0.8mm}',
    '.sub{font-size:1.15em;margin-bottom:1mm}',
    '.columns{display:grid;grid-template-columns:1.5fr 1fr;gap:6mm}',
    '.steps th:nth-child(1),.steps td:nth-child(1){width:40%}.steps td:nth-child(2){width:30%}.steps td:nth-child(2){text-align:right;padding-right:3mm}',
    'table{border-collapse:collapse;width:100%;table-layout:fixed}',
    'td,th{text-align:left;padding:0.15mm 1mm 0.15mm 0;white-space:nowrap;overflow:hidden;text-overflow:ellipsis;vertical-align:top}',
    'th{font-weight:normal;color:#555}',
    '.more,.foot{color:#555;margin-top:0.6mm}',
    '.halves{display:grid;grid-template-columns:1fr 1fr;gap:6mm}',
    '.thirds{display:grid;grid-template-columns:1fr 1fr 1fr;gap:4mm}',
    '.loads{display:grid;grid-auto-flow:column;grid-auto-columns:1fr;gap:3mm}',
    '.halves th:nth-child(1){width:5%}.halves th:nth-child(2){width:20%}.halves th:nth-child(3){width:24%}.halves th:nth-child(4){width:21%}',
    '.thirds th:nth-child(1){width:7%}.thirds th:nth-child(2){width:27%}.thirds th:nth-child(3){width:27%}',
    '.notes td:first-child{width:9%}',
    '.pairs td:first-child{width:18%;color:#555}',
    '.pairs td{white-space:normal}',
    '.timed td:first-child{width:12%}.timed td:last-child{width:24%}',
    PLOT_STYLE,
  ].join('\n');
}

/** Both plots of the loads that were heated, side by side where there are several. */
function plots(
  batch: Batch,
  { plots: wanted, plotMm }: Fit,
  paper: Paper,
  { units, clock }: CardTelling,
): string {
  const heated = numbersOf(batch).loads.map((_, index) => index + 1);
  const shown = heated.slice(0, MOST.loads);
  const unitsPerMm = PLOT_UNITS / (PAPERS[paper].widthMm - 2 * PADDING_MM);
  const size = { width: PLOT_UNITS / shown.length, height: Math.round(plotMm * unitsPerMm) };
  const row = (draw: typeof curveSvg, title: string, says: string): string => {
    const drawn = shown.map(load => draw(batch, load, size, units, clock)).filter(svg => svg !== null);
    if (drawn.length === 0) return '';
    const several = shown.length > 1 ? `, loads 1 ${shown.length === 2 ? 'and' : 'to'} ${shown.length}` : '';
    return `<section><h2>${title}${several}</h2><div class="loads">${drawn.join('')}</div><p class="foot">${says}</p></section>`;
  };
  const both = [
    row(
      curveSvg,
      'Gauge pressure',
      'Full dots: numbers read. Hollow: said by eye, without a number. Dotted: follows from what was done. Red fields: below target.',
    ),
    row(
      centreSvg,
      'Middle of the fullest, estimated',
      'Thick: likely. Grey: its band. Thin: the vessel. Crosses: a thermometer. An estimate proves nothing; gauge, clock and cooling decide.',
    ),
  ];
  return both.slice(0, wanted).join('');
}

/** The page of one batch. */
export function cardPage(recorded: RecordedBatch, paper: Paper, telling: CardTelling): string {
  const { batch, id } = recorded;
  const recipe = recipeOf(batch);
  // By the same clock as the steps below, so that both say the same minute.
  const first = batch.times[0];
  const beganWall = first ? batchWall(batch, first.from) : batch.header.beganWall;
  const ended = batch.endedEarly ? ' · ended early' : batch.finishedAt === null ? ' · still running' : '';
  const { formerId } = batch.header;
  const former = formerId === undefined ? '' : escapeHtml(` (was ${formerId})`);
  const content: Content = {
    settings: settingRows(batch, telling),
    estimates: estimateRows(batch, telling),
    deviations: deviationRows(batch, telling),
    steps: stepRows(batch, telling),
    readings: readingTexts(batch, telling),
    bags: bagRows(recorded, telling),
    notes: recorded.bags.flatMap(bag => bag.notes.map(note => [bag.id, note])),
  };
  const fit = fitTo(content, content.estimates.length > 0 ? 2 : 0, paper);
  const shownReadings = content.readings.slice(0, fit.readings).join(SEPARATOR);
  const body = [
    `<main class="card"><h1>${escapeHtml(recipe.name)}</h1>`,
    `<p class="sub">batch ${escapeHtml(id)} · begun ${escapeHtml(`${telling.date(beganWall)} ${telling.clock(beganWall)}`)}${former}${ended}${batch.header.practice ? ' · PRACTICE' : ''}</p>`,
    '<div class="columns"><div>',
    `<div class="pairs">${table('Settings', content.settings, 20)}${table('Estimate', content.estimates, MOST.estimates)}</div>`,
    `<div class="timed">${table('Deviations', content.deviations, MOST.deviations)}</div>`,
    content.readings.length === 0
      ? ''
      : `<section><h2>Gauge and thermometer</h2><p>${escapeHtml(shownReadings)}</p>${moreText(content.readings.length - fit.readings)}</section>`,
    '</div><div class="steps">',
    table('Steps', content.steps, fit.steps, ['', 'from', 'took']),
    '</div></div>',
    plots(batch, fit, paper, telling),
    bagTables(recipe.containers.kind, content.bags),
    `<div class="notes">${table('Notes', content.notes, MOST.notes)}</div>`,
    '<p class="foot">Estimates and times of one kitchen. Not a validated process and not for preserving food.</p></main>',
  ];
  return htmlPage(`Batch ${id}`, styleFor(paper, fit), body.join(''));
}
