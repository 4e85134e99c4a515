import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { STEP_IDS, type StepId } from '../../../src/core/batch/steps.ts';
import { commands, start } from '../../help/batch-commands.ts';
import { VARIANTS } from '../../help/batch-kit.ts';

const RUNS = 10_000;
const SEED = 20260328;
/** A step that fewer sequences reach is not tested by them. */
const FLOOR = RUNS / 50;

describe('S1 S2 S3 S6 S7: whatever is pressed, in whatever order', () => {
  it(`holds in ${RUNS} sequences of up to 60 acts, and every step is reached by many`, () => {
    const reached = new Map<StepId, number>();
    let events = 0;
    fc.assert(
      fc.property(fc.constantFrom(...Object.values(VARIANTS)), commands(60), (header, acts) => {
        const { model, real } = start(header);
        fc.modelRun(() => ({ model, real }), acts);
        events += real.events.length;
        for (const step of real.reached) reached.set(step, (reached.get(step) ?? 0) + 1);
      }),
      { seed: SEED, numRuns: RUNS },
    );
    const counts = STEP_IDS.map(step => `${step} ${reached.get(step) ?? 0}`);
    console.log(`${RUNS} sequences, ${events} events; reached: ${counts.join(', ')}`);
    for (const step of STEP_IDS) expect(reached.get(step) ?? 0, step).toBeGreaterThan(FLOOR);
  });
});
