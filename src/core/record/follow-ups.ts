/**
 * When to look, to shake, and to expect white grain: ranges of days from inoculation by species and by the
 * temperature where the bags stand.
 *
 * Days to full white grain are the species table's, for about 1 kg at the usual temperature (science notes i,
 * tags carried; strain and inoculum move them by up to 40 %). Below the usual temperature growth is slower: a
 * factor of 1.5 to 2.5 for each 10 C, the usual range of biological rates (from memory, no source opened);
 * above it nothing is promised to be faster. First look on day 3 to 5 and one shake at 20 to 30 % white are
 * common practice; that this is reached after a third to a half of the time is an estimate.
 */
import type { Tag } from '../science/grains.ts';
import { findSpecies, type Species } from '../science/species.ts';
import { DAY, type WallTime } from '../time.ts';
import { type Bag, outcomeOf } from './bags.ts';

export type FollowUpKind = 'look' | 'shake' | 'done' | 'bin';
export const FOLLOW_UP_KINDS = ['look', 'shake', 'done', 'bin'] as const satisfies readonly FollowUpKind[];

export interface DayRange {
  readonly low: number;
  readonly high: number;
}

export interface Growth {
  readonly look: DayRange;
  readonly shake: DayRange;
  readonly done: DayRange;
  /** Null when the species is not in the table; then the ranges are as wide as the table. */
  readonly species: Species | null;
  /** How well the days are known. */
  readonly tag: Tag;
  readonly warmth: 'usual' | 'cool' | 'warm' | 'too cold' | 'too hot' | 'unknown';
}

const LOOK: DayRange = { low: 3, high: 5 };
/** Unknown species: fastest to slowest of the table. */
const ANY_SPECIES: DayRange = { low: 7, high: 35 };
/** A room is at the usual temperature within so many C; the core of a bag runs warmer anyway. */
const NEAR_C = 2;
const SLOWER_PER_10C = { low: 1.5, high: 2.5 } as const;

function warmthOf(species: Species | null, celsius: number | null): Growth['warmth'] {
  if (species === null || celsius === null) return 'unknown';
  const { low, likely, high } = species.incubationC;
  if (celsius < low - NEAR_C) return 'too cold';
  if (celsius > high) return 'too hot';
  if (celsius < likely - NEAR_C) return 'cool';
  return celsius > likely + NEAR_C ? 'warm' : 'usual';
}

/** Ranges for a species as the person writes it; `celsius` is where the bags stand, null when not known. */
export function growthOf(speciesName: string, celsius: number | null): Growth {
  const species = findSpecies(speciesName) ?? null;
  const [low, high] = species?.days ?? [ANY_SPECIES.low, ANY_SPECIES.high];
  const warmth = warmthOf(species, celsius);
  const colder =
    species && celsius !== null && (warmth === 'cool' || warmth === 'too cold')
      ? species.incubationC.likely - celsius
      : 0;
  const done: DayRange = {
    low: Math.round(low * SLOWER_PER_10C.low ** (colder / 10)),
    high: Math.round(high * SLOWER_PER_10C.high ** (colder / 10)),
  };
  const shake: DayRange = {
    low: Math.max(LOOK.low, Math.round(done.low / 3)),
    high: Math.round(done.high / 2),
  };
  return { look: LOOK, shake, done, species, tag: species?.daysTag ?? 'memory', warmth };
}

export interface FollowUp {
  readonly kind: FollowUpKind;
  readonly batch: string;
  readonly bags: readonly Bag[];
  readonly species: string;
  readonly from: WallTime;
  readonly to: WallTime;
  readonly growth: Growth;
}

/** A look before this day shows nothing yet, so it does not count as the first look. */
const EARLIEST_LOOK_DAY = 2;

/** Whether a follow-up of that kind is still wanted for the bag. */
function isWanted(kind: FollowUpKind, bag: Bag): boolean {
  const at = bag.inoculatedWall;
  if (at === null) return false;
  if (kind === 'bin') return bag.standing === 'contaminated';
  if (outcomeOf(bag) !== 'open') return false;
  switch (kind) {
    case 'look':
      // Whoever has shaken it has looked.
      return (
        bag.standing === 'colonising' &&
        (bag.lookedWall === null || bag.lookedWall < at + EARLIEST_LOOK_DAY * DAY)
      );
    case 'shake':
      return bag.standing === 'colonising';
    case 'done':
      return true;
  }
}

interface Group {
  readonly kind: FollowUpKind;
  readonly bags: Bag[];
  /** What the days count from, of the first bag. */
  readonly since: WallTime;
  readonly growth: Growth;
}

/** Bags of one walk are given their culture one after the other; they are looked at together all the same. */
const ONE_WALK = DAY / 2;

const sinceOf = (kind: FollowUpKind, bag: Bag, at: WallTime): WallTime =>
  kind === 'bin' ? (bag.contaminatedWall ?? bag.since) : at;

/** Jars and bags alike: all follow-ups of one batch, bags of one species and one walk together, earliest first. */
export function followUpsOf(bags: readonly Bag[], celsius: number | null): readonly FollowUp[] {
  const wanted = bags.flatMap(bag => {
    const at = bag.inoculatedWall;
    if (at === null) return [];
    const kinds = FOLLOW_UP_KINDS.filter(kind => isWanted(kind, bag));
    return kinds.map(kind => ({ kind, bag, since: sinceOf(kind, bag, at) }));
  });
  const groups: Group[] = [];
  for (const { kind, bag, since } of wanted.sort((a, b) => a.since - b.since)) {
    const group = groups.find(
      ({ kind: same, bags: [first], since: from }) =>
        same === kind &&
        first?.batch === bag.batch &&
        first.species === bag.species &&
        since - from < ONE_WALK,
    );
    if (group) group.bags.push(bag);
    else groups.push({ kind, bags: [bag], since, growth: growthOf(bag.species, celsius) });
  }
  return groups
    .map(({ kind, bags: all, since, growth }) => {
      const range = kind === 'bin' ? { low: 0, high: 1 } : growth[kind];
      const [first] = all;
      return {
        kind,
        batch: first?.batch ?? '',
        bags: all.sort((a, b) => a.number - b.number),
        species: first?.species ?? '',
        from: since + range.low * DAY,
        to: since + range.high * DAY,
        growth,
      };
    })
    .sort((a, b) => a.from - b.from || FOLLOW_UP_KINDS.indexOf(a.kind) - FOLLOW_UP_KINDS.indexOf(b.kind));
}

export type Urgency = 'overdue' | 'today' | 'later';

/** How a follow-up stands at the end of today, which only the edge knows: local midnight as wall time. */
export function urgencyOf({ from, to }: FollowUp, startOfToday: WallTime, endOfToday: WallTime): Urgency {
  if (to < startOfToday) return 'overdue';
  return from < endOfToday ? 'today' : 'later';
}

/** A bag that was found contaminated longer ago than this is not in the house any more, whatever was noted of it. */
const SURELY_GONE = 30 * DAY;

/** What is wanted today, with the bags that nobody has looked at though the days for the first look are past. */
export interface Due extends FollowUp {
  readonly urgency: Urgency;
  readonly unlooked: readonly Bag[];
}

/**
 * What is wanted now, each bag once and with the latest thing wanted of it: whoever shakes looks, and whoever asks
 * whether it is done needs no shake any more. Follow-ups that lie ahead are left out.
 */
export function dueNow(
  followUps: readonly FollowUp[],
  today: { readonly start: WallTime; readonly end: WallTime },
): readonly Due[] {
  const begun = followUps
    .map(followUp => ({ ...followUp, urgency: urgencyOf(followUp, today.start, today.end) }))
    .filter(({ kind, to, urgency }) => {
      const isGone = kind === 'bin' && to < today.start - SURELY_GONE;
      return urgency !== 'later' && !isGone;
    });
  const rank = new Map<string, number>();
  const missed = new Set<string>();
  for (const { kind, bags, urgency } of begun) {
    for (const { id } of bags) {
      rank.set(id, Math.max(rank.get(id) ?? 0, FOLLOW_UP_KINDS.indexOf(kind)));
      if (kind === 'look' && urgency === 'overdue') missed.add(id);
    }
  }
  return begun
    .map(followUp => {
      const bags = followUp.bags.filter(({ id }) => rank.get(id) === FOLLOW_UP_KINDS.indexOf(followUp.kind));
      return { ...followUp, bags, unlooked: bags.filter(({ id }) => missed.has(id)) };
    })
    .filter(({ bags }) => bags.length > 0);
}
