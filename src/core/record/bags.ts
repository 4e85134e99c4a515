/** Every bag of a batch as a thing: what the batch's own journal says of it, and what the diary added later. */
import type { Batch, Container } from '../batch/state.ts';
import type { ContainerKind, CultureForm } from '../recipe/recipe.ts';
import type { CoachTime, WallTime } from '../time.ts';
import {
  type BagId,
  type BagState,
  type CultureRecord,
  type DiaryEntry,
  type DiaryEvent,
  type Looks,
  type SealSeen,
  bagId,
  culturesAmong,
  readBagId,
  validEntries,
} from './diary.ts';
import { type DoseUnit, doseUnitOf } from './inoculation.ts';

/** A bag that never got a culture is empty, torn or left out; the others are in a state of growth. */
export type BagStanding = BagState | 'empty' | 'torn' | 'left out';

export interface Bag {
  readonly id: BagId;
  readonly batch: string;
  readonly number: number;
  readonly load: number;
  readonly kind: ContainerKind;
  /** Where it stood in the cooker; empty when not said. */
  readonly place: string;
  readonly kg: number | null;
  readonly seal: SealSeen | null;
  readonly seamFailures: number;
  readonly torn: boolean;
  /** Out of the person's own list; null for the recipe's. */
  readonly culture: CultureRecord | null;
  readonly species: string;
  readonly form: CultureForm;
  readonly dose: number | null;
  /** What the dose was measured in; another culture named later does not change that. */
  readonly doseUnit: DoseUnit;
  readonly inoculatedWall: WallTime | null;
  readonly standing: BagStanding;
  readonly since: WallTime;
  readonly looks: Looks | null;
  /** When the spawn was first called done; null when it never was. */
  readonly doneWall: WallTime | null;
  readonly contaminatedWall: WallTime | null;
  readonly shakenWall: WallTime | null;
  readonly lookedWall: WallTime | null;
  readonly photos: readonly string[];
  readonly notes: readonly string[];
}

/** Wall time of an instant of the batch, by the clock as it stood when the batch was last heard of. */
export const batchWall = (batch: Batch, t: CoachTime): WallTime => batch.wall + (t - batch.now);

function sealOf(container: Container): SealSeen | null {
  if (container.state === 'torn') return 'torn';
  if (!container.sealed) return null;
  return container.seamFailures > 0 ? 'doubtful' : 'good';
}

function standingOf(container: Container): BagStanding {
  if (container.dose !== null) return 'colonising';
  if (container.state === 'torn') return 'torn';
  return container.leftOut ? 'left out' : 'empty';
}

/** The bag as the batch's journal leaves it. */
function bagOf(batch: Batch, container: Container): Bag {
  const { recipe, id } = batch.header;
  const inoculatedWall = container.dosedAt === null ? null : batchWall(batch, container.dosedAt);
  return {
    id: bagId(id, container.number),
    batch: id,
    number: container.number,
    load: container.load,
    kind: recipe.containers.kind,
    place: '',
    kg: container.kg,
    seal: sealOf(container),
    seamFailures: container.seamFailures,
    torn: container.state === 'torn',
    culture: null,
    species: recipe.culture.species,
    form: recipe.culture.form,
    dose: container.dose,
    doseUnit: doseUnitOf(recipe.culture.form),
    inoculatedWall,
    standing: standingOf(container),
    since: inoculatedWall ?? batch.wall,
    looks: null,
    doneWall: null,
    contaminatedWall: null,
    shakenWall: null,
    lookedWall: null,
    photos: [],
    notes: [],
  };
}

function changedState(bag: Bag, event: Extract<DiaryEvent, { type: 'state' }>, wall: WallTime): Bag {
  const { state } = event;
  const base: Bag = { ...bag, standing: state, since: wall, lookedWall: wall };
  switch (state) {
    case 'colonising':
      // Set back to growing: what was said before was a mistake.
      return { ...base, looks: null, doneWall: null, contaminatedWall: null };
    case 'shaken':
      return { ...base, shakenWall: wall, doneWall: null, contaminatedWall: null, looks: null };
    case 'done':
      return { ...base, doneWall: bag.doneWall ?? wall, contaminatedWall: null, looks: null };
    case 'used':
      return { ...base, doneWall: bag.doneWall ?? wall };
    case 'contaminated':
      return { ...base, contaminatedWall: bag.contaminatedWall ?? wall, looks: event.looks ?? bag.looks };
    case 'discarded':
      return { ...base, looks: event.looks ?? bag.looks };
  }
}

function changed(bag: Bag, { event, wall }: DiaryEntry, cultures: ReadonlyMap<string, CultureRecord>): Bag {
  switch (event.type) {
    case 'inoculated': {
      const culture = cultures.get(event.culture) ?? null;
      const dose = event.dose ?? bag.dose;
      return {
        ...bag,
        culture,
        ...(culture ? { species: culture.species, form: culture.form } : {}),
        dose,
        doseUnit: event.dose === null ? bag.doseUnit : doseUnitOf(culture?.form ?? bag.form),
        inoculatedWall: bag.inoculatedWall ?? (dose === null ? null : wall),
        standing: bag.dose === null && dose !== null && !bag.torn ? 'colonising' : bag.standing,
      };
    }
    case 'state':
      return changedState(bag, event, wall);
    case 'looked':
      return { ...bag, lookedWall: wall };
    case 'seal':
      return { ...bag, seal: event.seen };
    case 'weighed':
      return { ...bag, kg: event.kg };
    case 'place':
      return { ...bag, place: event.place };
    case 'photo':
      return { ...bag, photos: [...bag.photos, event.path], lookedWall: wall };
    case 'note':
      return { ...bag, notes: [...bag.notes, event.text] };
    case 'culture':
    case 'warmth':
    case 'taken-back':
      return bag;
  }
}

/** The diary sorted for looking things up: made once, used for every batch. */
export interface DiaryIndex {
  readonly byBag: ReadonlyMap<BagId, readonly DiaryEntry[]>;
  readonly cultures: ReadonlyMap<string, CultureRecord>;
  /** C, by batch. */
  readonly warmth: ReadonlyMap<string, number>;
}

export function indexDiary(entries: readonly DiaryEntry[]): DiaryIndex {
  const byBag = new Map<BagId, DiaryEntry[]>();
  const warmth = new Map<string, number>();
  const valid = validEntries(entries);
  for (const entry of valid) {
    const { event } = entry;
    if (event.type === 'warmth') warmth.set(event.batch, event.celsius);
    if (!('bag' in event)) continue;
    const list = byBag.get(event.bag);
    if (list) list.push(entry);
    else byBag.set(event.bag, [entry]);
  }
  return { byBag, warmth, cultures: culturesAmong(valid) };
}

/** All bags of a batch. A container that nothing was filled into is none. */
export function bagsOf(batch: Batch, diary: DiaryIndex): readonly Bag[] {
  return batch.containers
    .filter(container => container.kg !== null || batch.finishedAt === null)
    .map(container => {
      const bag = bagOf(batch, container);
      return (diary.byBag.get(bag.id) ?? []).reduce(
        (before, entry) => changed(before, entry, diary.cultures),
        bag,
      );
    });
}

/** Whether a bag became spawn; `open` while nobody can know, `none` when it never got a culture. */
export type Outcome = 'good' | 'lost' | 'open' | 'none';
export function outcomeOf(bag: Bag): Outcome {
  if (bag.inoculatedWall === null) return 'none';
  switch (bag.standing) {
    case 'empty':
    case 'torn':
    case 'left out':
      return 'none';
    case 'done':
    case 'used':
      return 'good';
    case 'contaminated':
      return 'lost';
    case 'discarded':
      // Thrown away once it was done is waste, not loss: the spawn had succeeded.
      return bag.doneWall !== null && bag.contaminatedWall === null ? 'good' : 'lost';
    case 'colonising':
    case 'shaken':
      return 'open';
  }
}

/** Bag ids in the order people read them: by batch, then by number. */
export function byBagId(a: BagId, b: BagId): number {
  const [left, right] = [readBagId(a), readBagId(b)];
  if (!left || !right) return a < b ? -1 : 1;
  if (left.batch === right.batch) return left.number - right.number;
  const week = left.batch.slice(0, 4).localeCompare(right.batch.slice(0, 4));
  return week || left.batch.length - right.batch.length || left.batch.localeCompare(right.batch);
}
