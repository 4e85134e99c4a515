/** What a filled container costs against a bought one, from the prices the person gave; none are assumed. */
import type { Money } from '../kitchen.ts';

export interface Cost {
  readonly currency: string;
  readonly batch: number;
  readonly each: number;
  /** Parts of the cost whose price was never said, and which are therefore left out. */
  readonly missing: readonly ('grain' | 'container' | 'culture' | 'energy')[];
  /** A bought, filled container; null when its price was not said. */
  readonly boughtEach: number | null;
  /** Saved with each batch; negative when buying is cheaper. Null without a price to compare with. */
  readonly savedPerBatch: number | null;
  /** The batch with which the gear has paid for itself; null when it never does or nobody knows. */
  readonly paidAfter: number | null;
}

/** The cost of one batch; null while no price of grain, container, culture or energy was said. */
export function costOf(money: Money, dryKg: number, count: number): Cost | null {
  const parts = [
    ['grain', money.grainPerKg * dryKg],
    ['container', money.containerEach * count],
    ['culture', money.culturePerBatch],
    ['energy', money.energyPerBatch],
  ] as const;
  const batch = parts.reduce((sum, [, price]) => sum + price, 0);
  if (batch === 0) return null;
  const boughtEach = money.boughtEach > 0 ? money.boughtEach : null;
  const savedPerBatch = boughtEach === null ? null : boughtEach * count - batch;
  return {
    currency: money.currency,
    batch,
    each: batch / count,
    missing: parts.filter(([, price]) => price === 0).map(([name]) => name),
    boughtEach,
    savedPerBatch,
    paidAfter:
      savedPerBatch !== null && savedPerBatch > 0 && money.gear > 0
        ? Math.ceil(money.gear / savedPerBatch - 1e-9)
        : null,
  };
}
