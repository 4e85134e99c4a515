/** What is doubtful about a culture noted for a bag: its unit, its amount, its day. */
import { MOST_DOSE } from '../record/diary.ts';
import type { Bag } from '../record/bags.ts';
import type { CultureRecord } from '../record/diary.ts';
import { doseFor, doseUnitOf, judgeDose } from '../record/inoculation.ts';
import { doseText } from './record.ts';

type Given = Pick<Bag, 'id' | 'kg' | 'dose' | 'doseUnit'>;
type Chosen = Pick<CultureRecord, 'key' | 'form' | 'made'>;

/** `usually 50 to 200 g`; empty for a bag that nobody weighed. */
function usualText({ kg }: Pick<Bag, 'kg'>, { form }: Pick<Chosen, 'form'>): string {
  if (kg === null || kg <= 0) return '';
  const { low, high, unit } = doseFor(form, kg);
  return `, usually ${low} to ${high} ${unit}`;
}

/** The dose that is noted is of another unit than this culture is given in; null when it is not. */
export function otherUnit(bag: Given, culture: Chosen): string | null {
  const unit = doseUnitOf(culture.form);
  if (bag.dose === null || bag.doseUnit === unit) return null;
  return `${bag.id} was noted with ${doseText(bag)}, and ${culture.key} is ${culture.form}, given by the ${unit}${usualText(bag, culture)}.`;
}

/** An amount that is out of the usual range for this bag; null within it, or where no weight is known. */
export function unusualAmount(
  { kg }: Pick<Bag, 'kg'>,
  form: CultureRecord['form'],
  dose: number,
): string | null {
  if (kg === null || kg <= 0 || dose > MOST_DOSE) return null;
  const verdict = judgeDose(form, kg, dose);
  if (verdict === 'within') return null;
  const { low, high, unit } = doseFor(form, kg);
  const than = verdict === 'little' ? 'less' : 'more';
  return `${dose} ${unit} is ${than} than the usual ${low} to ${high} ${unit} of ${form} for this weight.`;
}

/** The culture is of a later day than the bag got it; `day` is the bag's, as `2026-11-26`. Null when it is not. */
export const datedLater = ({ id }: Pick<Bag, 'id'>, { key, made }: Chosen, day: string): string | null =>
  made !== '' && made > day
    ? `${key} is of ${made}, and ${id} got its culture before that, on ${day}.`
    : null;
