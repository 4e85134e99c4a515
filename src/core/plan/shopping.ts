/** What has to be in the house before the batch begins. */
import type { Recipe } from '../recipe/recipe.ts';
import type { GrainPlan } from './grain-plan.ts';

export type ShoppingItem =
  | 'grain'
  | 'bags'
  | 'jars'
  | 'ports'
  | 'filter-lids'
  | 'foil'
  | 'culture'
  | 'grain-spawn'
  | 'paper-towels'
  | 'alcohol'
  | 'gloves'
  | 'labels';

export interface ShoppingLine {
  readonly item: ShoppingItem;
  /** Kilograms, litres, pieces, or null where any amount will do. */
  readonly kg: number | null;
  readonly litres: number | null;
  readonly pieces: number | null;
}

const line = (item: ShoppingItem, amount: Partial<Omit<ShoppingLine, 'item'>> = {}): ShoppingLine => ({
  item,
  kg: null,
  litres: null,
  pieces: null,
  ...amount,
});

/** One spare for every six: seams fail and bags tear (common practice, no source). */
const spare = (count: number): number => count + Math.ceil(count / 6);
/** Culture left in syringe and needle (common practice, no source). */
const CULTURE_SPARE = 1.1;

/** The shopping list of a batch, the grain in tenths of a kilogram above what is weighed. */
export function shoppingList(recipe: Recipe, grain: GrainPlan): readonly ShoppingLine[] {
  const { containers, culture } = recipe;
  const inMl = containers.count * culture.perContainer * CULTURE_SPARE;
  const bags = containers.kind === 'bag';
  return [
    line('grain', { kg: Math.ceil(grain.dryKg * 10 - 1e-9) / 10 }),
    line(bags ? 'bags' : 'jars', { pieces: spare(containers.count) }),
    line(bags ? 'ports' : 'filter-lids', { pieces: spare(containers.count) }),
    ...(bags ? [] : [line('foil')]),
    culture.form === 'grain spawn'
      ? line('grain-spawn', { kg: (containers.count * culture.perContainer) / 1000 })
      : line('culture', { litres: Math.ceil(inMl) / 1000 }),
    line('paper-towels'),
    line('alcohol'),
    line('gloves'),
    line('labels', { pieces: containers.count }),
  ];
}
