/** What a typed line means in plain mode. */
import { WORDS } from '../core/batch/machine.ts';
import { openAsk } from '../core/batch/lockout.ts';
import type { Run } from '../core/batch/state.ts';
import { choicesOf } from '../core/batch/steps.ts';
import { troublesIn } from '../core/batch/troubles.ts';
import type { Units } from '../core/kitchen.ts';
import type { Deed } from '../core/session.ts';
import { TROUBLE_WORDS } from '../core/words/troubles.ts';
import { amountOf, measureFor } from '../face/amounts.ts';
import { endingsOf } from '../face/run-keys.ts';

export type PlainAct =
  | { readonly kind: 'deed'; readonly deed: Deed }
  | { readonly kind: 'say'; readonly says: string }
  | { readonly kind: 'wait' }
  | { readonly kind: 'again' }
  | { readonly kind: 'help' }
  | { readonly kind: 'leave' };

export const PLAIN_HELP = [
  'Enter: the plain answer.  1 to 4: an answer by its number; with an amount, as in: 4 15.5',
  't: list troubles; t 2: that one happened.  e: ways to end early; e end: do it, by its word.',
  'u: take back the last answer.  wait: until something is due.  s: say it again.  q: leave, the batch goes on.',
].join('\n');

const say = (says: string): PlainAct => ({ kind: 'say', says });

function troubleLine(run: Run, word: string | undefined): PlainAct {
  const troubles = troublesIn(run.batch.step);
  if (word === undefined) {
    if (troubles.length === 0) return say('Nothing is listed for this step.');
    return say(troubles.map(({ id }, index) => `t ${index + 1}: ${TROUBLE_WORDS[id].name}`).join('\n'));
  }
  const chosen = troubles[Number(word) - 1];
  return chosen
    ? { kind: 'deed', deed: { type: 'trouble', trouble: chosen.id } }
    : say('No trouble of that number here.');
}

function endingLine(run: Run, word: string | undefined): PlainAct {
  const endings = endingsOf(run.batch);
  if (word === undefined)
    return say(endings.map(purpose => `e ${WORDS[purpose]}: ${purpose.replace('-', ' ')}`).join('\n'));
  const purpose = endings.find(known => WORDS[known] === word);
  return purpose
    ? { kind: 'deed', deed: { type: 'typed', purpose, word } }
    : say('Not a word that ends something here.');
}

function answerLine(run: Run, key: string, rest: string, units: Units): PlainAct {
  const ask = openAsk(run.batch);
  const choice = choicesOf(ask).find(entry => entry.key === key);
  if (!choice)
    return say(key === 'space' ? 'This is a judgement: answer it with its number.' : 'No such answer here.');
  if (choice.id === 'clock-right') {
    return rest === WORDS['clock-right']
      ? { kind: 'deed', deed: { type: 'typed', purpose: 'clock-right', word: rest } }
      : say(`To vouch for the clock write: 1 ${WORDS['clock-right']}`);
  }
  const deed: Deed = { type: 'answer', ask, choice: choice.id };
  if (!choice.amount) return { kind: 'deed', deed };
  const scale = measureFor(choice.amount, units);
  const number = /^(\d+(?:[.,]\d+)?)/.exec(rest)?.[1]?.replace(',', '.') ?? '';
  const amount = amountOf(number, scale);
  return Number.isFinite(amount)
    ? { kind: 'deed', deed: { ...deed, amount } }
    : say(`That answer needs a number in ${scale.unit}, as in: ${key} 2.5`);
}

/** The act in a line. */
export function readLine(run: Run, line: string, units: Units): PlainAct {
  const [word = '', ...more] = line.trim().toLowerCase().split(/\s+/);
  switch (word) {
    case '':
      return answerLine(run, 'space', '', units);
    case '1':
    case '2':
    case '3':
    case '4':
      return answerLine(run, word, more.join(' '), units);
    case 't':
      return troubleLine(run, more[0]);
    case 'e':
      return endingLine(run, more[0]);
    case 'u':
      return { kind: 'deed', deed: { type: 'undo' } };
    case 'wait':
      return { kind: 'wait' };
    case 's':
      return { kind: 'again' };
    case 'q':
      return { kind: 'leave' };
    case '?':
      return { kind: 'help' };
    default:
      return say('That line means nothing here. ? lists what does.');
  }
}
