import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as running from '../../../src/core/science/centre-estimate.ts';
import type { Body } from '../../../src/core/science/conduction.ts';
import { EFFECTIVE_DIFFUSIVITY } from '../../../src/core/science/diffusivity.ts';
import { comeUp, outcomeBand } from '../../../src/core/science/hold.ts';
import { GRAIN_SPORE } from '../../../src/core/science/spores.ts';
import { number, reference, text } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

const PLUMP: Body = { shape: 'brick', halfLengthM: 0.09, halfWidthM: 0.055, halfThicknessM: 0.04 };

function afterHold(holdS: number): running.CentreEstimate {
  const estimate = running.createEstimate({ body: PLUMP, startC: 25 });
  running.advanceEstimate(estimate, 1500, 25, 100);
  running.advanceEstimate(estimate, 600, 100, 100);
  running.advanceEstimate(estimate, 480, 100, 121);
  if (holdS > 0) running.advanceEstimate(estimate, holdS, 121, 121);
  return estimate;
}

describe('running estimate of the centre', () => {
  it('after 90 min it says what hold_anchors.csv says for 2.0, 3.0 and 4.5e-7 (COMPUTED)', () => {
    const row = reference('hold_anchors').find(found => text(found, 'anchor') === '1.1 kg bag, plump');
    if (row === undefined) throw new Error('no such anchor');
    const { centreC, f0Min } = running.readEstimate(afterHold(5400));
    for (const [part, alpha] of [
      ['low', '2.0'],
      ['likely', '3.0'],
      ['high', '4.5'],
    ] as const) {
      near('hold_anchors.csv temperature', centreC[part], number(row, `Tc_end_of_hold_a${alpha}`), part);
      near('hold_anchors.csv F', f0Min[part], number(row, `F0_end_of_hold_a${alpha}`), part);
    }
  });

  it('agrees with the plan for the same chamber', () => {
    const cook = { body: PLUMP, comeUp: comeUp({ startC: 25, ventC: 100, holdC: 121 }), holdC: 121 };
    const planned = outcomeBand(cook, EFFECTIVE_DIFFUSIVITY, 5400, GRAIN_SPORE);
    const live = running.readEstimate(afterHold(5400));
    for (const part of ['low', 'likely', 'high'] as const) {
      expect(live.centreC[part]).toBeCloseTo(planned.centreC[part], 6);
      expect(live.f0Min[part]).toBeCloseTo(planned.f0Min[part], 2);
      expect(live.logs[part] / planned.logs[part]).toBeCloseTo(1, 3);
    }
  });

  it('gains with every minute held, however the time is cut, and looking ahead changes nothing (properties)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 60, max: 7200 }),
        fc.double({ min: 0.1, max: 0.9, noNaN: true }),
        (holdS, cut) => {
          const whole = afterHold(holdS);
          const inTwo = afterHold(0);
          running.advanceEstimate(inTwo, holdS * cut, 121, 121);
          const ahead = running.copyEstimate(inTwo);
          running.advanceEstimate(ahead, 3600, 121, 121);
          running.advanceEstimate(inTwo, holdS * (1 - cut), 121, 121);
          const now = running.readEstimate(whole);
          expect(running.readEstimate(inTwo).centreC.likely).toBeCloseTo(now.centreC.likely, 6);
          expect(running.readEstimate(inTwo).f0Min.likely).toBeCloseTo(now.f0Min.likely, 2);
          running.advanceEstimate(whole, 60, 121, 121);
          const later = running.readEstimate(whole);
          for (const part of ['low', 'likely', 'high'] as const) {
            expect(later.f0Min[part]).toBeGreaterThan(now.f0Min[part]);
            expect(later.logs[part]).toBeGreaterThan(now.logs[part]);
          }
          expect(later.f0Min.low).toBeLessThan(later.f0Min.high);
        },
      ),
      { numRuns: 15 },
    );
  });

  it('keeps its band in order when the chamber cools', () => {
    const estimate = afterHold(5400);
    for (let minute = 0; minute < 240; minute += 1) {
      const at = (minutes: number) => 22 + 99 * Math.exp(-minutes / 139);
      running.advanceEstimate(estimate, 60, at(minute), at(minute + 1));
      const { centreC } = running.readEstimate(estimate);
      expect(centreC.low).toBeLessThanOrEqual(centreC.likely);
      expect(centreC.likely).toBeLessThanOrEqual(centreC.high);
    }
  });

  it('refuses to run backwards', () => {
    const estimate = running.createEstimate({ body: PLUMP, startC: 25 });
    expect(() => running.advanceEstimate(estimate, -60, 25, 25)).toThrow(
      'Time step must be above 0 s, not -60.',
    );
    expect(() => running.advanceEstimate(estimate, 60, 25, Number.NaN)).toThrow(RangeError);
  });
});
