/**
 * The cereals the program knows, with what the models need of each.
 *
 * Composition: USDA nutrient database (SR), per cent as found, read in a public copy of the ABBREV file; its
 * carbohydrate "by difference" contains the fibre, which is listed apart here. Bulk densities: US official
 * test weights (wheat, rye, maize, sorghum, barley, oats, rough rice) or as tagged. Gelatinisation: brewing
 * literature or as tagged. Simmer times are common practice, no source.
 */
import type { Band } from './limits.ts';

export const GRAINS = [
  'rye',
  'wheat',
  'oats',
  'barley',
  'sorghum',
  'millet',
  'maize',
  'brown rice',
  'spelt',
  'triticale',
] as const;
export type Grain = (typeof GRAINS)[number];

/** How sure a value is: read in a source, computed from one, or from memory / common practice. */
export type Tag = 'read' | 'computed' | 'memory';

/** Mass per cent as found; `carbohydratePct` is by difference and contains the fibre. */
export interface Proximate {
  readonly waterPct: number;
  readonly proteinPct: number;
  readonly fatPct: number;
  readonly carbohydratePct: number;
  /** Null when the source has none (triticale): then it stays inside the carbohydrate. */
  readonly fibrePct: number | null;
  readonly ashPct: number;
}

export interface GrainProperties {
  readonly usdaItem: string;
  readonly proximate: Proximate;
  /** Bulk density of the stored grain, kg/m3. */
  readonly bulkKgM3: number;
  readonly bulkTag: Tag;
  /** Wet-basis moisture to hydrate to. */
  readonly wantedMoisture: Band;
  /** Range of starch gelatinisation, C. */
  readonly gelatinisationC: readonly [number, number];
  readonly gelatinisationTag: Tag;
  /** Usual simmer after a soak, minutes; null where practice gives none. */
  readonly simmerMin: readonly [number, number] | null;
}

const percent = (
  waterPct: number,
  proteinPct: number,
  fatPct: number,
  carbohydratePct: number,
  fibrePct: number | null,
  ashPct: number,
): Proximate => ({ waterPct, proteinPct, fatPct, carbohydratePct, fibrePct, ashPct });

const USUAL: Band = { low: 0.43, likely: 0.48, high: 0.52 };
/** Small and polished kernels turn sticky above this. */
const DRIER: Band = { low: 0.4, likely: 0.45, high: 0.5 };

export const GRAIN_PROPERTIES: Readonly<Record<Grain, GrainProperties>> = {
  rye: {
    usdaItem: 'RYE GRAIN 20062',
    proximate: percent(10.6, 10.34, 1.63, 75.86, 15.1, 1.57),
    bulkKgM3: 721,
    bulkTag: 'read',
    wantedMoisture: { ...USUAL, high: 0.55 },
    gelatinisationC: [55, 70],
    gelatinisationTag: 'memory',
    simmerMin: [10, 20],
  },
  wheat: {
    usdaItem: 'WHEAT, HARD RED WINTER 20072',
    proximate: percent(13.1, 12.61, 1.54, 71.18, 12.2, 1.57),
    bulkKgM3: 772,
    bulkTag: 'read',
    wantedMoisture: USUAL,
    gelatinisationC: [52, 64],
    gelatinisationTag: 'read',
    simmerMin: [10, 20],
  },
  oats: {
    usdaItem: 'OATS 20038 (hulled groats; the density is of whole oats)',
    proximate: percent(8.22, 16.89, 6.9, 66.27, 10.6, 1.72),
    bulkKgM3: 412,
    bulkTag: 'read',
    wantedMoisture: USUAL,
    gelatinisationC: [53, 59],
    gelatinisationTag: 'memory',
    simmerMin: [15, 25],
  },
  barley: {
    usdaItem: 'BARLEY, HULLED 20004',
    proximate: percent(9.44, 12.48, 2.3, 73.48, 17.3, 2.29),
    bulkKgM3: 618,
    bulkTag: 'read',
    wantedMoisture: USUAL,
    gelatinisationC: [61, 62],
    gelatinisationTag: 'read',
    simmerMin: [15, 25],
  },
  sorghum: {
    usdaItem: 'SORGHUM GRAIN 20067',
    proximate: percent(12.4, 10.62, 3.46, 72.09, 6.7, 1.43),
    bulkKgM3: 721,
    bulkTag: 'read',
    wantedMoisture: { ...USUAL, high: 0.5 },
    gelatinisationC: [70, 75],
    gelatinisationTag: 'read',
    simmerMin: [30, 30],
  },
  millet: {
    usdaItem: 'MILLET, RAW 20031 (proso)',
    proximate: percent(8.67, 11.02, 4.22, 72.85, 8.5, 3.25),
    bulkKgM3: 644,
    bulkTag: 'read',
    wantedMoisture: DRIER,
    gelatinisationC: [76, 76],
    gelatinisationTag: 'read',
    simmerMin: [5, 10],
  },
  maize: {
    usdaItem: 'CORN GRAIN, YELLOW 20014',
    proximate: percent(10.37, 9.42, 4.74, 74.26, 7.3, 1.2),
    bulkKgM3: 721,
    bulkTag: 'read',
    wantedMoisture: USUAL,
    gelatinisationC: [70, 75],
    gelatinisationTag: 'read',
    simmerMin: [20, 40],
  },
  'brown rice': {
    usdaItem: 'RICE, BROWN, LONG-GRAIN, RAW 20036 (the density is of rough rice)',
    proximate: percent(10.37, 7.94, 2.92, 77.24, 3.5, 1.53),
    bulkKgM3: 579,
    bulkTag: 'read',
    wantedMoisture: DRIER,
    gelatinisationC: [68, 75],
    gelatinisationTag: 'read',
    simmerMin: null,
  },
  spelt: {
    usdaItem: 'SPELT, UNCOOKED 20140',
    proximate: percent(11.02, 14.57, 2.43, 70.19, 10.7, 1.78),
    bulkKgM3: 515,
    bulkTag: 'memory',
    wantedMoisture: USUAL,
    gelatinisationC: [52, 64],
    gelatinisationTag: 'memory',
    simmerMin: null,
  },
  triticale: {
    usdaItem: 'TRITICALE 20069',
    proximate: percent(10.51, 13.05, 2.09, 72.13, null, 2.23),
    bulkKgM3: 618,
    bulkTag: 'memory',
    wantedMoisture: USUAL,
    gelatinisationC: [52, 70],
    gelatinisationTag: 'memory',
    simmerMin: null,
  },
};
