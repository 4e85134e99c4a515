/** What the run screen shows, worked out before anything is drawn: texts, captions, pictures. */
import { isAwaitingGauge } from '../core/batch/advance.ts';
import { countOf, type Count, isInDoubt } from '../core/batch/countdown.ts';
import { openAsk, soakEarliest } from '../core/batch/lockout.ts';
import { numbersOf, recipeOf } from '../core/batch/moves.ts';
import type { Batch } from '../core/batch/state.ts';
import { type AskId, choicesOf } from '../core/batch/steps.ts';
import type { TroubleId } from '../core/batch/troubles.ts';
import { wantedNow } from '../core/batch/wanted.ts';
import { awayOutcomes } from '../core/estimate/away.ts';
import { type Estimate, estimateAt } from '../core/estimate/estimate.ts';
import { keptProbe } from '../core/estimate/probe-kept.ts';
import { formatDuration, formatPressure } from '../core/quantity-format.ts';
import { choiceWords } from '../core/words/asks.ts';
import { CAPTIONS } from '../core/words/choice-labels.ts';
import { stepCaution } from '../core/words/cautions.ts';
import { awayWords, dryWords, stoveAdvice } from '../core/words/estimate-advice.ts';
import { isUnderVacuum, VACUUM_WORDS } from '../core/words/estimate-cool.ts';
import { keepOffer } from '../core/words/estimate-probe.ts';
import type { Telling } from '../core/words/telling.ts';
import { troubleWords } from '../core/words/troubles.ts';
import type { Ink } from './spans.ts';
import type { PicturedChoice } from './widgets/choice-row.tsx';
import type { KeyLabel } from './widgets/frame.tsx';
import { wrapAtMost, wrapLines } from './wrap.ts';

/** A name as it begins a sentence. */
const sentence = (name: string): string => `${name.charAt(0).toUpperCase()}${name.slice(1)}`;

/** Questions under which the estimate is shown. */
const AT_THE_STOVE: readonly AskId[] = ['climbing', 'holding', 'flame', 'gauge-zero', 'shut'];

/** The estimate that belongs on the screen now, or null. */
export function estimateShown(batch: Batch): Estimate | null {
  return AT_THE_STOVE.includes(openAsk(batch)) ? estimateAt(batch) : null;
}

export interface Warning {
  readonly lines: readonly string[];
  readonly ink: Ink;
}

/** Under the instruction: the deviation just noted, or advice of the moment, or the caution of the step. */
export function warningOf(
  batch: Batch,
  told: TroubleId | null,
  telling: Telling,
  { width, most }: { readonly width: number; readonly most: number },
): Warning {
  const dry = dryWords(batch);
  if (dry) return { lines: wrapLines(dry, width), ink: 'watch' };
  // A dip that is over already is told by what it cost.
  const isOver = told === 'dip' && typeof batch.dips.at(-1)?.to === 'number';
  if (told && !isOver) {
    const { name, means, act } = troubleWords(told, batch);
    // What it means and what to do is said whole, whatever else has to give way.
    const lines = [...wrapLines(`${sentence(name)}: ${means}`, width), ...wrapLines(act, width)];
    return { lines, ink: 'watch' };
  }
  const advice = stoveAdvice(batch, telling);
  if (advice) return { lines: wrapLines(advice, width), ink: 'watch' };
  if (isUnderVacuum(batch)) return { lines: wrapLines(VACUUM_WORDS, width), ink: 'watch' };
  const fit = batch.finishedAt !== null ? keptProbe(batch) : null;
  if (fit) return { lines: wrapAtMost(keepOffer(batch, fit), width, 2), ink: 'watch' };
  const caution = stepCaution(batch);
  return { lines: caution ? wrapAtMost(caution, width, most) : [], ink: 'faint' };
}

/** What each answer about unwatched time would mean, in the order of the keys. */
export function outcomeLines(
  batch: Batch,
  telling: Telling,
): readonly (KeyLabel & { readonly means: string })[] {
  if (openAsk(batch) !== 'away-gauge') return [];
  const outcomes = awayOutcomes(batch);
  return answersOf(batch, telling).flatMap((answer, index) => {
    const outcome = outcomes[index];
    return outcome ? [{ ...answer, means: awayWords(outcome, telling) }] : [];
  });
}

/** Which picture set belongs to a question; jars have their own cracks. */
function pictureSet(batch: Batch, ask: AskId): string | null {
  switch (ask) {
    case 'climbing':
    case 'holding':
      return 'gauge';
    case 'lifted':
      return recipeOf(batch).containers.kind === 'jar' ? 'jar' : 'bag';
    case 'kernel-centre':
    case 'burst':
    case 'towel':
    case 'steam':
    case 'warmth':
    case 'pin':
      return ask;
    default:
      return null;
  }
}

/** Pictured answers of the open question, in the order of their keys. */
export function picturesOf(batch: Batch, telling: Telling): readonly PicturedChoice[] {
  const ask = openAsk(batch);
  const set = pictureSet(batch, ask);
  if (set === null) return [];
  return choicesOf(ask)
    .filter(({ id }) => id !== 'reading' && !id.startsWith('rest-'))
    .map(({ id, key }) => ({
      key,
      says: choiceWords(batch, ask, id, telling),
      brief: CAPTIONS[`${ask}/${id}`] ?? choiceWords(batch, ask, id, telling),
      picture: [set, set === 'jar' && id === 'torn' ? 'cracked' : id],
    }));
}

/** The live answers as key and name. */
export function answersOf(batch: Batch, telling: Telling): readonly KeyLabel[] {
  const ask = openAsk(batch);
  return choicesOf(ask).map(({ id, key }) => ({
    shown: key === 'space' ? 'Space' : key,
    says: choiceWords(batch, ask, id, telling),
  }));
}

function countCaptions(batch: Batch, count: Count, telling: Telling): readonly string[] {
  const until = count.until === null ? null : `until ${telling.clock(count.until)}`;
  const total = count.totalMs === null ? '' : formatDuration(Math.round(count.totalMs / 1000));
  const join = (...lines: (string | null)[]): readonly string[] => lines.filter(line => line !== null);
  switch (count.of) {
    case 'soak':
      return batch.now < soakEarliest(batch)
        ? join('until it may end', until)
        : join('until it must end', until);
    case 'look':
      return join('to the next look', until);
    case 'simmer':
      return join('simmering', 'time to look');
    case 'stir':
      return join('to the next stir', until);
    case 'towel':
      return join('towel lies', count.ms === 0 ? 'lift it' : null);
    case 'vent':
      return count.ms === 0 ? join('vented', 'close the valve') : join(`left of ${total}`, until);
    case 'climb':
      return join('climbing to', formatPressure(numbersOf(batch).targetKPa, telling.units));
    case 'hold':
      if (count.running) return join(`left of ${total}`, until);
      return join(`left of ${total}`, isAwaitingGauge(batch) ? 'answer the gauge' : 'standing still');
    case 'overrun':
      return join('over time', 'heat off');
    case 'pressure-lock':
      return join('locked: pressure', until);
    case 'cool-lock':
      return join('shut to cool', until);
    case 'wait':
      return join('waiting');
  }
}

export interface CountShown {
  readonly count: Count;
  readonly captions: readonly string[];
  readonly ink: Ink;
}

const INKS = { wanted: 'watch', soon: 'strong', well: 'good', danger: 'danger' } as const;

/** The number on the screen; none while a doubt about time is open. */
export function countShown(batch: Batch, telling: Telling): CountShown | null {
  if (isInDoubt(batch)) return null;
  const count = countOf(batch);
  if (!count) return null;
  const wanted = wantedNow(batch);
  return {
    count,
    captions: countCaptions(batch, count, telling),
    ink: wanted ? INKS[wanted.kind] : count.running ? 'strong' : 'faint',
  };
}
