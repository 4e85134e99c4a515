import { afterAll, expect } from 'vitest';

/**
 * Every tolerance of the science checks, in one table, as the science notes gives them; where it gives
 * none, half a unit of the last printed digit of the reference. `kind` relative: |a - e| <= within * |e|.
 */
interface Tolerance {
  readonly model: string;
  readonly within: number;
  readonly kind: 'absolute' | 'relative';
  readonly unit: string;
}

const absolute = (model: string, within: number, unit: string): Tolerance => ({
  model,
  within,
  kind: 'absolute',
  unit,
});
const relative = (model: string, within: number): Tolerance => ({
  model,
  within,
  kind: 'relative',
  unit: '',
});

export const TOLERANCES = {
  'IF97 tables 35, 36': relative('steam', 1e-8),
  'saturation.csv pressure': absolute('steam', 6e-6, 'kPa'),
  'saturation.csv temperature': absolute('steam', 1e-5, 'C'),
  'saturation.csv latent heat': relative('steam', 2e-4),
  'saturation.csv densities': relative('steam', 2e-4),
  'SR1-86 table of saturated densities': relative('steam', 2e-6),
  'round trip': absolute('steam', 1e-6, 'K'),
  'gauge to temperature (science notes)': absolute('steam', 0.006, 'C'),
  'second opinion on saturation': relative('steam', 1e-9),
  'second opinion on latent heat': relative('steam', 2e-4),
  'ASHRAE saturation (psychrolib)': relative('steam', 5e-4),
  // The file was made with the modern gas constant (k 5.25579), the standard with its own (5.25588).
  'standard_atmosphere.csv pressure': absolute('atmosphere', 6.5e-4, 'kPa'),
  'ISO 2533 table': absolute('atmosphere', 1e-4, 'kPa'),
  'standard_atmosphere.csv temperatures': absolute('atmosphere', 8e-4, 'C'),
  'standard_atmosphere.csv gauge': absolute('atmosphere', 1.1e-3, 'psi or kPa'),
  'altitude_gauge.csv': absolute('atmosphere', 1.5e-3, 'psi or kPa'),
  'altitude_gauge.csv temperatures': absolute('atmosphere', 0.06, 'C or F'),
  'ASHRAE atmosphere (psychrolib)': relative('atmosphere', 1e-4),
  'science notes table b': absolute('atmosphere', 0.012, 'C, psi or kPa'),
  'dry-matter examples': absolute('hydration', 0.06, 'g, % or L'),
  'exact conversions': relative('units', 1e-12),
  'known roots': absolute('solve', 1e-12, ''),
  'cooldown_reference.csv temperature': absolute('cooldown', 6e-4, 'C'),
  'cooldown_reference.csv gauge': absolute('cooldown', 6e-3, 'psi'),
  'cool-down examples': relative('cooldown', 1e-3),
  'water examples': relative('water', 0.012),
  'residual_air.csv': absolute('residual air', 6e-3, 'C'),
  'handbook table, model A': absolute('residual air', 1, 'C'),
  'handbook table, 5 psi with half the air': absolute('residual air', 1.25, 'C'),
  'purge examples': relative('residual air', 0.012),
  'hydration_peleg.csv': absolute('soak', 0.03, '% or k'),
  'soak examples': absolute('soak', 0.5, '%'),
  'Bessel tables': absolute('conduction', 1e-14, ''),
  'one_term_coefficients.csv': absolute('conduction', 6e-7, ''),
  'conduction_series.csv': absolute('conduction', 6e-10, ''),
  'textbook examples, exact column': absolute('conduction', 0.01, 'C or min'),
  'textbook examples, chart answers': absolute('conduction', 2, 'C'),
  'centre lag (science notes e2)': absolute('heat penetration', 0.06, 's'),
  // The file's series keeps 20 terms a side without closure; its own finite volumes differ by 1.1e-3.
  'heat_penetration_reference.csv temperature': absolute('heat penetration', 0.01, 'K'),
  'heat_penetration_reference.csv F0': absolute('heat penetration', 0.02, 'min'),
  'finite volumes': absolute('heat penetration', 0.04, 'K'),
  'hold_suggestions.csv': absolute('hold', 0.5, 'min'),
  'hold_anchors.csv temperature': absolute('hold', 0.06, 'C'),
  'hold_anchors.csv F': absolute('hold', 0.1, 'min'),
  // The step of the file's cooling curve is not stated; the spread is below one per cent.
  'hold_anchors.csv F with cooling': absolute('hold', 0.5, 'min'),
  'hold_anchors.csv diffusivity': relative('hold', 5e-3),
  'science notes holds (e8)': absolute('hold', 1, 'min'),
  'Ball constants (science notes e3)': relative('Ball', 2e-4),
  'autoclave_load_times.csv f_h': absolute('Ball', 0.06, 'min'),
  'recovered diffusivity': relative('Ball', 1e-3),
  'lethality examples, read': absolute('lethality', 0.01, 'min'),
  'lethality examples, computed': absolute('lethality', 1e-6, 'min'),
  'lethality method spread': absolute('lethality', 5e-3, 'min'),
  'lethal rate by gauge': absolute('lethality', 6e-4, ''),
  'gauge error': absolute('lethality', 6e-3, ''),
  'd_values.csv': absolute('lethality', 6e-5, 'min'),
  'spores worked example': absolute('lethality', 0.06, 'min or logs'),
  'bag in air (science notes f)': absolute('bag cool-down', 0.55, 'h'),
  'choi_okos.csv': absolute('composition', 6e-6, 'W/mK, kg/m3 or kJ/kgK'),
  'rye kernel (science notes e5)': relative('composition', 1.5e-3),
  'grain_properties.csv thermal': relative('composition', 2.5e-3),
  'grain of unknown fibre': relative('composition', 2.5e-2),
  'grain_properties.csv bulk': relative('composition', 8e-3),
  'wilson.csv computed': absolute('statistics', 1e-8, ''),
  'wilson.csv published': absolute('statistics', 5e-5, ''),
  'wilson.csv upper bounds': absolute('statistics', 6e-7, ''),
  'loss examples': absolute('statistics', 6e-3, 'kg or share'),
} as const satisfies Readonly<Record<string, Tolerance>>;

export type Check = keyof typeof TOLERANCES;

const worst = new Map<Check, { error: number; count: number; where: string }>();

/** Asserts that a value agrees with one from outside the code, and remembers the worst error of its kind. */
export function near(check: Check, actual: number, expected: number, where = ''): void {
  const { within, kind }: Tolerance = TOLERANCES[check];
  const error = kind === 'relative' ? Math.abs(actual / expected - 1) : Math.abs(actual - expected);
  const before = worst.get(check);
  if (before === undefined || error > before.error || Number.isNaN(error)) {
    worst.set(check, { error, count: (before?.count ?? 0) + 1, where });
  } else before.count += 1;
  expect(error, `${check} ${where}: ${actual} against ${expected}`).toBeLessThanOrEqual(within);
}

/** Prints one line for each model with the worst error of every kind of check, after the file's last test. */
export function reportWorstErrors(): void {
  afterAll(() => {
    const lines = new Map<string, string[]>();
    for (const [check, { error, count, where }] of worst) {
      const { model, within, unit, kind }: Tolerance = TOLERANCES[check];
      const scale = kind === 'relative' ? 'relative' : unit;
      const at = where === '' ? '' : ` at ${where}`;
      const said = `${check} ${error.toExponential(1)} of ${within} ${scale}${at} (${count})`;
      lines.set(model, [...(lines.get(model) ?? []), said]);
    }
    for (const [model, said] of lines) console.log(`worst errors, ${model}: ${said.join('; ')}`);
  });
}
