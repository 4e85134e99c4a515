/** Events in any order at the machine, with an onlooker who throws when a rule is broken. */
import { step } from '../../src/core/batch/machine.ts';
import type { BatchEvent } from '../../src/core/batch/events.ts';
import { ASKS, type AskId, choicesOf, STEP_IDS, type StepId } from '../../src/core/batch/steps.ts';
import { TROUBLES } from '../../src/core/batch/troubles.ts';
import { eventsAt } from '../help/batch-explore.ts';
import { VARIANTS } from '../help/batch-kit.ts';
import { follow } from '../help/batch-model.ts';
import { createChance } from './fuzz.ts';
import { placesOf } from './key-path.ts';

export interface Pelted {
  readonly events: number;
  readonly taken: number;
  readonly reached: ReadonlyMap<StepId, number>;
}

const ALL = (Object.keys(ASKS) as AskId[]).flatMap(ask => choicesOf(ask).map(({ id }) => [ask, id] as const));

/** Sends so many events, each walk from some moment of a planned batch. Throws with the rule that was broken. */
export function pelt(events: number, seed: number): Pelted {
  const chance = createChance(seed);
  const places = Object.values(VARIANTS).flatMap(placesOf);
  const reached = new Map<StepId, number>(STEP_IDS.map(id => [id, 0]));
  let taken = 0;
  for (let sent = 0; sent < events; ) {
    let { run, model } = chance.pick(places);
    for (let walk = 0; walk < 80 && sent < events; walk += 1, sent += 1) {
      const { batch } = run;
      const fitting = eventsAt(batch);
      const [ms, bare] = chance.pick(fitting);
      const [ask, choice] = chance.pick(ALL);
      const odd =
        chance.next() < 0.5
          ? { type: 'answer', ask, choice, amount: chance.pick([0, 1, -1, 100, 1e9, Number.NaN]) }
          : { type: 'trouble', trouble: chance.pick(TROUBLES).id };
      const event = {
        ...(chance.next() < 0.85 ? bare : odd),
        t: batch.now + (chance.next() < 0.02 ? -1 : ms),
        wall: batch.wall + ms,
      } as BatchEvent;
      const outcome = step(run, event);
      if (!outcome.ok) continue;
      model = follow(model, event, batch, outcome.run.batch);
      run = outcome.run;
      taken += 1;
      reached.set(run.batch.step, (reached.get(run.batch.step) ?? 0) + 1);
    }
  }
  return { events, taken, reached };
}

export const sayPelted = ({ events, taken, reached }: Pelted): string =>
  `${events} events at the machine, ${taken} taken, no rule broken; ` +
  [...reached].map(([id, count]) => `${id} ${count}`).join(', ');
