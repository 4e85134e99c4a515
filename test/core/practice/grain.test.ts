import { describe, expect, it } from 'vitest';
import {
  burstShare,
  createGrain,
  cutThree,
  hydrate,
  meanCore,
  moistureOf,
} from '../../../src/core/practice/grain.ts';
import { fillPot, potKJ, potWaterKg, simmering, stepPot, takeUp } from '../../../src/core/practice/pot.ts';
import { lie, meanG, spread, stir, towelWetness } from '../../../src/core/practice/surface.ts';
import { sampleRecipe } from '../../help/batch-kit.ts';
import { number, reference, text } from '../science/reference.ts';

const NONE = new Set<never>();
const usual = (soak = true) => {
  const grain = createGrain(sampleRecipe({ soak }), 3.5, 1, NONE);
  grain.rate.fill(1);
  return grain;
};
const soak = (hours: number, grain = usual()) => {
  for (let t = 0; t < hours * 360; t += 1) hydrate(grain, 20, 0, 10);
  return grain;
};
/** Minutes of simmer until no kernel of three shows white. */
function doneAfter(grain: ReturnType<typeof usual>): number {
  for (let minute = 1; ; minute += 1) {
    for (let second = 0; second < 60; second += 1) hydrate(grain, 97, 1, 1);
    if (meanCore(grain) < 0.02) return minute;
  }
}

describe('grain in water', () => {
  // hydration_peleg.csv, sorghum at 20 C (COMPUTED from READ ends): per cent dry basis gained.
  it('soaks along the published curve, within 0.3 points', () => {
    const row = reference('hydration_peleg').find(
      one => text(one, 'grain') === 'sorghum' && number(one, 'T_C') === 20,
    );
    if (!row) throw new Error('no row for 20 C');
    for (const hours of [2, 12, 24]) {
      const gain = number(row, `gain_at_${hours}h_pct_db`) / 100;
      const wanted = (0.12 / 0.88 + gain) / (1 + 0.12 / 0.88 + gain);
      expect(Math.abs(moistureOf(soak(hours)) - wanted) * 100, `${hours} h`).toBeLessThan(0.3);
    }
  });

  // Science notes l, MEMORY: soaked rye and wheat 10 to 20 min, about twice without a soak (common practice).
  it('simmers through in the times of common practice', () => {
    expect(doneAfter(soak(12))).toBeGreaterThanOrEqual(10);
    expect(doneAfter(soak(12))).toBeLessThanOrEqual(20);
    expect(doneAfter(usual(false))).toBeGreaterThanOrEqual(18);
    expect(doneAfter(usual(false))).toBeLessThanOrEqual(40);
  });

  it('never loses moisture in water, and bursts only when it is over', () => {
    const grain = soak(12);
    let before = moistureOf(grain);
    for (let minute = 0; minute < 40; minute += 1) {
      hydrate(grain, 97, 1, 60);
      expect(moistureOf(grain)).toBeGreaterThan(before);
      before = moistureOf(grain);
      if (before < 0.47) expect(burstShare(grain)).toBe(0);
    }
    expect(burstShare(grain)).toBeGreaterThan(0.5);
  });

  it('cuts kernels that stand for the lot: the same look shows the same, whiter when drier', () => {
    const dry = soak(2);
    const wet = soak(12);
    for (let second = 0; second < 600; second += 1) hydrate(wet, 97, 1, 1);
    expect(cutThree(dry, 5, 0)).toBe(cutThree(dry, 5, 0));
    expect(cutThree(dry, 5, 0)).toBeGreaterThan(cutThree(wet, 5, 0));
  });
});

describe('the pot', () => {
  it('keeps water and heat at every second', () => {
    const grain = usual(false);
    const pot = fillPot({ boilC: 97.9, roomC: 21, dryKg: 3.08, innerKg: 0.42, waterKg: 8.75, starchy: true });
    const water = potWaterKg(pot);
    const heat = potKJ(pot);
    let worstKg = 0;
    let worstKJ = 0;
    for (let second = 0; second < 5400; second += 1) {
      stepPot(pot, 1000);
      takeUp(pot, hydrate(grain, pot.celsius, simmering(pot), 1));
      worstKg = Math.max(worstKg, Math.abs(potWaterKg(pot) - water));
      const { ledger } = pot;
      const held = potKJ(pot) - (heat + ledger.heat - ledger.loss - ledger.carried);
      worstKJ = Math.max(worstKJ, Math.abs(held));
    }
    expect(pot.boiledOver).toBeGreaterThan(0);
    expect(worstKg).toBeLessThan(1e-10);
    expect(worstKJ).toBeLessThan(1e-6);
  });

  it('keeps water and heat when it boils dry, and is hotter than boiling then', () => {
    const pot = fillPot({ boilC: 97.9, roomC: 21, dryKg: 1, innerKg: 0.5, waterKg: 0.6, starchy: false });
    const water = potWaterKg(pot);
    const heat = potKJ(pot);
    for (let second = 0; second < 5400; second += 1) {
      stepPot(pot, 1000);
      const { ledger } = pot;
      expect(pot.celsius > 97.9 + 1e-6).toBe(pot.waterKg === 0);
      expect(Math.abs(potWaterKg(pot) - water)).toBeLessThan(1e-10);
      expect(Math.abs(potKJ(pot) - (heat + ledger.heat - ledger.loss - ledger.carried))).toBeLessThan(1e-6);
    }
    expect(pot.waterKg).toBe(0);
    expect(pot.celsius).toBeGreaterThan(110);
  });

  it('foams over on a full flame only', () => {
    const filled = () =>
      fillPot({ boilC: 97.9, roomC: 21, dryKg: 1, innerKg: 0.5, waterKg: 2.5, starchy: true });
    const hard = filled();
    const gentle = filled();
    for (let second = 0; second < 7200; second += 1) {
      stepPot(hard, 1000);
      stepPot(gentle, 350);
    }
    expect(hard.boiledOver).toBeGreaterThan(0);
    expect(gentle.boiledOver).toBe(0);
    expect(gentle.celsius).toBeGreaterThan(90);
  });
});

describe('drying on towels', () => {
  const dryFor = (minutes: number, stirEvery: number) => {
    const surface = spread(5.9, 7200, 3, false);
    for (let t = 1; t <= minutes * 6; t += 1) {
      lie(surface, 10);
      if (t % (stirEvery * 6) === 0) stir(surface);
    }
    return surface;
  };
  it('is dry enough about when the recipe says, stirred as told', () => {
    expect(meanG(dryFor(60, 25))).toBeGreaterThan(15);
    expect(meanG(dryFor(120, 25))).toBeLessThan(10);
  });
  it('deceives a towel laid on a heap that was never stirred', () => {
    const left = dryFor(75, 1000);
    expect(towelWetness(left)).toBeLessThan(0.3);
    expect(meanG(left)).toBeGreaterThan(20);
  });
  it('shows a wetter towel for a wetter surface, all the way', () => {
    const surface = spread(5.9, 7200, 3, false);
    let before = -1;
    for (let g = 0; g < 60; g += 0.5) {
      surface.upperG = g;
      expect(towelWetness(surface)).toBeGreaterThanOrEqual(before);
      before = towelWetness(surface);
    }
    expect(before).toBe(1);
  });
  it('gives off the water that it loses', () => {
    const surface = spread(5.9, 7200, 3, false);
    const start = meanG(surface);
    for (let t = 0; t < 600; t += 1) lie(surface, 10);
    const lost = ((start - meanG(surface)) * 5.9) / 1000;
    expect(surface.offKg - surface.insideKg).toBeCloseTo(lost, 10);
  });
});
