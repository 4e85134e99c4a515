/** The one place where key presses come in: named, guarded, pastes left outside. */
import { useInput, usePaste } from 'ink';
import { useRef } from 'react';
import { FRESH_GUARD, guardAnswers, guardTyping, type Guard } from './key-guard.ts';
import { keyNames, type KeyName } from './keys.ts';

/**
 * Calls `press` for each key that is taken and `onDropped` when keys were not. `typing` lets fingers be as
 * quick as a number or a word needs; `steady` is a clock in ms that never jumps. Pasted text never reaches the program.
 */
export function useKeys(
  press: (key: KeyName) => void,
  typing: boolean,
  steady: () => number,
  onDropped: (why: 'held' | 'wiped') => void = () => {},
): void {
  const guard = useRef<Guard>(FRESH_GUARD);
  usePaste(() => onDropped('wiped'));
  useInput((text, key) => {
    const names = keyNames(text, key);
    const guarded = (typing ? guardTyping : guardAnswers)(guard.current, names, steady());
    guard.current = guarded.guard;
    if (guarded.dropped) onDropped(guarded.dropped);
    for (const name of guarded.taken) press(name);
  });
}
