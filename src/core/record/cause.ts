/** The kinds of cause that a record can know of, and how one is written down before it is weighed. */
import type { Batch, Deviation } from '../batch/state.ts';
import type { ContainerKind } from '../recipe/recipe.ts';
import type { TroubleId } from '../batch/troubles.ts';

export type CauseId =
  | 'short-vent'
  | 'dips'
  | 'short-hold'
  | 'unwatched'
  | 'low-water'
  | 'valve-opened'
  | 'power-failed'
  | 'overrun'
  | 'quick-release'
  | 'wet-grain'
  | 'short-drying'
  | 'overcooked'
  | 'dry-core'
  | 'torn'
  | 'seam'
  | 'overfull'
  | 'opened-warm'
  | 'dirty-needle';

export interface Cause {
  readonly id: CauseId;
  /** What the batch was filled into, for the sentence. */
  readonly kind: ContainerKind;
  /** What was seen, as numbers for the sentence: a count, minutes, percent, depending on the cause. */
  readonly count: number;
  readonly minutes: number;
  /** Minutes that it lasted in all; 0 when it has no length. */
  readonly lastedMin: number;
  /** Minutes that it usually takes, and whether earlier batches say so or the recipe; 0 where that is not the point. */
  readonly usualMin: number;
  readonly learned: boolean;
  /** L of water that the estimate says were left; null when it is not about that. */
  readonly leftL: number | null;
  /** It concerns this one bag and not the whole batch. */
  readonly ownToBag: boolean;
  /** 1 to 3: how much it usually matters, raised when the look of the loss fits it. */
  readonly weight: number;
}

/** A cause as it was found; what is left out is 0, or null, or no. */
export type Found = Pick<Cause, 'id' | 'weight'> & Partial<Omit<Cause, 'id' | 'weight' | 'kind'>>;

/** Deviations of these kinds that stand, of one load or of all. */
export const counted = (
  batch: Batch,
  load: number | null,
  ...troubles: readonly TroubleId[]
): readonly Deviation[] =>
  batch.deviations.filter(
    ({ takenBack, trouble, ...noted }) =>
      !takenBack && troubles.includes(trouble) && (load === null || noted.load === load),
  );
