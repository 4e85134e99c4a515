/** The end of a batch in words: what it came to, as far as anybody knows yet. */
import type { Batch, EndedEarly } from '../batch/state.ts';
import { type Bag, outcomeOf } from '../record/bags.ts';
import { countOf } from './count.ts';

/** What stands over the last screen: only a batch that went all the way is done. */
export function doneTitle(batch: Batch): string {
  if (batch.endedEarly) return 'Ended early';
  return batch.containers.some(({ dose }) => dose !== null) ? 'Done' : 'Nothing inoculated';
}

const kindOf = (batch: Batch): string => batch.header.recipe.containers.kind;

/** Why there is nothing that grows: `2 bags were torn, 1 bag was left out`. */
function fates(batch: Batch): string {
  const kind = kindOf(batch);
  const were = (count: number, what: string): string[] =>
    count === 0 ? [] : [`${countOf(count, kind)} ${count === 1 ? 'was' : 'were'} ${what}`];
  const torn = batch.containers.filter(({ state }) => state === 'torn').length;
  const leftOut = batch.containers.filter(container => container.leftOut).length;
  return [...were(torn, 'torn'), ...were(leftOut, 'left out')].join(', ');
}

const ENDED: Readonly<Record<EndedEarly, string>> = {
  'by-choice': 'You ended it before its last step',
  'water-low': 'Ended for want of water',
  'over-pressure': 'Ended because the pressure was over the mark',
  'vent-blocked': 'Ended because the vent may be blocked',
  'hold-cut-short': 'The hold was cut short',
};

function endedWords(batch: Batch): string {
  const why = ENDED[batch.endedEarly ?? 'by-choice'];
  // Common practice, no source.
  const grain = batch.times.some(({ step }) => step === 'drain')
    ? ' Wet grain that was not held spoils within a day: keep it cold and run it again tomorrow, or throw it away.'
    : '';
  return `${why}. Nothing was inoculated.${grain}`;
}

/** Bags by what became of them, those without a culture by why they got none; a count of 0 is left out. */
function tally(bags: readonly Bag[]): readonly (readonly [what: string, count: number])[] {
  const count = (wanted: string): number => bags.filter(bag => outcomeOf(bag) === wanted).length;
  const none = (standing: string): number =>
    bags.filter(bag => outcomeOf(bag) === 'none' && bag.standing === standing).length;
  const torn = none('torn');
  const leftOut = none('left out');
  const all: readonly (readonly [string, number])[] = [
    ['good', count('good')],
    ['lost', count('lost')],
    ['open', count('open')],
    ['torn', torn],
    ['left out', leftOut],
    ['never inoculated', count('none') - torn - leftOut],
  ];
  return all.filter(([, many]) => many > 0);
}

/** Every bag once, in few words: `2 good, 1 lost, 1 torn`; nothing for no bags. */
export const briefOutcomes = (bags: readonly Bag[]): string =>
  tally(bags)
    .map(([what, many]) => `${many} ${what}`)
    .join(', ');

/** Every bag once: `4 became spawn, 1 was lost, 1 still grows, 1 was torn`; nothing where none got a culture. */
export function outcomeWords(bags: readonly Bag[]): string {
  if (bags.every(bag => outcomeOf(bag) === 'none')) return '';
  const words = ([what, many]: readonly [string, number]): string => {
    const were = many === 1 ? 'was' : 'were';
    if (what === 'good') return `${many} became spawn`;
    if (what === 'open') return `${many} still ${many === 1 ? 'grows' : 'grow'}`;
    return `${many} ${were} ${what}`;
  };
  return tally(bags).map(words).join(', ');
}

/** A row of a list: what became of the batch, with what the diary knows where it is at hand. */
export function endText(batch: Batch, bags: readonly Bag[] | null): string {
  const outcomes = bags === null ? '' : outcomeWords(bags);
  if (outcomes !== '') return outcomes;
  if (batch.endedEarly) return 'ended early';
  const dosed = batch.containers.filter(({ dose }) => dose !== null).length;
  return dosed === 0 ? 'nothing inoculated' : `${dosed} inoculated`;
}

/** The same with the number of deviations that stand. */
export function endWithDeviations(batch: Batch, bags: readonly Bag[] | null): string {
  const noted = batch.deviations.filter(({ takenBack }) => !takenBack).length;
  return `${endText(batch, bags)}${noted === 0 ? '' : `, ${countOf(noted, 'deviation')}`}`;
}

/** The sentence of the last screen. `bags` are those of the record, with their outcomes; null where none is kept. */
export function doneWords(batch: Batch, bags: readonly Bag[] | null): string {
  const outcomes = (bags ?? []).map(outcomeOf);
  const isKnown = outcomes.includes('good') || outcomes.includes('lost');
  const dosed = bags
    ? outcomes.filter(outcome => outcome !== 'none').length
    : batch.containers.filter(({ dose }) => dose !== null).length;
  if (dosed === 0) {
    if (batch.endedEarly) return endedWords(batch);
    const why = fates(batch);
    return `No ${kindOf(batch)} was inoculated${why === '' ? '' : `: ${why}`}. The record keeps what happened.`;
  }
  if (isKnown) return `Of ${countOf(bags?.length ?? 0, kindOf(batch))} ${outcomeWords(bags ?? [])}.`;
  const apart = fates(batch);
  return `${countOf(dosed, kindOf(batch))} under way${apart === '' ? '' : `; ${apart}`}. Label ${dosed === 1 ? 'it' : 'them'}, keep ${dosed === 1 ? 'it' : 'them'} dark and at ${dosed === 1 ? 'its' : 'their'} temperature.`;
}
