/** What the trouble key offers: what can have happened in this step, each on a key, and the causes below one. */
import { openAsk } from '../core/batch/lockout.ts';
import type { Batch } from '../core/batch/state.ts';
import { type AskId, choicesOf } from '../core/batch/steps.ts';
import { causesOf, type TroubleId, troublesIn } from '../core/batch/troubles.ts';
import type { Deed } from '../core/session.ts';

export interface TroubleEntry {
  readonly id: TroubleId;
  readonly deed: Deed;
}

const MOST = 4;

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

function byAnswer(batch: Batch): readonly TroubleEntry[] {
  const open = openAsk(batch);
  const listed = new Set(troublesIn(batch.step).map(({ id }) => id));
  return BY_ANSWER.filter(([ask, , id]) => ask === open && !listed.has(id)).map(([ask, choice, id]) => ({
    id,
    deed: { type: 'answer', ask, choice },
  }));
}

/** At most four, in the order of their keys. */
export function troubleEntries(batch: Batch): readonly TroubleEntry[] {
  const told = troublesIn(batch.step).map(
    ({ id }): TroubleEntry => ({ id, deed: { type: 'trouble', trouble: id } }),
  );
  return [...told, ...byAnswer(batch)].slice(0, MOST);
}

/** Deviations for which the list has no key left: they are answers of the open question, under these keys. */
export function answeredTroubles(batch: Batch): readonly { readonly key: string; readonly id: TroubleId }[] {
  const listed = new Set(troubleEntries(batch).map(({ id }) => id));
  return byAnswer(batch)
    .filter(({ id }) => !listed.has(id))
    .map(({ id, deed }) => {
      const choice =
        deed.type === 'answer' ? choicesOf(deed.ask).find(entry => entry.id === deed.choice) : undefined;
      return { key: choice?.key ?? '', id };
    });
}

const CAUSES_ON_PAGE = 3;

/** One page of likely causes, the likeliest first; the fourth key leads on. */
export function causesOn(
  id: TroubleId,
  page: number,
): { readonly causes: readonly TroubleId[]; readonly more: boolean } {
  const all = causesOf(id).map(cause => cause.id);
  const from = page * CAUSES_ON_PAGE;
  return { causes: all.slice(from, from + CAUSES_ON_PAGE), more: all.length > from + CAUSES_ON_PAGE };
}

export const hasCauses = (id: TroubleId): boolean => causesOf(id).length > 0;
