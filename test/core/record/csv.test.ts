import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexDiary } from '../../../src/core/record/bags.ts';
import { type Cell, recordTable, toCsv } from '../../../src/core/record/csv.ts';
import { recordOf } from '../../../src/core/record/record.ts';
import { someBatch, someDiary } from '../../help/record-history.ts';

/** As a reader of RFC 4180 sees it, strict in every point. */
const read = (text: string): string[][] =>
  parse(text, { relax_quotes: false, record_delimiter: '\r\n' }) as string[][];

describe('comma-separated values, read back by csv-parse', () => {
  it('every table comes back cell by cell', () => {
    const text = fc
      .oneof(
        fc.string({ unit: 'binary' }),
        fc.constantFrom('a,b', 'say "no"', 'two\r\nlines', '', ' ', 'ü🍄'),
      )
      .filter(value => !/^[=+\-@\t\r]/.test(value));
    const cell: fc.Arbitrary<Cell> = fc.oneof(
      text,
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.constant(null),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1 }), rows => {
        const expected = rows.map(row => row.map(value => (value === null ? '' : String(value))));
        expect(read(toCsv(rows.map(row => ['x', ...row])))).toEqual(expected.map(row => ['x', ...row]));
      }),
    );
  });

  it('a text that looks like a formula is marked as text', () => {
    expect(read(toCsv([['=1+1', '-2', '@x', -2]]))).toEqual([["'=1+1", "'-2", "'@x", '-2']]);
  });

  it('the record of any history is a table with one row for each bag', () => {
    fc.assert(
      fc.property(someBatch('2613a'), someDiary('2613a'), ({ batch }, entries) => {
        const batches = recordOf([batch], indexDiary(entries));
        const rows = read(toCsv(recordTable(batches, wall => new Date(wall).toISOString())));
        const bags = batches.flatMap(recorded => recorded.bags);
        expect(rows).toHaveLength(1 + bags.length);
        expect(new Set(rows.map(row => row.length)).size).toBe(1);
        expect(rows.slice(1).map(([id]) => id)).toEqual(bags.map(({ id }) => id));
      }),
      { numRuns: 150 },
    );
  });
});
