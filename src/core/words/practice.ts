/** What practice says: faults and their signs, mistakes, what was lost, what is heard; decisions are in `practice-decisions.ts`. */
import type { FaultId } from '../practice/faults.ts';
import type { LossId } from '../practice/losses.ts';
import type { Mistake } from '../practice/mistakes.ts';
import type { SenseCode } from '../practice/world.ts';
import { formatPressure } from '../quantity-format.ts';
import type { Telling } from './telling.ts';

export interface FaultWords {
  readonly name: string;
  readonly sign: string;
}
const fault = (name: string, sign: string): FaultWords => ({ name, sign });

export const FAULT_WORDS: Readonly<Record<FaultId, FaultWords>> = {
  'soft-grain': fault('soft grain', 'the first cut, well before its time, is nearly clear'),
  'stubborn-grain': fault('stubborn grain', 'a white core at every look'),
  'starch-foam': fault('starch foam', 'foam climbs in the pot: lower the flame'),
  'forgotten-water': fault('water forgotten', 'a look under the rack before the lid goes on'),
  'blocked-vent': fault(
    'blocked vent pipe',
    'no light through the pipe; a gauge that rises over an open valve',
  ),
  'leaking-gasket': fault('leaking gasket', 'cracks in the gasket; a hiss at the rim and no climb'),
  'gauge-high': fault('gauge reads 2 psi high', 'a needle that does not rest at zero when cold'),
  'weak-burner': fault('weak burner', 'all takes longer: wait for the jet and for the gauge'),
  'gas-out': fault('gas bottle runs out', 'the flame is gone and the needle sinks'),
  'phone-call': fault('phone call', 'nobody watched: say so (t), do not guess'),
  'open-early': fault('tempted to open early', 'the gauge is at zero long before it is cool'),
  'torn-bag': fault('torn bag', 'a slit in one bag as it is lifted'),
};

export const MISTAKE_WORDS: Readonly<Record<Mistake, string>> = {
  'no-look': 'calls the gear ready without looking at it',
  undercook: 'drains as soon as it simmers',
  overcook: 'lets it simmer half an hour too long',
  'grain-by-clock': 'drains by the clock and cuts no kernel',
  'full-flame': 'leaves the pot on full flame',
  'wet-grain': 'bags a quarter of an hour after draining',
  'no-water': 'closes the lid without a look at the water',
  'no-vent': 'calls it steady before any steam comes',
  'steam-by-clock': 'calls steam and pressure at the shortest time planned',
  'early-hold': 'starts the hold a minute and a half after closing the valve',
  unwatched: 'sets the flame and goes away',
  'low-flame': 'sets the flame too low and goes away',
  'open-early': 'opens as soon as the pressure is gone',
  'torn-kept': 'puts every bag among the good ones',
  'warm-inoculation': 'opens at half the cooling time and inoculates warm',
};

export const LOSS_WORDS: Readonly<Record<LossId, string>> = {
  'boiled-over': 'boiled over again and again: starch on everything',
  chalky: 'chalky centres: too dry to grow through',
  overcooked: 'burst kernels: clumps and bacteria',
  wet: 'wet kernels: water pools in the bags and goes sour',
  'dried-out': 'dried out: slow growth',
  air: 'air was shut in: colder than the gauge says',
  blocked: 'pressure behind a blocked vent pipe: dangerous',
  'cold-hold': 'the hold was mostly below target',
  'under-heated': 'the centre got too little heat: spores live on',
  'boiled-dry': 'the cooker boiled dry: heat off, batch lost',
  'opened-hot': 'opened hot: bags torn, room air drawn in',
  'torn-kept': 'a damaged container among the good ones',
  'warm-inoculated': 'inoculated warm: a weak culture, and water in the bags',
  unfinished: 'ended before it was done',
};

/** The same where a line has room for two words. */
export const LOSS_SHORT: Readonly<Record<LossId, string>> = {
  'boiled-over': 'boiled over',
  chalky: 'chalky centres',
  overcooked: 'burst kernels',
  wet: 'wet kernels',
  'dried-out': 'dried out',
  air: 'air shut in',
  blocked: 'blocked pipe',
  'cold-hold': 'below target',
  'under-heated': 'spores live',
  'boiled-dry': 'boiled dry',
  'opened-hot': 'opened hot',
  'torn-kept': 'torn one kept',
  'warm-inoculated': 'weak culture',
  unfinished: 'unfinished',
};

export const SENSE_WORDS: Readonly<Record<SenseCode, string>> = {
  'boils-over': 'It hisses: foam runs over the rim of the pot.',
  'phone-rings': 'The phone rings in the other room. You go.',
  'phone-over': 'You are back at the stove. Nobody watched meanwhile.',
  'burnt-smell': 'You smell something burnt.',
  tempted: 'Somebody wants the table: "Open it, the gauge is at 0."',
  'safety-valve': 'The safety valve lifts with a roar.',
};

/** Pressure as the dial is read by the person. */
export const dialText = (kPa: number, { units }: Telling): string => formatPressure(kPa, units);
