/**
 * The kinds of value a recipe key can hold. Each is a zod schema from the text as written to the value of
 * the core, registered with the words an editor shows; its complaint completes "KEY: expected ...".
 */

import * as z from 'zod/mini';
import type { Parsed } from '../quantity.ts';

/** What an editor shows for a key, and what JSON Schema says of its values. */
export interface KeyHelp {
  readonly description: string;
  readonly examples?: readonly (string | number)[];
  readonly default?: string;
  readonly enum?: readonly string[];
  readonly type?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly [other: string]: unknown;
}

export const keyHelp = z.registry<KeyHelp>();

/** A key whose text is read by `read`. */
export function field<T>(read: (text: string) => Parsed<T>, help: KeyHelp) {
  return z
    .pipe(
      z.string(),
      z.transform((text: string, context) => {
        const result = read(text);
        if (result.ok) return result.value;
        context.issues.push({ code: 'custom', message: `expected ${result.expected}`, input: text });
        return z.NEVER;
      }),
    )
    .register(keyHelp, help);
}

/** One of a few words, in any case, with spaces or dashes. */
export function choice<const T extends string>(words: readonly T[], help: KeyHelp) {
  return field<T>(
    text => {
      const plain = text
        .trim()
        .toLowerCase()
        .replace(/[\s_-]+/g, ' ');
      const value = words.find(word => word === plain);
      return value === undefined
        ? { ok: false, expected: `one of ${words.join(', ')}` }
        : { ok: true, value };
    },
    { enum: words, ...help },
  );
}

/** Yes or no; true and false are taken too. */
export function yesNo(help: KeyHelp) {
  return field<boolean>(
    text => {
      const plain = text.trim().toLowerCase();
      if (plain === 'yes' || plain === 'true') return { ok: true, value: true };
      if (plain === 'no' || plain === 'false') return { ok: true, value: false };
      return { ok: false, expected: 'yes or no' };
    },
    { enum: ['yes', 'no'], ...help },
  );
}

/**
 * Words of the person's own. What `shownAs` would have to change for the screen (controls, unseen characters)
 * is refused, so that a name read is a name shown.
 */
export function words(
  noun: string,
  least: number,
  most: number,
  shownAs: (text: string) => string,
  help: KeyHelp,
) {
  return field<string>(text => {
    const plain = text.trim();
    const length = [...plain].length;
    if (shownAs(plain) !== plain) return { ok: false, expected: `${noun} without control characters` };
    if (length < least) return { ok: false, expected: `${noun}, and found nothing` };
    if (length > most)
      return { ok: false, expected: `${noun} of at most ${most} characters, and found ${length}` };
    return { ok: true, value: plain };
  }, help);
}
