/**
 * Every decision of a practice against the truth: too early, right, too late or missed. Where right ends is
 * in `LIMITS`; what a wrong one cost is added by `losses.ts`, so that no loss stands beside decisions that
 * were all right.
 */
import type { CoachTime } from '../time.ts';
import type { LoadFacts } from './facts.ts';
import { GEAR_FAULTS } from './faults.ts';
import { LIMITS } from './limits.ts';
import type { LossId } from './losses.ts';
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
  'away',
  'heat-off',
  'end',
  'opening',
  'unload',
  'inoculation',
] as const;
export type DecisionId = (typeof DECISION_IDS)[number];

/** A decision as it was judged, before its cost is known. */
export interface Judged {
  readonly id: DecisionId;
  readonly load: number;
  readonly verdict: Verdict;
  readonly t: CoachTime | null;
  /** What it was about, in the inside unit of the decision (see `core/words/practice.ts`). */
  readonly value: number;
  readonly wanted: number;
  /** A second number where one does not say it all: burst share, gauge kPa, minutes too high, F0 min. */
  readonly also: number;
  /** Minutes of the hold that were given up because it began again; absent where there is no hold or none were. */
  readonly givenUpMin?: number;
}

export interface Decision extends Judged {
  /** What was lost by it; never anything by a decision that was right. */
  readonly costs: readonly LossId[];
}

const judged = (
  id: DecisionId,
  verdict: Verdict,
  t: CoachTime | null,
  numbers: readonly [value: number, wanted: number, also?: number],
  load = 1,
): Judged => ({ id, load, verdict, t, value: numbers[0], wanted: numbers[1], also: numbers[2] ?? 0 });

function gearDecision({ truth, faults }: Practice): Judged {
  const there = faults.filter(fault => GEAR_FAULTS.includes(fault)).length;
  const found = truth.facts.gearFound.length;
  return judged('gear', found < there ? 'missed' : 'right', null, [found, there]);
}

function grainDecisions({ truth }: Practice): Judged[] {
  const { facts, recipe } = truth;
  const { drained, bagged, boiledOver } = facts;
  const decisions: Judged[] = [];
  if (drained !== null || boiledOver > 0) {
    decisions.push(judged('pot', boiledOver > 0 ? 'missed' : 'right', null, [boiledOver, 0]));
  }
  if (drained !== null) {
    const { core, burst, t } = drained;
    const verdict = core > LIMITS.core ? 'too early' : burst > LIMITS.burst ? 'too late' : 'right';
    const about = verdict === 'too late' ? burst : core;
    decisions.push(judged('kernels', verdict, t, [drained.moisture, recipe.wantedMoisture, about]));
  }
  if (bagged !== null) {
    const dried = bagged.filmG < LIMITS.driedG || bagged.driedPoints > LIMITS.driedPoints;
    const verdict = bagged.filmG > LIMITS.filmG ? 'too early' : dried ? 'too late' : 'right';
    decisions.push(judged('towel', verdict, bagged.t, [bagged.filmG, LIMITS.filmG, bagged.driedPoints]));
  }
  return decisions;
}

/** Steam, valve and hold of one load. */
function heatingDecisions(facts: LoadFacts, { run }: Practice): Judged[] {
  const { ventS, targetC, targetKPa } = run.batch.header.numbers;
  const { load, steadyT, shutT, holdT } = facts;
  const decisions: Judged[] = [];
  const short = facts.pouredL < facts.plannedL * LIMITS.poured;
  decisions.push(judged('water', short ? 'missed' : 'right', null, [facts.pouredL, facts.plannedL], load));
  if (steadyT !== null) {
    const late = facts.steadyJetS > LIMITS.jetLateS;
    const verdict = facts.steadyGMin === 0 ? 'too early' : late ? 'too late' : 'right';
    const numbers = [facts.steadyGMin, LIMITS.jetGMin, facts.steadyJetS / 60] as const;
    decisions.push(judged('steady', verdict, steadyT, numbers, load));
  }
  if (shutT !== null) {
    const short = facts.jetS < ventS - LIMITS.ventGrainS || facts.airLeft > LIMITS.airLost;
    const late = facts.jetS > ventS + 2 * LIMITS.jetLateS;
    const verdict = short ? 'too early' : late ? 'too late' : 'right';
    decisions.push(judged('valve', verdict, shutT, [facts.jetS / 60, ventS / 60, facts.airLeft], load));
  }
  if (holdT !== null) {
    const early = facts.holdC < targetC - LIMITS.targetK;
    const late = facts.holdGaugeKPa > targetKPa + LIMITS.startOverKPa;
    const verdict = early ? 'too early' : late ? 'too late' : 'right';
    decisions.push(judged('hold', verdict, holdT, [facts.holdC, targetC, facts.holdGaugeKPa], load));
  }
  return decisions;
}

/** The hold itself and its end, for one load. */
function holdingDecisions(facts: LoadFacts, { run, truth }: Practice): Judged[] {
  const { load, holdT, offT, openT, aboveS, countedS, overS, f0Min } = facts;
  const decisions: Judged[] = [];
  if (offT !== null) {
    if (holdT !== null) {
      const kept = aboveS >= countedS * LIMITS.held;
      const over = overS > LIMITS.mayOverS || facts.mostKPa > truth.kitchen.markedMaxKPa + LIMITS.markKPa;
      const numbers = [aboveS / 60, countedS / 60, kept && over ? facts.mostKPa : 0] as const;
      const upkeep = judged('upkeep', kept && !over ? 'right' : 'missed', null, numbers, load);
      decisions.push(facts.givenUpS > 0 ? { ...upkeep, givenUpMin: facts.givenUpS / 60 } : upkeep);
    }
    if (run.batch.endedEarly === null) {
      const ended = run.batch.times.find(entry => entry.step === 'heat-off' && entry.load === load);
      const overtimeS = (offT - (ended?.from ?? offT)) / 1000;
      const verdict = overtimeS > LIMITS.overS ? 'too late' : 'right';
      decisions.push(judged('heat-off', verdict, offT, [overtimeS / 60, LIMITS.overS / 60, f0Min[1]], load));
    }
  }
  if (openT !== null) {
    const verdict = facts.tearRisk > LIMITS.tear ? 'too early' : 'right';
    decisions.push(judged('opening', verdict, openT, [facts.tearRisk, LIMITS.tear, facts.openMeanC], load));
  }
  return decisions;
}

/** Damaged containers that stand among the good ones, whatever was said first and taken back. */
export const tornKept = ({ truth, run }: Pick<Practice, 'truth' | 'run'>): readonly number[] =>
  run.batch.containers
    .filter(({ number, lifted, state }) => lifted && state === 'whole' && truth.facts.torn.includes(number))
    .map(({ number }) => number);

function batchDecisions({ truth, run }: Practice): Judged[] {
  const { facts, kitchen } = truth;
  const { batch } = run;
  const decisions: Judged[] = [];
  if (facts.away !== null) {
    const { from, to, told } = facts.away;
    decisions.push(judged('away', told ? 'right' : 'missed', to, [(to - from) / 60_000, 0]));
  }
  if (batch.endedEarly !== null) {
    const hopeless = facts.loads.some(
      ({ dryS, openKPa, holdT }) => dryS > LIMITS.dryS || openKPa > LIMITS.behindValveKPa || holdT === null,
    );
    decisions.push(judged('end', hopeless ? 'right' : 'too early', null, [0, 0]));
  }
  const lifted = batch.times.some(({ step }) => step === 'rest' || step === 'done');
  const { torn } = facts;
  const kept = tornKept({ truth, run }).length;
  if (torn.length > 0 && (lifted || kept > 0)) {
    decisions.push(judged('unload', kept > 0 ? 'missed' : 'right', null, [kept, torn.length]));
  }
  if (facts.inoculatedC !== null) {
    const verdict = facts.inoculatedC - kitchen.roomC > LIMITS.warmK ? 'too early' : 'right';
    decisions.push(judged('inoculation', verdict, null, [facts.inoculatedC, kitchen.roomC]));
  }
  return decisions;
}

const order = ({ id }: Judged): number => DECISION_IDS.indexOf(id);

/** All decisions that were come to, in the order of the batch, load by load. */
export function judge(practice: Practice): readonly Judged[] {
  const { loads } = practice.truth.facts;
  const whole = batchDecisions(practice);
  const before = [gearDecision(practice), ...grainDecisions(practice)];
  const perLoad = loads.map(one => [...heatingDecisions(one, practice), ...holdingDecisions(one, practice)]);
  const last = perLoad.pop() ?? [];
  const ending = [...last, ...whole].sort((a, b) => order(a) - order(b));
  return [...before, ...perLoad.flat(), ...ending];
}
