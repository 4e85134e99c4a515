/** `practise --report`: a practice without a screen, and its debrief as JSON. The fields are described in the README. */
import { withDefaults } from '../core/kitchen.ts';
import { type Debrief, debriefOf, type Numbers } from '../core/practice/debrief.ts';
import { playThrough } from '../core/practice/trainee.ts';
import { visibleJson } from '../core/text.ts';
import { FAULT_WORDS, LOSS_WORDS, MISTAKE_WORDS } from '../core/words/practice.ts';
import {
  DECISION_NAMES,
  decisionWords,
  NEXT_WORDS,
  toleranceWords,
} from '../core/words/practice-decisions.ts';
import type { Telling } from '../core/words/telling.ts';
import { EXIT } from '../shell/failure.ts';
import type { Arguments } from './arguments.ts';
import { mistakesOf, practiceFor, subjectOf, wishOf } from './practise.ts';
import type { World } from './world.ts';

type Ends = readonly [number, number, number];
const named = (ends: Ends | null) => ends && { low: ends[0], likely: ends[1], high: ends[2] };

/** Risk falls as heating quickens: its low end belongs to the fastest heating. */
const turned = (ends: Ends | null): Ends | null => ends && [ends[2], ends[1], ends[0]];

const numbersTold = ({ f0Min, risk, whole, ...rest }: Numbers) => ({
  ...rest,
  f0Min: named(f0Min),
  risk: named(turned(risk)),
  whole: whole && { whole: whole[0], of: whole[1] },
});

const decisionsTold = ({ decisions }: Debrief, telling: Telling) =>
  decisions.map(({ t, ...one }) => ({
    id: one.id,
    name: DECISION_NAMES[one.id],
    load: one.load,
    verdict: one.verdict,
    atSeconds: t === null ? null : t / 1000,
    says: decisionWords({ t, ...one }, telling),
    rightIs: toleranceWords({ t, ...one }, telling),
    costs: one.costs,
  }));

/** Plays a practice without a screen and prints its debrief as JSON; the answer is the exit code. */
export async function report(said: Arguments, world: World): Promise<number> {
  const wish = wishOf(said);
  const practice = await practiceFor(world, await subjectOf(said, world), wish);
  playThrough(practice, mistakesOf(wish));
  const debrief = debriefOf(practice);
  const { units } = withDefaults(world.settings.values.kitchen).kitchen;
  const told = {
    practice: true,
    notice: 'Practice against a simulated cooker. Lethality is an estimate, not a claim of sterility.',
    recipe: debrief.recipe,
    seed: debrief.seed,
    hours: debrief.hours,
    mistakes: mistakesOf(wish).map(id => ({ id, says: MISTAKE_WORDS[id] })),
    faults: debrief.faults.map(({ id, caught }) => ({ id, caught, ...FAULT_WORDS[id] })),
    right: debrief.right,
    of: debrief.decisions.length,
    lost: debrief.lost,
    losses: debrief.lost.map(id => LOSS_WORDS[id]),
    next: debrief.next,
    practiseNext: debrief.next === null ? null : NEXT_WORDS[debrief.next],
    numbers: numbersTold(debrief.numbers),
    decisions: decisionsTold(debrief, { units, clock: String }),
  };
  process.stdout.write(`${visibleJson(told)}\n`);
  return EXIT.ok;
}
