/**
 * What the values of a recipe must be to one another. A refusal would spoil the batch or cannot be true; a
 * warning is unusual enough to be looked at again.
 */

import { formatDuration, formatMass } from '../quantity.ts';
import { METRIC } from '../quantity-format.ts';
import { recipeFrom } from './defaults.ts';
import type { ContainerSize } from './recipe.ts';
import type { RecipeFile } from './schema.ts';

export interface Finding {
  /** Key whose value is pointed at, "containers.fill". */
  readonly at: string;
  /** Keys whose values the check reads; it says nothing when one of them could not be read. */
  readonly reads: readonly string[];
  readonly severity: 'refuse' | 'warn';
  readonly says: string;
}

const MIN = 60;
const HOUR = 3600;

/** Volume of the filled part, litres. */
export function sizeLitres(size: ContainerSize): number {
  const cubicMetres =
    size.shape === 'brick'
      ? size.lengthM * size.widthM * size.thicknessM
      : (Math.PI / 4) * size.diameterM ** 2 * size.heightM;
  return cubicMetres * 1000;
}

/** Everything unusual or impossible in a file whose values were all read one by one. */
export function crossChecks(file: RecipeFile): readonly Finding[] {
  const found: Finding[] = [];
  const recipe = recipeFrom(file);
  const { containers, soak, simmer, drying, culture } = recipe;
  const note = (severity: Finding['severity'], at: string, reads: readonly string[], says: string) =>
    found.push({ at, reads: [at, ...reads], severity, says });

  if (containers.fillKg > containers.mostKg)
    note(
      'refuse',
      'containers.fill',
      ['containers.most'],
      `fill: expected at most what fits below the filter, ${formatMass(containers.mostKg, METRIC)}; lower the fill, or raise most.`,
    );
  const density = containers.fillKg / sizeLitres(containers.size);
  // Kernels at 48 % weigh 1168 kg/m3 (science notes e5, computed): nothing filled with them can weigh more. Wet bulk is 600 to 780 (h).
  if (density > 1.168)
    note(
      'refuse',
      'containers.size',
      ['containers.fill'],
      `size: ${formatMass(containers.fillKg, METRIC)} of wet grain cannot fit in this size; measure a filled one again.`,
    );
  else if (density > 0.9 || density < 0.45)
    note(
      'warn',
      'containers.size',
      ['containers.fill'],
      `size: ${formatMass(containers.fillKg, METRIC)} of wet grain takes about ${(containers.fillKg / 0.7).toFixed(1)} L, and this size holds ${sizeLitres(containers.size).toFixed(1)} L; measure a filled one again.`,
    );
  if (file.containers.size.guessed)
    note(
      'warn',
      'containers.size',
      [],
      'size: two numbers were read as width and height; write "... wide, ... high" to be sure.',
    );

  if (recipe.wantedMoisture <= recipe.storedMoisture)
    note(
      'refuse',
      'moisture.wanted',
      ['moisture.stored'],
      'wanted: expected more water than the stored grain has.',
    );
  else if (recipe.wantedMoisture < 0.38 || recipe.wantedMoisture > 0.58)
    note(
      'warn',
      'moisture.wanted',
      [],
      'wanted: grain spawn is usually between 43 % and 55 % moist; drier grain starves the culture, wetter grain sours.',
    );
  if (recipe.storedMoisture > 0.16)
    note('warn', 'moisture.stored', [], 'stored: grain above 16 % does not keep; it is usually near 12 %.');

  if (soak && soak.longestS < soak.shortestS)
    note(
      'refuse',
      'soak.longest',
      ['soak.shortest'],
      `longest: expected at least the shortest soak, ${formatDuration(soak.shortestS)}.`,
    );
  if (simmer.nearS > simmer.everyS)
    note(
      'warn',
      'simmer.near every',
      ['simmer.look every'],
      'near every: near the end one looks more often, not less.',
    );
  if (drying.stirEveryS > drying.aboutS)
    note(
      'warn',
      'dry.stir every',
      ['dry.about'],
      'stir every: the grain would be dry before the first stir.',
    );

  if (recipe.ventS < 5 * MIN)
    note(
      'warn',
      'vent',
      [],
      'vent: less than 5 min of steam leaves air behind, and the gauge then promises more heat than there is; 10 min is usual.',
    );
  if (file.pressure !== undefined && file.temperature !== undefined)
    note(
      'refuse',
      'temperature',
      ['pressure'],
      'temperature: expected either pressure or temperature, and found both; remove one.',
    );
  if (recipe.holdS < 45 * MIN)
    note(
      'warn',
      'hold',
      [],
      'hold: less than 45 min is shorter than practice with any container of grain; look at the estimate on the plan.',
    );
  if (recipe.coolS < 6 * HOUR && containers.kind === 'bag')
    note(
      'warn',
      'cool',
      ['containers.kind'],
      'cool: sealed bags opened before about 8 h are often still hot, and may tear or draw in air.',
    );

  const each = file.culture?.each;
  const wantedUnit = culture.form === 'grain spawn' ? 'g' : 'mL';
  if (each && each.unit !== wantedUnit)
    note(
      'refuse',
      'culture.each',
      ['culture.form'],
      `each: ${culture.form} is measured in ${wantedUnit}, such as ${wantedUnit === 'g' ? '100 g' : '5 ml'}.`,
    );
  else if (each && each.amount / containers.fillKg > (wantedUnit === 'g' ? 400 : 100))
    note(
      'warn',
      'culture.each',
      ['culture.form', 'containers.fill'],
      'each: this is far more than usual for the fill, and would leave the grain wet.',
    );
  return found;
}
