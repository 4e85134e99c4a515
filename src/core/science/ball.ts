/**
 * Ball's heat-penetration parameters: f_h, the minutes (here seconds) for one log cycle of the difference
 * between chamber and centre, and j, where that line starts; from a body, from a probe curve, and back to a
 * diffusivity. Formula method B = f_h log10(j I / g) with 0.42 of the come-up counted (Ball; the credit as
 * quoted in teaching material). The line holds once the centre moves: from Fo about 0.2 on.
 */
import { type Body, factors, seriesTerms } from './conduction.ts';
import { type ChamberPoint, centreC, runThrough, stateOf } from './heat-penetration.ts';
import { modesOf } from './heat-modes.ts';
import { finite, type NoAnswer, noAnswer, notNegative, positive, temperature, within } from './limits.ts';

export const COME_UP_CREDIT = 0.42;

export interface BallLine {
  readonly fhS: number;
  readonly j: number;
}

interface Slowest {
  /** Decay over diffusivity, 1/m2. */
  readonly kappa: number;
  readonly j: number;
}

function slowest(body: Body, hOverK: number): Slowest {
  let kappa = 0;
  let j = 1;
  for (const { side, lengthM } of factors(body)) {
    const { z, c } = seriesTerms(side, hOverK * lengthM, 1);
    kappa += ((z[0] as number) / lengthM) ** 2;
    j *= c[0] as number;
  }
  return { kappa, j };
}

/** f_h and j of a body: ln 10 / lambda_1 and the product of the first coefficients. */
export function ballLine(
  body: Body,
  diffusivityM2S: number,
  hOverK: number = Number.POSITIVE_INFINITY,
): BallLine {
  const { kappa, j } = slowest(body, hOverK);
  return { fhS: Math.LN10 / (kappa * positive('Diffusivity', diffusivityM2S, 'm2/s')), j };
}

/** Diffusivity in m2/s of a body whose f_h was measured, s. */
export function diffusivityFromFh(
  body: Body,
  fhS: number,
  hOverK: number = Number.POSITIVE_INFINITY,
): number {
  return Math.LN10 / (slowest(body, hOverK).kappa * positive('f_h', fhS, 's'));
}

/** f_h in s from two centre readings in a steady chamber; no answer unless the second is closer to it. */
export function fhFromTwo(first: ChamberPoint, second: ChamberPoint, chamberC: number): number | NoAnswer {
  const gap = (point: ChamberPoint) => chamberC - finite('Probe reading', point.celsius, 'C');
  const seconds = positive('Time between the readings', second.seconds - first.seconds, 's');
  if (!(gap(second) > 0 && gap(first) > gap(second))) {
    return noAnswer('The second reading must be nearer to the chamber than the first, and still below it.');
  }
  return seconds / Math.log10(gap(first) / gap(second));
}

/** Process time in s: B = f_h log10(j I / g), from a corrected zero. */
export function processS({ fhS, j }: BallLine, initialGapC: number, finalGapC: number): number {
  positive('Initial difference', initialGapC, 'K');
  positive('Final difference', finalGapC, 'K');
  return positive('f_h', fhS, 's') * Math.log10((positive('j', j, '') * initialGapC) / finalGapC);
}

/** Time in s the chamber must stand at temperature for a process: t_p = B - 0.42 t_c. */
export function timeAtTemperatureS(process: number, comeUpS: number): number {
  return notNegative('Process time', process, 's') - COME_UP_CREDIT * notNegative('Come-up', comeUpS, 's');
}

export interface ProbeCurve {
  /** Centre readings in order of time, at least three. */
  readonly probe: readonly ChamberPoint[];
  /** Chamber's corners over the same clock, from the start. */
  readonly chamber: readonly ChamberPoint[];
}

/**
 * f_h and j by least squares of log10(chamber - centre) over the readings after the come-up, in a steady
 * chamber. j counts from time 0 of the readings and from the first reading's temperature.
 */
export function fitBall(probe: readonly ChamberPoint[], chamberC: number): BallLine | NoAnswer {
  temperature('Chamber temperature', chamberC);
  for (const { seconds } of probe) within('Time of a probe reading', seconds, -LONGEST_S, LONGEST_S, 's');
  const used = probe.filter(({ celsius }) => chamberC - temperature('Probe reading', celsius) > 0);
  const [first] = used;
  if (first === undefined || used.length < 3)
    return noAnswer('At least three readings below the chamber are needed.');
  const n = used.length;
  const logs = used.map(({ celsius }) => Math.log10(chamberC - celsius));
  const meanT = used.reduce((sum, { seconds }) => sum + seconds, 0) / n;
  const meanLog = logs.reduce((sum, log) => sum + log, 0) / n;
  let covariance = 0;
  let variance = 0;
  used.forEach(({ seconds }, i) => {
    covariance += (seconds - meanT) * ((logs[i] as number) - meanLog);
    variance += (seconds - meanT) ** 2;
  });
  if (!(covariance < 0)) return noAnswer('The centre does not come nearer to the chamber: nothing to fit.');
  const slope = covariance / variance;
  return { fhS: -1 / slope, j: 10 ** (meanLog - slope * meanT) / (chamberC - first.celsius) };
}

/** A month, s: no curve is longer. */
const LONGEST_S = 30 * 86_400;
/** Diffusivities a fit is looked for in, m2/s. */
const LEAST = 5e-8;
const MOST = 2e-6;
const STEP_S = 30;

/**
 * Diffusivity in m2/s that brings the model nearest to a probe curve, with the chamber as it was (ramps and
 * all). No answer when the best value is an end of 5e-8 to 2e-6: then the probe was not at the centre.
 */
export function fitDiffusivity(
  body: Body,
  { probe, chamber }: ProbeCurve,
  hOverK = Number.POSITIVE_INFINITY,
): number | NoAnswer {
  const [start] = chamber;
  if (start === undefined || probe.length < 3) return noAnswer('At least three probe readings are needed.');
  const corners = withTimes(chamber, probe);
  const modes = modesOf(body, hOverK);
  const misfit = (log: number): number => {
    const state = stateOf(modes, Math.exp(log), start.celsius);
    const wanted = new Map(probe.map(({ seconds, celsius }) => [seconds, celsius]));
    let sum = 0;
    runThrough(state, corners, STEP_S, (seconds, _chamber, _centre) => {
      const celsius = wanted.get(seconds);
      if (celsius !== undefined) sum += (celsius - centreC(state)) ** 2;
    });
    return sum;
  };
  const best = goldenSection(misfit, Math.log(LEAST), Math.log(MOST));
  if (best - Math.log(LEAST) < 0.01 || Math.log(MOST) - best < 0.01) {
    return noAnswer('No diffusivity of a bag of grain explains this curve; was the tip at the centre?');
  }
  return Math.exp(best);
}

/** The chamber's corners with one more at each probe time, so that the model is seen exactly then. */
function withTimes(
  chamber: readonly ChamberPoint[],
  probe: readonly ChamberPoint[],
): readonly ChamberPoint[] {
  const corners: ChamberPoint[] = [];
  chamber.forEach((end, i) => {
    const start = chamber[i - 1];
    if (start !== undefined) {
      for (const { seconds } of probe) {
        if (seconds <= start.seconds || seconds >= end.seconds) continue;
        const share = (seconds - start.seconds) / (end.seconds - start.seconds);
        corners.push({ seconds, celsius: start.celsius + share * (end.celsius - start.celsius) });
      }
    }
    corners.push(end);
  });
  return corners;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

function goldenSection(f: (x: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  let left = high - GOLDEN * (high - low);
  let right = low + GOLDEN * (high - low);
  let atLeft = f(left);
  let atRight = f(right);
  while (high - low > 1e-6) {
    if (atLeft < atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - GOLDEN * (high - low);
      atLeft = f(left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + GOLDEN * (high - low);
      atRight = f(right);
    }
  }
  return 0.5 * (low + high);
}
