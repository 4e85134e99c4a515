/** What the words after a bag's id mean. */
import { parseMass } from '../core/quantity.ts';
import type { Bag } from '../core/record/bags.ts';
import {
  BAG_STATES,
  type CultureRecord,
  culturesOf,
  type DiaryEvent,
  LONGEST_TEXT,
  LOOKS,
  MOST_DOSE,
  MOST_KG,
  SEALS,
} from '../core/record/diary.ts';
import { doseUnitOf } from '../core/record/inoculation.ts';
import { atMost } from '../core/text.ts';
import { datedLater, otherUnit } from '../core/words/giving.ts';
import { dayStamp } from '../face/format.ts';
import { usage } from './record-out.ts';
import { diaryOf } from './record-world.ts';
import type { World } from './world.ts';

const WAYS = [
  `a state: ${BAG_STATES.join(', ')}`,
  `contaminated ${LOOKS.join(' | contaminated ')}`,
  'looked',
  `seal ${SEALS.join(' | seal ')}`,
  'weighs 1.1 kg    place "lower layer, left"    culture KEY [5 ml]    note TEXT    undo',
  '--photo PATH with any of them, or alone',
];
const wrong = (what: string) => usage(`What is "${atMost(what, 60)}" of a bag?`, ...WAYS);

export type Draft = DiaryEvent | 'undo';

function doseWords(text: string, { key, form }: CultureRecord): number {
  const [, number = '', said] = /^(\d+(?:[.,]\d+)?)\s*(ml|g)?$/i.exec(text.trim()) ?? [];
  const amount = number === '' ? Number.NaN : Number(number.replace(',', '.'));
  if (!(amount >= 0 && amount <= MOST_DOSE))
    throw usage(`"${text}" is no amount.`, 'Write it as 5 ml, or 100 g of spawn.');
  const unit = doseUnitOf(form);
  if (said !== undefined && said.toLowerCase() !== unit)
    throw usage(
      `"${text}" is no amount of ${form}: ${key} is given by the ${unit}.`,
      `Write it as ${form === 'grain spawn' ? '100 g' : '5 ml'}.`,
    );
  return amount;
}

/** The culture given to a bag, with its amount; asked again where the noted amount is of another unit. */
function givenWhat(of: Bag, [key = '', ...amount]: readonly string[], world: World): DiaryEvent {
  const culture = culturesOf(diaryOf(world).read().entries).get(key);
  if (!culture)
    throw usage(
      `There is no culture "${atMost(key, 40)}" in your list.`,
      'List them with: stovehand cultures',
    );
  const later = of.inoculatedWall === null ? null : datedLater(of, culture, dayStamp(of.inoculatedWall));
  if (later !== null)
    throw usage(
      later,
      'Give it the culture it really got, or add that with its right day: stovehand cultures add',
    );
  const dose = amount.length === 0 ? null : doseWords(amount.join(' '), culture);
  const other = dose === null ? otherUnit(of, culture) : null;
  if (other !== null)
    throw usage(
      other,
      `Say how much it got: stovehand bag ${of.id} culture ${key} ${culture.form === 'grain spawn' ? '100 g' : '5 ml'}`,
    );
  return { type: 'inoculated', bag: of.id, culture: key, dose };
}

/** The event that the words tell of. Throws GrowerError with exit code 2 for words that tell of none. */
export function readWhat(of: Bag, words: readonly string[], world: World): Draft {
  const bag = of.id;
  const [first = '', ...rest] = words;
  const said = first.toLowerCase();
  const tail = rest.join(' ').trim();
  const state = BAG_STATES.find(known => known === said);
  if (state) {
    const looks = LOOKS.find(known => known === tail.toLowerCase()) ?? null;
    if (tail !== '' && (looks === null || state !== 'contaminated')) throw wrong(words.join(' '));
    return { type: 'state', bag, state, looks: state === 'contaminated' ? (looks ?? 'other') : null };
  }
  switch (said) {
    case 'undo':
      return 'undo';
    case 'looked':
      return { type: 'looked', bag };
    case 'seal': {
      const seen = SEALS.find(known => known === tail.toLowerCase());
      if (!seen) throw wrong(words.join(' '));
      return { type: 'seal', bag, seen };
    }
    case 'weighs': {
      const mass = parseMass(tail);
      if (!mass.ok || mass.value <= 0 || mass.value > MOST_KG)
        throw usage(`"${tail}" is no weight of a bag.`, 'Write it as 1.1 kg or 2 lb 6 oz.');
      return { type: 'weighed', bag, kg: mass.value };
    }
    case 'place':
      if (tail === '' || tail.length > LONGEST_TEXT) throw wrong(words.join(' '));
      return { type: 'place', bag, place: tail };
    case 'note':
      if (tail === '' || tail.length > LONGEST_TEXT)
        throw usage(`A note has 1 to ${LONGEST_TEXT} characters.`);
      return { type: 'note', bag, text: tail };
    case 'culture':
      return givenWhat(of, rest, world);
    default:
      throw wrong(words.join(' '));
  }
}
