/** From what the file says to the whole recipe: defaults of common practice for all that was left out. */

import type { ContainerKind, Culture, CultureForm, Grain, Recipe, Soak } from './recipe.ts';
import { GRAIN_PROPERTIES } from '../science/grains.ts';
import { KPA_PER_PSI } from '../science/units.ts';
import type { RecipeFile } from './schema.ts';
import type { Amount } from './values.ts';

const MIN = 60;
const HOUR = 3600;

/** Amount for each kg of hydrated grain: mL, or g of grain spawn. Common practice, no source (science notes i). */
const CULTURE_PER_KG: Readonly<Record<CultureForm, number>> = {
  'liquid culture': 5,
  'spore syringe': 2,
  'grain spawn': 100,
};

/** First look after a soak; unsoaked grain takes about twice as long (common practice, no source). */
function firstLookS(grain: Grain, soaked: boolean): number {
  const [earliest] = GRAIN_PROPERTIES[grain].simmerMin ?? [10];
  return earliest * MIN * (soaked ? 1 : 2);
}

/** Rounded to grams, so that a default reads like something a person would write. */
const tidy = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** The recipe of a file whose every value was read; fills in what was left out. */
export function recipeFrom(file: RecipeFile): Recipe {
  const { containers, culture, dry, moisture, simmer } = file;
  const kind: ContainerKind = containers.kind ?? 'bag';
  const soak = soakOf(file.soak);
  return {
    name: file.name,
    grain: file.grain,
    note: file.note ?? '',
    containers: {
      kind,
      count: containers.count,
      fillKg: containers.fill,
      size: containers.size.size,
      mostKg: containers.most ?? tidy(containers.fill * 1.1, 3),
      touching: containers.touching ?? false,
    },
    storedMoisture: moisture?.stored ?? 0.12,
    wantedMoisture: moisture?.wanted ?? GRAIN_PROPERTIES[file.grain].wantedMoisture.likely,
    soak,
    simmer: {
      firstLookS: simmer?.['first look'] ?? firstLookS(file.grain, soak !== null),
      everyS: simmer?.['look every'] ?? 5 * MIN,
      nearS: simmer?.['near every'] ?? 2 * MIN,
      waterPerKg: simmer?.water ?? 2.5,
    },
    drying: {
      aboutS: dry?.about ?? 2 * HOUR,
      stirEveryS: dry?.['stir every'] ?? 25 * MIN,
      towelS: dry?.towel ?? 20,
    },
    seal: file.seal ?? 'before',
    ...(file['cooker water'] === undefined ? {} : { cookerWaterL: file['cooker water'] }),
    ventS: file.vent ?? 10 * MIN,
    target:
      file.temperature === undefined
        ? { by: 'pressure', gaugeKPa: file.pressure ?? 15 * KPA_PER_PSI }
        : { by: 'temperature', celsius: file.temperature },
    holdS: file.hold ?? (containers.fill < 0.9 ? 75 : 90) * MIN,
    dips: file.dips ?? 'restart',
    coolS: file.cool ?? 9 * HOUR,
    culture: cultureOf(
      culture?.form ?? 'liquid culture',
      culture?.species ?? '',
      culture?.each,
      containers.fill,
    ),
  };
}

function soakOf(soak: RecipeFile['soak']): Soak | null {
  if (soak === undefined || soak === 'no') return null;
  const shortestS = soak.shortest ?? Math.min(12 * HOUR, soak.longest ?? 12 * HOUR);
  return { shortestS, longestS: soak.longest ?? Math.max(24 * HOUR, shortestS) };
}

function cultureOf(form: CultureForm, species: string, each: Amount | undefined, fillKg: number): Culture {
  return { form, species, perContainer: each?.amount ?? tidy(CULTURE_PER_KG[form] * fillKg, 1) };
}
