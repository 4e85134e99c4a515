/** What a typed line means in plain mode. */
import { WORDS } from '../core/batch/machine.ts';
import { openAsk } from '../core/batch/lockout.ts';
import type { Run } from '../core/batch/state.ts';
import { choicesOf } from '../core/batch/steps.ts';
import { causesOf } from '../core/batch/troubles.ts';
import type { Units } from '../core/kitchen.ts';
import type { Deed } from '../core/session.ts';
import { troubleWords } from '../core/words/troubles.ts';
import { amountOf, measureFor } from '../face/amounts.ts';
import { endingsOf } from '../face/run-keys.ts';
import { needsWord, SURE_WORD, troubleEntries } from '../face/trouble-list.ts';
import type { TroubleId } from '../core/batch/troubles.ts';

export type PlainAct =
  | { readonly kind: 'deed'; readonly deed: Deed }
  | { readonly kind: 'say'; readonly says: string }
  | { readonly kind: 'wait' }
  | { readonly kind: 'numbers' }
  | { readonly kind: 'keep-probe' }
  | { readonly kind: 'again' }
  | { readonly kind: 'help' }
  | { readonly kind: 'leave' };

export const PLAIN_HELP = [
  'Enter: the plain answer.  1 to 4: an answer by its number; with an amount, as in: 4 15.5',
  'n: the estimate in words.  m 63.5: a thermometer in a container; m vessel 80: against the vessel.  k: keep what it measured.',
  't: list troubles; t 2: that one happened; t 1 off: one that ends the batch.  e: ways to end early; e end: do it, by its word.',
  'u: take back the last answer.  wait: until something is due.  s: say it again.  q: leave, the batch goes on.',
].join('\n');

const say = (says: string): PlainAct => ({ kind: 'say', says });

/** What ends the batch wants its word after it, as on the screen; null where none is missing. */
function wantsWord(run: Run, id: TroubleId, line: string, sure: string | undefined): PlainAct | null {
  if (!needsWord(id) || sure === SURE_WORD) return null;
  const { name, act } = troubleWords(id, run.batch);
  return say(`${name}: ${act} That ends the batch: ${line} ${SURE_WORD}`);
}

function troubleLine(run: Run, word: string | undefined, sure: string | undefined): PlainAct {
  const troubles = troubleEntries(run.batch);
  if (word === undefined) {
    if (troubles.length === 0) return say('Nothing is listed for this step.');
    const lines = troubles.map(({ id }, index) => `t ${index + 1}: ${troubleWords(id, run.batch).name}`);
    return say([...lines, ...(run.batch.step === 'climb' ? [CAUSES_HINT] : [])].join('\n'));
  }
  const chosen = troubles[Number(word) - 1];
  if (!chosen) return say('No trouble of that number here.');
  return wantsWord(run, chosen.id, `t ${word}`, sure) ?? { kind: 'deed', deed: chosen.deed };
}

const CAUSES_HINT = 'c: why the pressure will not climb, the likeliest cause first';

function causeLine(run: Run, word: string | undefined, sure: string | undefined): PlainAct {
  if (run.batch.step !== 'climb') return say('Causes are listed while the pressure climbs.');
  const causes = causesOf('will-not-climb');
  if (word === undefined) {
    return say(
      causes
        .map(
          ({ id }, index) =>
            `c ${index + 1}: ${troubleWords(id, run.batch).name}. ${troubleWords(id, run.batch).act}`,
        )
        .join('\n'),
    );
  }
  const chosen = causes[Number(word) - 1];
  if (!chosen) return say('No cause of that number.');
  const deed: Deed = { type: 'trouble', trouble: chosen.id };
  return wantsWord(run, chosen.id, `c ${word}`, sure) ?? { kind: 'deed', deed };
}

/** `m 63.5` in a container, `m vessel 80` against the vessel. */
function thermometerLine(words: readonly string[], units: Units): PlainAct {
  const of = words[0] === 'vessel' ? 'vessel' : 'centre';
  const celsius = numberIn(words.at(-1) ?? '', measureFor('temperature', units));
  return Number.isFinite(celsius)
    ? { kind: 'deed', deed: { type: 'measured', of, celsius } }
    : say('A reading in a container: m 63.5; against the vessel in the lock: m vessel 80');
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

/** The number a text begins with, in inside units; NaN when there is none. */
const numberIn = (text: string, scale: ReturnType<typeof measureFor>): number =>
  amountOf(/^(\d+(?:[.,]\d+)?)/.exec(text)?.[1]?.replace(',', '.') ?? '', scale);

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
  const amount = numberIn(rest, scale);
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
      return troubleLine(run, more[0], more[1]);
    case 'c':
      return causeLine(run, more[0], more[1]);
    case 'm':
      return thermometerLine(more, units);
    case 'n':
      return { kind: 'numbers' };
    case 'k':
      return { kind: 'keep-probe' };
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
