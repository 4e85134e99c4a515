/** The batch card: everything kept of one batch on one page. */
import { numbersOf, recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { stepRow } from '../batch/steps.ts';
import type { Units } from '../kitchen.ts';
import {
  formatDuration,
  formatMass,
  formatPressure,
  formatSize,
  formatTemperature,
  formatVolume,
} from '../quantity-format.ts';
import { SECOND, type WallTime } from '../time.ts';
import { doseText, OUTCOME_NAMES, standingText } from '../words/record.ts';
import { STEP_NAMES } from '../words/steps.ts';
import { TROUBLE_WORDS } from '../words/troubles.ts';
import { batchWall, outcomeOf } from './bags.ts';
import { CURVE_STYLE, curveSvg } from './curve.ts';
import { escapeHtml, htmlPage, mm, PAPERS, type Paper } from './html.ts';
import type { RecordedBatch } from './record.ts';

export interface CardTelling {
  readonly units: Units;
  readonly date: (wall: WallTime) => string;
  readonly clock: (wall: WallTime) => string;
}

/** What fits on the page; the rest is counted, and stays in the record. */
const MOST = { steps: 24, readings: 6, deviations: 6, bags: 26, notes: 2 } as const;

type TableRow = readonly string[];

function table(title: string, rows: readonly TableRow[], most: number, head: TableRow = []): string {
  if (rows.length === 0) return '';
  const shown = rows.slice(0, most);
  const more = rows.length - shown.length;
  const cells = (row: TableRow, tag: 'th' | 'td'): string =>
    `<tr>${row.map(text => `<${tag}>${escapeHtml(text)}</${tag}>`).join('')}</tr>`;
  const rest = more > 0 ? `<p class="more">and ${more} more in the record</p>` : '';
  return `<section><h2>${escapeHtml(title)}</h2><table>${head.length > 0 ? cells(head, 'th') : ''}${shown.map(row => cells(row, 'td')).join('')}</table>${rest}</section>`;
}

function settings(batch: Batch, { units }: CardTelling): readonly TableRow[] {
  const recipe = recipeOf(batch);
  const numbers = numbersOf(batch);
  const { containers } = recipe;
  const { kitchen } = batch.header;
  return [
    ['grain', `${formatMass(batch.dryKg, units)} of dry ${recipe.grain}`],
    [
      'containers',
      `${containers.count} ${containers.kind}s of ${formatMass(containers.fillKg, units)}, ${formatSize(containers.size, units)}`,
    ],
    ['sealed', recipe.seal],
    [
      'gauge',
      `${formatPressure(numbers.targetKPa, units)} at ${kitchen.altitudeM} m (${kitchen.gauge}): ${formatTemperature(numbers.targetC, units, 1)} in pure steam`,
    ],
    ['vent, hold', `${formatDuration(numbers.ventS)}, ${formatDuration(numbers.holdS)}`],
    ['dips', recipe.dips],
    ['water', batch.cookerWaterL === null ? 'not poured' : formatVolume(batch.cookerWaterL, units)],
    ['shut', formatDuration(numbers.coolS)],
    ['culture', `${recipe.culture.species || 'no species'}, ${recipe.culture.form}`],
  ];
}

function stepRows(batch: Batch, { clock }: CardTelling): readonly TableRow[] {
  return batch.times
    .filter(({ step }) => step !== 'done')
    .map(({ step, load, from, to }) => [
      batch.header.numbers.loads.length > 1 && stepRow(step).perLoad
        ? `${STEP_NAMES[step]} (${load})`
        : STEP_NAMES[step],
      clock(batchWall(batch, from)),
      to === null ? '' : formatDuration((to - from) / SECOND),
    ]);
}

const SEEN: Readonly<Record<string, string>> = {
  at: 'at target',
  above: 'above',
  below: 'below',
  unknown: 'not at zero',
  zero: 'zero',
};

function readingRows(batch: Batch, { clock, units }: CardTelling): readonly TableRow[] {
  return batch.readings.map(({ t, kPa, seen, step }) => [
    clock(batchWall(batch, t)),
    kPa === null ? (SEEN[seen] ?? seen) : formatPressure(kPa, units),
    STEP_NAMES[step].toLowerCase(),
  ]);
}

function deviationRows(batch: Batch, { clock }: CardTelling): readonly TableRow[] {
  return batch.deviations.map(({ t, trouble, step, takenBack }) => [
    clock(batchWall(batch, t)),
    `${TROUBLE_WORDS[trouble].name}${takenBack ? ' (taken back)' : ''}`,
    STEP_NAMES[step].toLowerCase(),
  ]);
}

function bagRows({ bags }: RecordedBatch, { units, date }: CardTelling): readonly TableRow[] {
  return bags.map(bag => [
    String(bag.number),
    [bag.kg === null ? '' : formatMass(bag.kg, units), bag.seal ?? ''].filter(text => text !== '').join(', '),
    [bag.culture?.key ?? bag.species, doseText(bag)].filter(text => text !== '').join(', '),
    bag.inoculatedWall === null ? '' : date(bag.inoculatedWall),
    outcomeOf(bag) === 'none' ? OUTCOME_NAMES.none : standingText(bag),
  ]);
}

/** Bags in two columns, so that all of a large batch are on the page. */
function bagTables(rows: readonly TableRow[]): string {
  const shown = rows.slice(0, MOST.bags);
  const half = Math.ceil(shown.length / 2);
  const head = ['', 'filled', 'given', 'on', 'state'];
  const more = rows.length - shown.length;
  const left = table('Bags', shown.slice(0, half), half, head);
  const right = table(more > 0 ? `Bags, ${more} more in the record` : 'Bags', shown.slice(half), half, head);
  return `<div class="halves bags">${left}${right}</div>`;
}

function styleFor(paper: Paper): string {
  const { widthMm, heightMm } = PAPERS[paper];
  return [
    `@page{size:${paper === 'A4' ? 'A4' : 'letter'};margin:0}`,
    '*{box-sizing:border-box;margin:0;padding:0}',
    `body{font:7.2pt/1.25 sans-serif;color:#000;background:#fff}`,
    `.card{width:${mm(widthMm)};height:${mm(heightMm - 0.1)};padding:11mm;overflow:hidden}`,
    'h1{font-size:14pt}h2{font-size:8.5pt;border-bottom:0.3mm solid #000;margin:2.2mm 0 0.8mm}',
    '.sub{font-size:8.5pt;margin-bottom:1mm}',
    '.columns{display:grid;grid-template-columns:1.35fr 1fr;gap:6mm}',
    'table{border-collapse:collapse;width:100%;table-layout:fixed}',
    'td,th{text-align:left;padding:0.15mm 1mm 0.15mm 0;white-space:nowrap;overflow:hidden;text-overflow:ellipsis;vertical-align:top}',
    'th{font-weight:normal;color:#555}',
    '.more,.foot{color:#555;margin-top:0.6mm}',
    '.halves{display:grid;grid-template-columns:1fr 1fr;gap:6mm}',
    '.bags th:nth-child(1){width:6%}.bags th:nth-child(2){width:19%}.bags th:nth-child(3){width:25%}.bags th:nth-child(4){width:21%}',
    '.notes td:first-child{width:9%}',
    '.pairs td:first-child{width:20%;color:#555}',
    '.pairs td{white-space:normal}',
    CURVE_STYLE,
  ].join('\n');
}

/** The page of one batch. */
export function cardPage(recorded: RecordedBatch, paper: Paper, telling: CardTelling): string {
  const { batch, id } = recorded;
  const recipe = recipeOf(batch);
  const ended = batch.endedEarly ? ' · ended early' : batch.finishedAt === null ? ' · still running' : '';
  const curve = curveSvg(batch, telling.units, telling.clock);
  const notes = recorded.bags.flatMap(bag => bag.notes.map(note => [bag.id, note] as const));
  const body = [
    `<main class="card"><h1>${escapeHtml(recipe.name)}</h1>`,
    `<p class="sub">batch ${escapeHtml(id)} · begun ${escapeHtml(`${telling.date(batch.header.beganWall)} ${telling.clock(batch.header.beganWall)}`)}${ended}${batch.header.practice ? ' · PRACTICE' : ''}</p>`,
    '<div class="columns"><div>',
    `<div class="pairs">${table('Settings', settings(batch, telling), 12)}</div>`,
    table('Deviations', deviationRows(batch, telling), MOST.deviations),
    table('Gauge', readingRows(batch, telling), MOST.readings),
    '</div><div>',
    table('Steps', stepRows(batch, telling), MOST.steps, ['', 'from', 'took']),
    '</div></div>',
    curve === null
      ? ''
      : `<section><h2>Gauge pressure</h2>${curve}<p class="foot">Full dots: numbers read. Hollow: called "at target". Triangles: above or below.</p></section>`,
    bagTables(bagRows(recorded, telling)),
    `<div class="notes">${table('Notes', notes, MOST.notes)}</div>`,
    '<p class="foot">Estimates and times of one kitchen. Not a validated process and not for preserving food.</p></main>',
  ];
  return htmlPage(`Batch ${id}`, styleFor(paper), body.join(''));
}
