/** The amount that a question is about, to be read from across the kitchen: grain, water, fill, dose. */
import { recipeOf, numbersOf } from '../core/batch/moves.ts';
import type { Batch } from '../core/batch/state.ts';
import type { AskId } from '../core/batch/steps.ts';
import { formatMass, formatVolume } from '../core/quantity-format.ts';
import { doseUnit } from '../core/words/asks.ts';
import type { Telling } from '../core/words/telling.ts';

export interface Figure {
  readonly number: string;
  readonly unit: string;
  readonly of: string;
}

/** A quantity of one number and one unit; pounds with ounces are two, and stay words. */
function figure(text: string, of: string): Figure | null {
  const [, number, unit] = /^([\d.]+) (\D+)$/.exec(text) ?? [];
  return number && unit ? { number, unit, of } : null;
}

/** The figure of a question, or null where it has none. */
export function figureOf(batch: Batch, ask: AskId, { units }: Telling): Figure | null {
  const { containers, culture, grain } = recipeOf(batch);
  const inHand = `in ${containers.kind} ${batch.cursor + 1}`;
  switch (ask) {
    case 'dry-weight':
      return figure(formatMass(numbersOf(batch).dryKg, units), `of dry ${grain}`);
    case 'fill':
      return figure(formatMass(containers.fillKg, units), inHand);
    case 'cooker-water':
      return figure(formatVolume(numbersOf(batch).cookerWaterL, units), 'under the rack');
    case 'inject':
      return { number: String(culture.perContainer), unit: doseUnit(batch), of: inHand };
    default:
      return null;
  }
}
