/**
 * Which change of the recipe answers to which cause. Numbers go into the numbers of the recipe; what no number
 * can say goes into its note. The size of each step is common practice, no source; the vent's ten minutes are
 * science notes k 1 (read). A change only ever goes in the direction its name says.
 */
import { numbersOf, recipeOf } from '../batch/moves.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { outcomeOf } from './bags.ts';
import type { Cause, CauseId } from './cause.ts';
import type { RecordedBatch } from './record.ts';
import { advice, type Apply, type Draft, HOUR_S, less, MIN, more } from './next-time-draft.ts';

export const holdLonger = (recipe: Recipe): readonly Draft[] =>
  more('hold-longer', 'hold', recipe.holdS, 15 * MIN, 4 * HOUR_S, holdS => r => ({ ...r, holdS }));

function ventLonger({ ventS }: Recipe): readonly Draft[] {
  const by = Math.max(2 * MIN, 10 * MIN - ventS);
  return more('vent-longer', 'vent', ventS, by, 20 * MIN, to => r => ({ ...r, ventS: to }));
}

const restart: readonly Draft[] = [
  {
    id: 'dips-restart',
    topic: 'dips',
    before: 0,
    after: 1,
    apply: r => ({ ...r, dips: 'restart' }),
    remindAt: [],
  },
];
const lostAny = ({ bags }: RecordedBatch): boolean => bags.some(bag => outcomeOf(bag) === 'lost');

const watchGauge = advice('watch-gauge', 'gauge', ['climb', 'hold']);

function steadierHold(recorded: RecordedBatch): readonly Draft[] {
  const recipe = recipeOf(recorded.batch);
  return [
    ...(recipe.dips === 'make up' ? restart : []),
    ...(recipe.dips === 'restart' && lostAny(recorded) ? holdLonger(recipe) : []),
    ...watchGauge,
  ];
}

export const drier = (recipe: Recipe, driedTooFar: boolean): readonly Draft[] => {
  const { aboutS, stirEveryS } = recipe.drying;
  const set =
    (change: Partial<Recipe['drying']>): Apply =>
    r => ({ ...r, drying: { ...r.drying, ...change } });
  // Wet at first and too dry at last: not the length was wrong, but how seldom it was looked at.
  if (driedTooFar)
    return less('stir-oftener', 'drying', stirEveryS, stirEveryS - 5 * MIN, 10 * MIN, to =>
      set({ stirEveryS: to }),
    );
  return more('dry-longer', 'drying', aboutS, 30 * MIN, 8 * HOUR_S, to => set({ aboutS: to }));
};

export const drierLess = ({ drying: { aboutS } }: Recipe): readonly Draft[] =>
  less('dry-shorter', 'drying', aboutS, Math.round((aboutS * 0.75) / MIN) * MIN, 15 * MIN, to => r => ({
    ...r,
    drying: { ...r.drying, aboutS: to },
  }));

const setLook =
  (firstLookS: number): Apply =>
  r => ({ ...r, simmer: { ...r.simmer, firstLookS } });

function soakLonger({ soak }: Recipe): readonly Draft[] {
  if (!soak || soak.shortestS + 2 * HOUR_S > soak.longestS) return [];
  return more(
    'soak-longer',
    'kernels',
    soak.shortestS,
    2 * HOUR_S,
    soak.longestS,
    shortestS => r => (r.soak ? { ...r, soak: { ...r.soak, shortestS } } : r),
  );
}

/** Between two looks the kernels went from white inside to burst. */
const lookOftener = ({ simmer: { everyS } }: Recipe): readonly Draft[] =>
  less('look-oftener', 'kernels', everyS, everyS - 2 * MIN, 2 * MIN, to => r => ({
    ...r,
    simmer: { ...r.simmer, everyS: to, nearS: Math.min(r.simmer.nearS, to) },
  }));
const simmerGently = advice('simmer-gently', 'kernels', ['simmer']);

/** Soft enough inside without bursting outside. `both`: kernels burst while others were still white inside. */
function kernels(recipe: Recipe, found: 'overcooked' | 'dry-core', both: boolean): readonly Draft[] {
  const { firstLookS } = recipe.simmer;
  if (both) return [...soakLonger(recipe), ...simmerGently];
  if (found === 'overcooked')
    return [
      ...less('look-sooner', 'kernels', firstLookS, firstLookS - 5 * MIN, 5 * MIN, setLook),
      ...lookOftener(recipe),
      ...simmerGently,
    ];
  return [...soakLonger(recipe), ...more('look-later', 'kernels', firstLookS, 5 * MIN, HOUR_S, setLook)];
}

const coolLonger = ({ coolS }: Recipe): readonly Draft[] =>
  more('cool-longer', 'shut', coolS, HOUR_S, 14 * HOUR_S, to => r => ({ ...r, coolS: to }));

function fillLess({ containers: { fillKg } }: Recipe): readonly Draft[] {
  const to = Math.round(fillKg * 0.95 * 100) / 100;
  return less('fill-less', 'portions', fillKg, to, 0.05, kg => r => ({
    ...r,
    containers: { ...r.containers, fillKg: kg },
  }));
}

export function fewer({ batch, bags }: RecordedBatch): readonly Draft[] {
  const { count } = recipeOf(batch).containers;
  if (bags.length === 0) return [];
  return less('fewer', 'portions', count, bags.length, 1, to => r => ({
    ...r,
    containers: { ...r.containers, count: to },
  }));
}

function moreWater({ batch }: RecordedBatch): readonly Draft[] {
  const { cookerWaterL, mostWaterL } = numbersOf(batch);
  const poured = batch.cookerWaterL ?? cookerWaterL;
  const drafts = more('more-water', 'water', poured, 0.5, mostWaterL, litres => r => ({
    ...r,
    cookerWaterL: Math.max(litres, r.cookerWaterL ?? 0),
  }));
  return drafts.length > 0 ? drafts : advice('more-water', 'water', ['climb', 'hold'], poured, poured);
}

/** Longest that the lid ought to have stayed shut against how long it did, s. */
function stayShut({ batch }: RecordedBatch): readonly Draft[] {
  const cool = batch.times.findLast(({ step }) => step === 'cool');
  const shutS = cool?.to == null ? 0 : (cool.to - cool.from) / 1000;
  return advice('stay-shut', 'shut', ['cool'], shutS, recipeOf(batch).coolS);
}

/** Changes that answer to a cause, the best first; the others stand in when its topic is taken. */
export function answersTo(cause: Cause, recorded: RecordedBatch, all: readonly CauseId[]): readonly Draft[] {
  const recipe = recipeOf(recorded.batch);
  const { holdS } = numbersOf(recorded.batch);
  const driedTooFar = recorded.batch.deviations.some(d => d.trouble === 'too-dry' && !d.takenBack);
  switch (cause.id) {
    case 'short-vent':
      return ventLonger(recipe);
    case 'dips':
      return steadierHold(recorded);
    case 'short-hold':
      return advice('hold-whole', 'hold', ['hold'], cause.minutes * MIN, holdS);
    case 'unwatched':
      return watchGauge;
    case 'low-water':
      return moreWater(recorded);
    case 'valve-opened':
      return advice('leave-valve', 'valve', ['climb', 'hold', 'cool']);
    case 'quick-release':
      return advice('leave-valve', 'valve', ['cool']);
    case 'power-failed':
      return advice('spare-heat', 'heat', ['load']);
    case 'overrun':
      return advice('flame-off', 'flame', ['hold'], holdS + cause.minutes * MIN, holdS);
    case 'wet-grain':
      return drier(recipe, driedTooFar);
    case 'short-drying':
      return advice('dry-whole', 'drying', ['surface-dry'], cause.minutes * MIN, cause.usualMin * MIN);
    case 'overcooked':
    case 'dry-core':
      return kernels(recipe, cause.id, all.includes('overcooked') && all.includes('dry-core'));
    case 'torn':
      return coolLonger(recipe);
    case 'seam':
    case 'overfull':
      return fillLess(recipe);
    case 'opened-warm':
      return stayShut(recorded);
    case 'dirty-needle':
      return advice('flame-needle', 'needle', ['inoculate']);
  }
}
