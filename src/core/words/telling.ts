/** What every sentence needs to know besides the batch: units, and how an instant is called on the wall clock. */
import type { Units } from '../kitchen.ts';
import type { CoachTime } from '../time.ts';

export interface Telling {
  readonly units: Units;
  /** An instant of the batch as local clock time, `23:42`, with the day when it is not today. */
  readonly clock: (t: CoachTime) => string;
}
