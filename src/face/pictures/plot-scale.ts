/** Ranges and round tick marks of the plot's axes. */

export interface Range {
  readonly from: number;
  readonly to: number;
}

/** The range of the numbers among the values, widened when it has no height; null without numbers. */
export function rangeOf(values: Iterable<number | undefined>): Range | null {
  let [from, to] = [Infinity, -Infinity];
  for (const value of values) {
    if (value === undefined || !Number.isFinite(value)) continue;
    if (value < from) from = value;
    if (value > to) to = value;
  }
  if (from > to) return null;
  return from === to ? { from: from - 1, to: to + 1 } : { from, to };
}

/** The least of 1, 2, 5 times a power of ten that makes at most `most` steps in the range. */
export function roundStep({ from, to }: Range, most: number): number {
  const rough = (to - from) / Math.max(1, most);
  const power = 10 ** Math.floor(Math.log10(rough));
  return ([1, 2, 5, 10].find(times => times * power >= rough * (1 - 1e-9)) ?? 10) * power;
}

const MINUTE = 60_000;
/** Steps people read clocks by, in milliseconds. */
const TIME_STEPS = [1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440, 2880, 10_080].map(min => min * MINUTE);

/** The least clock step that makes at most `most` steps in a range of milliseconds. */
export function timeStep({ from, to }: Range, most: number): number {
  const rough = (to - from) / Math.max(1, most);
  return TIME_STEPS.find(step => step >= rough) ?? roundStep({ from, to }, most);
}

/** Multiples of the step, moved by `offset`, inside the range. */
export function ticksIn({ from, to }: Range, step: number, offset = 0): number[] {
  const first = Math.ceil((from - offset) / step - 1e-9);
  const last = Math.floor((to - offset) / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => (first + index) * step + offset);
}

/** The number with no more digits than its step needs. */
export function tickText(value: number, step: number): string {
  const digits = Math.min(6, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text;
}
