/**
 * How the models say that they do not apply: a value outside the range of validity is an error with a
 * sentence, a question that has no solution is an answer of its own kind. No model returns NaN or clamps.
 */

/** A question that has no answer, and the reason in one sentence. */
export interface NoAnswer {
  readonly kind: 'no answer';
  readonly reason: string;
}

/** An estimate with its uncertainty; low <= likely <= high. */
export interface Band {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export function noAnswer(reason: string): NoAnswer {
  return { kind: 'no answer', reason };
}

export function isNoAnswer<T>(answer: T | NoAnswer): answer is NoAnswer {
  return typeof answer === 'object' && answer !== null && 'kind' in answer && answer.kind === 'no answer';
}

export function outside(name: string, value: number, low: number, high: number, unit: string): RangeError {
  const range = high === Number.POSITIVE_INFINITY ? `at least ${low}` : `between ${low} and ${high}`;
  return new RangeError(`${name} must be ${range}${unit === '' ? '' : ` ${unit}`}, not ${value}.`);
}

/** The value itself when low <= value <= high; otherwise a RangeError naming the quantity and the range. */
export function within(name: string, value: number, low: number, high: number, unit: string): number {
  if (value >= low && value <= high) return value;
  throw outside(name, value, low, high, unit);
}

/** The value itself when it is a finite number above zero. */
export function positive(name: string, value: number, unit: string): number {
  if (value > 0 && value < Number.POSITIVE_INFINITY) return value;
  throw new RangeError(`${name} must be above 0${unit === '' ? '' : ` ${unit}`}, not ${value}.`);
}

/** The value itself when it is a finite number, zero or above. */
export function notNegative(name: string, value: number, unit: string): number {
  if (value >= 0 && value < Number.POSITIVE_INFINITY) return value;
  throw new RangeError(`${name} must be 0 or more${unit === '' ? '' : ` ${unit}`}, not ${value}.`);
}

/** Temperatures that a kitchen, a vessel or a textbook example can have, C: what lies outside is a mistake. */
export const COLDEST_C = -60;
export const HOTTEST_C = 300;

/** The value itself when it is a temperature from -60 to 300 C. */
export function temperature(name: string, celsius: number): number {
  if (celsius >= COLDEST_C && celsius <= HOTTEST_C) return celsius;
  throw outside(name, celsius, COLDEST_C, HOTTEST_C, 'C');
}

/** The value itself when it is a finite number. */
export function finite(name: string, value: number, unit: string): number {
  if (Number.isFinite(value)) return value;
  throw new RangeError(`${name} must be a number${unit === '' ? '' : ` of ${unit}`}, not ${value}.`);
}
