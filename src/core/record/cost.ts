/** What a good bag has cost, from the prices the person gave when the batch began. */
import { recipeOf } from '../batch/moves.ts';
import { outcomeOf } from './bags.ts';
import type { RecordedBatch } from './record.ts';

export interface Cost {
  readonly currency: string;
  readonly total: number;
  /** Bags that became spawn, and those that still may. */
  readonly good: number;
  readonly open: number;
  /** Null while no bag is good. */
  readonly perGood: number | null;
  readonly boughtEach: number | null;
}

/** Sum over the batches whose prices are known, in the currency of the newest; null when none are. */
export function costOf(batches: readonly RecordedBatch[]): Cost | null {
  const priced = batches.filter(({ batch }) => {
    const { grainPerKg, containerEach, culturePerBatch, energyPerBatch } = batch.header.kitchen.money;
    return grainPerKg + containerEach + culturePerBatch + energyPerBatch > 0;
  });
  const newest = priced.at(-1);
  if (!newest) return null;
  const { currency, boughtEach } = newest.batch.header.kitchen.money;
  // Amounts in different currencies do not add up.
  const same = priced.filter(({ batch }) => batch.header.kitchen.money.currency === currency);
  let total = 0;
  let good = 0;
  let open = 0;
  for (const { batch, bags } of same) {
    const { money } = batch.header.kitchen;
    const used = bags.length === 0 ? recipeOf(batch).containers.count : bags.length;
    total +=
      money.grainPerKg * batch.dryKg +
      money.containerEach * used +
      money.culturePerBatch +
      money.energyPerBatch;
    for (const bag of bags) {
      const outcome = outcomeOf(bag);
      if (outcome === 'good') good += 1;
      if (outcome === 'open') open += 1;
    }
  }
  return {
    currency,
    total,
    good,
    open,
    perGood: good > 0 ? total / good : null,
    boughtEach: boughtEach > 0 ? boughtEach : null,
  };
}
