/**
 * Culinary species on grain: temperatures and days from inoculation to full white grain, for about 1 kg at the
 * usual temperature. Ranges of practice, not physics: expect +-40 % in days by strain and inoculum. A range is
 * "read" where a source was opened, "memory" where it is common practice only. Keep a room about 2 C below
 * the usual temperature: the core of a growing bag runs 1 to 5 C warmer (from memory).
 */
import type { Tag } from './grains.ts';
import type { Band } from './limits.ts';

export interface Species {
  readonly latin: string;
  readonly common: string;
  /** Cereals it is grown on in the sources. */
  readonly grains: string;
  readonly incubationC: Band;
  readonly temperatureTag: Tag;
  readonly days: readonly [number, number];
  readonly daysTag: Tag;
  readonly note: string;
}

const species = (
  latin: string,
  common: string,
  grains: string,
  [low, likely, high]: readonly [number, number, number],
  temperatureTag: Tag,
  days: readonly [number, number],
  daysTag: Tag,
  note = '',
): Species => ({
  latin,
  common,
  grains,
  incubationC: { low, likely, high },
  temperatureTag,
  days,
  daysTag,
  note,
});

export const SPECIES: readonly Species[] = [
  species(
    'Pleurotus ostreatus',
    'oyster',
    'rye, wheat, sorghum, millet, oats, maize',
    [18, 24, 28],
    'read',
    [10, 15],
    'read',
  ),
  species(
    'Pleurotus djamor',
    'pink oyster',
    'any cereal',
    [24, 27, 30],
    'read',
    [7, 12],
    'memory',
    'Keeps badly in the fridge (from memory).',
  ),
  species('Pleurotus eryngii', 'king oyster', 'rye, wheat, millet', [20, 24, 27], 'read', [12, 21], 'memory'),
  species(
    'Lentinula edodes',
    'shiitake',
    'rye, wheat, millet, sorghum',
    [20, 24, 27],
    'read',
    [14, 28],
    'memory',
    'Longer times quoted elsewhere are for sawdust.',
  ),
  species(
    'Hericium erinaceus',
    "lion's mane",
    'rye, wheat, milo, barley, maize, millet',
    [18, 23, 25],
    'read',
    [10, 18],
    'read',
    'Fruits early on grain: do not leave it too long, and do not shake it late.',
  ),
  species('Flammulina velutipes', 'enoki', 'rye, wheat', [18, 22, 26], 'read', [14, 20], 'memory'),
  species('Agaricus bisporus', 'button', 'rye, wheat, millet', [20, 24, 25], 'read', [14, 25], 'read'),
  species('Ganoderma lucidum', 'reishi', 'rye, wheat, sorghum', [22, 26, 30], 'read', [10, 20], 'memory'),
  species(
    'Hypsizygus tessellatus',
    'beech/shimeji',
    'rye, wheat, millet',
    [18, 22, 25],
    'memory',
    [14, 24],
    'memory',
  ),
  species(
    'Pholiota microspora (nameko)',
    'nameko',
    'rye, millet',
    [18, 22, 25],
    'memory',
    [14, 24],
    'memory',
  ),
  species(
    'Cyclocybe aegerita',
    'black poplar',
    'rye, wheat, sorghum',
    [20, 24, 27],
    'memory',
    [14, 24],
    'memory',
  ),
  species(
    'Stropharia rugosoannulata',
    'wine cap',
    'rye, wheat, millet',
    [18, 23, 27],
    'memory',
    [20, 35],
    'memory',
    'Slow on grain.',
  ),
  species(
    'Pleurotus pulmonarius',
    'phoenix oyster',
    'sorghum, wheat, millet',
    [20, 26, 30],
    'memory',
    [8, 15],
    'read',
  ),
];

/** Inoculation rates: ml of liquid, or g of grain spawn, for each kg of hydrated grain. */
export const INOCULATION_PER_KG = {
  /** Hobby practice, no source; fermenter practice uses 41 to 62 (read). */
  'liquid culture': { low: 3, likely: 5, high: 10 },
  'spore syringe': { low: 1, likely: 2, high: 3 },
  /** 5 to 20 %, common practice; 3 % was read. */
  'grain spawn': { low: 50, likely: 100, high: 200 },
} as const satisfies Readonly<Record<string, Band>>;

/** The species whose Latin or common name is written so, whatever the case; undefined when unknown. */
export function findSpecies(name: string): Species | undefined {
  const wanted = name.trim().toLowerCase();
  return SPECIES.find(({ latin, common }) =>
    [latin, common].some(
      known => known.toLowerCase() === wanted || known.toLowerCase().split(' (')[0] === wanted,
    ),
  );
}
