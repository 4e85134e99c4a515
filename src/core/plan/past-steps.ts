/** What earlier batches of this person took, step by step, so that a plan shows their own pace. */
import type { Grain } from '../recipe/recipe.ts';
import type { StepLength } from './numbers.ts';

/** How long one step took once. */
export interface PastStep {
  readonly step: string;
  readonly seconds: number;
  readonly grain: Grain;
  /** Containers handled in it. */
  readonly count: number;
}

/** The part of a batch this reads: its real shape is the machine's business. */
export interface PastBatch {
  readonly header: {
    readonly practice: boolean;
    readonly recipe: { readonly grain: Grain; readonly containers: { readonly count: number } };
  };
  readonly times: readonly {
    readonly step: string;
    readonly load: number;
    readonly from: number;
    readonly to: number | null;
  }[];
  readonly finishedAt: number | null;
  readonly endedEarly: string | null;
}

/** Steps that a stopped vent, an opened valve or a failed burner sends the person back to. */
const AGAIN = new Set(['heat', 'climb']);

/** The steps of all batches that were walked to their end; practice and batches cut short say nothing. */
export function pastSteps(batches: readonly PastBatch[]): readonly PastStep[] {
  return batches
    .filter(({ header, finishedAt, endedEarly }) => !header.practice && finishedAt !== null && !endedEarly)
    .flatMap(({ header: { recipe }, times }) => {
      const loads = Math.max(1, ...times.map(({ load }) => load));
      const visits = new Map<string, number>();
      for (const { step, load } of times) {
        const key = `${step} ${load}`;
        visits.set(key, (visits.get(key) ?? 0) + 1);
      }
      return times.flatMap(({ step, load, from, to }) => {
        if (to === null || to <= from) return [];
        // A step walked again after a break began with a hot vessel: its pieces say nothing about a whole one.
        if (AGAIN.has(step) && (visits.get(`${step} ${load}`) ?? 0) > 1) return [];
        const count = recipe.containers.count / (step === 'unload' ? loads : 1);
        return [{ step, seconds: (to - from) / 1000, grain: recipe.grain, count }];
      });
    });
}

/** Steps whose time grows with the number of containers. */
const PER_CONTAINER = new Set(['portion', 'seal', 'seal-after', 'unload', 'inoculate']);
/** Steps that depend on the grain: only batches of the same one count. */
const BY_GRAIN = new Set(['simmer', 'surface-dry']);
/** Steps whose length is the recipe's or the vessel's, not the person's. */
const NOT_THEIRS = new Set(['soak', 'vent', 'hold', 'heat-off', 'cool', 'rest', 'done']);
/** One or two batches say little about the spread: the band stays at least this wide around the median. */
const FEW = 3;
const FEW_LOW = 0.75;
const FEW_HIGH = 1.4;

function median(sorted: readonly number[]): number {
  const middle = sorted.length >> 1;
  const here = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? here : (here + (sorted[middle - 1] ?? here)) / 2;
}

/** The person's own length of a step; null when no earlier batch says anything about it. */
export function ownLength(
  step: string,
  grain: Grain,
  count: number,
  past: readonly PastStep[],
): (StepLength & { readonly batches: number }) | null {
  if (NOT_THEIRS.has(step)) return null;
  const seen = past.filter(
    entry => entry.step === step && entry.count > 0 && (!BY_GRAIN.has(step) || entry.grain === grain),
  );
  const each = seen
    .map(entry => (PER_CONTAINER.has(step) ? (entry.seconds / entry.count) * count : entry.seconds))
    .sort((a, b) => a - b);
  const [least] = each;
  const most = each.at(-1);
  if (least === undefined || most === undefined) return null;
  const likelyS = median(each);
  const few = each.length < FEW;
  return {
    lowS: few ? Math.min(least, likelyS * FEW_LOW) : least,
    likelyS,
    highS: few ? Math.max(most, likelyS * FEW_HIGH) : most,
    batches: each.length,
  };
}
