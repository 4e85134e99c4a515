/**
 * The order of a batch, as data: which steps there are, when a recipe uses them, and what each one asks.
 * What an answer leads to is in `consequences.ts`; what it is called on screen is in `core/words`.
 */
import type { Recipe } from '../recipe/recipe.ts';

export const STEP_IDS = [
  'gear',
  'measure',
  'soak',
  'simmer',
  'drain',
  'surface-dry',
  'portion',
  'seal',
  'load',
  'heat',
  'vent',
  'climb',
  'hold',
  'heat-off',
  'cool',
  'unload',
  'seal-after',
  'rest',
  'inoculate',
  'done',
] as const;
export type StepId = (typeof STEP_IDS)[number];

/** How an ask is answered: Space for the one plain answer, digits for judgements, which have no default. */
export interface Choice {
  readonly id: string;
  readonly key: 'space' | '1' | '2' | '3' | '4';
  /** The answer carries a quantity, typed or set with the arrows. */
  readonly amount?: AmountKind;
}
export type AmountKind = 'mass' | 'volume' | 'pressure' | 'dose' | 'temperature';

const space = (id: string): Choice => ({ id, key: 'space' });
const KEYS = ['1', '2', '3', '4'] as const;
/** Numbered answers in the order of their keys; `id:amount` carries a quantity. */
function numbered(...ids: string[]): Choice[] {
  return ids.map((text, index) => {
    const [id = '', amount] = text.split(':');
    const key = KEYS[index];
    if (!key) throw new RangeError(`More than four answers: ${ids.join(', ')}`);
    return amount ? { id, key, amount: amount as AmountKind } : { id, key };
  });
}

/**
 * Every question the coach can ask. A judgement has only numbered answers, so Space can never answer it.
 * `gauge` answers stand on the same keys wherever the gauge is asked about.
 */
export const ASKS = {
  'gear-check': [space('ready'), ...numbered('missing')],
  'dry-weight': [space('as-planned'), ...numbered('weighed:mass')],
  soaking: [space('soaked')],
  'simmer-start': [space('simmers')],
  simmering: [space('kernels-cut')],
  'kernel-centre': numbered('white-core', 'thin-line', 'translucent'),
  burst: numbered('none', 'few', 'many'),
  draining: [space('drained'), ...numbered('weighed:mass')],
  drying: [space('stirred'), ...numbered('towel-laid')],
  towel: numbered('soaked', 'several', 'faint', 'dry'),
  fill: [space('as-planned'), ...numbered('weighed:mass', 'used-up', 'rest-as-planned')],
  seam: [space('sealed'), ...numbered('failed', 'rest-sealed')],
  'cooker-water': [space('as-planned'), ...numbered('poured:volume')],
  lid: [space('lid-on')],
  steam: numbered('spurts', 'steady', 'none'),
  venting: [space('valve-closed'), ...numbered('stopped')],
  climbing: numbered('below', 'at', 'above', 'reading:pressure'),
  holding: numbered('below', 'at', 'above', 'reading:pressure'),
  flame: [space('flame-off')],
  'gauge-zero': numbered('zero', 'not-zero', 'reading:pressure'),
  pin: numbered('up', 'down'),
  shut: [space('lid-open')],
  lifted: numbered('intact', 'torn', 'rest-intact'),
  warmth: numbered('warm', 'room'),
  clean: [space('clean')],
  inject: [space('as-planned'), ...numbered('dosed:dose', 'left-out', 'rest-as-planned')],
  finished: [],
  'away-steam': numbered('stayed', 'stopped', 'unknown'),
  'away-gauge': numbered('fell-below-now', 'stayed', 'fell-back-now', 'unknown'),
  'clock-claim': numbered('clock-right', 'clock-wrong'),
} as const satisfies Record<string, readonly Choice[]>;

export type AskId = keyof typeof ASKS;
export const choicesOf = (ask: AskId): readonly Choice[] => ASKS[ask];
/** A judgement has no plain "done": Space never answers it. */
export const isJudgement = (ask: AskId): boolean => choicesOf(ask).every(choice => choice.key !== 'space');

interface StepRow {
  readonly id: StepId;
  /** The question a step begins with. */
  readonly opens: AskId;
  readonly usedBy: (recipe: Recipe) => boolean;
  /** Steps of one cooker load are walked once for each load. */
  readonly perLoad: boolean;
  /** A closed or steaming vessel may be over a flame: ending the batch goes by way of the lock. */
  readonly maybePressure: boolean;
  /** Seconds count only while somebody can vouch for them, so the journal keeps a close beat. */
  readonly watched: boolean;
}

const always = () => true;
const row = (id: StepId, opens: AskId, more: Partial<StepRow> = {}): StepRow => ({
  id,
  opens,
  usedBy: always,
  perLoad: false,
  maybePressure: false,
  watched: false,
  ...more,
});

export const STEPS: readonly StepRow[] = [
  row('gear', 'gear-check'),
  row('measure', 'dry-weight'),
  row('soak', 'soaking', { usedBy: recipe => recipe.soak !== null }),
  row('simmer', 'simmer-start'),
  row('drain', 'draining'),
  row('surface-dry', 'drying'),
  row('portion', 'fill'),
  row('seal', 'seam', { usedBy: recipe => recipe.seal === 'before' }),
  row('load', 'cooker-water', { perLoad: true }),
  row('heat', 'steam', { perLoad: true, maybePressure: true }),
  row('vent', 'venting', { perLoad: true, maybePressure: true, watched: true }),
  row('climb', 'climbing', { perLoad: true, maybePressure: true }),
  row('hold', 'holding', { perLoad: true, maybePressure: true, watched: true }),
  row('heat-off', 'flame', { perLoad: true, maybePressure: true }),
  row('cool', 'gauge-zero', { perLoad: true, maybePressure: true }),
  row('unload', 'lifted', { perLoad: true }),
  row('seal-after', 'seam', { usedBy: recipe => recipe.seal === 'after' }),
  row('rest', 'warmth'),
  row('inoculate', 'clean'),
  row('done', 'finished'),
];

const ROWS = new Map(STEPS.map(entry => [entry.id, entry]));
export function stepRow(id: StepId): StepRow {
  const found = ROWS.get(id);
  if (!found) throw new RangeError(`No such step: ${id}`);
  return found;
}

/** The steps this recipe walks, in order. */
export const stepsOf = (recipe: Recipe): readonly StepId[] =>
  STEPS.filter(entry => entry.usedBy(recipe)).map(entry => entry.id);
