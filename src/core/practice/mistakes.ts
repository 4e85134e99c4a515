/** What a trainee can leave out, on purpose, to see what it costs. */
import type { FaultId } from './faults.ts';

export const MISTAKES = [
  'no-look',
  'undercook',
  'overcook',
  'grain-by-clock',
  'full-flame',
  'wet-grain',
  'no-water',
  'no-vent',
  'steam-by-clock',
  'early-hold',
  'unwatched',
  'low-flame',
  'open-early',
  'torn-kept',
  'warm-inoculation',
] as const;
export type Mistake = (typeof MISTAKES)[number];
export const isMistake = (text: string): text is Mistake => MISTAKES.some(id => id === text);

/** A mistake that does harm only when something else is wrong. */
export const FAULT_FOR: Readonly<Partial<Record<Mistake, FaultId>>> = {
  'no-look': 'gauge-high',
  'full-flame': 'starch-foam',
  'grain-by-clock': 'stubborn-grain',
  'no-water': 'forgotten-water',
  'steam-by-clock': 'weak-burner',
  unwatched: 'gas-out',
  'torn-kept': 'torn-bag',
};

/** What a careless trainee leaves out, fault by fault: the look or the word that would have caught it. */
export const CARELESS_ABOUT: Readonly<Record<FaultId, readonly Mistake[]>> = {
  'soft-grain': ['grain-by-clock'],
  'stubborn-grain': ['grain-by-clock'],
  'starch-foam': ['full-flame'],
  'forgotten-water': ['no-water'],
  'blocked-vent': ['no-look'],
  'leaking-gasket': ['no-look'],
  'gauge-high': ['no-look'],
  'weak-burner': ['steam-by-clock', 'unwatched'],
  'gas-out': ['unwatched'],
  'phone-call': ['unwatched'],
  'open-early': ['open-early'],
  'torn-bag': ['torn-kept'],
};
