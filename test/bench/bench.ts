/**
 * `npm run bench`: every part, one table. Ratios compare within this run; times are of this machine at this
 * moment. Words choose parts: `npm run bench -- startup journal`.
 */
import { cpus } from 'node:os';
import { journal } from './journal.ts';
import type { Figure } from './measure.ts';
import { memory, screen } from './screen.ts';
import { size } from './size.ts';
import { startup } from './startup.ts';

const PARTS: Readonly<Record<string, () => readonly Figure[] | Promise<readonly Figure[]>>> = {
  startup,
  screen,
  memory,
  journal,
  size,
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
