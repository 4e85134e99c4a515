/** The end of a batch in words: what it came to, as far as anybody knows yet. */
import type { Batch } from '../batch/state.ts';
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

function endedWords(batch: Batch): string {
  const why =
    batch.endedEarly === 'water-low' ? 'Ended for want of water' : 'You ended it before its last step';
  return `${why}. Nothing was inoculated and the containers are not ready; the record keeps what happened.`;
}

/** Good, lost and open bags: `4 became spawn, 1 was lost, 1 still grows`. */
export function outcomeWords(bags: readonly Bag[]): string {
  const count = (wanted: string): number => bags.filter(bag => outcomeOf(bag) === wanted).length;
  const [good, lost, open] = [count('good'), count('lost'), count('open')];
  const parts = [
    ...(good > 0 ? [`${good} became spawn`] : []),
    ...(lost > 0 ? [`${lost} ${lost === 1 ? 'was' : 'were'} lost`] : []),
    ...(open > 0 ? [`${open} still ${open === 1 ? 'grows' : 'grow'}`] : []),
  ];
  return parts.join(', ');
}

/** A row of a list: what became of the batch, with what the diary knows where it is at hand. */
export function endText(batch: Batch, bags: readonly Bag[] | null): string {
  const outcomes = bags === null ? '' : outcomeWords(bags);
  if (outcomes !== '') return outcomes;
  if (batch.endedEarly) return 'ended early';
  const dosed = batch.containers.filter(({ dose }) => dose !== null).length;
  return dosed === 0 ? 'nothing inoculated' : `${dosed} inoculated`;
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
  if (isKnown) return `Of ${countOf(dosed, kindOf(batch))} ${outcomeWords(bags ?? [])}.`;
  return `${countOf(dosed, kindOf(batch))} under way. Label ${dosed === 1 ? 'it' : 'them'}, keep ${dosed === 1 ? 'it' : 'them'} dark and at ${dosed === 1 ? 'its' : 'their'} temperature.`;
}
