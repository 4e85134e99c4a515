/**
 * The estimate against an independent finite-volume solver, for ten evenings at the stove. The solver shares
 * neither method nor code with the series (`test/help/finite-volume.ts`); lethality is summed here by the
 * trapezoid rule on 30 s steps. Temperatures of readings come from `saturation.csv` (COMPUTED with
 * python3-iapws, science notes section a), interpolated in the logarithm of the pressure.
 */
import { describe, expect, it } from 'vitest';
import type { Batch } from '../../../src/core/batch/state.ts';
import { bandAt } from '../../../src/core/estimate/corners.ts';
import { type Estimate, estimateAt } from '../../../src/core/estimate/estimate.ts';
import { MINUTE, SECOND } from '../../../src/core/time.ts';
import { finiteVolume } from '../../help/finite-volume.ts';
import { boilsAtC } from './saturation.ts';
import { type Stove, stove } from './stove-kit.ts';

interface Evening {
  readonly name: string;
  readonly play: (stove: Stove) => void;
  /** Minutes after the flame was lit and the likely chamber then, C, worked out by hand. */
  readonly chamber: readonly (readonly [number, number])[];
  /** Also the cautious and the fast side. */
  readonly sides?: true;
}

const BOIL = 97.9;
const AT = boilsAtC(103 + 93.9);
const T80 = boilsAtC(80 + 93.9);
const T60 = boilsAtC(60 + 93.9);
const T110 = boilsAtC(110 + 93.9);
/** Lit at 0, steady steam at 25, valve closed at 35 min. */
const UP: readonly (readonly [number, number])[] = [
  [0, 21],
  [12.5, (21 + BOIL) / 2],
  [25, BOIL],
  [35, BOIL],
];
const ON = 43;

const EVENINGS: readonly Evening[] = [
  {
    name: 'as planned, read now and then',
    play: s => {
      s.toHold();
      for (const _ of [1, 2, 3]) s.wait(15 * MINUTE).answer('at');
    },
    chamber: [...UP, [39, (BOIL + AT) / 2], [ON, AT], [88, AT]],
    sides: true,
  },
  {
    name: 'numbers in climb and hold',
    play: s => {
      s.toClimb()
        .wait(4 * MINUTE)
        .answer('reading', 60)
        .wait(4 * MINUTE)
        .answer('reading', 103);
      s.wait(20 * MINUTE)
        .answer('reading', 110)
        .wait(20 * MINUTE);
    },
    chamber: [
      ...UP,
      [37, (BOIL + T60) / 2],
      [39, T60],
      [ON, AT],
      [53, (AT + T110) / 2],
      [63, T110],
      [83, T110],
    ],
  },
  {
    name: 'a dip, made up',
    play: s => {
      s.toHold()
        .wait(10 * MINUTE)
        .answer('at')
        .wait(5 * MINUTE)
        .answer('reading', 80);
      s.wait(6 * MINUTE)
        .answer('at')
        .wait(40 * MINUTE);
    },
    chamber: [...UP, [ON, AT], [53, AT], [58, T80], [61, (T80 + AT) / 2], [64, AT], [104, AT]],
    sides: true,
  },
  {
    name: 'three dips',
    play: s => {
      s.toHold();
      for (const _ of [1, 2, 3])
        s.wait(10 * MINUTE)
          .answer('reading', 80)
          .wait(5 * MINUTE)
          .answer('at');
      s.wait(30 * MINUTE);
    },
    chamber: [...UP, [ON, AT], [53, T80], [58, AT], [68, T80], [73, AT], [83, T80], [88, AT], [118, AT]],
  },
  {
    name: 'a dip early, while the centre is cold',
    play: s => {
      s.toHold()
        .wait(MINUTE)
        .answer('reading', 60)
        .wait(12 * MINUTE)
        .answer('reading', 103)
        .wait(60 * MINUTE);
    },
    chamber: [...UP, [ON, AT], [44, T60], [56, AT], [116, AT]],
  },
  {
    name: 'the valve opened by mistake: steam and vent again',
    play: s => {
      s.toHold()
        .wait(20 * MINUTE)
        .trouble('valve-opened')
        .wait(10 * MINUTE);
      s.to('climb')
        .wait(8 * MINUTE)
        .answer('at')
        .wait(30 * MINUTE);
    },
    chamber: [...UP, [ON, AT], [62.9, AT], [63.1, BOIL], [73, BOIL], [83, BOIL], [91, AT], [121, AT]],
  },
  {
    name: 'away and told that it stayed',
    play: s => {
      s.toHold()
        .wait(10 * MINUTE)
        .gap(25 * MINUTE)
        .answer('stayed')
        .wait(20 * MINUTE);
    },
    chamber: [...UP, [ON, AT], [53, AT], [78, AT], [98, AT]],
    sides: true,
  },
  {
    name: 'away and told that it fell and is back',
    play: s => {
      s.toHold()
        .wait(20 * MINUTE)
        .answer('at')
        .gap(20 * MINUTE)
        .answer('fell-back-now')
        .wait(30 * MINUTE);
    },
    chamber: [...UP, [ON, AT], [63, AT], [83, AT], [113, AT]],
    sides: true,
  },
  {
    name: 'away, nobody knows, then a dip',
    play: s => {
      s.toHold()
        .wait(15 * MINUTE)
        .answer('at')
        .gap(15 * MINUTE)
        .answer('unknown');
      s.wait(2 * MINUTE)
        .answer('reading', 80)
        .wait(4 * MINUTE)
        .answer('at')
        .wait(40 * MINUTE);
    },
    chamber: [...UP, [ON, AT], [58, AT], [75, T80], [79, AT], [119, AT]],
    sides: true,
  },
  {
    name: 'a restart in the climb and a flame that was left on',
    play: s => {
      s.toClimb()
        .wait(3 * MINUTE)
        .gap(2 * MINUTE, 'restart')
        .wait(3 * MINUTE)
        .answer('at');
      s.wait(89 * MINUTE)
        .answer('at')
        .wait(11 * MINUTE);
    },
    chamber: [...UP, [ON, AT], [132, AT], [143, AT]],
  },
];

const DIFFUSIVITY = { low: 2e-7, likely: 3e-7, high: 4.5e-7 };
const SIDES = ['low', 'likely', 'high'] as const;
const lethalRate = (celsius: number): number => 10 ** ((celsius - 121.1) / 10);

/** Centre and F0 by the solver, in the chamber that the estimate assumed on this side. */
function solved(batch: Batch, estimate: Estimate, side: (typeof SIDES)[number]) {
  const { from, to, corners, startC } = estimate.chamber;
  const seconds = (t: number) => (t - from) / SECOND;
  const times: number[] = [];
  for (let at = 30; at < seconds(to); at += 30) times.push(at);
  times.push(seconds(to));
  const { size } = batch.header.recipe.containers;
  if (size.shape !== 'brick') throw new Error('these evenings have bags');
  const centre = finiteVolume(
    {
      half: [size.lengthM / 2, size.widthM / 2, size.thicknessM / 2],
      round: false,
      diffusivityM2S: DIFFUSIVITY[side],
      hOverK: Number.POSITIVE_INFINITY,
      startC,
      chamber: corners.map(({ t, c }) => [seconds(t), c[side]] as const),
    },
    times,
    6,
  );
  let f0Min = 0;
  centre.forEach((celsius, index) => {
    const before = centre[index - 1] ?? startC;
    const span = (times[index] ?? 0) - (times[index - 1] ?? 0);
    f0Min += (span / 60) * 0.5 * (lethalRate(before) + lethalRate(celsius));
  });
  return { centreC: centre.at(-1) ?? Number.NaN, f0Min };
}

describe.each(EVENINGS)('$name', ({ play, chamber, sides }) => {
  const here = stove({ dips: 'make up' });
  play(here);
  const estimate = estimateAt(here.batch);

  it('has the chamber that a pencil gives', () => {
    if (!estimate) throw new Error('no estimate');
    const outside = here.batch.unseen.filter(({ told }) => told !== 'stayed');
    for (const [minute, celsius] of chamber) {
      const t = estimate.chamber.from + minute * MINUTE;
      // Inside a time nobody watched the likely value is a convention, not a reading.
      if (outside.some(gap => t > gap.from && t < gap.to + MINUTE)) continue;
      expect(bandAt(estimate.chamber.corners, t).likely, `${minute} min`).toBeCloseTo(celsius, 1);
    }
  });

  it('has the centre and the lethality of the solver', () => {
    if (!estimate) throw new Error('no estimate');
    expect(estimate.at).toBe(here.batch.now);
    for (const side of sides ? SIDES : (['likely'] as const)) {
      const { centreC, f0Min } = solved(here.batch, estimate, side);
      expect(Math.abs(estimate.centreC[side] - centreC), side).toBeLessThan(0.1);
      expect(Math.abs(estimate.f0Min[side] - f0Min), side).toBeLessThan(0.02 + 0.01 * f0Min);
    }
  });
});
