/** Work that falls into a night, as a warning of the plan. */
import { formatDuration } from '../quantity-format.ts';
import type { WarningWords } from './plan-warnings.ts';

export interface NightTold {
  readonly nightMs: number;
  /** A start that leaves the nights free, as a clock time; null when there is none within a day. */
  readonly better: string | null;
}

/** Work that falls into a night all the same; null when none does. */
export function nightWords({ nightMs, better }: NightTold): WarningWords | null {
  if (nightMs < 60_000) return null;
  return {
    what: `${formatDuration(Math.round(nightMs / 60_000) * 60)} of work at night.`,
    why: 'With this start no wait can be made long enough to avoid it.',
    change: better === null ? 'Ask for another time.' : `Begin at ${better}.`,
  };
}
