/** What the trouble key offers: what can have happened in this step, each on a key, and the causes below one. */
import { openAsk } from '../core/batch/lockout.ts';
import type { Batch } from '../core/batch/state.ts';
import type { AskId } from '../core/batch/steps.ts';
import { causesOf, type TroubleId, troubleRow, troublesIn } from '../core/batch/troubles.ts';
import type { Deed } from '../core/session.ts';

export interface TroubleEntry {
  readonly id: TroubleId;
  readonly deed: Deed;
}

/** Answers that are themselves a deviation: listed too, so that one key always leads to all of them. */
const BY_ANSWER: readonly (readonly [AskId, string, TroubleId])[] = [
  ['gear-check', 'missing', 'gear-missing'],
  ['burst', 'many', 'overcooked'],
  ['towel', 'dry', 'too-dry'],
  ['fill', 'used-up', 'too-few'],
  ['seam', 'failed', 'seam-failed'],
  ['venting', 'stopped', 'steam-stopped'],
  ['climbing', 'above', 'above-target'],
  ['holding', 'below', 'dip'],
  ['holding', 'above', 'above-target'],
  ['lifted', 'torn', 'torn'],
];

export const reporting = (trouble: TroubleId): Deed => ({ type: 'trouble', trouble });

/** All that can have happened here: what ends a batch first, then the rest, then what is an answer anyway. */
export function troubleEntries(batch: Batch): readonly TroubleEntry[] {
  const open = openAsk(batch);
  const told = troublesIn(batch.step).map(({ id }): TroubleEntry => ({ id, deed: reporting(id) }));
  const listed = new Set(told.map(({ id }) => id));
  const answered = BY_ANSWER.filter(([ask, , id]) => ask === open && !listed.has(id)).map(
    ([ask, choice, id]): TroubleEntry => ({ id, deed: { type: 'answer', ask, choice } }),
  );
  return [...told, ...answered];
}

const ON_ONE_PAGE = 4;
const ON_A_PAGE = 3;

export interface TroublePage<T> {
  readonly entries: readonly T[];
  /** The fourth key leads on, and from the last page back to the first. */
  readonly more: boolean;
  readonly at: number;
  readonly of: number;
}

/** Never more than four keys: what is more is on further pages, behind the fourth. */
export function pageOf<T>(all: readonly T[], page: number): TroublePage<T> {
  if (all.length <= ON_ONE_PAGE) return { entries: all, more: false, at: 1, of: 1 };
  const of = Math.ceil(all.length / ON_A_PAGE);
  const at = page % of;
  return { entries: all.slice(at * ON_A_PAGE, (at + 1) * ON_A_PAGE), more: true, at: at + 1, of };
}

export const troublesOn = (batch: Batch, page: number): TroublePage<TroubleEntry> =>
  pageOf(troubleEntries(batch), page);

/** Likely causes, the likeliest first. */
export const causesOn = (id: TroubleId, page: number): TroublePage<TroubleId> =>
  pageOf(
    causesOf(id).map(cause => cause.id),
    page,
  );

export const hasCauses = (id: TroubleId): boolean => causesOf(id).length > 0;

/** It ends the batch, so that a slip of two keys must not report it: a typed word does. */
export const needsWord = (id: TroubleId): boolean => troubleRow(id).leads === 'heat-off';
export const SURE_WORD = 'off';
