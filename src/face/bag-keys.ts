/** Going through bags with gloves on: what number keys and Space mean for one bag, as data. */
import type { Bag } from '../core/record/bags.ts';
import type { BagState, CultureRecord, DiaryEvent, Looks } from '../core/record/diary.ts';
import { doseFor, doseUnitOf } from '../core/record/inoculation.ts';
import { doseText, LOOKS_NAMES, STANDING_NAMES } from '../core/words/record.ts';

/** What is asked about the bag on screen. */
export type BagPanel = 'state' | 'looks' | 'handle' | 'culture' | 'dose';

export interface BagChoice {
  readonly key: '1' | '2' | '3' | '4' | 'space';
  readonly says: string;
  /** Null only goes on; `looks` asks what it looks like; otherwise an event to keep. */
  readonly does: DiaryEvent | 'looks' | 'more' | null;
  readonly picture: readonly [ask: string, choice: string] | null;
}

const KEYS = ['1', '2', '3', '4'] as const;
const LOOK_ORDER: readonly Looks[] = ['green', 'black', 'sour', 'other'];

function state(key: BagChoice['key'], bag: Bag, to: BagState, says = STANDING_NAMES[to]): BagChoice {
  return { key, says, does: { type: 'state', bag: bag.id, state: to, looks: null }, picture: ['growth', to] };
}
const looked = (bag: Bag, says: string, picture: BagState): BagChoice => ({
  key: '1',
  says,
  does: { type: 'looked', bag: bag.id },
  picture: ['growth', picture],
});
const contaminated: BagChoice = {
  key: '4',
  says: 'contaminated',
  does: 'looks',
  picture: ['growth', 'contaminated'],
};
const skip: BagChoice = { key: 'space', says: 'next, nothing changed', does: null, picture: null };
/** After a loss was marked: how to handle it is read before anything else comes. */
const read: BagChoice = { key: 'space', says: 'read, go on', does: null, picture: null };

/** The live answers about a bag's state: 1 is always "as it should be", 4 "contaminated" where it is not that yet. */
function stateChoices(bag: Bag): readonly BagChoice[] {
  switch (bag.standing) {
    case 'empty':
    case 'torn':
    case 'left out':
      return [skip];
    case 'colonising':
      return [
        looked(bag, 'growing well', 'colonising'),
        state('2', bag, 'shaken'),
        state('3', bag, 'done'),
        contaminated,
        skip,
      ];
    case 'shaken':
      return [looked(bag, 'growing well', 'shaken'), state('3', bag, 'done'), contaminated, skip];
    case 'done':
      return [
        looked(bag, 'still good', 'done'),
        state('2', bag, 'used'),
        state('3', bag, 'discarded'),
        contaminated,
        skip,
      ];
    case 'contaminated':
      return [
        state('1', bag, 'colonising', 'a mistake: it grows'),
        state('3', bag, 'discarded', 'thrown away'),
        skip,
      ];
    case 'used':
    case 'discarded':
      return [state('1', bag, 'done', 'a mistake: still here'), skip];
  }
}

const looksChoices = (bag: Bag): readonly BagChoice[] =>
  LOOK_ORDER.map((looks, index) => ({
    key: KEYS[index] ?? '4',
    says: LOOKS_NAMES[looks],
    does: { type: 'state', bag: bag.id, state: 'contaminated', looks },
    picture: ['looks', looks],
  }));

/** Cultures on 1 to 3, the rest of a long list behind 4; Space gives what the bag before was given. */
function cultureChoices(
  bag: Bag,
  cultures: readonly CultureRecord[],
  page: number,
  last: string | null,
): readonly BagChoice[] {
  const pages = Math.max(1, Math.ceil(cultures.length / 3));
  const from = (page % pages) * 3;
  const give = (culture: string): DiaryEvent => ({ type: 'inoculated', bag: bag.id, culture, dose: null });
  const shown = cultures
    .slice(from, from + 3)
    .map(
      ({ key }, index): BagChoice => ({ key: KEYS[index] ?? '3', says: key, does: give(key), picture: null }),
    );
  const more: readonly BagChoice[] =
    pages > 1 ? [{ key: '4', says: 'more', does: 'more', picture: null }] : [];
  const same = cultures.find(({ key }) => key === last);
  const space: BagChoice = same
    ? { key: 'space', says: `give ${same.key}`, does: give(same.key), picture: null }
    : { key: 'space', says: 'as the recipe says', does: null, picture: null };
  return [...shown, ...more, space];
}

/** How much of a culture it got whose unit the noted dose is not in: the usual amounts, or none that is known. */
function doseChoices(bag: Bag, { key, form }: CultureRecord): readonly BagChoice[] {
  const give = (dose: number | null): DiaryEvent => ({ type: 'inoculated', bag: bag.id, culture: key, dose });
  const { low, likely, high } = doseFor(form, bag.kg ?? 1);
  const amounts = bag.kg === null ? [] : [low, likely, high];
  return [
    ...amounts.map(
      (amount, index): BagChoice => ({
        key: KEYS[index] ?? '3',
        says: `${amount} ${doseUnitOf(form)}`,
        does: give(amount),
        picture: null,
      }),
    ),
    { key: 'space', says: `leave ${doseText(bag)} noted`, does: give(null), picture: null },
  ];
}

/** What was answered for a bag, as it is said back. */
export function notedText({ id }: Bag, panel: BagPanel, { does, says }: BagChoice): string {
  if (does !== null && typeof does === 'object' && does.type === 'inoculated')
    return `${id} was given ${does.culture}${panel === 'dose' && does.dose !== null ? `, ${says}` : ''}`;
  return `${id} ${panel === 'looks' ? 'contaminated, ' : ''}${says}`;
}

export interface BagAsk {
  readonly bag: Bag;
  readonly panel: BagPanel;
  readonly cultures: readonly CultureRecord[];
  /** Page of the list of cultures. */
  readonly page: number;
  /** Culture given to the bag before. */
  readonly last: string | null;
  /** The culture whose amount is asked for; null for none. */
  readonly giving: CultureRecord | null;
}

export function bagChoices({ bag, panel, cultures, page, last, giving }: BagAsk): readonly BagChoice[] {
  if (panel === 'looks') return looksChoices(bag);
  if (panel === 'handle') return [read];
  if (panel === 'state') return stateChoices(bag);
  if (panel === 'dose' && giving) return doseChoices(bag, giving);
  return bag.inoculatedWall === null ? [skip] : cultureChoices(bag, cultures, page, last);
}
