/**
 * What happens to bags after their batch is done, as entries of one diary for the whole home. Entries are
 * only ever added; a mistake is taken back by another entry. Their order in the file does not matter: two
 * diaries are merged by putting their entries together, each once.
 */
import type { CultureForm } from '../recipe/recipe.ts';
import type { WallTime } from '../time.ts';

/** Batch id, hyphen, number within the batch: `2648a-3`. */
export type BagId = string;

export const BAG_STATES = ['colonising', 'shaken', 'done', 'contaminated', 'used', 'discarded'] as const;
export type BagState = (typeof BAG_STATES)[number];

/** What a contaminated bag looks like. */
export const LOOKS = ['green', 'black', 'sour', 'other'] as const;
export type Looks = (typeof LOOKS)[number];

export const SEALS = ['good', 'doubtful', 'failed', 'torn'] as const;
export type SealSeen = (typeof SEALS)[number];

export const CULTURE_FORMS = [
  'liquid culture',
  'spore syringe',
  'grain spawn',
] as const satisfies readonly CultureForm[];

/** One culture of the person's own list. */
export interface CultureRecord {
  /** Short name, as `oyster-1104`. */
  readonly key: string;
  readonly species: string;
  readonly source: string;
  readonly form: CultureForm;
  /** Calendar day it was made or bought, `2026-11-04`; empty when unknown. */
  readonly made: string;
}

export type DiaryEvent =
  | ({ readonly type: 'culture' } & CultureRecord)
  /** What the bag was given: a culture of the list (empty: as the recipe says) and mL or g (null: as recorded). */
  | {
      readonly type: 'inoculated';
      readonly bag: BagId;
      readonly culture: string;
      readonly dose: number | null;
    }
  | { readonly type: 'state'; readonly bag: BagId; readonly state: BagState; readonly looks: Looks | null }
  /** Looked at and left as it was. */
  | { readonly type: 'looked'; readonly bag: BagId }
  | { readonly type: 'seal'; readonly bag: BagId; readonly seen: SealSeen }
  | { readonly type: 'weighed'; readonly bag: BagId; readonly kg: number }
  /** Where it stood in the cooker, in the person's words. */
  | { readonly type: 'place'; readonly bag: BagId; readonly place: string }
  | { readonly type: 'photo'; readonly bag: BagId; readonly path: string }
  | { readonly type: 'note'; readonly bag: BagId; readonly text: string }
  /** Temperature of the place where the batch grows, C. */
  | { readonly type: 'warmth'; readonly batch: string; readonly celsius: number }
  | { readonly type: 'taken-back'; readonly entry: string };

export interface DiaryEntry {
  /** Unique among all diaries. */
  readonly id: string;
  readonly wall: WallTime;
  readonly event: DiaryEvent;
}

const BAG_ID = /^(\d{4}[a-z]{1,3})-([1-9]\d{0,2})$/;

export interface BagPlace {
  readonly batch: string;
  readonly number: number;
}
/** The batch and number in a bag's id, or null when it is none. */
export function readBagId(text: string): BagPlace | null {
  const match = BAG_ID.exec(text.trim().toLowerCase());
  return match?.[1] ? { batch: match[1], number: Number(match[2]) } : null;
}
export const bagId = (batch: string, number: number): BagId => `${batch}-${number}`;

/** Longest text of an entry, UTF-16 units. */
export const LONGEST_TEXT = 500;
/** More than any container for grain spawn holds, kg, and any dose, mL or g. */
export const MOST_KG = 20;
export const MOST_DOSE = 5000;
export const CULTURE_KEY = /^[a-z0-9][a-z0-9-]{0,30}$/;
const ENTRY_ID = /^[0-9a-z-]{4,40}$/;
const DAY_TEXT = /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])$/;

export const isDayText = (text: string): boolean => DAY_TEXT.test(text);

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): value is string => typeof value === 'string' && value.length <= LONGEST_TEXT;
const isAmount = (value: unknown, most: number): value is number =>
  typeof value === 'number' && Number.isFinite(value) && value >= 0 && value <= most;
const oneOf = <T extends string>(all: readonly T[], value: unknown): T | undefined =>
  all.find(known => known === value);

function readCulture(value: Record<string, unknown>): DiaryEvent | null {
  const form = oneOf(CULTURE_FORMS, value.form);
  const { key, species, source, made } = value;
  if (!isText(key) || !CULTURE_KEY.test(key) || !isText(species) || !isText(source) || !isText(made) || !form)
    return null;
  return made === '' || isDayText(made) ? { type: 'culture', key, species, source, form, made } : null;
}

function readOfBag(value: Record<string, unknown>): DiaryEvent | null {
  if (!isText(value.bag) || readBagId(value.bag) === null) return null;
  const bag = value.bag;
  switch (value.type) {
    case 'inoculated': {
      const { culture, dose } = value;
      if (!isText(culture) || !(culture === '' || CULTURE_KEY.test(culture))) return null;
      return dose === null || isAmount(dose, MOST_DOSE) ? { type: 'inoculated', bag, culture, dose } : null;
    }
    case 'state': {
      const state = oneOf(BAG_STATES, value.state);
      const looks = value.looks === null ? null : oneOf(LOOKS, value.looks);
      return state && looks !== undefined ? { type: 'state', bag, state, looks } : null;
    }
    case 'looked':
      return { type: 'looked', bag };
    case 'seal': {
      const seen = oneOf(SEALS, value.seen);
      return seen ? { type: 'seal', bag, seen } : null;
    }
    case 'weighed':
      return isAmount(value.kg, MOST_KG) && value.kg > 0 ? { type: 'weighed', bag, kg: value.kg } : null;
    case 'place':
      return isText(value.place) ? { type: 'place', bag, place: value.place } : null;
    case 'photo':
      return isText(value.path) ? { type: 'photo', bag, path: value.path } : null;
    case 'note':
      return isText(value.text) ? { type: 'note', bag, text: value.text } : null;
    default:
      return null;
  }
}

function readEvent(value: unknown): DiaryEvent | null {
  if (!isRecord(value)) return null;
  switch (value.type) {
    case 'culture':
      return readCulture(value);
    case 'warmth': {
      const { batch, celsius } = value;
      if (!isText(batch) || readBagId(`${batch}-1`) === null) return null;
      const sane = typeof celsius === 'number' && celsius >= -20 && celsius <= 60;
      return sane ? { type: 'warmth', batch, celsius } : null;
    }
    case 'taken-back':
      return isText(value.entry) && ENTRY_ID.test(value.entry)
        ? { type: 'taken-back', entry: value.entry }
        : null;
    default:
      return readOfBag(value);
  }
}

/** The entry in a parsed line of the diary, or null when it is none of this version. */
export function readDiaryEntry(value: unknown): DiaryEntry | null {
  if (!isRecord(value) || !isText(value.id) || !ENTRY_ID.test(value.id)) return null;
  const { wall } = value;
  if (typeof wall !== 'number' || !Number.isFinite(wall) || Math.abs(wall) > 8.64e15) return null;
  const event = readEvent(value.event);
  return event ? { id: value.id, wall, event } : null;
}

/** Entries in the order they happened, each once, without those taken back. */
export function validEntries(entries: readonly DiaryEntry[]): readonly DiaryEntry[] {
  const once = new Map<string, DiaryEntry>();
  const gone = new Set<string>();
  for (const entry of entries) {
    once.set(entry.id, entry);
    if (entry.event.type === 'taken-back') gone.add(entry.event.entry);
  }
  const valid: DiaryEntry[] = [];
  for (const entry of once.values()) {
    if (entry.event.type !== 'taken-back' && !gone.has(entry.id)) valid.push(entry);
  }
  return valid.sort((a, b) => a.wall - b.wall || (a.id < b.id ? -1 : 1));
}

/** The cultures of the list by key, as last described. */
export const culturesOf = (entries: readonly DiaryEntry[]): ReadonlyMap<string, CultureRecord> =>
  culturesAmong(
    validEntries(entries.filter(({ event }) => event.type === 'culture' || event.type === 'taken-back')),
  );

/** The same out of entries that are in order and valid already. */
export function culturesAmong(valid: readonly DiaryEntry[]): ReadonlyMap<string, CultureRecord> {
  const cultures = new Map<string, CultureRecord>();
  for (const { event } of valid) {
    if (event.type !== 'culture') continue;
    const { key, species, source, form, made } = event;
    cultures.set(key, { key, species, source, form, made });
  }
  return cultures;
}

/** A key for a new culture: the species in short and month and day, with a number when that is taken. */
export function cultureKey(species: string, made: string, taken: ReadonlySet<string>): string {
  const plain = species
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, 16)
    .replace(/^-+|-+$/g, '');
  const base = `${plain || 'culture'}${made === '' ? '' : `-${made.slice(5).replace('-', '')}`}`;
  for (let count = 1; ; count += 1) {
    const key = count === 1 ? base : `${base}-${count}`;
    if (!taken.has(key)) return key;
  }
}
