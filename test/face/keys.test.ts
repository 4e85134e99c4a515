import type { Key } from 'ink';
import { describe, expect, it } from 'vitest';
import { keyNames } from '../../src/face/keys.ts';

describe('names of keys', () => {
  const NAMED: readonly (readonly [Partial<Key>, string])[] = [
    [{ upArrow: true }, 'up'],
    [{ downArrow: true }, 'down'],
    [{ leftArrow: true }, 'left'],
    [{ rightArrow: true }, 'right'],
    [{ pageUp: true }, 'pageup'],
    [{ pageDown: true }, 'pagedown'],
    [{ home: true }, 'home'],
    [{ end: true }, 'end'],
    [{ return: true }, 'enter'],
    [{ escape: true }, 'esc'],
    [{ tab: true }, 'tab'],
    [{ backspace: true }, 'backspace'],
    // Most terminals send DEL for the backspace key.
    [{ delete: true }, 'backspace'],
  ];
  it.each(NAMED)('%o is %s', (key, name) => {
    expect(keyNames('', key)).toEqual([name]);
  });

  it('letters are lower case, so that caps lock changes nothing', () => {
    expect(keyNames('Q', { shift: true })).toEqual(['q']);
    expect(keyNames('T', {})).toEqual(['t']);
  });

  it('several keys of one event are named in their order', () => {
    expect(keyNames('\r\r', {})).toEqual(['enter', 'enter']);
    expect(keyNames('j\r', {})).toEqual(['j', 'enter']);
    expect(keyNames(' 1 ', {})).toEqual(['space', '1', 'space']);
  });

  it('an escape that came together with the next key is an escape and that key', () => {
    expect(keyNames('j', { meta: true })).toEqual(['esc', 'j']);
  });

  it('releases and repeats that the terminal tells of are no presses', () => {
    expect(keyNames(' ', { eventType: 'release' })).toEqual([]);
    expect(keyNames(' ', { eventType: 'repeat' })).toEqual([]);
    expect(keyNames(' ', { eventType: 'press' })).toEqual(['space']);
  });

  it('control keys carry their name, other control characters none', () => {
    expect(keyNames('c', { ctrl: true })).toEqual(['ctrl-c']);
    expect(keyNames('\u0000\u0007\u001b\u009b', {})).toEqual([]);
  });

  it('a character of another script is itself', () => {
    expect(keyNames('é', {})).toEqual(['é']);
    expect(keyNames('字', {})).toEqual(['字']);
  });
});
