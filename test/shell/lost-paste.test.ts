import { expect, it } from 'vitest';
import { endLostPastes } from '../../src/shell/lost-paste.ts';

// xterm control sequences, "Bracketed Paste Mode": ESC [ 200 ~ before, ESC [ 201 ~ behind.
const BEGIN = '\u001b[200~';
const END = '\u001b[201~';

/** An input that hands out these chunks, with a clock by hand. */
function input() {
  const waiting: string[] = [];
  let alarm: (() => void) | null = null;
  const source = {
    read: (): unknown => waiting.shift() ?? null,
    unshift: (chunk: string) => void waiting.unshift(chunk),
  };
  const stop = endLostPastes(source, (_, work) => {
    alarm = work;
    return () => {
      alarm = null;
    };
  });
  return {
    gets: (text: string) => {
      waiting.push(text);
      return source.read();
    },
    later: () => {
      alarm?.();
      alarm = null;
      return source.read();
    },
    isArmed: () => alarm !== null,
    stop,
  };
}

it('ends a paste whose end never comes, once', () => {
  const keys = input();
  expect(keys.gets(`${BEGIN}one\rtwo`)).toBe(`${BEGIN}one\rtwo`);
  expect(keys.later()).toBe(END);
  expect(keys.later()).toBeNull();
  expect(keys.gets('q')).toBe('q');
  expect(keys.isArmed()).toBe(false);
});

it.each([
  ['in one piece', [`${BEGIN}text${END}`]],
  ['in pieces, marks cut in two', ['\u001b[20', '0~te', 'xt\u001b[2', '01~']],
  ['two of them', [`${BEGIN}a${END}b${BEGIN}c${END}`]],
  ['no paste at all', ['1', ' ', '\u001b[A']],
])('leaves a whole paste alone: %s', (_, pieces) => {
  const keys = input();
  for (const piece of pieces) keys.gets(piece);
  expect(keys.isArmed()).toBe(false);
  expect(keys.later()).toBeNull();
});

it('waits as long as more of the paste comes, and forgets it when stopped', () => {
  const keys = input();
  keys.gets(BEGIN);
  keys.gets('x'.repeat(100_000));
  expect(keys.isArmed()).toBe(true);
  keys.gets(`y${END}`);
  expect(keys.isArmed()).toBe(false);
  keys.gets(BEGIN);
  keys.stop();
  expect(keys.isArmed()).toBe(false);
});
