/**
 * What the bell of a terminal can say: nothing but when it rings. So each kind of alert has its own number of
 * beats and spacing, and its own patience. Spacing and patience are common practice, no source; terminals
 * that join quick bells into one still leave 1 / 2 slow / 3 apart.
 */

import type { AlertKind } from '../core/ports.ts';
import { MINUTE, SECOND } from '../core/time.ts';

export const BEL = '\u0007';

export interface Bell {
  /** Beats in ms from the first. */
  readonly beats: readonly number[];
  /** Pauses before ringing again, ms; the last one goes on for good. None: it rings once. */
  readonly again: readonly number[];
}

export const BELLS: Readonly<Record<AlertKind, Bell>> = {
  soon: { beats: [0], again: [MINUTE, 2 * MINUTE, 5 * MINUTE] },
  // Nothing is asked, so nobody answers: it must fall silent by itself.
  well: { beats: [0, 900], again: [] },
  wanted: { beats: [0, 300, 600], again: [15 * SECOND, 30 * SECOND, MINUTE, 2 * MINUTE, 5 * MINUTE] },
  danger: {
    beats: [0, 300, 600, 1200, 1500, 1800],
    again: [5 * SECOND, 5 * SECOND, 10 * SECOND, 15 * SECOND, 20 * SECOND],
  },
};

/** Ms from the end of ringing number `rung` (1 for the first) to the next; null when it stays silent. */
export function nextRing(kind: AlertKind, rung: number): number | null {
  const { again } = BELLS[kind];
  return again[Math.min(rung, again.length) - 1] ?? null;
}

/** Minutes after midnight within quiet hours, which may run over midnight; equal ends mean none. */
export function isQuiet(minute: number, fromMin: number, toMin: number): boolean {
  if (fromMin === toMin) return false;
  return fromMin < toMin ? minute >= fromMin && minute < toMin : minute >= fromMin || minute < toMin;
}
