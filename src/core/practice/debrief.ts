/**
 * What a practice was worth: each decision against the truth, what it did in numbers, and, from the decisions
 * alone, what was lost and the one thing to practise next. Lethality stays an estimate with its band; nothing here is a proof.
 */
import { riskOfSurvivor, sporesInBag, survivors } from '../science/lethality.ts';
import { SPORES_PER_G } from '../science/spores.ts';
import { type Decision, type DecisionId, judge } from './decisions.ts';
import type { LoadFacts } from './facts.ts';
import { type FaultId, GEAR_FAULTS } from './faults.ts';
import { LOSS_IDS, type LossId, withCosts, worstOf } from './losses.ts';
import type { Practice } from './practice.ts';

export interface Numbers {
  /** Wet basis, at bagging; null when it never came to that. */
  readonly moisture: number | null;
  readonly filmGPerKg: number | null;
  /** Worst load: share of the cold air left at closing, 0 to 1. */
  readonly airLeft: number | null;
  readonly minutesAbove: number | null;
  readonly minutesCounted: number | null;
  /** Highest gauge pressure from closing the valve to heat-off, kPa. */
  readonly mostKPa: number | null;
  /** Centre at heat-off, minutes: low, likely and high end of the diffusivity. */
  readonly f0Min: readonly [number, number, number] | null;
  /** Chance that a container keeps a living spore, same three ends (0 best to 1 worst). */
  readonly risk: readonly [number, number, number] | null;
  readonly tearRisk: number | null;
  readonly waterLeftL: number | null;
  /** Containers that are whole, of all; null before any was lifted. */
  readonly whole: readonly [number, number] | null;
}

export interface FaultReport {
  readonly id: FaultId;
  /** Null when it never came to it: nothing was there to be noticed. */
  readonly caught: boolean | null;
}

export interface Debrief {
  readonly practice: true;
  readonly seed: number;
  readonly recipe: string;
  readonly hours: number;
  readonly faults: readonly FaultReport[];
  readonly decisions: readonly Decision[];
  readonly numbers: Numbers;
  /** What the decisions cost, gravest first; empty when the batch came through. */
  readonly lost: readonly LossId[];
  /** The decision to practise next, the worst of them; null when all were right. */
  readonly next: DecisionId | null;
  readonly right: number;
}

/** The decisions that answer a fault which no look at the gear finds; the first is there once it was met. */
const ANSWERED_BY: Readonly<Partial<Record<FaultId, readonly DecisionId[]>>> = {
  'soft-grain': ['kernels'],
  'stubborn-grain': ['kernels'],
  'starch-foam': ['pot'],
  'forgotten-water': ['water'],
  'weak-burner': ['steady', 'valve', 'hold', 'upkeep'],
  'gas-out': ['upkeep'],
  'phone-call': ['away', 'upkeep'],
  'open-early': ['opening'],
  'torn-bag': ['unload'],
};

/** The load that fared worst: what a batch is worth is what its worst load is worth. */
function worstLoad(loads: readonly LoadFacts[]): LoadFacts | null {
  const cooked = loads.filter(({ offT }) => offT !== null);
  return cooked.reduce<LoadFacts | null>(
    (worst, one) => (worst === null || one.f0Min[1] < worst.f0Min[1] ? one : worst),
    null,
  );
}

function numbersOf({ truth, run }: Practice): Numbers {
  const { facts, recipe } = truth;
  const { containers } = run.batch;
  const worst = worstLoad(facts.loads);
  const dryKg = recipe.containers.fillKg * (1 - recipe.wantedMoisture);
  const spores = sporesInBag({ dryKg, sporesPerG: SPORES_PER_G.likely });
  const risk = (logs: number) => riskOfSurvivor(survivors(spores, logs));
  return {
    moisture: facts.bagged?.moisture ?? null,
    filmGPerKg: facts.bagged?.filmG ?? null,
    airLeft: worst?.airLeft ?? null,
    minutesAbove: worst === null ? null : worst.aboveS / 60,
    minutesCounted: worst === null ? null : worst.countedS / 60,
    mostKPa: worst === null ? null : worst.mostKPa,
    f0Min: worst?.f0Min ?? null,
    risk: worst === null ? null : [risk(worst.logs[0]), risk(worst.logs[1]), risk(worst.logs[2])],
    tearRisk: worst?.openT == null ? null : worst.tearRisk,
    waterLeftL: worst?.waterLeftL ?? null,
    whole: worst?.openT == null ? null : [containers.length - facts.torn.length, containers.length],
  };
}

/** Whether what was wrong was noticed, or at least did no harm: its decisions were right. */
function isCaught(fault: FaultId, practice: Practice, decisions: readonly Decision[]): boolean | null {
  if (GEAR_FAULTS.includes(fault)) return practice.truth.facts.gearFound.includes(fault);
  const answers = ANSWERED_BY[fault] ?? [];
  if (!decisions.some(({ id }) => id === answers[0])) return null;
  return decisions.every(({ id, verdict }) => verdict === 'right' || !answers.includes(id));
}

/** The debrief of a practice, finished or left. */
export function debriefOf(practice: Practice): Debrief {
  const { batch } = practice.run;
  const decisions = withCosts(practice, judge(practice));
  const costs = new Set(decisions.flatMap(one => one.costs));
  return {
    practice: true,
    seed: practice.seed,
    recipe: batch.header.recipe.name,
    hours: Math.round(practice.second / 36) / 100,
    faults: practice.faults.map(id => ({ id, caught: isCaught(id, practice, decisions) })),
    decisions,
    numbers: numbersOf(practice),
    lost: LOSS_IDS.filter(id => costs.has(id)),
    next: worstOf(decisions),
    right: decisions.filter(({ verdict }) => verdict === 'right').length,
  };
}
