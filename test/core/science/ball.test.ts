import { describe, expect, it } from 'vitest';
import * as ball from '../../../src/core/science/ball.ts';
import type { Body } from '../../../src/core/science/conduction.ts';
import { isNoAnswer } from '../../../src/core/science/limits.ts';
import { type Case, finiteVolume } from '../../help/finite-volume.ts';
import { has, number, reference, text } from './reference.ts';
import { near, reportWorstErrors } from './tolerances.ts';

reportWorstErrors();

const BRICK: Body = { shape: 'brick', halfLengthM: 0.09, halfWidthM: 0.055, halfThicknessM: 0.04 };
const CAN: Body = { shape: 'finite cylinder', radiusM: 0.055, halfHeightM: 0.0825 };
const LARGE: Body = { shape: 'brick', halfLengthM: 0.1, halfWidthM: 0.065, halfThicknessM: 0.07 };

const value = <T>(answer: T | { readonly kind: 'no answer'; readonly reason: string }): T => {
  if (isNoAnswer(answer)) throw new Error(answer.reason);
  return answer;
};

describe('Ball', () => {
  it('f_h and j of the simple bodies (READ for a can, COMPUTED constants)', () => {
    const line = (body: Body) => ball.ballLine(body, 1);
    near('Ball constants (science notes e3)', line({ shape: 'slab', halfThicknessM: 1 }).fhS, 0.9332, 'slab');
    near('Ball constants (science notes e3)', line({ shape: 'slab', halfThicknessM: 1 }).j, 1.2732, 'slab j');
    near(
      'Ball constants (science notes e3)',
      line({ shape: 'cylinder', radiusM: 1 }).fhS,
      0.3982,
      'cylinder',
    );
    near('Ball constants (science notes e3)', line({ shape: 'cylinder', radiusM: 1 }).j, 1.602, 'cylinder j');
    near('Ball constants (science notes e3)', line({ shape: 'sphere', radiusM: 1 }).fhS, 0.2333, 'sphere');
    near('Ball constants (science notes e3)', line({ shape: 'sphere', radiusM: 1 }).j, 2, 'sphere j');
    const can = 0.39815 / (1 / 0.055 ** 2 + 0.42665 / 0.0825 ** 2);
    near('Ball constants (science notes e3)', line(CAN).fhS, can, 'finite cylinder');
    near('Ball constants (science notes e3)', line(CAN).j, 2.0397, 'finite cylinder j');
    near(
      'Ball constants (science notes e3)',
      line(BRICK).fhS,
      0.9332 / (1 / 0.0081 + 1 / 0.003025 + 1 / 0.0016),
      'brick',
    );
    near('Ball constants (science notes e3)', line(BRICK).j, 2.0641, 'brick j');
  });

  it('f_h at 3e-7 is about 48, 56 and 96 min for the bags of the science notes (COMPUTED, e8)', () => {
    const minutes = (body: Body) => ball.ballLine(body, 3e-7).fhS / 60;
    expect(Math.round(minutes(BRICK))).toBe(48);
    expect(Math.round(minutes(CAN))).toBe(56);
    expect(Math.round(minutes(LARGE))).toBe(96);
  });

  it('f_h between two readings agrees with autoclave_load_times.csv (READ readings, COMPUTED f_h)', () => {
    let seen = 0;
    for (const row of reference('autoclave_load_times')) {
      for (const [from, to] of [
        [12, 30],
        [30, 50],
      ] as const) {
        if (!has(row, `fh_${from}_${to}_min`)) continue;
        const point = (minutes: number) => ({
          seconds: minutes * 60,
          celsius: number(row, `T_${minutes}min_C`),
        });
        const fhS = value(ball.fhFromTwo(point(from), point(to), 122.5));
        near(
          'autoclave_load_times.csv f_h',
          fhS / 60,
          number(row, `fh_${from}_${to}_min`),
          text(row, 'configuration'),
        );
        seen += 1;
      }
    }
    expect(seen).toBe(8);
  });

  it('finds the diffusivity that an outside solver used, from its late readings and from all of them', () => {
    const chamber = [
      [0, 25],
      [1200, 121],
      [15000, 121],
    ] as const;
    const question: Case = {
      half: [0.055, 0.0825],
      round: true,
      diffusivityM2S: 2.6e-7,
      hOverK: Number.POSITIVE_INFINITY,
      startC: 25,
      chamber,
    };
    const times = Array.from({ length: 21 }, (_, i) => 1200 + i * 600);
    const probe = finiteVolume(question, times, 14).map((celsius, i) => ({
      seconds: times[i] ?? 0,
      celsius,
    }));
    const late = value(ball.fitBall(probe.slice(13), 121));
    near('recovered diffusivity', ball.diffusivityFromFh(CAN, late.fhS), 2.6e-7, 'f_h');
    const corners = chamber.map(([seconds, celsius]) => ({ seconds, celsius }));
    near(
      'recovered diffusivity',
      value(ball.fitDiffusivity(CAN, { probe, chamber: corners })),
      2.6e-7,
      'curve',
    );
  });

  it('process time of the formula method, by hand: f_h 50 min, j 2, 96 to 1 C is 114.16 min', () => {
    const process = ball.processS({ fhS: 3000, j: 2 }, 96, 1);
    expect(process / 60).toBeCloseTo(50 * Math.log10(192), 9);
    expect(process / 60).toBeCloseTo(114.165, 2);
    expect(ball.timeAtTemperatureS(process, 600)).toBeCloseTo(process - 252, 9);
  });

  it('says when readings carry no answer', () => {
    const at = (seconds: number, celsius: number) => ({ seconds, celsius });
    expect(ball.fhFromTwo(at(0, 110), at(60, 105), 121)).toMatchObject({ kind: 'no answer' });
    expect(ball.fitBall([at(0, 80), at(60, 90)], 121)).toMatchObject({ kind: 'no answer' });
    expect(ball.fitBall([at(0, 90), at(60, 85), at(120, 80)], 121)).toMatchObject({ kind: 'no answer' });
    const chamber = [at(0, 25), at(6000, 121)];
    const flat = [at(600, 25), at(3000, 25), at(5400, 25)];
    expect(ball.fitDiffusivity(CAN, { probe: flat, chamber })).toMatchObject({
      reason: 'No diffusivity of a bag of grain explains this curve; was the tip at the centre?',
    });
    expect(() => ball.diffusivityFromFh(CAN, 0)).toThrow(RangeError);
  });
});
