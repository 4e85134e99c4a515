import { expect, it } from 'vitest';
import { pelt, sayPelted } from './core-events.ts';

it('S1 S2 S3 S6 S7 S9: 1,000,000 events in any order break no rule and throw nothing', () => {
  const pelted = pelt(1_000_000, 1);
  console.log(sayPelted(pelted));
  for (const [step, count] of pelted.reached) expect(count, step).toBeGreaterThan(1000);
});
