/** Every decision of a practice against the truth: too early, right, too late or missed. */
import { holdMs } from '../batch/advance.ts';
import type { CoachTime } from '../time.ts';
import type { LoadFacts } from './facts.ts';
import { type FaultId, GEAR_FAULTS } from './faults.ts';
import { LIMITS } from './limits.ts';
import type { Practice } from './practice.ts';

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

/** All decisions that were come to, in the order of the batch. */
export function decisionsOf(practice: Practice): readonly Decision[] {
  const { loads } = practice.truth.facts;
  return [
    ...[gearDecision(practice), ...grainDecisions(practice)].map(one => ({ ...one, load: 1 })),
    ...loads.flatMap(one => loadDecisions(one, practice).map(each => ({ ...each, load: one.load }))),
    ...lateDecisions(practice).map(one => ({ ...one, load: 1 })),
  ];
}

/** Whether what was wrong was noticed, or at least did no harm. */
export function isCaught(fault: FaultId, practice: Practice, decisions: readonly Decision[]): boolean {
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
