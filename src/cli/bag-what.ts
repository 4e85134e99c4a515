/** What the words after a bag's id mean. */
import { parseMass } from '../core/quantity.ts';
import {
  BAG_STATES,
  culturesOf,
  type DiaryEvent,
  LONGEST_TEXT,
  LOOKS,
  MOST_DOSE,
  MOST_KG,
  SEALS,
} from '../core/record/diary.ts';
import { atMost } from '../core/text.ts';
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

function doseWords(text: string): number {
  const match = /^(\d+(?:[.,]\d+)?)\s*(?:ml|g)?$/i.exec(text.trim());
  const amount = match ? Number(match[1]?.replace(',', '.')) : Number.NaN;
  if (amount >= 0 && amount <= MOST_DOSE) return amount;
  throw usage(`"${text}" is no amount.`, 'Write it as 5 ml, or 100 g of spawn.');
}

/** The event that the words tell of. Throws GrowerError with exit code 2 for words that tell of none. */
export function readWhat(bag: string, words: readonly string[], world: World): Draft {
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
    case 'culture': {
      const [key = '', ...amount] = rest;
      const known = culturesOf(diaryOf(world).read().entries);
      if (!known.has(key))
        throw usage(
          `There is no culture "${atMost(key, 40)}" in your list.`,
          'List them with: stovehand cultures',
        );
      return {
        type: 'inoculated',
        bag,
        culture: key,
        dose: amount.length === 0 ? null : doseWords(amount.join(' ')),
      };
    }
    default:
      throw wrong(words.join(' '));
  }
}
