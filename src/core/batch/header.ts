/**
 * The first line of a journal, read with suspicion. A right checksum only says that the line is as it was
 * written; whoever wrote it, nothing in it may stop the program or unsettle a countdown later.
 */
import { checkKitchen } from '../kitchen-check.ts';
import { DEFAULT_KITCHEN } from '../kitchen.ts';
import { GRAINS } from '../recipe/recipe.ts';
import type { BatchHeader } from './state.ts';

type Check = (value: unknown) => boolean;
type Shape = Readonly<Record<string, Check>>;

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Larger than anything in a kitchen, and small enough for every sum of them to stay exact. */
const MOST = 1e9;
const size: Check = value => typeof value === 'number' && value >= 0 && value <= MOST;
const quantity: Check = value => typeof value === 'number' && Math.abs(value) <= MOST;
const instant: Check = value => typeof value === 'number' && Math.abs(value) < 1e15;
const flag: Check = value => typeof value === 'boolean';
const text =
  (most: number): Check =>
  value =>
    typeof value === 'string' && value.length <= most;
const one =
  (...known: readonly string[]): Check =>
  value =>
    typeof value === 'string' && known.includes(value);
const or =
  (...checks: readonly Check[]): Check =>
  value =>
    checks.some(check => check(value));
const none: Check = value => value === null;
const absent: Check = value => value === undefined;
const shape =
  (parts: Shape): Check =>
  value =>
    isRecord(value) && Object.entries(parts).every(([key, check]) => check(value[key]));
const each =
  (check: Check): Check =>
  value =>
    isRecord(value) && Object.values(value).every(check);

/** More containers than these no kitchen has, and every one of them is a row in memory. */
const MOST_LOADS = 50;
const MOST_CONTAINERS = 500;
const loads: Check = value =>
  Array.isArray(value) &&
  value.length >= 1 &&
  value.length <= MOST_LOADS &&
  value.every(count => Number.isInteger(count) && count >= 1) &&
  value.reduce((sum: number, count: number) => sum + count, 0) <= MOST_CONTAINERS;

const RECIPE = shape({
  name: text(500),
  grain: one(...GRAINS),
  note: text(10_000),
  containers: shape({
    kind: one('bag', 'jar'),
    count: size,
    fillKg: size,
    size: or(
      shape({ shape: one('brick'), lengthM: size, widthM: size, thicknessM: size }),
      shape({ shape: one('cylinder'), diameterM: size, heightM: size }),
    ),
    mostKg: size,
    touching: flag,
  }),
  storedMoisture: size,
  wantedMoisture: size,
  soak: or(none, shape({ shortestS: size, longestS: size })),
  simmer: shape({ firstLookS: size, everyS: size, nearS: size, waterPerKg: size }),
  drying: shape({ aboutS: size, stirEveryS: size, towelS: size }),
  seal: one('before', 'after'),
  cookerWaterL: or(absent, size),
  ventS: size,
  target: or(
    shape({ by: one('pressure'), gaugeKPa: size }),
    shape({ by: one('temperature'), celsius: quantity }),
  ),
  holdS: size,
  dips: one('restart', 'make up'),
  coolS: size,
  culture: shape({
    form: one('liquid culture', 'spore syringe', 'grain spawn'),
    species: text(500),
    perContainer: size,
  }),
});

const NUMBERS = shape({
  dryKg: size,
  hydratedKg: size,
  potTakesKg: or(absent, value => size(value) && Number(value) > 0),
  simmerWaterL: size,
  atmosphereKPa: size,
  boilC: quantity,
  targetKPa: size,
  targetC: quantity,
  ventS: size,
  holdS: size,
  gaugeAnswerS: or(absent, size),
  dryTooSoonShare: or(absent, size),
  cookerWaterL: quantity,
  leastWaterL: quantity,
  mostWaterL: quantity,
  loads,
  perLoad: or(absent, size),
  pressureLockS: size,
  coolS: size,
  lengths: each(shape({ lowS: size, likelyS: size, highS: size })),
});

const LEARNED = shape({ simmerS: or(none, size), dryingS: or(none, size), batches: size });

const HEADER = shape({
  id: text(199),
  recipe: RECIPE,
  kitchen: value => isRecord(value) && checkKitchen(value).problems.length === 0,
  numbers: NUMBERS,
  beganWall: instant,
  practice: flag,
  learned: or(absent, LEARNED),
  formerId: or(absent, text(199)),
});

/** The batch in a journal's first line, or null when it is none. */
export function readBatchHeader(value: unknown): BatchHeader | null {
  if (!isRecord(value) || !HEADER(value)) return null;
  const header = value as unknown as BatchHeader;
  // A kitchen of an earlier version may lack what was asked about later.
  return { ...header, kitchen: { ...DEFAULT_KITCHEN, ...header.kitchen } };
}
