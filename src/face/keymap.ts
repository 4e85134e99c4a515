/** Every key, where it works, what it does: feeds the key lines, the help screen, the README and the tests. */
import type { KeyName } from './keys.ts';

export type Place = 'run' | 'practice' | 'amount' | 'word' | 'list' | 'everywhere';

export interface KeyRow {
  readonly keys: readonly KeyName[];
  /** As it is written on screen. */
  readonly shown: string;
  readonly says: string;
  readonly place: Place;
}

const row = (place: Place, shown: string, says: string, ...keys: KeyName[]): KeyRow => ({
  keys,
  shown,
  says,
  place,
});

export const KEYMAP: readonly KeyRow[] = [
  row('run', 'Space', 'the plain "done" of a step; never answers a judgement', 'space', 'enter'),
  row('run', '1 2 3 4', 'the answers to a judgement, each with its picture', '1', '2', '3', '4'),
  row('run', 'n', 'numbers: the estimate in words, what it takes for granted, what dips cost', 'n'),
  row('run', 'm', 'thermometer: a reading in a bag, or on the vessel in the lock', 'm'),
  row('run', 'p', 'pictures of the answers, large', 'p'),
  row('run', 'k', 'keep what your thermometer measured for the next plan', 'k'),
  row('run', 't', 'trouble: what can go wrong here, what it means, what to do', 't'),
  row('run', 'u', 'undo: take back the last answer, after asking', 'u'),
  row('run', 'e', 'end: this countdown or the batch early, by a typed word', 'e'),
  row('run', 'w', 'wipe: lock the keyboard; w, then Enter unlocks it', 'w'),
  row('practice', '+ -', 'flame up, flame down', '+', '-'),
  row('practice', 'l', 'look: kernels, towel, steam or gauge as they are in the simulated kitchen', 'l'),
  row('practice', 's', 'speed of the simulated clock', 's'),
  row('practice', 'z', 'sleep until the next thing to do', 'z'),
  row('amount', '↑ ↓', 'a little more, a little less', 'up', 'down'),
  row('amount', '→ ←', 'much more, much less', 'right', 'left'),
  row('amount', '0-9 .', 'type the number', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '.', ','),
  row('amount', 'Enter', 'take it', 'enter', 'space'),
  row('word', 'letters', 'type the word that is asked for, then Enter'),
  row('list', '↑ ↓', 'choose a line', 'up', 'down'),
  row('list', 'Enter', 'open it', 'enter', 'space'),
  row('everywhere', 'Esc', 'back, nothing changed', 'esc'),
  row('everywhere', '?', 'help for this screen', '?'),
  row('everywhere', 'q', 'leave: always safe, the batch goes on', 'q'),
];
