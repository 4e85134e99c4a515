/** What can be wrong in a practice, drawn from its seed or chosen: each leaves a sign that can be seen. */
import { chance } from './chance.ts';

export const FAULT_IDS = [
  'soft-grain',
  'stubborn-grain',
  'starch-foam',
  'forgotten-water',
  'blocked-vent',
  'leaking-gasket',
  'gauge-high',
  'weak-burner',
  'gas-out',
  'phone-call',
  'open-early',
  'torn-bag',
] as const;
export type FaultId = (typeof FAULT_IDS)[number];

export const isFault = (text: string): text is FaultId => FAULT_IDS.some(id => id === text);

/** Faults that an eye finds while the gear is checked, before anything is hot. */
export const GEAR_FAULTS: readonly FaultId[] = ['blocked-vent', 'leaking-gasket', 'gauge-high'];

/** Two of these would hide one another or leave nothing to decide. */
const APART: readonly (readonly FaultId[])[] = [
  ['soft-grain', 'stubborn-grain'],
  ['blocked-vent', 'leaking-gasket', 'weak-burner', 'gas-out'],
];

/**
 * The faults of a seed: none in one practice of four, else one or two. The same for the same seed, whatever
 * the recipe.
 */
export function drawFaults(seed: number): readonly FaultId[] {
  const many = chance(seed, 'how many faults');
  const wanted = many < 0.25 ? 0 : many < 0.75 ? 1 : 2;
  const drawn: FaultId[] = [];
  for (let count = 0; drawn.length < wanted && count < 40; count += 1) {
    const id = FAULT_IDS[Math.floor(chance(seed, 'which fault', count) * FAULT_IDS.length)];
    if (id === undefined || drawn.includes(id)) continue;
    if (APART.some(group => group.includes(id) && drawn.some(other => group.includes(other)))) continue;
    drawn.push(id);
  }
  return drawn;
}
