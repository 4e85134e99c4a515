/**
 * What a practice was worth: each decision against the truth, what it did in numbers, what was lost by it,
 * and the one thing to practise next. Lethality stays an estimate with its band; nothing here is a proof.
 */
import type { Batch } from '../batch/state.ts';
import { holdMs } from '../batch/advance.ts';
import { riskOfSurvivor, sporesInBag, survivors } from '../science/lethality.ts';
import { SPORES_PER_G } from '../science/spores.ts';
import type { CoachTime } from '../time.ts';
import type { LoadFacts } from './facts.ts';
import { type FaultId, GEAR_FAULTS } from './faults.ts';
import type { Practice } from './practice.ts';
import { BARELY_F0_MIN, LIMITS } from './limits.ts';

export type Verdict = 'too early' | 'right' | 'too late' | 'missed';
export const DECISION_IDS = [
  'gear',
  'pot',
  'kernels',
  'towel',
  'water',
  'steady',
  'valve',
  'hold',
  'upkeep',
  'heat-off',
  'opening',
  'unload',
  'inoculation',
] as const;
export type DecisionId = (typeof DECISION_IDS)[number];

export interface Decision {
  readonly id: DecisionId;
  readonly load: number;
  readonly verdict: Verdict;
  readonly t: CoachTime | null;
  /** What it was about, in the inside unit of the decision (see `core/words/practice.ts`). */
  readonly value: number;
  readonly wanted: number;
}

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

type Judged = Omit<Decision, 'load'>;

/** Where a value stands to a range: before it, in it, after it. */
const place = (value: number, early: number, late: number): Verdict =>
  value < early ? 'too early' : value > late ? 'too late' : 'right';

function grainDecisions({ truth }: Practice): Judged[] {
  const { facts, recipe } = truth;
  const decisions: Judged[] = [];
  const { drained, bagged } = facts;
  if (truth.faults.has('starch-foam')) {
    const verdict = facts.boiledOver > 0 ? 'missed' : 'right';
    decisions.push({ id: 'pot', verdict, t: null, value: facts.boiledOver, wanted: 0 });
  }
  if (drained !== null) {
    const early = drained.core > LIMITS.core;
    const late = drained.burst > LIMITS.burst;
    const verdict = early ? 'too early' : late ? 'too late' : 'right';
    decisions.push({
      id: 'kernels',
      verdict,
      t: drained.t,
      value: drained.moisture,
      wanted: recipe.wantedMoisture,
    });
  }
  if (bagged !== null) {
    const dried = bagged.filmG < LIMITS.driedG || bagged.driedPoints > LIMITS.driedPoints;
    const verdict = bagged.filmG > LIMITS.filmG ? 'too early' : dried ? 'too late' : 'right';
    decisions.push({ id: 'towel', verdict, t: bagged.t, value: bagged.filmG, wanted: LIMITS.filmG });
  }
  return decisions;
}

function loadDecisions(facts: LoadFacts, practice: Practice): Judged[] {
  const { numbers } = practice.run.batch.header;
  const decisions: Judged[] = [];
  const add = (id: DecisionId, verdict: Verdict, t: CoachTime | null, value: number, wanted: number) =>
    decisions.push({ id, verdict, t, value, wanted });
  const short = facts.pouredL < facts.plannedL * 0.8;
  add('water', short ? 'missed' : 'right', null, facts.pouredL, facts.plannedL);
  if (facts.steadyT !== null) {
    add(
      'steady',
      facts.steadyGMin > 0 ? 'right' : 'too early',
      facts.steadyT,
      facts.steadyGMin,
      LIMITS.jetGMin,
    );
  }
  if (facts.shutT !== null) {
    const jet = facts.jetS >= numbers.ventS - LIMITS.ventGrainS;
    add('valve', jet ? 'right' : 'too early', facts.shutT, facts.airLeft, LIMITS.airLeft);
  }
  if (facts.holdT !== null) {
    const there = facts.holdC >= numbers.targetC - LIMITS.targetK;
    add('hold', there ? 'right' : 'too early', facts.holdT, facts.holdC, numbers.targetC);
  }
  if (facts.offT !== null) {
    const counted = practice.run.batch.endedEarly === null ? holdMs(practice.run.batch) / 60_000 : 0;
    const above = facts.aboveS / 60;
    if (facts.holdT !== null) {
      add('upkeep', above >= counted * LIMITS.held ? 'right' : 'missed', null, above, counted);
    }
    const ended = practice.run.batch.times.find(
      ({ step, load }) => step === 'heat-off' && load === facts.load,
    );
    const overS = (facts.offT - (ended?.from ?? facts.offT)) / 1000;
    add('heat-off', overS > LIMITS.overS ? 'too late' : 'right', facts.offT, overS / 60, LIMITS.overS / 60);
  }
  if (facts.openT !== null) {
    add('opening', place(-facts.tearRisk, -LIMITS.tear, 0), facts.openT, facts.tearRisk, LIMITS.tear);
  }
  return decisions;
}

function lateDecisions({ truth, run }: Practice): Judged[] {
  const { facts, kitchen } = truth;
  const decisions: Judged[] = [];
  if (facts.torn.length > 0 && run.batch.times.some(({ step }) => step === 'rest' || step === 'done')) {
    const missed = facts.tornKept.length;
    decisions.push({
      id: 'unload',
      verdict: missed > 0 ? 'missed' : 'right',
      t: null,
      value: missed,
      wanted: facts.torn.length,
    });
  }
  if (facts.inoculatedC !== null) {
    const above = facts.inoculatedC - kitchen.roomC;
    const verdict = above > LIMITS.warmK ? 'too early' : 'right';
    decisions.push({ id: 'inoculation', verdict, t: null, value: facts.inoculatedC, wanted: kitchen.roomC });
  }
  return decisions;
}

function gearDecision({ truth, faults }: Practice): Judged {
  const there = faults.filter(fault => GEAR_FAULTS.includes(fault));
  const found = truth.facts.gearFound.length;
  return {
    id: 'gear',
    verdict: found < there.length ? 'missed' : 'right',
    t: null,
    value: found,
    wanted: there.length,
  };
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

/** Whether what was wrong was noticed, or at least did no harm. */
function caught(fault: FaultId, practice: Practice, decisions: readonly Decision[]): boolean {
  const { facts } = practice.truth;
  const right = (...ids: DecisionId[]) =>
    decisions.filter(({ id }) => ids.includes(id)).every(({ verdict }) => verdict === 'right');
  switch (fault) {
    case 'soft-grain':
    case 'stubborn-grain':
      return right('kernels');
    case 'starch-foam':
      return facts.boiledOver === 0;
    case 'forgotten-water':
      return right('water');
    case 'blocked-vent':
    case 'leaking-gasket':
    case 'gauge-high':
      return facts.gearFound.includes(fault);
    case 'weak-burner':
      return right('steady', 'valve', 'hold', 'upkeep');
    case 'gas-out':
      return right('upkeep');
    case 'phone-call':
      return facts.away === null || facts.away.told;
    case 'open-early':
      return right('opening');
    case 'torn-bag':
      return facts.tornKept.length === 0;
  }
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
  const { facts } = practice.truth;
  const decisions: Decision[] = [
    ...[gearDecision(practice), ...grainDecisions(practice)].map(one => ({ ...one, load: 1 })),
    ...facts.loads.flatMap(one => loadDecisions(one, practice).map(each => ({ ...each, load: one.load }))),
    ...lateDecisions(practice).map(one => ({ ...one, load: 1 })),
  ];
  const numbers = numbersOf(practice, batch);
  const wrong = new Set(decisions.filter(({ verdict }) => verdict !== 'right').map(({ id }) => id));
  return {
    practice: true,
    seed: practice.seed,
    recipe: batch.header.recipe.name,
    hours: Math.round(practice.second / 36) / 100,
    faults: practice.faults.map(id => ({ id, caught: caught(id, practice, decisions) })),
    decisions,
    numbers,
    lost: lossesOf(practice, numbers),
    next: GRAVEST.find(id => wrong.has(id)) ?? null,
    right: decisions.filter(({ verdict }) => verdict === 'right').length,
  };
}
