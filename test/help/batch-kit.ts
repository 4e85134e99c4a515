/** Sample batches of the invented hill-town kitchen. Numbers are round and set by hand, so that no model moves a test. */
import type { BatchHeader } from '../../src/core/batch/state.ts';
import { DEFAULT_KITCHEN } from '../../src/core/kitchen.ts';
import type { RunNumbers } from '../../src/core/plan/numbers.ts';
import type { DipPolicy, Recipe, SealWhen } from '../../src/core/recipe/recipe.ts';
import { HOUR, MINUTE, SECOND } from '../../src/core/time.ts';

export const SOAK = 12 * HOUR;
export const TOWEL = 20 * SECOND;
export const VENT = 10 * MINUTE;
export const HOLD = 90 * MINUTE;
/** An answer at the gauge vouches for half an hour (common practice, no source). */
export const GAUGE_ANSWER = 30 * MINUTE;
export const PRESSURE_LOCK = 60 * MINUTE;
export const COOL = 9 * HOUR;
export const TARGET_KPA = 103;
/** The wall clock at the beginning: 2026-03-28 18:00 UTC, the evening before European clocks go forward. */
export const BEGAN_WALL = Date.UTC(2026, 2, 28, 18);

export interface Sample {
  readonly soak?: boolean;
  readonly seal?: SealWhen;
  readonly jars?: boolean;
  /** Containers in each load. */
  readonly loads?: readonly number[];
  readonly dips?: DipPolicy;
  readonly practice?: boolean;
}

export function sampleRecipe(sample: Sample = {}): Recipe {
  const { soak = true, seal = 'before', jars = false, loads = [2], dips = 'restart' } = sample;
  return {
    name: jars ? 'Sorghum in jars' : 'Rye in bags',
    grain: jars ? 'sorghum' : 'rye',
    note: '',
    containers: {
      kind: jars ? 'jar' : 'bag',
      count: loads.reduce((sum, count) => sum + count, 0),
      fillKg: jars ? 0.5 : 1,
      size: jars
        ? { shape: 'cylinder', diameterM: 0.09, heightM: 0.12 }
        : { shape: 'brick', lengthM: 0.18, widthM: 0.11, thicknessM: 0.08 },
      mostKg: jars ? 0.55 : 1.1,
      touching: false,
    },
    storedMoisture: 0.12,
    wantedMoisture: 0.48,
    soak: soak ? { shortestS: SOAK / SECOND, longestS: (2 * SOAK) / SECOND } : null,
    simmer: { firstLookS: 600, everyS: 300, nearS: 120, waterPerKg: 2.5 },
    drying: { aboutS: 7200, stirEveryS: 1500, towelS: TOWEL / SECOND },
    seal,
    ventS: VENT / SECOND,
    target: { by: 'pressure', gaugeKPa: TARGET_KPA },
    holdS: HOLD / SECOND,
    dips,
    coolS: COOL / SECOND,
    culture: { form: 'liquid culture', species: 'oyster', perContainer: 5 },
  };
}

export function sampleHeader(sample: Sample = {}): BatchHeader {
  const recipe = sampleRecipe(sample);
  const { count, fillKg } = recipe.containers;
  const numbers: RunNumbers = {
    dryKg: count * fillKg * 0.6,
    hydratedKg: count * fillKg,
    simmerWaterL: count * fillKg * 1.5,
    atmosphereKPa: 93.9,
    boilC: 97.9,
    targetKPa: TARGET_KPA,
    targetC: 119.8,
    ventS: recipe.ventS,
    holdS: recipe.holdS,
    gaugeAnswerS: GAUGE_ANSWER / SECOND,
    cookerWaterL: 2.5,
    leastWaterL: 2,
    mostWaterL: 5,
    loads: sample.loads ?? [2],
    pressureLockS: PRESSURE_LOCK / SECOND,
    coolS: recipe.coolS,
    lengths: {},
  };
  return {
    id: '2613-1',
    recipe,
    kitchen: DEFAULT_KITCHEN,
    numbers,
    beganWall: BEGAN_WALL,
    practice: sample.practice ?? false,
  };
}

/** One of each kind that walks different steps. */
export const VARIANTS: Readonly<Record<string, BatchHeader>> = {
  'soaked, bags sealed before': sampleHeader(),
  'no soak, bags sealed after': sampleHeader({ soak: false, seal: 'after' }),
  'jars, made up': sampleHeader({ jars: true, dips: 'make up' }),
  'two loads': sampleHeader({ soak: false, loads: [1, 1] }),
  'two loads, sealed after, made up': sampleHeader({ seal: 'after', loads: [2, 1], dips: 'make up' }),
};
