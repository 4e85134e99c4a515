import { describe, expect, it } from 'vitest';
import { openAsk } from '../../../src/core/batch/lockout.ts';
import { replay } from '../../../src/core/batch/replay.ts';
import type { BatchEvent } from '../../../src/core/batch/events.ts';
import type { BatchHeader } from '../../../src/core/batch/state.ts';
import { ASKS, STEP_IDS } from '../../../src/core/batch/steps.ts';
import { explore, wayTo } from '../../help/batch-explore.ts';
import { VARIANTS, sampleHeader } from '../../help/batch-kit.ts';

interface Way {
  readonly header: BatchHeader;
  readonly events: readonly BatchEvent[];
}

/** A shortest way to every pair of step and open question, over all kinds of batch. */
function shortestWays(): ReadonlyMap<string, Way> {
  const ways = new Map<string, Way>();
  for (const header of Object.values(VARIANTS)) {
    const explored = explore(header, 0);
    for (const [index, { run }] of explored.found.entries()) {
      const place = `${run.batch.step} ${openAsk(run.batch)}`;
      if (!ways.has(place)) ways.set(place, { header, events: wayTo(explored, index) });
    }
  }
  return ways;
}

describe('generated shortest ways', () => {
  const ways = shortestWays();

  it('reach every step and every question: nothing in the tables is dead', () => {
    const reached = (part: 0 | 1) => new Set([...ways.keys()].map(place => place.split(' ')[part]));
    expect(STEP_IDS.filter(step => !reached(0).has(step))).toEqual([]);
    expect(Object.keys(ASKS).filter(ask => !reached(1).has(ask))).toEqual([]);
  });

  it.each([...ways])('lead to %s', (place, { header, events }) => {
    const { run, misfits } = replay(header, events);
    expect(misfits).toEqual([]);
    expect(`${run.batch.step} ${openAsk(run.batch)}`).toBe(place);
  });

  it('ask about a doubtful clock in every step but the last', () => {
    const asked = STEP_IDS.filter(step => ways.has(`${step} clock-claim`));
    expect(asked).toEqual(STEP_IDS.filter(step => step !== 'done'));
  });

  it('ask about the gauge only in the hold, and about the steam only in the vent', () => {
    const places = [...ways.keys()];
    expect(places.filter(place => place.endsWith('away-gauge'))).toEqual(['hold away-gauge']);
    expect(places.filter(place => place.endsWith('away-steam'))).toEqual(['vent away-steam']);
  });

  it('never lead a batch without soak into the soak', () => {
    const { found } = explore(sampleHeader({ soak: false, loads: [1] }), 0);
    expect(found.some(({ run }) => run.batch.step === 'soak')).toBe(false);
  });
});
