/**
 * What a batch was lost by, each loss laid to the decision that brought it: the first wrong one among those
 * that can. A loss whose decisions all seemed right makes the last of them wrong, since the truth decides.
 */
import { type Decision, type DecisionId, type Judged, tornKept, type Verdict } from './decisions.ts';
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

interface Cause {
  /** Decisions that can bring the loss, the first cause first. */
  readonly from: readonly DecisionId[];
  /** What the last of them is called when all of them seemed right. */
  readonly else: Verdict;
}
const cause = (otherwise: Verdict, ...from: DecisionId[]): Cause => ({ from, else: otherwise });

/** What can keep heat from the middle, first cause first. */
const HEATING: readonly DecisionId[] = ['gear', 'water', 'steady', 'valve', 'hold', 'away', 'upkeep'];

/** The gravest first. */
const CAUSES: Readonly<Record<LossId, Cause>> = {
  blocked: cause('missed', 'gear'),
  'boiled-dry': cause('missed', 'gear', 'steady', 'hold', 'upkeep', 'heat-off', 'water'),
  'opened-hot': cause('too early', 'opening'),
  air: cause('too early', 'steady', 'valve'),
  'under-heated': cause('too early', ...HEATING, 'end', 'heat-off'),
  'cold-hold': cause('missed', ...HEATING),
  unfinished: cause('too early', 'gear', 'water', 'steady', 'hold', 'upkeep', 'end'),
  'torn-kept': cause('missed', 'unload'),
  chalky: cause('too early', 'kernels'),
  overcooked: cause('too late', 'kernels'),
  'warm-inoculated': cause('too early', 'inoculation'),
  wet: cause('too early', 'towel'),
  'dried-out': cause('too late', 'towel'),
  'boiled-over': cause('missed', 'pot'),
};
export const LOSS_IDS: readonly LossId[] = Object.keys(CAUSES).filter((id): id is LossId => id in CAUSES);

interface Loss {
  readonly id: LossId;
  /** The load it happened to; null for all. */
  readonly load: number | null;
}

function lossesOf({ truth, run }: Practice): readonly Loss[] {
  const { facts, kitchen } = truth;
  const { drained, bagged } = facts;
  const lost: Loss[] = [];
  const when = (bad: boolean, id: LossId, load: number | null = null) => {
    if (bad) lost.push({ id, load });
  };
  when(facts.boiledOver > LIMITS.boiledOver, 'boiled-over');
  when(drained !== null && drained.core > LIMITS.chalkCore, 'chalky');
  when(drained !== null && drained.burst > LIMITS.overcooked, 'overcooked');
  when(bagged !== null && bagged.filmG > LIMITS.wetG, 'wet');
  when(bagged !== null && bagged.driedPoints > LIMITS.driedOutPoints, 'dried-out');
  for (const { load, ...one } of facts.loads) {
    when(one.shutT !== null && one.airLeft > LIMITS.airLost, 'air', load);
    when(truth.blocked && one.openKPa > LIMITS.behindValveKPa, 'blocked', load);
    when(one.dryS > LIMITS.dryS, 'boiled-dry', load);
    when(one.openT !== null && one.tearRisk > LIMITS.tearLost, 'opened-hot', load);
    if (one.offT === null) continue;
    when(one.holdT !== null && one.aboveS < one.countedS * LIMITS.cold, 'cold-hold', load);
    when(one.f0Min[1] < BARELY_F0_MIN, 'under-heated', load);
  }
  when(tornKept({ truth, run }).length > 0, 'torn-kept');
  when(facts.inoculatedC !== null && facts.inoculatedC - kitchen.roomC > LIMITS.warmLostK, 'warm-inoculated');
  when(run.batch.endedEarly !== null, 'unfinished');
  return lost;
}

/** The decision a loss is laid to: its place in the list, and whether it has to be called wrong for it. */
function blamed(decisions: readonly Judged[], { id, load }: Loss): number {
  const { from } = CAUSES[id];
  // Decisions about the whole batch carry load 1 and belong to every load.
  const whole: readonly DecisionId[] = ['gear', 'away', 'end'];
  const mine = from.flatMap(name =>
    decisions.flatMap((one, place) =>
      one.id === name && (load === null || whole.includes(name) || one.load === load) ? [place] : [],
    ),
  );
  return mine.find(place => decisions[place]?.verdict !== 'right') ?? mine.at(-1) ?? -1;
}

/** The decisions with what each of them cost. */
export function withCosts(practice: Practice, decisions: readonly Judged[]): readonly Decision[] {
  const costs = decisions.map((): LossId[] => []);
  const verdicts = decisions.map(({ verdict }) => verdict);
  for (const loss of lossesOf(practice)) {
    const place = blamed(decisions, loss);
    if (verdicts[place] === 'right') verdicts[place] = CAUSES[loss.id].else;
    if (!costs[place]?.includes(loss.id)) costs[place]?.push(loss.id);
  }
  return decisions.map((one, place) => ({
    ...one,
    verdict: verdicts[place] ?? one.verdict,
    costs: costs[place] ?? [],
  }));
}

/** The worst decision: what cost the gravest loss, else the first that was not right; null when all were. */
export function worstOf(decisions: readonly Decision[]): DecisionId | null {
  for (const id of LOSS_IDS) {
    const brought = decisions.find(({ costs }) => costs.includes(id));
    if (brought) return brought.id;
  }
  return decisions.find(({ verdict }) => verdict !== 'right')?.id ?? null;
}
