/**
 * What other sizes of bag would cost in lost grain, from the person's own rates. A bag's risk is taken as
 * p(m) = 1 - (1 - p0)(1 - pk)^m (science notes j): p0 from handling each bag, pk from each kg. With bags of
 * one size only, nobody can tell the two apart; then both extremes are given.
 */
import { recipeOf } from '../batch/moves.ts';
import { batchLoss, type Interval, type Loss } from '../science/statistics.ts';
import { outcomeOf } from './bags.ts';
import { rateOf } from './rates.ts';
import type { RecordedBatch } from './record.ts';

export interface SizeTally {
  /** Planned kg of each bag. */
  readonly kg: number;
  readonly lost: number;
  readonly known: number;
}

/** Lost and known bags by planned size, smallest first. */
export function talliesOf(batches: readonly RecordedBatch[]): readonly SizeTally[] {
  const tallies = new Map<number, { lost: number; known: number }>();
  for (const { batch, bags } of batches) {
    const kg = recipeOf(batch).containers.fillKg;
    const tally = tallies.get(kg) ?? { lost: 0, known: 0 };
    for (const bag of bags) {
      const outcome = outcomeOf(bag);
      if (outcome === 'lost') tally.lost += 1;
      if (outcome === 'lost' || outcome === 'good') tally.known += 1;
    }
    if (tally.known > 0) tallies.set(kg, tally);
  }
  return [...tallies].map(([kg, tally]) => ({ kg, ...tally })).sort((a, b) => a.kg - b.kg);
}

export interface Risk {
  readonly perBag: number;
  readonly perKg: number;
}

/** Survival as exp(-(a + b m)): the likelihood is concave in a and b, so two nested searches find its top. */
function likelihood(tallies: readonly SizeTally[], a: number, b: number): number {
  return tallies.reduce((sum, { kg, lost, known }) => {
    const hazard = a + b * kg;
    // No loss is certain to be impossible: a hazard of exactly zero forbids only what was seen.
    const gone =
      lost === 0 ? 0 : hazard > 0 ? lost * Math.log(-Math.expm1(-hazard)) : Number.NEGATIVE_INFINITY;
    return sum + gone - (known - lost) * hazard;
  }, 0);
}

function top(of: (x: number) => number, most: number): number {
  let [low, high] = [0, most];
  for (let round = 0; round < 80; round += 1) {
    const third = (high - low) / 3;
    if (of(low + third) < of(high - third)) low += third;
    else high -= third;
  }
  return (low + high) / 2;
}

/** exp(-12) survives: more hazard than any record can show. */
const MOST_HAZARD = 12;

/** Risks for which the record is likeliest. RangeError without a known bag. */
export function fitRisk(tallies: readonly SizeTally[]): Risk {
  if (tallies.length === 0) throw new RangeError('No bag with a known outcome: there is no risk to fit.');
  const best = (a: number): number => top(b => likelihood(tallies, a, b), MOST_HAZARD);
  const a = top(x => likelihood(tallies, x, best(x)), MOST_HAZARD);
  return { perBag: -Math.expm1(-a), perKg: -Math.expm1(-best(a)) };
}

export interface SizeForecast {
  readonly bags: number;
  readonly bagKg: number;
  /** One figure when sizes were tried, else the two extremes: all risk by the bag, all by the kg. */
  readonly low: Loss;
  readonly high: Loss;
  /** The same at both ends of the 95 % interval of the share that was lost. */
  readonly least: Loss;
  readonly most: Loss;
}

export interface Forecast {
  readonly known: number;
  readonly lost: number;
  /** 95 % interval of the share lost (Wilson). */
  readonly interval: Interval;
  readonly sizesTried: number;
  /** So few that no figure should be shown. */
  readonly tooFew: boolean;
  readonly risks: readonly Risk[];
  readonly sizes: readonly SizeForecast[];
}

/** Expected loss when `totalKg` is divided into so many bags; null when no outcome is known. */
export function forecast(
  batches: readonly RecordedBatch[],
  totalKg: number,
  counts: readonly number[],
): Forecast | null {
  const tallies = talliesOf(batches);
  const known = tallies.reduce((sum, tally) => sum + tally.known, 0);
  if (known === 0 || !(totalKg > 0)) return null;
  const lost = tallies.reduce((sum, tally) => sum + tally.lost, 0);
  const { interval, tooFew } = rateOf('', lost, known);
  if (!interval) return null;
  const meanKg = tallies.reduce((sum, tally) => sum + tally.kg * tally.known, 0) / known;
  const share = lost / known;
  const risks = tallies.length > 1 ? [fitRisk(tallies)] : extremes(share, meanKg);
  const [bestCase, worstCase] = [interval.low, interval.high].map(bound =>
    shifted(risks, share, bound, meanKg),
  );
  const sizes = counts.map((bags): SizeForecast => {
    const bagKg = totalKg / bags;
    const [low, high] = span(risks, bags, bagKg);
    const [least] = span(bestCase ?? risks, bags, bagKg);
    const [, most] = span(worstCase ?? risks, bags, bagKg);
    return { bags, bagKg, low, high, least, most };
  });
  return { known, lost, interval, sizesTried: tallies.length, tooFew, risks, sizes };
}

/** The smallest and the largest loss under several risks. */
function span(risks: readonly Risk[], bags: number, bagKg: number): readonly [Loss, Loss] {
  const losses = risks
    .map(risk => batchLoss({ bags, bagKg, ...risk }))
    .sort((x, y) => x.expectedKg - y.expectedKg);
  const [low] = losses;
  const high = losses.at(-1);
  if (!low || !high) throw new RangeError('A forecast needs a risk.');
  return [low, high];
}

/** All of a share of lost bags of that weight laid to each bag, and all of it to each kg. */
const extremes = (share: number, kg: number): readonly Risk[] => [
  { perBag: share, perKg: 0 },
  // Everything lost leaves no finite hazard for each kg; it stays everything at any size.
  { perBag: 0, perKg: share === 1 ? 1 : 1 - (1 - share) ** (1 / kg) },
];

const hazardOf = (risk: number): number => -Math.log1p(-risk);

/** The risks as they would be if the share lost were that bound: both hazards larger or smaller by one factor. */
function shifted(risks: readonly Risk[], share: number, bound: number, meanKg: number): readonly Risk[] {
  // Of nothing lost, or everything, no fit can be made larger: then the bound alone speaks.
  if (risks.length > 1 || share === 0 || share === 1 || bound === 1) return extremes(bound, meanKg);
  const factor = hazardOf(bound) / hazardOf(share);
  const scaled = (risk: number): number => -Math.expm1(-hazardOf(risk) * factor);
  return risks.map(({ perBag, perKg }) => ({ perBag: scaled(perBag), perKg: scaled(perKg) }));
}
