/** Heat-resistant spores met in or near grain, with their D and z. Published, single strains. */
import type { Band } from './limits.ts';
import type { Organism } from './lethality.ts';

/** Food isolate B. subtilis A163 (Kort et al. 2005): the second organism shown beside F0. */
export const GRAIN_SPORE: Organism = { name: 'Bacillus subtilis A163', dMin: 0.7, atC: 120, zC: 6.1 };
/** B. subtilis 168, a laboratory strain (Kort et al. 2005). */
export const LABORATORY_SPORE: Organism = { name: 'Bacillus subtilis 168', dMin: 1.4, atC: 105, zC: 6.3 };
/** B. sporothermodurans IC4 (Kort et al. 2005): the hardest found in food, not reported from grain. */
export const HARDEST_SPORE: Organism = {
  name: 'Bacillus sporothermodurans IC4',
  dMin: 0.3,
  atC: 131,
  zC: 9.7,
};
/** B. cereus 1061 in rice; its z of 20 is an outlier among 7 to 10. */
export const RICE_SPORE: Organism = { name: 'Bacillus cereus 1061', dMin: 5, atC: 100, zC: 20 };
export const SPORES: readonly Organism[] = [GRAIN_SPORE, LABORATORY_SPORE, HARDEST_SPORE, RICE_SPORE];

/** Spores per gram of dry grain that survive 100 C for 10 min: 1 to 100 in one study; the worst is the default. */
export const SPORES_PER_G: Band = { low: 1, likely: 100, high: 100 };
