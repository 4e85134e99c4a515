/** The one place where key presses come in: named, guarded, pastes left outside. */
import { useInput, usePaste } from 'ink';
import { createContext, useContext, useRef } from 'react';
import { actOf, type Place } from './keymap.ts';
import { FRESH_GUARD, guardAnswers, guardTurning, guardTyping, type Guard } from './key-guard.ts';
import { keyNames, type KeyName } from './keys.ts';

/** What all screens share about keys: a key held down while one screen follows another is still one press. */
export interface KeyGate {
  readonly guard: { current: Guard };
  /** Nothing can be seen, so nothing can be answered: only Ctrl-C comes through. */
  readonly muted: boolean;
  /** Shows the keys of a screen over it; null while help is what is shown. */
  readonly help: ((places: readonly Place[]) => void) | null;
}
export const KeyGateContext = createContext<KeyGate | null>(null);

/** What is said of keys that were not taken. */
export const DROPPED_WORDS = {
  held: 'A held or doubled key was taken once.',
  wiped: 'Several keys at once: none was taken.',
} as const;

/**
 * Calls `press` for each key that is taken and `onDropped` when keys were not. `typing` lets fingers be as
 * quick as a number or a word needs; `steady` is a clock in ms that never jumps. A screen without a help of its own
 * names the places whose keys it knows. Keys in `turning` turn a knob: each press counts. Pasted text never reaches the program.
 */
export function useKeys(
  press: (key: KeyName) => void,
  typing: boolean,
  steady: () => number,
  onDropped: (why: 'held' | 'wiped') => void = () => {},
  help: readonly Place[] = [],
  turning: readonly KeyName[] = [],
): void {
  const own = useRef<Guard>(FRESH_GUARD);
  const gate = useContext(KeyGateContext);
  const guard = gate?.guard ?? own;
  usePaste(() => onDropped('wiped'));
  useInput((text, key) => {
    // Ctrl-Z stops the program and is no key of any screen.
    const names = keyNames(text, key).filter(
      name => name !== 'ctrl-z' && (!gate?.muted || name === 'ctrl-c'),
    );
    const turns = !typing && names.length > 0 && names.every(name => turning.includes(name));
    const guarding = typing ? guardTyping : turns ? guardTurning : guardAnswers;
    const guarded = guarding(guard.current, names, steady());
    guard.current = guarded.guard;
    if (guarded.dropped) onDropped(guarded.dropped);
    for (const name of guarded.taken) {
      if (help.length > 0 && gate?.help && actOf('everywhere', name) === 'help') gate.help(help);
      else press(name);
    }
  });
}
