/** Keys of the trouble list, of the causes below a trouble, and of the word that ends a batch. */
import type { Batch } from '../core/batch/state.ts';
import type { TroubleId } from '../core/batch/troubles.ts';
import type { Deed } from '../core/session.ts';
import type { KeyName } from './keys.ts';
import type { Panel, Pressed } from './run-keys.ts';
import { causesOn, hasCauses, needsWord, reporting, SURE_WORD, troublesOn } from './trouble-list.ts';

const BACK: Panel = { kind: 'ask' };
export const NOT_THE_WORD = 'Not the word: nothing was changed. Esc goes back.';
const LONGEST_WORD = 12;

/** A word with one more key in it; null when it is given up. */
export function typeWord(text: string, key: KeyName): string | null {
  if (key === 'esc') return null;
  if (key === 'backspace') return text.slice(0, -1);
  return /^[a-z]$/.test(key) && text.length < LONGEST_WORD ? text + key : text;
}

/** One trouble of a list: what ends the batch wants a word first, so that no two quick keys end it. */
function chosenOf(id: TroubleId, deed: Deed): Pressed {
  if (needsWord(id)) return { panel: { kind: 'ends', trouble: id, text: '' } };
  return { panel: hasCauses(id) ? { kind: 'causes', of: id, page: 0 } : BACK, deed };
}

export function onTrouble(panel: Extract<Panel, { kind: 'trouble' }>, batch: Batch, key: KeyName): Pressed {
  if (key === 'e') return { panel: { kind: 'ending' } };
  if (key === 'esc' || key === 't' || key === 'q') return { panel: BACK };
  const { entries, more } = troublesOn(batch, panel.page);
  if (key === '4' && more) return { panel: { ...panel, page: panel.page + 1 } };
  const chosen = entries[Number(key) - 1];
  return chosen ? chosenOf(chosen.id, chosen.deed) : { panel };
}

export function onCauses(panel: Extract<Panel, { kind: 'causes' }>, key: KeyName): Pressed {
  if (key === 'e') return { panel: { kind: 'ending' } };
  if (key === 'esc' || key === 't' || key === 'q') return { panel: BACK };
  const { entries, more } = causesOn(panel.of, panel.page);
  if (key === '4' && more) return { panel: { ...panel, page: panel.page + 1 } };
  const chosen = entries[Number(key) - 1];
  return chosen ? chosenOf(chosen, reporting(chosen)) : { panel };
}

export function onEnds(panel: Extract<Panel, { kind: 'ends' }>, key: KeyName): Pressed {
  if (key === 'enter') {
    return panel.text === SURE_WORD
      ? { panel: BACK, deed: reporting(panel.trouble) }
      : { panel: { ...panel, text: '' }, says: NOT_THE_WORD };
  }
  const text = typeWord(panel.text, key);
  return { panel: text === null ? BACK : { ...panel, text } };
}
