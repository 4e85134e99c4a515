/** Why not, and until when: one sentence for every refusal. */
import { recipeOf } from '../batch/moves.ts';
import type { Refusal } from '../batch/events.ts';
import type { Batch } from '../batch/state.ts';
import type { AskId } from '../batch/steps.ts';
import {
  formatDuration,
  formatMass,
  formatPressure,
  formatTemperature,
  formatVolume,
} from '../quantity-format.ts';
import type { Telling } from './telling.ts';

/** Amount in the unit that the question is asked in. */
function limitText(ask: AskId, limit: number, { units }: Telling): string {
  if (ask === 'cooker-water') return formatVolume(limit, units);
  if (ask === 'inject') return `${limit} ml`;
  return ask === 'climbing' || ask === 'holding' || ask === 'gauge-zero'
    ? formatPressure(limit, units)
    : formatMass(limit, units);
}

/** The sentence for a refusal; waits are told as what is left and the clock time. */
export function refusalWords(batch: Batch, refusal: Refusal, telling: Telling): string {
  const until = refusal.until;
  const left = until === undefined ? '' : formatDuration(Math.max(1, Math.ceil((until - batch.now) / 1000)));
  const clock = until === undefined ? '' : telling.clock(until);
  const limit =
    refusal.limit === undefined
      ? ''
      : refusal.of === 'temperature'
        ? formatTemperature(refusal.limit, telling.units)
        : limitText(batch.ask, refusal.limit, telling);
  switch (refusal.code) {
    case 'other-question':
      return 'That question is over: look at the screen and answer again.';
    case 'no-such-answer':
      return 'That key has no meaning here.';
    case 'answer-first':
      return 'First answer what happened meanwhile.';
    case 'too-soon':
      return `So soon after heat-off a gauge at zero is stuck, or never had pressure. Look again in ${left}.`;
    case 'soaking':
      return `Soaking: earliest in ${left}, at ${clock}. e ends it sooner.`;
    case 'towel-down':
      return `The towel lies ${left} more.`;
    case 'venting':
      return `Air is still leaving: ${left} more, until ${clock}. Only steam that stopped can be answered.`;
    case 'locked-pressure':
      return `Locked ${left} more, until ${clock}: there may be pressure. Nothing opens this part early.`;
    case 'locked-gauge':
      return 'Locked: the gauge has not been answered at zero.';
    case 'locked-pin':
      return 'Locked: first the pin, or the valve without a hiss.';
    case 'locked-cool':
      return `Shut ${left} more, until ${clock}, so that no bag tears and no room air is drawn in. e shows how to open early.`;
    case 'too-much':
      return `That is more than can be meant here: at most ${limit}.`;
    case 'too-little':
      return `That is less than can be meant here: at least ${limit}.`;
    case 'above-filter':
      return `Above ${limit} the grain reaches the filter or the seam, and steam and air cannot pass. Take some out.`;
    case 'above-marked':
      return `Above the ${limit} that the cooker is made for. If the gauge really shows that: heat off NOW, keep away, leave lid and valve alone.`;
    case 'water-below-minimum':
      return `The cooker boils dry below ${limit}: that is the least its maker allows. Pour in more.`;
    case 'water-above-rack':
      return `More than ${limit} reaches the ${recipeOf(batch).containers.kind}s. Keep them above the water.`;
    case 'nothing-filled':
      return `No ${recipeOf(batch).containers.kind} is filled yet. Fill one, or end the batch.`;
    case 'nothing-to-undo':
      return 'Nothing left to take back.';
    case 'word-differs':
      return 'Not the word: nothing was changed.';
    case 'needs-word':
      return 'This needs a typed word, not a key.';
    case 'not-here':
      return 'Not in this step.';
    case 'time-ran-back':
      return 'The clock ran backwards: the answer was not taken. Press again.';
    case 'finished':
      return 'This batch is finished.';
  }
}
