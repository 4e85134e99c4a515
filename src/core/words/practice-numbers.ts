/** The numbers of a practice in words: what is in the grain, what the cooker did, and what it was worth, with its band. */
import type { Numbers } from '../practice/debrief.ts';
import { formatPressure, formatVolume, trimmed } from '../quantity-format.ts';
import type { Telling } from './telling.ts';

/** A number with its name. */
export type NumberRow = readonly [name: string, value: string];

const percent = (share: number, decimals = 0): string => `${trimmed(share * 100, decimals)} %`;
const minutes = (value: number): string => `${trimmed(value, 0)} min`;
const known = (rows: readonly (readonly [string, string | null])[]): readonly NumberRow[] =>
  rows.flatMap(([name, value]) => (value === null ? [] : [[name, value] as const]));

/** What the decisions tell too, each of one: moisture, surface, air, minutes at target, tear risk. */
function toldByDecisions(numbers: Numbers): readonly NumberRow[] {
  const { moisture, filmGPerKg, airLeft, minutesAbove, minutesCounted, tearRisk } = numbers;
  return known([
    ['water in the grain', moisture === null ? null : percent(moisture, 1)],
    ['water on its surface', filmGPerKg === null ? null : `${trimmed(filmGPerKg, 0)} g/kg`],
    ['air left at closing', airLeft === null ? null : percent(airLeft)],
    [
      'truly at target',
      minutesAbove === null || minutesCounted === null
        ? null
        : `${minutes(minutesAbove)}, ${minutes(minutesCounted)} counted`,
    ],
    ['tear risk at opening', tearRisk === null ? null : percent(tearRisk)],
  ]);
}

/** What no single decision tells: lethality and risk, each with its band, peak pressure, water, containers. */
export function outcomeRows(numbers: Numbers, { units }: Telling): readonly NumberRow[] {
  const { mostKPa, f0Min, risk, waterLeftL, whole } = numbers;
  return known([
    [
      'centre F0, estimate',
      f0Min === null
        ? null
        : `${trimmed(f0Min[1], 0)} min (${trimmed(f0Min[0], 0)} to ${trimmed(f0Min[2], 0)})`,
    ],
    ['risk of a live spore', risk === null ? null : riskRange(risk)],
    ['peak pressure', mostKPa === null ? null : formatPressure(mostKPa, units)],
    ['water left', waterLeftL === null ? null : formatVolume(waterLeftL, units)],
    ['whole', whole === null ? null : `${whole[0]} of ${whole[1]}`],
  ]);
}

/** All numbers of a practice, as name and value; what never came to be is left out. */
export const numberRows = (numbers: Numbers, telling: Telling): readonly NumberRow[] => [
  ...toldByDecisions(numbers),
  ...outcomeRows(numbers, telling),
];

function riskRange([low, likely, high]: readonly [number, number, number]): string {
  const [best, worst] = [riskText(high), riskText(low)];
  return best === worst ? `${best} each` : `${riskText(likely)} each (${best} to ${worst})`;
}

function riskText(risk: number): string {
  if (risk < 1e-4) return 'under 1 in 10 000';
  return risk < 0.01 ? `1 in ${Math.round(1 / risk)}` : percent(risk);
}
