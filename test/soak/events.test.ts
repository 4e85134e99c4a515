import { expect, it } from 'vitest';
import { pelt, sayPelted } from '../faults/core-events.ts';

const EVENTS = 20_000_000;

it(`S1 to S9: ${EVENTS} events in any order at the machine`, () => {
  const pelted = pelt(EVENTS, Number(process.env.STOVEHAND_SOAK_SEED ?? 2));
  console.log(sayPelted(pelted));
  for (const [step, count] of pelted.reached) expect(count, step).toBeGreaterThan(10_000);
});
