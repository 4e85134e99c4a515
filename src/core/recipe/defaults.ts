/** From what the file says to the whole recipe: defaults of common practice for all that was left out. */

import type { ContainerKind, Culture, CultureForm, Grain, Recipe, Soak } from './recipe.ts';
import type { Amount, RecipeFile } from './schema.ts';

const MIN = 60;
const HOUR = 3600;

/** First look after a soak, in minutes. Common practice, no source (science.md l); unsoaked grain takes about twice as long. */
const FIRST_LOOK_MIN: Readonly<Record<Grain, number>> = {
  rye: 10,
  wheat: 10,
  oats: 15,
  barley: 15,
  sorghum: 15,
  millet: 5,
  maize: 20,
  'brown rice': 10,
  spelt: 10,
  triticale: 10,
};

/** Amount for each kg of hydrated grain: mL, or g of grain spawn. Common practice, no source (science.md i). */
const CULTURE_PER_KG: Readonly<Record<CultureForm, number>> = {
  'liquid culture': 5,
  'spore syringe': 2,
  'grain spawn': 100,
};

/** Default wet-basis moisture of hydrated grain (science.md h). */
export const wantedMoisture = (grain: Grain): number =>
  grain === 'millet' || grain === 'brown rice' ? 0.45 : 0.48;

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
    wantedMoisture: moisture?.wanted ?? wantedMoisture(file.grain),
    soak,
    simmer: {
      firstLookS: simmer?.['first look'] ?? FIRST_LOOK_MIN[file.grain] * MIN * (soak ? 1 : 2),
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
    ventS: file.vent ?? 10 * MIN,
    target:
      file.temperature === undefined
        ? { by: 'pressure', gaugeKPa: file.pressure ?? 15 * 6.894757293168 }
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
