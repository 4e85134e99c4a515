/**
 * Tables as comma-separated values (RFC 4180): CRLF, quotes doubled. A text that a spreadsheet would take
 * for a formula gets an apostrophe before it, since notes and names come from anywhere.
 */
import type { Bag } from './bags.ts';
import { outcomeOf } from './bags.ts';
import { dipsOf } from './causes.ts';
import type { RecordedBatch } from './record.ts';

export type Cell = string | number | null;

const FORMULA = /^[=+\-@\t\r]/;

function field(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Rows as text, each ended by CRLF. */
export const toCsv = (rows: readonly (readonly Cell[])[]): string =>
  rows.map(row => `${row.map(field).join(',')}\r\n`).join('');

const BAG_COLUMNS = [
  'bag',
  'batch',
  'began',
  'recipe',
  'grain',
  'container',
  'load',
  'place',
  'kg',
  'seal',
  'hold_min',
  'target_kpa',
  'vent_breaks',
  'dips',
  'deviations',
  'species',
  'culture',
  'form',
  'dose',
  'dose_unit',
  'inoculated',
  'standing',
  'since',
  'looks',
  'outcome',
  'photos',
  'notes',
] as const;

/** One row for each bag; instants by `stamp`, which knows the local time. */
export function recordTable(
  batches: readonly RecordedBatch[],
  stamp: (wall: number) => string,
): readonly (readonly Cell[])[] {
  const row = ({ batch, id }: RecordedBatch, bag: Bag): readonly Cell[] => {
    const { recipe, numbers, beganWall } = batch.header;
    return [
      bag.id,
      id,
      stamp(beganWall),
      recipe.name,
      recipe.grain,
      bag.kind,
      bag.load,
      bag.place,
      bag.kg,
      bag.seal,
      numbers.holdS / 60,
      numbers.targetKPa,
      batch.ventBreaks,
      dipsOf(batch),
      batch.deviations.filter(({ takenBack }) => !takenBack).length,
      bag.species,
      bag.culture?.key ?? '',
      bag.form,
      bag.dose,
      bag.dose === null ? '' : bag.doseUnit,
      bag.inoculatedWall === null ? null : stamp(bag.inoculatedWall),
      bag.standing,
      stamp(bag.since),
      bag.looks,
      outcomeOf(bag),
      bag.photos.join(' | '),
      bag.notes.join(' | '),
    ];
  };
  return [[...BAG_COLUMNS], ...batches.flatMap(recorded => recorded.bags.map(bag => row(recorded, bag)))];
}
