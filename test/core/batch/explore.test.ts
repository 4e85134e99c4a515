import { describe, expect, it } from 'vitest';
import { explore } from '../../help/batch-explore.ts';
import { sampleHeader } from '../../help/batch-kit.ts';
import { isShut } from '../../help/batch-model.ts';

/**
 * Exhaustive for the machine with time in bands and with as many answers to take back as the depth says; the
 * model-based run has all twelve. Every edge is looked at by the onlooker, who throws when a lid comes off
 * past the lock or a hold begins without an unbroken vent and the target gauge.
 */
const EXPLORED = [
  { name: 'one bag', header: sampleHeader({ loads: [1] }), undoDepth: 2 },
  {
    name: 'two loads, sealed after, made up',
    header: sampleHeader({ soak: false, seal: 'after', loads: [1, 1], dips: 'make up' }),
    undoDepth: 1,
  },
];

describe('S1 and S2, proved over every state of the machine', () => {
  it.each(EXPLORED)('no way past lock or vent: $name', ({ name, header, undoDepth }) => {
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
  });
});
