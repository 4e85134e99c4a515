/** S1 and S2 over every state of the machine: no lid past its lock, no hold without a vent and a target gauge. */
import { expect } from 'vitest';
import type { BatchHeader } from '../../src/core/batch/state.ts';
import { explore } from './batch-explore.ts';
import { sampleHeader } from './batch-kit.ts';
import { isShut } from './batch-model.ts';

export const EXPLORED: readonly { readonly name: string; readonly header: BatchHeader }[] = [
  { name: 'one bag', header: sampleHeader({ loads: [1] }) },
  {
    name: 'two loads, sealed after, made up',
    header: sampleHeader({ soak: false, seal: 'after', loads: [1, 1], dips: 'make up' }),
  },
];

/**
 * Exhaustive for the machine with time in bands and with as many answers to take back as the depth says; the
 * model-based run has all twelve. Every edge is looked at by the onlooker, who throws when a lid comes off
 * past the lock or a hold begins without an unbroken vent and the target gauge. Prints how many states there are.
 */
export function proveLidAndHold(name: string, header: BatchHeader, undoDepth: number): void {
  let openings = 0;
  let holds = 0;
  let lids = 0;
  const { found, edges, refused } = explore(header, undoDepth, (before, event, after) => {
    if (isShut(before.step) && !isShut(after.step)) {
      if (event.type === 'undo') lids += 1;
      else openings += 1;
      if (event.type !== 'undo') {
        expect(event).toMatchObject({ type: 'answer', ask: 'shut', choice: 'lid-open' });
        expect(before.lock?.zeroAt).toBeGreaterThanOrEqual(before.lock?.heatOffAt ?? Infinity);
        expect(event.t).toBeGreaterThanOrEqual(before.lock?.pressureUntil ?? Infinity);
      }
    }
    if (after.step === 'hold' && before.step === 'climb') holds += 1;
  });
  console.log(
    `${name}, undo ${undoDepth} deep: ${found.length} states, ${edges} edges, ${refused} refusals, ` +
      `${openings} ways the lid comes off, ${holds} into the hold, ${lids} "lid on" taken back`,
  );
  expect(found.length).toBeGreaterThan(10_000);
  expect(openings).toBeGreaterThan(0);
  expect(holds).toBeGreaterThan(0);
  expect(lids).toBeGreaterThan(0);
}
