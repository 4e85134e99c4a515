/** Everything that can happen to a batch, and why it may be refused. */
import type { CoachTime, WallTime } from '../time.ts';
import type { MeasuredPlace } from './state.ts';
import type { AskId } from './steps.ts';
import type { TroubleId } from './troubles.ts';

/** What the journal keeps of a dip's cost, by the estimate that was shown when it ended. */
export interface DipCost {
  /** Seconds that bring the likely lethality at the end back to what it would have been. */
  readonly addS: number;
  /** Likely lethality lost at the centre of the fullest container by the planned end, min. */
  readonly f0Min: number;
}

export type TypedPurpose = 'end-batch' | 'open-early' | 'end-soak' | 'end-hold' | 'clock-right';

interface At {
  readonly t: CoachTime;
  readonly wall: WallTime;
}
export type BatchEvent =
  | ({ readonly type: 'tick' } & At)
  | ({
      readonly type: 'gap';
      readonly why: 'restart' | 'asleep';
      readonly claimedMs?: number;
    } & At)
  | ({
      readonly type: 'answer';
      readonly ask: AskId;
      readonly choice: string;
      readonly amount?: number;
      /** Goes with the answer that ends a dip. */
      readonly dipCost?: DipCost;
    } & At)
  | ({ readonly type: 'measured'; readonly of: MeasuredPlace; readonly celsius: number } & At)
  | ({ readonly type: 'trouble'; readonly trouble: TroubleId } & At)
  | ({ readonly type: 'typed'; readonly purpose: TypedPurpose; readonly word: string } & At)
  | ({ readonly type: 'undo' } & At);

/** Why an answer is not taken now. `until` is a coach time when waiting alone will help. */
export interface Refusal {
  readonly code: RefusalCode;
  readonly until?: CoachTime;
  /** The limit that was missed, in the inside unit of the amount. */
  readonly limit?: number;
  /** What the limit is of, where that is not the amount of the question. */
  readonly of?: 'temperature';
}
export type RefusalCode =
  | 'other-question'
  | 'no-such-answer'
  | 'answer-first'
  | 'too-soon'
  | 'soaking'
  | 'towel-down'
  | 'venting'
  | 'locked-pressure'
  | 'locked-gauge'
  | 'locked-pin'
  | 'locked-cool'
  | 'too-much'
  | 'too-little'
  | 'above-filter'
  | 'above-marked'
  | 'water-below-minimum'
  | 'water-above-rack'
  | 'nothing-filled'
  | 'nothing-to-undo'
  | 'word-differs'
  | 'needs-word'
  | 'not-here'
  | 'time-ran-back'
  | 'finished';
