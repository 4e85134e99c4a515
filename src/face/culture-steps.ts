/** A new culture for the person's own list, question by question, with a wet finger: what each key means, as data. */
import { CULTURE_FORMS, type CultureRecord, cultureKey, type DiaryEvent } from '../core/record/diary.ts';
import type { CultureForm } from '../core/recipe/recipe.ts';
import { SPECIES } from '../core/science/species.ts';
import type { WallTime } from '../core/time.ts';
import { daysBefore, dayStamp } from './format.ts';
import { actOf } from './keymap.ts';
import type { KeyName } from './keys.ts';

export const CULTURE_ASKS = ['species', 'form', 'source', 'made'] as const;
export type CultureAsk = (typeof CULTURE_ASKS)[number];

/** The culture so far, and the question that is open. */
export interface CultureDraft {
  readonly ask: CultureAsk;
  /** Which line of the open list. */
  readonly picked: number;
  /** What is being typed; null while a line is picked. */
  readonly typed: string | null;
  readonly species: string;
  readonly form: CultureForm;
  readonly source: string;
  /** Days before today; null when not known. */
  readonly daysAgo: number | null;
}
export const FRESH_CULTURE: CultureDraft = {
  ask: 'species',
  picked: 0,
  typed: null,
  species: '',
  form: 'liquid culture',
  source: '',
  daysAgo: 0,
};

/** What is chosen from. */
export interface CultureLists {
  readonly species: readonly string[];
  readonly sources: readonly string[];
}

const LONGEST_TYPED = 60;
/** A culture of more years than this is not one to be given. */
const MOST_DAYS = 3650;
const USUAL_SOURCES = ['own', 'bought', 'from a friend'] as const;

/** `from a friend`, `A friend` and `friend` are one source. */
const bareSource = (text: string): string => text.replace(/^from\s+/, '').replace(/^(?:an?|my|the)\s+/, '');

/** Each name once, as it was first written; `bare` leaves out what makes no other name of it. */
const eachOnce = (
  texts: readonly string[],
  bare: (text: string) => string = text => text,
): readonly string[] => {
  const seen = new Map<string, string>();
  for (const text of texts.map(each => each.trim())) {
    const name = bare(text.toLowerCase());
    if (text !== '' && !seen.has(name)) seen.set(name, text);
  }
  return [...seen.values()];
};

/** What is likeliest first: what the batch was meant for, what is in the list, then what the program knows. */
export function cultureLists(known: readonly CultureRecord[], ofBatch: readonly string[]): CultureLists {
  const newest = known.toReversed();
  return {
    species: eachOnce([
      ...ofBatch,
      ...newest.map(({ species }) => species),
      ...SPECIES.map(({ common }) => common),
    ]),
    sources: eachOnce([...newest.map(({ source }) => source), ...USUAL_SOURCES], bareSource),
  };
}

/** Lines of the open question; the last one is typed by hand. Empty where nothing is listed. */
export const linesOf = ({ ask }: CultureDraft, { species, sources }: CultureLists): readonly string[] =>
  ask === 'species' ? species : ask === 'source' ? sources : [];

/** The day as the record keeps it; empty when not known. */
export const madeOf = ({ daysAgo }: CultureDraft, now: WallTime): string =>
  daysAgo === null ? '' : dayStamp(daysBefore(now, daysAgo));

/** The event that keeps the culture, under a name that is free. */
export const cultureEvent = (draft: CultureDraft, known: readonly CultureRecord[], now: WallTime) => {
  const { species, form, source } = draft;
  const made = madeOf(draft, now);
  const key = cultureKey(species, made, new Set(known.map(each => each.key)));
  return { type: 'culture', key, species, source, form, made } as const satisfies DiaryEvent;
};

export type CultureStep =
  | { readonly does: 'ask'; readonly draft: CultureDraft }
  | { readonly does: 'keep'; readonly draft: CultureDraft }
  | { readonly does: 'leave' }
  | { readonly does: 'nothing' };

const NOTHING: CultureStep = { does: 'nothing' };
const asking = (draft: CultureDraft): CultureStep => ({ does: 'ask', draft });

function onward(draft: CultureDraft): CultureStep {
  const next = CULTURE_ASKS[CULTURE_ASKS.indexOf(draft.ask) + 1];
  return next === undefined
    ? { does: 'keep', draft }
    : asking({ ...draft, ask: next, picked: 0, typed: null });
}

function backward(draft: CultureDraft): CultureStep {
  if (draft.typed !== null) return asking({ ...draft, typed: null });
  const before = CULTURE_ASKS[CULTURE_ASKS.indexOf(draft.ask) - 1];
  return before === undefined ? { does: 'leave' } : asking({ ...draft, ask: before, picked: 0 });
}

function typing(draft: CultureDraft, typed: string, key: KeyName): CultureStep {
  if (key === 'enter') {
    const text = typed.trim();
    return text === '' ? NOTHING : onward({ ...draft, [draft.ask]: text });
  }
  if (key === 'backspace') return asking({ ...draft, typed: [...typed].slice(0, -1).join('') });
  const letter = key === 'space' ? ' ' : key;
  const takes = [...letter].length === 1 && typed.length < LONGEST_TYPED;
  return takes ? asking({ ...draft, typed: typed + letter }) : NOTHING;
}

function picking(draft: CultureDraft, lines: readonly string[], key: KeyName): CultureStep {
  const act = actOf('culture', key);
  if (act === 'line') {
    const picked = Math.min(lines.length, Math.max(0, draft.picked + (key === 'up' ? -1 : 1)));
    return asking({ ...draft, picked });
  }
  if (act !== 'take') return NOTHING;
  const text = lines[draft.picked];
  return text === undefined ? asking({ ...draft, typed: '' }) : onward({ ...draft, [draft.ask]: text });
}

function dating(draft: CultureDraft, key: KeyName): CultureStep {
  const act = actOf('culture', key);
  const days = act === 'week' ? 7 : 1;
  const later = key === 'up' || key === 'right';
  if (act === 'take') return onward(draft);
  if (act === 'unknown') return onward({ ...draft, daysAgo: null });
  if (act !== 'line' && act !== 'week') return NOTHING;
  const daysAgo = (draft.daysAgo ?? 0) + (later ? -days : days);
  return asking({ ...draft, daysAgo: Math.min(MOST_DAYS, Math.max(0, daysAgo)) });
}

/** Where a key leads. */
export function cultureStep(draft: CultureDraft, lists: CultureLists, key: KeyName): CultureStep {
  if (key === 'esc' || key === 'ctrl-c') return backward(draft);
  if (draft.typed !== null) return typing(draft, draft.typed, key);
  if (actOf('culture', key) === 'leave') return { does: 'leave' };
  switch (draft.ask) {
    case 'species':
    case 'source':
      return picking(draft, linesOf(draft, lists), key);
    case 'form': {
      const form = actOf('culture', key) === 'form' ? CULTURE_FORMS[Number(key) - 1] : undefined;
      return form ? onward({ ...draft, form }) : NOTHING;
    }
    case 'made':
      return dating(draft, key);
  }
}
