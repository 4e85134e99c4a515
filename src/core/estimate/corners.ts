/** A temperature band over time as corners, straight between them; two corners at one instant are a jump. */
import type { Band } from '../science/limits.ts';
import type { CoachTime } from '../time.ts';

export interface Corner {
  readonly t: CoachTime;
  readonly c: Band;
}

export const same = (value: number): Band => ({ low: value, likely: value, high: value });

export const mapBand = (band: Band, change: (value: number, side: keyof Band) => number): Band => ({
  low: change(band.low, 'low'),
  likely: change(band.likely, 'likely'),
  high: change(band.high, 'high'),
});

/** The likely value in the middle again, after each side was moved on its own. */
export const ordered = ({ low, likely, high }: Band): Band => ({
  low: Math.min(low, likely),
  likely,
  high: Math.max(high, likely),
});

export const between = (a: Band, b: Band, share: number): Band =>
  mapBand(a, (value, side) => value + (b[side] - value) * share);

/** The band at an instant: before the first corner the first, after the last the last, at a jump what comes after. */
export function bandAt(corners: readonly Corner[], t: CoachTime): Band {
  const next = corners.findIndex(corner => corner.t > t);
  const b = corners[next];
  const a = corners[next < 0 ? corners.length - 1 : next - 1];
  if (!a) return b?.c ?? same(Number.NaN);
  return b ? between(a.c, b.c, (t - a.t) / (b.t - a.t)) : a.c;
}

/** Instants from `from` to `to`, both included, at most `step` apart. */
export function instants(from: CoachTime, to: CoachTime, step: number): readonly CoachTime[] {
  const count = Math.max(1, Math.ceil((to - from) / step - 1e-9));
  return Array.from({ length: count + 1 }, (_, index) => from + ((to - from) * index) / count);
}
