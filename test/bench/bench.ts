/**
 * `npm run bench`: every part, one table. Ratios compare within this run; times are of this machine at this
 * moment. Words choose parts: `npm run bench -- startup journal`.
 */
import { cpus } from 'node:os';
import { journal } from './journal.ts';
import type { Figure } from './measure.ts';
import { planFigures } from './plan.ts';
import { practiceRatios } from './practice.ts';
import { recordOpenings } from './record.ts';
import { scienceRatios } from './science.ts';
import { memory, screen } from './screen.ts';
import { size } from './size.ts';
import { startup } from './startup.ts';

/** The kernels by how often a second they run, and against C; without a C compiler there is nothing to compare. */
const science = (): readonly Figure[] =>
  scienceRatios().map(({ name, runs, jsMs, cMs, aim }) => ({
    name,
    figure: `${Math.round((runs * 1000) / jsMs).toLocaleString('en')} a second`,
    ratio: `${(jsMs / cMs).toFixed(2)} x C at -O2`,
    aim: `${aim} x`,
    met: jsMs / cMs <= aim,
  }));
const plan = (): readonly Figure[] =>
  planFigures().map(({ name, ms, aimMs }) => ({
    name,
    figure: `${ms.toFixed(1)} ms`,
    ratio: '',
    aim: `${aimMs} ms`,
    met: ms <= aimMs,
  }));
/** A practice in full, and the cooker's steps alone, against those steps in C. */
const practice = (): readonly Figure[] =>
  practiceRatios().map(({ name, jsMs, cMs, aim }) => ({
    name,
    figure: `${jsMs.toFixed(1)} ms`,
    ratio: `${(jsMs / cMs).toFixed(2)} x C at -O2`,
    aim: `${aim} x`,
    met: jsMs / cMs <= aim,
  }));
const record = (): readonly Figure[] =>
  recordOpenings().map(({ name, ms, bareMs, aimMs }) => ({
    name,
    figure: `${ms.toFixed(0)} ms`,
    ratio: `${(ms / bareMs).toFixed(1)} x node -e 0 (${bareMs.toFixed(0)} ms)`,
    aim: `${aimMs} ms`,
    met: ms <= aimMs,
  }));

const PARTS: Readonly<Record<string, () => readonly Figure[] | Promise<readonly Figure[]>>> = {
  startup,
  screen,
  memory,
  journal,
  size,
  science,
  plan,
  practice,
  record,
};

const wanted = process.argv.slice(2);
const figures: Figure[] = [];
for (const [name, part] of Object.entries(PARTS)) {
  if (wanted.length === 0 || wanted.includes(name)) figures.push(...(await part()));
}
const verdict = ({ met }: Figure): string => (met === null ? '' : met ? 'met' : 'MISSED');
const rows = [
  ['name', 'figure', 'ratio or sample', 'aim', 'verdict'],
  ...figures.map(figure => [figure.name, figure.figure, figure.ratio, figure.aim, verdict(figure)]),
];
const widths = rows[0]?.map((_, column) => Math.max(...rows.map(row => row[column]?.length ?? 0))) ?? [];
const [processor] = cpus();
process.stdout.write(
  `${process.platform} ${process.arch}, ${cpus().length} x ${processor?.model.trim() ?? 'processor'}, Node ${process.versions.node}\n\n`,
);
for (const row of rows)
  process.stdout.write(
    `${row
      .map((cell, column) => cell.padEnd(widths[column] ?? 0))
      .join('  ')
      .trimEnd()}\n`,
  );
