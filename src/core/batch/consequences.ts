/**
 * Where every answer leads: one table, question by question, answer by answer. An entry gets a batch
 * whose clock already stands at the answer, and an amount that was already checked.
 */
import { SECOND } from '../time.ts';
import { holdLeftMs, holdMs } from './advance.ts';
import { believe, dip, fallBelow, openDip } from './gauge.ts';
import {
  ask,
  changeContainer,
  enter,
  findContainer,
  firstLookS,
  leave,
  nextStirAt,
  note,
  numbersOf,
  read,
  recall,
  recipeOf,
  steamAgain,
  workedOn,
} from './moves.ts';
import { reweigh } from './portions.ts';
import type { Batch, Container, GaugeBelief } from './state.ts';
import type { AskId } from './steps.ts';
import { towelDry } from './towel.ts';

type Consequence = (batch: Batch, amount: number) => Batch;
type Table = { readonly [A in AskId]: Readonly<Record<string, Consequence>> };

const stay: Consequence = batch => batch;
const next: Consequence = batch => leave(batch);

/** Does one container and goes on to the next one of this step, or to the next step. */
function work(batch: Batch, change: Partial<Container>): Batch {
  const changed = changeContainer(batch, batch.cursor, change);
  const following = findContainer(changed, workedOn(changed, changed.step), batch.cursor + 1);
  return following < 0 ? leave(changed) : ask({ ...changed, cursor: following }, changed.ask);
}

/** Does all containers of this step that are left in the same way. */
function workRest(batch: Batch, change: Partial<Container>): Batch {
  const wanted = workedOn(batch, batch.step);
  const containers = batch.containers.map((container, index) =>
    index >= batch.cursor && wanted(container) ? { ...container, ...change } : container,
  );
  return leave({ ...batch, containers });
}

const given = (batch: Batch, dose = recipeOf(batch).culture.perContainer): Partial<Container> => ({
  dose,
  dosedAt: batch.now,
});

/** The person says what the gauge shows while it ought to climb. */
function whileClimbing(batch: Batch, seen: GaugeBelief, kPa: number | null): Batch {
  const told = read(batch, seen, kPa);
  if (seen === 'below' || seen === 'unknown') return told;
  const flagged = seen === 'above' ? note(told, 'above-target') : told;
  const entered = enter(flagged, 'hold');
  return { ...entered, hold: { ...entered.hold, belief: seen } };
}

/** The person says what the gauge shows during the hold. */
function whileHolding(batch: Batch, seen: GaugeBelief, kPa: number | null): Batch {
  if (seen === 'below') {
    const fallen = fallBelow(batch, kPa);
    return fallen.hold.dips > batch.hold.dips ? note(fallen, 'dip') : fallen;
  }
  const told = read(batch, seen, kPa);
  const flagged = seen === 'above' && batch.hold.belief !== 'above' ? note(told, 'above-target') : told;
  const held: Batch = { ...flagged, hold: { ...flagged.hold, belief: seen } };
  // Every minute was served, and only this answer was missing.
  return holdLeftMs(held) === 0 && !openDip(held) ? enter(held, 'heat-off') : held;
}

const byGauge = (told: (batch: Batch, seen: GaugeBelief, kPa: number | null) => Batch) => ({
  below: (batch: Batch) => told(batch, 'below', null),
  at: (batch: Batch) => told(batch, 'at', null),
  above: (batch: Batch) => told(batch, 'above', null),
  reading: (batch: Batch, kPa: number) => told(batch, believe(kPa, numbersOf(batch).targetKPa), kPa),
});

/** Time nobody saw, answered for: only "it stayed" lets it count. */
function stayedAtTarget(batch: Batch): Batch {
  const unseen = batch.now - (batch.away?.from ?? batch.now);
  const creditMs = Math.min(holdMs(batch), batch.hold.creditMs + unseen);
  const back: Batch = {
    ...recall(read(batch, 'at', null), 'stayed'),
    hold: { ...batch.hold, creditMs, vouchedMs: creditMs, belief: 'at' },
  };
  return creditMs >= holdMs(batch) ? enter(back, 'heat-off') : back;
}
const FELL = { below: 'fell-below-now', at: 'fell-back-now', unknown: 'unknown' } as const;
const fell = (batch: Batch, belief: 'at' | 'below' | 'unknown'): Batch =>
  dip(note(recall(read(batch, belief, null), FELL[belief]), 'dip'), belief, batch.away?.from);

/** After both kernel judgements: on to draining, or when to look again. */
function kernelsJudged(batch: Batch, burst: 'none' | 'few' | 'many'): Batch {
  const { simmer } = recipeOf(batch);
  const kernels = batch.kernels.map((check, index) =>
    index === batch.kernels.length - 1 ? { ...check, burst } : check,
  );
  const judged: Batch = { ...batch, kernels };
  if (burst === 'many') return leave(note(judged, 'overcooked'));
  const centre = kernels.at(-1)?.centre;
  if (centre === 'translucent') return leave(judged);
  const againS = centre === 'thin-line' ? simmer.nearS : simmer.everyS;
  return ask({ ...judged, lookAt: batch.now + againS * SECOND }, 'simmering');
}

const centre =
  (seen: 'white-core' | 'thin-line' | 'translucent'): Consequence =>
  batch =>
    ask({ ...batch, kernels: [...batch.kernels, { t: batch.now, centre: seen, burst: null }] }, 'burst');

const towelSays =
  (seen: string, then: Consequence): Consequence =>
  (batch, amount) =>
    then({ ...batch, towels: [...batch.towels, { t: batch.now, seen }] }, amount);

const stirLater: Consequence = batch => ({ ...ask(batch, 'drying'), stirAt: nextStirAt(batch) });

/** No more grain: the containers filled so far are the batch. */
function usedUp(batch: Batch): Batch {
  const containers = batch.containers.slice(0, batch.cursor);
  return leave(note({ ...batch, containers }, 'too-few'));
}

export const CONSEQUENCES = {
  'gear-check': { ready: next, missing: batch => note(batch, 'gear-missing') },
  'dry-weight': { 'as-planned': next, weighed: (batch, kg) => leave(reweigh(batch, kg)) },
  soaking: { soaked: next },
  'simmer-start': {
    simmers: batch => ({
      ...ask(batch, 'simmering'),
      simmerFrom: batch.now,
      lookAt: batch.now + firstLookS(batch) * SECOND,
    }),
  },
  simmering: { 'kernels-cut': batch => ask(batch, 'kernel-centre') },
  'kernel-centre': {
    'white-core': centre('white-core'),
    'thin-line': centre('thin-line'),
    translucent: centre('translucent'),
  },
  burst: {
    none: batch => kernelsJudged(batch, 'none'),
    few: batch => kernelsJudged(batch, 'few'),
    many: batch => kernelsJudged(batch, 'many'),
  },
  draining: { drained: next, weighed: (batch, kg) => ({ ...batch, drainedKg: kg }) },
  drying: {
    stirred: batch => ({ ...stirLater(batch, 0), stirredAt: batch.now }),
    'towel-laid': batch => ask(batch, 'towel'),
  },
  towel: {
    soaked: towelSays('soaked', stirLater),
    several: towelSays('several', stirLater),
    faint: towelSays('faint', next),
    dry: towelDry,
  },
  fill: {
    'as-planned': batch => work(batch, { kg: recipeOf(batch).containers.fillKg }),
    weighed: (batch, kg) => work(batch, { kg }),
    'used-up': usedUp,
    'rest-as-planned': batch => workRest(batch, { kg: recipeOf(batch).containers.fillKg }),
  },
  seam: {
    sealed: batch => work(batch, { sealed: true }),
    failed: batch => {
      const failures = (batch.containers[batch.cursor]?.seamFailures ?? 0) + 1;
      return changeContainer(note(batch, 'seam-failed', batch.cursor + 1), batch.cursor, {
        seamFailures: failures,
      });
    },
    'rest-sealed': batch => workRest(batch, { sealed: true }),
  },
  'cooker-water': {
    'as-planned': batch => ask({ ...batch, cookerWaterL: numbersOf(batch).cookerWaterL }, 'lid'),
    poured: (batch, litres) => ask({ ...batch, cookerWaterL: litres }, 'lid'),
  },
  lid: { 'lid-on': next },
  steam: { spurts: stay, steady: next, none: stay },
  venting: { 'valve-closed': next, stopped: batch => steamAgain(note(batch, 'steam-stopped')) },
  climbing: byGauge(whileClimbing),
  holding: byGauge(whileHolding),
  flame: { 'flame-off': next },
  'gauge-zero': {
    zero: batch => {
      const told = read(batch, 'zero', 0);
      return told.lock ? ask({ ...told, lock: { ...told.lock, zeroAt: batch.now } }, 'pin') : told;
    },
    'not-zero': batch => read(batch, 'unknown', null),
    reading: (batch, kPa) => read(batch, kPa > 0 ? 'unknown' : 'zero', kPa),
  },
  pin: {
    up: batch => {
      const doubted = read(batch, 'unknown', null);
      return doubted.lock
        ? ask({ ...doubted, lock: { ...doubted.lock, zeroAt: null } }, 'gauge-zero')
        : doubted;
    },
    down: batch => ask(batch, 'shut'),
  },
  shut: { 'lid-open': next },
  lifted: {
    intact: batch => work(batch, { lifted: true }),
    torn: batch => work(note(batch, 'torn', batch.cursor + 1), { lifted: true, state: 'torn' }),
    'rest-intact': batch => workRest(batch, { lifted: true }),
  },
  warmth: { warm: batch => ask(batch, 'warmth'), room: next },
  clean: { clean: batch => ask(batch, 'inject') },
  inject: {
    'as-planned': batch => work(batch, given(batch)),
    dosed: (batch, dose) => work(batch, given(batch, dose)),
    'left-out': batch => work(batch, { leftOut: true }),
    'rest-as-planned': batch => workRest(batch, given(batch)),
  },
  finished: {},
  'away-steam': {
    stayed: batch => ({ ...batch, away: null }),
    stopped: batch => steamAgain(note(batch, 'steam-stopped')),
    unknown: batch => steamAgain(note(batch, 'steam-stopped')),
  },
  'away-gauge': {
    'fell-below-now': batch => fell(batch, 'below'),
    stayed: stayedAtTarget,
    'fell-back-now': batch => fell(batch, 'at'),
    unknown: batch => fell(batch, 'unknown'),
  },
  'clock-claim': { 'clock-wrong': batch => ({ ...batch, claim: null }) },
} satisfies Table;

/** The consequence of an answer; `answerRefusal` has already said that it exists. */
export function consequence(askId: AskId, choice: string): Consequence {
  const table: Readonly<Record<string, Consequence>> = CONSEQUENCES[askId];
  return table[choice] ?? stay;
}
