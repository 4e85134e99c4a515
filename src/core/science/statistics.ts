/**
 * What a handful of batches can tell: intervals for a proportion, and loss against bag size. Counts are whole
 * numbers, 0 <= x <= n. Wilson answers "between what and what, two-sided"; the exact bound answers "at most
 * how much, one-sided": for 0 of 8 they differ (0.324, 0.312) because the questions do.
 */
import { type NoAnswer, noAnswer, notNegative, positive, within } from './limits.ts';
import { bisect } from './solve.ts';

/** Normal quantile of a two-sided 95 % interval. */
export const Z95 = 1.959963984540054;

export interface Interval {
  readonly low: number;
  readonly high: number;
}

function counts(x: number, n: number): void {
  if (!Number.isInteger(n) || n < 1)
    throw new RangeError(`The number of trials must be whole and at least 1, not ${n}.`);
  if (!Number.isInteger(x) || x < 0 || x > n)
    throw new RangeError(`The count must be whole and from 0 to ${n}, not ${x}.`);
}

/** Wilson score interval for x of n, 95 % unless another normal quantile is given. */
export function wilson(x: number, n: number, z: number = Z95): Interval {
  counts(x, n);
  positive('Normal quantile', z, '');
  const p = x / n;
  const square = z * z;
  const centre = (p + square / (2 * n)) / (1 + square / n);
  const half = (z * Math.sqrt((p * (1 - p)) / n + square / (4 * n * n))) / (1 + square / n);
  // At x = 0 and x = n the end is exactly 0 or 1; only rounding would say otherwise.
  return { low: x === 0 ? 0 : centre - half, high: x === n ? 1 : centre + half };
}

/** Rule of three: upper 95 % bound 3/n after none in n. Good above 30; no answer below 4, where it passes 1. */
export function ruleOfThree(n: number): number | NoAnswer {
  counts(0, n);
  return n > 3 ? 3 / n : noAnswer('The rule of three needs more than three trials.');
}

/** Exact (Clopper-Pearson) one-sided upper bound for x of n; 1 - 0.05^(1/n) when x is 0. */
export function exactUpper(x: number, n: number, confidence = 0.95): number {
  counts(x, n);
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`Confidence must lie between 0 and 1, not ${confidence}.`);
  if (x === n) return 1;
  if (x === 0) return -Math.expm1(Math.log1p(-confidence) / n);
  return bisect(p => atMost(x, n, p) - (1 - confidence), { low: 0, high: 1 });
}

/** Chance of at most x of n with probability p each (binomial). */
function atMost(x: number, n: number, p: number): number {
  if (p <= 0) return 1;
  if (p >= 1) return x >= n ? 1 : 0;
  const odds = Math.log(p) - Math.log1p(-p);
  let term = n * Math.log1p(-p);
  let sum = Math.exp(term);
  for (let k = 1; k <= x; k += 1) {
    term += Math.log((n - k + 1) / k) + odds;
    sum += Math.exp(term);
  }
  return sum;
}

/** Chance that at least one of n bags is lost when each is lost with probability p. */
export function atLeastOne(p: number, n: number): number {
  within('Probability', p, 0, 1, '');
  return -Math.expm1(notNegative('Number of bags', n, '') * Math.log1p(-p));
}

/** Risk of a bag of m kg: p = 1 - (1 - p0) (1 - pk)^m, p0 from handling, pk from each kg. */
export function bagRisk(perBag: number, perKg: number, bagKg: number): number {
  within('Risk of each bag', perBag, 0, 1, '');
  within('Risk of each kg', perKg, 0, 1, '');
  return 1 - (1 - perBag) * (1 - perKg) ** notNegative('Bag', bagKg, 'kg');
}

export interface LossQuestion {
  readonly bags: number;
  readonly bagKg: number;
  readonly perBag: number;
  readonly perKg: number;
}

export interface Loss {
  /** Risk of one bag. */
  readonly each: number;
  /** Risk that any is lost. */
  readonly any: number;
  readonly expectedKg: number;
  readonly deviationKg: number;
}

/** Loss of a batch divided into bags: many small ones lose something more often but lose less grain. */
export function batchLoss({ bags, bagKg, perBag, perKg }: LossQuestion): Loss {
  counts(0, bags);
  const each = bagRisk(perBag, perKg, bagKg);
  return {
    each,
    any: atLeastOne(each, bags),
    expectedKg: bags * bagKg * each,
    deviationKg: bagKg * Math.sqrt(bags * each * (1 - each)),
  };
}
