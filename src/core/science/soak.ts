/**
 * Soaking: moisture against time where constants were published. Weighing the drained grain overrules these
 * curves (see `moistureByWeighing`): they were measured on other lots, and expect +-4 points at 12 h.
 *
 * Peleg: X(t) = X0 + t / (k1 + k2 t), X in per cent dry basis. Sorghum constants at 10 and 50 C are published
 * (Kashiri 2010); between them k1 follows Arrhenius and k2 a line. Becker (1960) for wheat: pericarp takes up
 * 0.045 at once, then (X - Xi) / (0.75 - Xi) = 2 / sqrt(pi) S/V sqrt(D t), X a dry-basis fraction.
 */
import { GAS_CONSTANT, ZERO_CELSIUS_K } from './constants.ts';
import { dryBasis, wetBasis } from './hydration.ts';
import { type NoAnswer, noAnswer, notNegative, within } from './limits.ts';

export interface Peleg {
  /** h per per cent dry basis. */
  readonly k1: number;
  /** 1 per per cent dry basis. */
  readonly k2: number;
}

interface PelegEnds {
  readonly coldC: number;
  readonly cold: Peleg;
  readonly warmC: number;
  readonly warm: Peleg;
}

const SORGHUM: PelegEnds = {
  coldC: 10,
  cold: { k1: 0.118, k2: 0.0246 },
  warmC: 50,
  warm: { k1: 0.0095, k2: 0.0206 },
};
const TEFF: PelegEnds = {
  coldC: 20,
  cold: { k1: 0.714 / 60, k2: 0.043 },
  warmC: 50,
  warm: { k1: 0.272 / 60, k2: 0.025 },
};
export const PELEG_GRAINS = { sorghum: SORGHUM, teff: TEFF } as const;
export type PelegGrain = keyof typeof PELEG_GRAINS;

const kelvin = (celsius: number) => celsius + ZERO_CELSIUS_K;

/** Activation energy of k1 between the two published ends, kJ/mol. */
export function pelegActivationKJMol(grain: PelegGrain): number {
  const { coldC, cold, warmC, warm } = PELEG_GRAINS[grain];
  return (GAS_CONSTANT * Math.log(cold.k1 / warm.k1)) / (1 / kelvin(coldC) - 1 / kelvin(warmC)) / 1000;
}

/** Peleg constants at a water temperature between the published ends (sorghum 10 to 50 C, teff 20 to 50 C). */
export function pelegConstants(grain: PelegGrain, waterC: number): Peleg {
  const { coldC, cold, warmC, warm } = PELEG_GRAINS[grain];
  within(`Soak water for ${grain}`, waterC, coldC, warmC, 'C');
  const share = (1 / kelvin(coldC) - 1 / kelvin(waterC)) / (1 / kelvin(coldC) - 1 / kelvin(warmC));
  return {
    k1: cold.k1 * (warm.k1 / cold.k1) ** share,
    k2: cold.k2 + ((warm.k2 - cold.k2) * (waterC - coldC)) / (warmC - coldC),
  };
}

export interface SoakQuestion {
  /** Wet-basis moisture at the start. */
  readonly storedMoisture: number;
  readonly waterC: number;
  readonly seconds: number;
}

/** Wet-basis moisture after a soak by Peleg's curve. */
export function pelegMoisture(grain: PelegGrain, { storedMoisture, waterC, seconds }: SoakQuestion): number {
  const { k1, k2 } = pelegConstants(grain, waterC);
  const hours = notNegative('Soak', seconds, 's') / 3600;
  return wetBasis(dryBasis(storedMoisture) + hours / (k1 + k2 * hours) / 100);
}

/** Wet-basis moisture at which Peleg's curve levels out: a cold soak never passes it. */
export function pelegCeiling(grain: PelegGrain, storedMoisture: number, waterC: number): number {
  return wetBasis(dryBasis(storedMoisture) + 1 / pelegConstants(grain, waterC).k2 / 100);
}

const BECKER_PERICARP = 0.045;
const BECKER_SURFACE = 0.75;
/** Surface over volume of a wheat kernel, 1/cm; estimate, +-25 %. */
const BECKER_SURFACE_PER_CM = 16;
/** Becker's short-time formula holds while the uptake is below about this share. */
const BECKER_HIGHEST_RATIO = 0.6;

/** Diffusivity of water in wheat, cm2/s: 30 exp(-12300 / (1.987 T)). Valid 0 to 60 C. */
export function beckerDiffusivityCm2S(waterC: number): number {
  within('Soak water for wheat', waterC, 0, 60, 'C');
  return 30 * Math.exp(-12300 / (1.987 * kelvin(waterC)));
}

/** Wet-basis moisture of wheat after a soak by Becker's formula; no answer once it leaves its range. */
export function beckerMoisture({ storedMoisture, waterC, seconds }: SoakQuestion): number | NoAnswer {
  const after = dryBasis(storedMoisture) + BECKER_PERICARP;
  const root = Math.sqrt(beckerDiffusivityCm2S(waterC) * notNegative('Soak', seconds, 's'));
  const ratio = (2 / Math.sqrt(Math.PI)) * BECKER_SURFACE_PER_CM * root;
  if (ratio <= BECKER_HIGHEST_RATIO) return wetBasis(after + ratio * (BECKER_SURFACE - after));
  return noAnswer('The formula for wheat holds only for the first part of a soak; weigh the drained grain.');
}

export interface SoakEstimate {
  readonly moisture: number;
  /** The curve was measured on another grain. */
  readonly borrowed: boolean;
}

/**
 * Wet-basis moisture of a soaked grain by the nearest curve there is: sorghum for sorghum and small kernels
 * (millet), wheat for the rest; borrowed where the grain itself has none. No answer outside the curves.
 */
export function soakMoisture(grain: string, question: SoakQuestion): SoakEstimate | NoAnswer {
  if (grain === 'sorghum' || grain === 'millet') {
    const { coldC, warmC } = PELEG_GRAINS.sorghum;
    if (!(question.waterC >= coldC && question.waterC <= warmC)) {
      return noAnswer(`Soaking was measured only between ${coldC} and ${warmC} C; weigh the drained grain.`);
    }
    return { moisture: pelegMoisture('sorghum', question), borrowed: grain !== 'sorghum' };
  }
  const moisture = beckerMoisture(question);
  return typeof moisture === 'number' ? { moisture, borrowed: grain !== 'wheat' } : moisture;
}
