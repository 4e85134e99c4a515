/**
 * What a practice was worth: each decision against the truth, what it did in numbers, what was lost by it,
 * and the one thing to practise next. Lethality stays an estimate with its band; nothing here is a proof.
 */
import type { Batch } from '../batch/state.ts';
import { holdMs } from '../batch/advance.ts';
import { riskOfSurvivor, sporesInBag, survivors } from '../science/lethality.ts';
import { SPORES_PER_G } from '../science/spores.ts';
import { type Decision, type DecisionId, decisionsOf, isCaught } from './decisions.ts';
import type { LoadFacts } from './facts.ts';
import type { FaultId } from './faults.ts';
import { BARELY_F0_MIN, LIMITS } from './limits.ts';
import type { Practice } from './practice.ts';

export type LossId =
  | 'boiled-over'
  | 'chalky'
  | 'overcooked'
  | 'wet'
  | 'dried-out'
  | 'air'
  | 'blocked'
  | 'cold-hold'
  | 'under-heated'
  | 'boiled-dry'
  | 'opened-hot'
  | 'torn-kept'
  | 'warm-inoculated'
  | 'unfinished';

export interface Numbers {
  /** Wet basis, at bagging; null when it never came to that. */
  readonly moisture: number | null;
  readonly filmGPerKg: number | null;
  /** Worst load: share of the cold air left at closing, 0 to 1. */
  readonly airLeft: number | null;
  readonly minutesAbove: number | null;
  readonly minutesCounted: number;
  /** Centre at heat-off, minutes: low, likely and high end of the diffusivity. */
  readonly f0Min: readonly [number, number, number] | null;
  /** Chance that a container keeps a living spore, same three ends (0 best to 1 worst). */
  readonly risk: readonly [number, number, number] | null;
  readonly tearRisk: number | null;
  readonly waterLeftL: number | null;
}

export interface FaultReport {
  readonly id: FaultId;
  readonly caught: boolean;
}

export interface Debrief {
  readonly practice: true;
  readonly seed: number;
  readonly recipe: string;
  readonly hours: number;
  readonly faults: readonly FaultReport[];
  readonly decisions: readonly Decision[];
  readonly numbers: Numbers;
  readonly lost: readonly LossId[];
  /** The decision to practise next; null when all were right. */
  readonly next: DecisionId | null;
  readonly right: number;
}

/** The load that fared worst: what a batch is worth is what its worst load is worth. */
function worstLoad(loads: readonly LoadFacts[]): LoadFacts | null {
  const cooked = loads.filter(({ offT }) => offT !== null);
  return cooked.reduce<LoadFacts | null>(
    (worst, one) => (worst === null || one.f0Min[1] < worst.f0Min[1] ? one : worst),
    null,
  );
}

function numbersOf(practice: Practice, batch: Batch): Numbers {
  const { facts, recipe } = practice.truth;
  const worst = worstLoad(facts.loads);
  const dryKg = recipe.containers.fillKg * (1 - recipe.wantedMoisture);
  const spores = sporesInBag({ dryKg, sporesPerG: SPORES_PER_G.likely });
  const risk = (logs: number) => riskOfSurvivor(survivors(spores, logs));
  return {
    moisture: facts.bagged?.moisture ?? null,
    filmGPerKg: facts.bagged?.filmG ?? null,
    airLeft: worst?.airLeft ?? null,
    minutesAbove: worst === null ? null : worst.aboveS / 60,
    minutesCounted: holdMs(batch) / 60_000,
    f0Min: worst?.f0Min ?? null,
    risk: worst === null ? null : [risk(worst.logs[0]), risk(worst.logs[1]), risk(worst.logs[2])],
    tearRisk: worst?.openT == null ? null : worst.tearRisk,
    waterLeftL: worst?.waterLeftL ?? null,
  };
}

function lossesOf(practice: Practice, numbers: Numbers): LossId[] {
  const { facts, kitchen } = practice.truth;
  const lost: LossId[] = [];
  const when = (bad: boolean, id: LossId) => {
    if (bad) lost.push(id);
  };
  when(facts.boiledOver > LIMITS.boiledOver, 'boiled-over');
  when((facts.drained?.core ?? 0) > LIMITS.chalkCore, 'chalky');
  when((facts.drained?.burst ?? 0) > LIMITS.overcooked, 'overcooked');
  when((numbers.filmGPerKg ?? 0) > LIMITS.wetG, 'wet');
  when((facts.bagged?.driedPoints ?? 0) > LIMITS.driedOutPoints, 'dried-out');
  when((numbers.airLeft ?? 0) > LIMITS.airLost, 'air');
  when(
    facts.loads.some(({ openKPa }) => openKPa > LIMITS.behindValveKPa),
    'blocked',
  );
  when(
    numbers.minutesAbove !== null && numbers.minutesAbove < numbers.minutesCounted * LIMITS.cold,
    'cold-hold',
  );
  when(numbers.f0Min !== null && numbers.f0Min[1] < BARELY_F0_MIN, 'under-heated');
  when(
    facts.loads.some(({ dryS }) => dryS > 60),
    'boiled-dry',
  );
  when((numbers.tearRisk ?? 0) > LIMITS.tearLost, 'opened-hot');
  when(facts.tornKept.length > 0, 'torn-kept');
  when((facts.inoculatedC ?? kitchen.roomC) - kitchen.roomC > LIMITS.warmLostK, 'warm-inoculated');
  when(practice.run.batch.endedEarly !== null, 'unfinished');
  return lost;
}

/** What costs a batch most is practised first. */
const GRAVEST: readonly DecisionId[] = [
  'opening',
  'water',
  'hold',
  'upkeep',
  'valve',
  'steady',
  'gear',
  'unload',
  'kernels',
  'pot',
  'towel',
  'inoculation',
  'heat-off',
];

/** The debrief of a practice, finished or left. */
export function debriefOf(practice: Practice): Debrief {
  const { batch } = practice.run;
  const decisions = decisionsOf(practice);
  const numbers = numbersOf(practice, batch);
  const wrong = new Set(decisions.filter(({ verdict }) => verdict !== 'right').map(({ id }) => id));
  return {
    practice: true,
    seed: practice.seed,
    recipe: batch.header.recipe.name,
    hours: Math.round(practice.second / 36) / 100,
    faults: practice.faults.map(id => ({ id, caught: isCaught(id, practice, decisions) })),
    decisions,
    numbers,
    lost: lossesOf(practice, numbers),
    next: GRAVEST.find(id => wrong.has(id)) ?? null,
    right: decisions.filter(({ verdict }) => verdict === 'right').length,
  };
}
