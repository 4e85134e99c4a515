/** What the record says, sentence by sentence: bags, hints, changes, rates, follow-ups. */
import type { Units } from '../kitchen.ts';
import { formatMass, trimmed } from '../quantity-format.ts';
import type { Bag, BagStanding, Outcome } from '../record/bags.ts';
import type { Cost } from '../record/cost.ts';
import type { CultureRecord, Looks } from '../record/diary.ts';
import { type Due, type FollowUp, type FollowUpKind, type Growth, growthOf } from '../record/follow-ups.ts';
import type { Forecast } from '../record/loss.ts';
import { apart, type Rate } from '../record/rates.ts';
import type { Loss } from '../science/statistics.ts';
import { findSpecies } from '../science/species.ts';
import type { WallTime } from '../time.ts';
import { countOf } from './count.ts';

export const STANDING_NAMES: Readonly<Record<BagStanding, string>> = {
  empty: 'not inoculated',
  torn: 'torn',
  'left out': 'left out',
  colonising: 'colonising',
  shaken: 'shaken',
  done: 'done',
  contaminated: 'contaminated',
  used: 'used',
  discarded: 'discarded',
};

export const LOOKS_NAMES: Readonly<Record<Looks, string>> = {
  green: 'green',
  black: 'black',
  sour: 'wet and sour',
  other: 'something else',
};

export const OUTCOME_NAMES: Readonly<Record<Outcome, string>> = {
  good: 'became spawn',
  lost: 'lost',
  open: 'not known yet',
  none: 'never inoculated',
};

export const standingText = ({ standing, looks }: Pick<Bag, 'standing' | 'looks'>): string =>
  standing === 'contaminated' && looks
    ? `${STANDING_NAMES[standing]}, ${LOOKS_NAMES[looks]}`
    : STANDING_NAMES[standing];

/** `5 ml`, `100 g`, or nothing when no culture was given. */
export const doseText = ({ dose, doseUnit }: Pick<Bag, 'dose' | 'doseUnit'>): string =>
  dose === null ? '' : `${trimmed(dose, 1)} ${doseUnit}`;

/** What it was given, by the list's key or the recipe's species: nothing for a bag that got no culture. */
export const cultureText = ({
  inoculatedWall,
  culture,
  species,
}: Pick<Bag, 'inoculatedWall' | 'culture' | 'species'>): string =>
  inoculatedWall === null ? '' : (culture?.key ?? (species || 'no species'));

/** Everything known of a culture of the list: `oyster-1104: oyster, liquid culture, own, 2026-11-04`. */
export const cultureInFull = ({ key, species, form, source, made }: CultureRecord): string =>
  `${key}: ${[species, form, source, made].filter(text => text !== '').join(', ')}`;

/** What was given and how much, `oyster, 5 ml`; nothing for a bag that got none. */
export const givenText = (
  bag: Pick<Bag, 'inoculatedWall' | 'culture' | 'species' | 'dose' | 'doseUnit'>,
): string => [cultureText(bag), doseText(bag)].filter(text => text !== '').join(', ');

/** How to handle a contaminated bag (science notes k 8: public-health sources, read). */
export const CONTAMINATED_CAUTION =
  'Keep it closed and do not sniff it: mould spores are not to be inhaled. Carry it out in another bag and bin it there, or sterilise it shut before opening. Wash hands before you touch clean bags.';

/** `8 of 10 good, 80 %: between 49 and 94 %`, or that it is too few to tell. */
export function rateWords(rate: Rate): string {
  if (!rate.interval || rate.share === null) return 'nothing known yet';
  const percent = (share: number): string => trimmed(share * 100, 0);
  const between = `between ${percent(rate.interval.low)} and ${percent(rate.interval.high)} %`;
  const counted = `${rate.good} of ${rate.known} good`;
  return rate.tooFew
    ? `${counted}: too few to tell (${between})`
    : `${counted}, ${percent(rate.share)} %: ${between}`;
}

/** What the best-known two groups say of one another; empty when there are not two. */
export function contrastWords([first, second]: readonly Rate[]): string {
  if (!first?.interval || !second?.interval) return '';
  if (first.tooFew || second.tooFew) return 'Too few to tell them apart.';
  if (!apart(first, second))
    return `${first.name} and ${second.name} cannot be told apart: their ranges meet.`;
  const [better, worse] = first.interval.low > second.interval.high ? [first, second] : [second, first];
  return `${better.name} does better than ${worse.name} here: their ranges do not meet.`;
}

export const FOLLOW_UP_NAMES: Readonly<Record<FollowUpKind, string>> = {
  look: 'look',
  shake: 'shake',
  done: 'is it done?',
  bin: 'throw away',
};

const WHAT_TO_DO: Readonly<Record<FollowUpKind, string>> = {
  look: 'Look through the film without opening: white threads are right; green, black or wet patches are not.',
  shake:
    'Look through the film first; then shake once, when a fifth to a third is white, so that white kernels lie everywhere.',
  done: 'White all through? Then it is spawn: use it or keep it cool.',
  bin: CONTAMINATED_CAUTION,
};
export const followUpAct = ({ kind }: Pick<FollowUp, 'kind'>): string => WHAT_TO_DO[kind];

/** Of a species that the table does not have, which days stand in; null for a known one or none. */
export function speciesNote(species: string): string | null {
  if (species.trim() === '' || findSpecies(species)) return null;
  const { look, done } = growthOf(species, null);
  return `The species "${species}" is not known here: general ranges are used, look on day ${look.low} to ${look.high}, done on day ${done.low} to ${done.high}.`;
}

/** How sure the dates are, in a phrase. */
export function growthWords({ species, tag, warmth }: Growth): string {
  if (!species) return 'species not in the table: the widest range stands in';
  const known = tag === 'read' ? 'days as published' : 'days by common practice';
  const room: Readonly<Record<Growth['warmth'], string>> = {
    usual: '',
    unknown: '',
    cool: ', stretched for a cool room',
    warm: ', warmer than usual: watch for heat inside',
    'too cold': ', colder than this species is grown: it may stall',
    'too hot': ', hotter than this species bears: cool the room',
  };
  return `${known}${room[warmth]}; strain and amount move them by up to 40 %`;
}

/** What other bag sizes would lose, in lines; no figure where the record is too small for one. */
export function forecastLines(loss: Forecast, units: Units): readonly string[] {
  const { known, lost, interval, sizesTried, tooFew, sizes } = loss;
  const percent = (share: number): string => trimmed(share * 100, 0);
  const between = `between ${percent(interval.low)} and ${percent(interval.high)} %`;
  const counted = `${lost} of ${countOf(known, 'bag')} lost`;
  if (tooFew) return [`Expected loss: too few to tell (${counted}: ${between})`];
  const span = (low: string, high: string): string => (low === high ? low : `${low} to ${high}`);
  const lines = sizes.map(({ bags, bagKg, low, high, least, most }) => {
    const mass = (from: Loss, to: Loss): string =>
      span(formatMass(from.expectedKg, units), formatMass(to.expectedKg, units));
    const any = (...losses: readonly Loss[]): string => {
      const shares = losses.map(each => each.any);
      return span(percent(Math.min(...shares)), percent(Math.max(...shares)));
    };
    return `  ${bags} of ${formatMass(bagKg, units)}: ${mass(low, high)} lost on average (${mass(least, most)}); some loss in ${any(low, high)} % of batches (${any(least, most)})`;
  });
  const why =
    sizesTried > 1
      ? '  Fitted to the sizes you tried.'
      : '  You tried one size only: the range is from "every bag risks the same" to "every kg risks the same".';
  return [
    `Expected loss, from ${counted}, ${between}`,
    ...lines,
    why,
    '  In brackets: at both ends of that range.',
  ];
}

/** Where prices belong, while none is known. */
export const NO_COST =
  'No cost yet: prices of grain, containers and culture go into the kitchen (k at home, or "stovehand kitchen"), and count for the batches after that.';

/** Torn and left out before any culture: losses too, but no outcome that a rate could count. */
export function uncountedWords(bags: readonly Bag[]): string {
  const torn = bags.filter(bag => bag.standing === 'torn').length;
  const leftOut = bags.filter(bag => bag.standing === 'left out').length;
  const parts = [...(torn > 0 ? [`${torn} torn`] : []), ...(leftOut > 0 ? [`${leftOut} left out`] : [])];
  return parts.length === 0 ? '' : `Lost before any culture, and in no rate: ${parts.join(', ')}.`;
}

/** What a good bag has cost. */
export function costWords({ currency, total, perGood, good, open, boughtEach }: Cost): string {
  const money = (amount: number): string => `${amount.toFixed(2)}${currency === '' ? '' : ` ${currency}`}`;
  if (perGood === null) return `Cost so far ${money(total)}; no bag is known to be good yet.`;
  const still = open > 0 ? `, ${open} still open` : '';
  const bought = boughtEach === null ? '' : ` A bought one: ${money(boughtEach)}.`;
  return `A good bag has cost ${money(perGood)} (${money(total)} for ${good}${still}).${bought}`;
}

/** `1, 2, 3`, and `1 to 24` where four or more follow one another. */
function runsText(numbers: readonly number[]): string {
  const runs: number[][] = [];
  for (const number of numbers) {
    const run = runs.at(-1);
    if (run?.at(-1) === number - 1) run.push(number);
    else runs.push([number]);
  }
  return runs.map(run => (run.length > 3 ? `${run[0]} to ${run.at(-1)}` : run.join(', '))).join(', ');
}

/** `bags 1, 2, 3`, `bags 1 to 8`, `jar 4`. */
export function bagsText(bags: readonly Pick<Bag, 'kind' | 'number'>[]): string {
  const kind = bags[0]?.kind ?? 'bag';
  return `${kind}${bags.length === 1 ? '' : 's'} ${runsText(bags.map(({ number }) => number))}`;
}

/** Bags that are to be shaken, or asked whether they are done, before anybody looked: they may be lost long ago. */
function unlookedText({ kind, bags, unlooked }: Due): string {
  if (kind === 'look' || unlooked.length === 0) return '';
  return unlooked.length === bags.length ? ' · never looked at' : ` · ${bagsText(unlooked)} never looked at`;
}

const NEXT_NAMES: Readonly<Record<FollowUpKind, string>> = {
  look: 'look',
  shake: 'shake',
  done: 'see whether it is white all through',
  bin: 'throw away',
};

/** When a follow-up is wanted, as `shake, from 5 Dec 2026`; what is past is due. */
export function nextWords(
  { kind, from }: Pick<FollowUp, 'kind' | 'from'>,
  startOfToday: WallTime,
  date: (wall: WallTime) => string,
): string {
  return `${NEXT_NAMES[kind]}, ${from < startOfToday ? 'due since' : 'from'} ${date(from)}`;
}

/** One line for a follow-up that is due: what, which batch, which bags. */
export function dueLine(followUp: Due): string {
  const { kind, batch, species, bags, urgency } = followUp;
  const late = urgency === 'overdue' ? 'late: ' : '';
  return `${late}${FOLLOW_UP_NAMES[kind]} · ${batch}${species ? ` ${species}` : ''} · ${bagsText(bags)}${unlookedText(followUp)}`;
}
