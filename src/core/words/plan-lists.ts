/** Shopping list and cost of a plan, line by line. */
import type { Kitchen } from '../kitchen.ts';
import type { Cost } from '../plan/cost.ts';
import type { ShoppingItem, ShoppingLine } from '../plan/shopping.ts';
import type { Recipe } from '../recipe/recipe.ts';
import { formatMass, formatVolume } from '../quantity-format.ts';

const ITEMS: Readonly<Record<ShoppingItem, string>> = {
  grain: 'dry',
  bags: 'filter-patch bags, one spare in six',
  jars: 'jars made for heat, one spare in six',
  ports: 'injection ports',
  'filter-lids': 'lids with filter and port',
  foil: 'kitchen foil, to cover the lids',
  culture: 'of',
  'grain-spawn': 'of grain spawn',
  'paper-towels': 'paper towels, plain',
  alcohol: 'alcohol of 70 % for hands and ports',
  gloves: 'gloves, clean ones',
  labels: 'labels and a pen',
};

/** "3.6 kg dry rye", "7 filter-patch bags, one spare in six". */
export function shoppingText(line: ShoppingLine, { grain, culture }: Recipe, { units }: Kitchen): string {
  const species = culture.species === '' ? '' : ` of ${culture.species}`;
  const name =
    line.item === 'grain'
      ? `${ITEMS.grain} ${grain}`
      : line.item === 'culture'
        ? `${ITEMS.culture} ${culture.form}${species}`
        : `${ITEMS[line.item]}${line.item === 'grain-spawn' ? species : ''}`;
  if (line.kg !== null) return `${formatMass(line.kg, units)} ${name}`;
  if (line.litres !== null) return `${formatVolume(line.litres, units)} ${name}`;
  return line.pieces === null ? name : `${line.pieces} ${name}`;
}

const MISSING: Readonly<Record<Cost['missing'][number], string>> = {
  grain: 'grain',
  container: 'containers',
  culture: 'culture',
  energy: 'energy',
};

/** The cost in a few short lines; one line that says how to get it while no price was said. */
export function costLines(cost: Cost | null, kind: 'bag' | 'jar'): readonly string[] {
  if (cost === null) return ['Say your prices in the kitchen to see what one costs against a bought one.'];
  const price = (amount: number): string => `${amount.toFixed(2)} ${cost.currency}`.trim();
  const lines = [`${price(cost.each)} a ${kind}, ${price(cost.batch)} the batch`];
  if (cost.missing.length > 0) {
    lines.push(`without ${cost.missing.map(part => MISSING[part]).join(', ')}: no price was said`);
  }
  if (cost.boughtEach !== null && cost.savedPerBatch !== null) {
    const saved = cost.savedPerBatch;
    lines.push(
      saved > 0
        ? `bought ${price(cost.boughtEach)}: saves ${price(saved)} a batch, if none is lost`
        : `bought ${price(cost.boughtEach)}: buying is cheaper by ${price(-saved)} a batch`,
    );
  }
  if (cost.paidAfter !== null) lines.push(`the gear has paid for itself with batch ${cost.paidAfter}`);
  return lines;
}
