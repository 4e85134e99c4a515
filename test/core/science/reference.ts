import { readFileSync } from 'node:fs';

/** One row of a reference file by column name; the comment line above the header names its source. */
export type Row = Readonly<Record<string, string>>;

function cells(line: string): string[] {
  const found: string[] = [];
  for (const match of line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)) {
    found.push(match[1]?.replaceAll('""', '"') ?? match[2] ?? '');
  }
  return found;
}

/** Rows of test/data/science/NAME.csv. Throws when there are none, so that a lost file cannot pass. */
export function reference(name: string): readonly Row[] {
  const text = readFileSync(new URL(`../../data/science/${name}.csv`, import.meta.url), 'utf8');
  const [header, ...lines] = text.split(/\r?\n/).filter(line => line !== '' && !line.startsWith('#'));
  const names = cells(header ?? '');
  if (lines.length === 0) throw new Error(`${name}.csv has no rows`);
  return lines.map(line => {
    const values = cells(line);
    return Object.fromEntries(names.map((column, i) => [column, values[i] ?? '']));
  });
}

/** The text of a column; throws when the file has no such column. */
export function text(row: Row, column: string): string {
  const value = row[column];
  if (value === undefined) throw new Error(`no column ${column}`);
  return value;
}

/** The number in a column ("inf" is infinity); throws when it is missing or not a number. */
export function number(row: Row, column: string): number {
  const value = text(row, column);
  const parsed = value === 'inf' ? Number.POSITIVE_INFINITY : Number(value);
  if (value === '' || Number.isNaN(parsed)) throw new Error(`column ${column} holds "${value}"`);
  return parsed;
}

export const has = (row: Row, column: string): boolean => (row[column] ?? '') !== '';
