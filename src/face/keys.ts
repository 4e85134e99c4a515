/** From what Ink hands over to names of single keys; several keys may come as one event. */
import type { Key } from 'ink';

/** A named key, or the lower-case character it types. */
export type KeyName = string;

const NAMED: readonly (readonly [keyof Key, KeyName])[] = [
  ['upArrow', 'up'],
  ['downArrow', 'down'],
  ['leftArrow', 'left'],
  ['rightArrow', 'right'],
  ['pageDown', 'pagedown'],
  ['pageUp', 'pageup'],
  ['home', 'home'],
  ['end', 'end'],
  ['return', 'enter'],
  ['escape', 'esc'],
  ['tab', 'tab'],
  ['backspace', 'backspace'],
  // Most terminals send DEL for the backspace key.
  ['delete', 'backspace'],
];

function characterName(character: string): KeyName | null {
  if (character === ' ') return 'space';
  if (character === '\r' || character === '\n') return 'enter';
  if (character === '\t') return 'tab';
  if (character === '\u007f' || character === '\b') return 'backspace';
  const code = character.codePointAt(0) ?? 0;
  return code < 0x20 || (code >= 0x7f && code < 0xa0) ? null : character.toLowerCase();
}

/** The keys in one input event, in order; empty for releases and for keys without a name. */
export function keyNames(text: string, key: Partial<Key>): readonly KeyName[] {
  if (key.eventType === 'release') return [];
  // The terminal says by itself that a key is held down: that is no new press.
  if (key.eventType === 'repeat') return [];
  const named = NAMED.find(([flag]) => key[flag] === true);
  if (named) return [named[1]];
  if (key.ctrl) return text.length === 1 ? [`ctrl-${text.toLowerCase()}`] : [];
  const names = [...text].map(characterName).filter(name => name !== null);
  // Escape and a key pressed soon after arrive as that key with "meta".
  return key.meta ? ['esc', ...names] : names;
}
