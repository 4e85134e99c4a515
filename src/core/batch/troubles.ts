/**
 * What can go wrong, where, and what it does to the batch. The sentences are in `core/words/troubles.ts`.
 *
 * `leads` names the consequence the machine carries out:
 * - `note`: kept in the record, the step goes on;
 * - `steam-again`: back to steady steam, vent and hold start over;
 * - `below`: the gauge is believed below target, no time counts;
 * - `doubt`: time credited since the gauge or the steam was last answered counts only once the person says what it did;
 * - `heat-off`: the flame goes off and the batch ends by way of the lock.
 */
import type { StepId } from './steps.ts';

export type TroubleLead = 'note' | 'steam-again' | 'below' | 'doubt' | 'heat-off';

interface TroubleRow {
  readonly id: string;
  readonly steps: readonly StepId[];
  readonly leads: TroubleLead;
  /** Only ever noted by an answer or a clock, so it is not offered in the list. */
  readonly offered: boolean;
  /** Noted when the program missed time, not by an answer: undo does not take it back. */
  readonly byClock: boolean;
  /** Offered only below another trouble, as one of its causes. */
  readonly under?: string;
}

const offered = <Id extends string>(id: Id, leads: TroubleLead, ...steps: StepId[]) => ({
  id,
  steps,
  leads,
  offered: true,
  byClock: false,
});
const noted = <Id extends string>(id: Id, byClock = false) => ({
  id,
  steps: [],
  leads: 'note' as const,
  offered: false,
  byClock,
});

const ROWS = [
  // What is dangerous stands first in every list.
  offered('over-pressure', 'heat-off', 'heat', 'vent', 'climb', 'hold', 'heat-off'),
  offered('water-low', 'heat-off', 'heat', 'vent', 'climb', 'hold', 'heat-off'),
  offered('vent-blocked', 'heat-off', 'heat', 'vent'),
  offered('will-not-climb', 'note', 'climb'),
  noted('gear-missing'),
  offered('boiled-over', 'note', 'simmer'),
  offered('overcooked', 'note', 'simmer', 'drain', 'surface-dry'),
  offered('heat-failed-in-simmer', 'note', 'simmer'),
  offered('still-wet', 'note', 'surface-dry'),
  noted('too-dry'),
  noted('too-few'),
  noted('seam-failed'),
  noted('steam-stopped'),
  offered('heat-failed', 'steam-again', 'heat', 'vent', 'climb'),
  offered('gasket-leaks', 'note', 'heat', 'vent', 'climb', 'hold'),
  { ...offered('flame-weak', 'note', 'climb'), under: 'will-not-climb' },
  { ...offered('gauge-doubtful', 'note', 'climb'), under: 'will-not-climb' },
  offered('valve-opened', 'steam-again', 'climb', 'hold'),
  noted('dip'),
  noted('above-target'),
  offered('heat-failed-in-hold', 'below', 'hold'),
  offered('was-away', 'doubt', 'vent', 'hold'),
  offered('valve-opened-cooling', 'note', 'heat-off', 'cool'),
  offered('lid-opened-early', 'note', 'cool'),
  noted('opened-warm'),
  noted('torn'),
  offered('touched-dirty', 'note', 'inoculate'),
  noted('away', true),
  noted('computer-restarted', true),
  noted('soak-cut-short'),
  noted('hold-cut-short'),
  noted('ended-early'),
] as const satisfies readonly TroubleRow[];

export type TroubleId = (typeof ROWS)[number]['id'];
export type Trouble = TroubleRow & { readonly id: TroubleId };

export const TROUBLES: readonly Trouble[] = ROWS;
const BY_ID = new Map(TROUBLES.map(trouble => [trouble.id, trouble]));

export function troubleRow(id: TroubleId): Trouble {
  const found = BY_ID.get(id);
  if (!found) throw new RangeError(`No such trouble: ${id}`);
  return found;
}

/** What the trouble key offers in this step, the dangerous first. */
export const troublesIn = (step: StepId): readonly Trouble[] =>
  TROUBLES.filter(
    ({ offered: isOffered, steps, under }) => isOffered && under === undefined && steps.includes(step),
  );

/** Likely causes of a trouble that has some, the likeliest first. */
const CAUSES: Readonly<Partial<Record<TroubleId, readonly TroubleId[]>>> = {
  'will-not-climb': ['valve-opened', 'gasket-leaks', 'water-low', 'flame-weak', 'gauge-doubtful'],
};
export const causesOf = (id: TroubleId): readonly Trouble[] => (CAUSES[id] ?? []).map(troubleRow);
