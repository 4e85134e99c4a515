/** Seeded chance and damage: bytes, texts and values as nobody would write them. */

export interface Chance {
  /** 0 to 1, 1 never. */
  next(): number;
  /** A whole number below `n`. */
  below(n: number): number;
  pick<T>(from: readonly T[]): T;
}

/** Mulberry32 (Tommy Ettinger, public domain): small, seeded, good enough to scatter damage. */
export function createChance(seed: number): Chance {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const below = (n: number) => Math.floor(next() * n);
  return {
    next,
    below,
    pick: from => {
      const found = from[below(from.length)];
      if (found === undefined) throw new RangeError('Nothing to pick from.');
      return found;
    },
  };
}

const ESC = '\u001b';
/** Texts that would steer a terminal, a parser or a formatter if anybody let them. */
export const EVIL_TEXTS = [
  '',
  ' ',
  `${ESC}[2J${ESC}[H`,
  `${ESC}]0;owned\u0007`,
  `${ESC}]52;c;cm0gLXJm\u0007`,
  `${ESC}P$q"p${ESC}\\`,
  '\u009b31m\u009d0;x\u009c',
  'a\r\nb\u0008\u0008\u0007',
  '\u202egnp.exe\u2066',
  '%s%n`id`$(id)',
  '__proto__',
  'constructor',
  '../../etc/passwd',
  'x'.repeat(5000),
  '\ud800',
  '👩‍👩‍👧‍👦'.repeat(40),
  'é'.normalize('NFD').repeat(300),
  '\0',
  '-1',
  '1e309',
  'NaN',
] as const;

export const EVIL_VALUES: readonly unknown[] = [
  null,
  true,
  [],
  {},
  [[]],
  0,
  -1,
  0.5,
  1e-300,
  1e14,
  2 ** 31,
  9.9e14,
  1e308,
  ...EVIL_TEXTS,
];

type Json = unknown;
const isRecord = (value: Json): value is Record<string, Json> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A copy of a JSON value with one part somewhere inside replaced, removed, doubled or added. */
export function mangled(value: Json, chance: Chance): Json {
  if (Array.isArray(value) && value.length > 0 && chance.next() < 0.8) {
    const at = chance.below(value.length);
    switch (chance.below(4)) {
      case 0:
        return value.toSpliced(at, 1);
      case 1:
        return [...value, value[at]];
      default:
        return value.with(at, mangled(value[at], chance));
    }
  }
  if (isRecord(value) && chance.next() < 0.9) {
    const keys = Object.keys(value);
    if (keys.length > 0) {
      const key = chance.pick(keys);
      switch (chance.below(8)) {
        case 0:
          return Object.fromEntries(Object.entries(value).filter(([other]) => other !== key));
        case 1:
          return { ...value, [chance.pick(EVIL_TEXTS)]: chance.pick(EVIL_VALUES) };
        default:
          return { ...value, [key]: mangled(value[key], chance) };
      }
    }
  }
  if (typeof value === 'number' && chance.next() < 0.5) {
    return value * chance.pick([-1, 0, 1e-9, 1e6, 1e12]);
  }
  return chance.pick(EVIL_VALUES);
}

/** Every copy of a JSON value in which one place is removed or holds an evil value instead; deepest places last. */
export function* eachMangled(value: Json, put: (changed: Json) => Json = same => same): Generator<Json> {
  if (typeof value !== 'object' || value === null) return;
  for (const key of Object.keys(value)) {
    const change = (part: Json): Json =>
      Array.isArray(value) ? value.with(Number(key), part) : { ...value, [key]: part };
    for (const evil of EVIL_VALUES) yield put(change(evil));
    yield put(Object.fromEntries(Object.entries(value).filter(([other]) => other !== key)));
    yield* eachMangled((value as Record<string, Json>)[key], part => put(change(part)));
  }
}

/** A copy of these bytes with a few of them cut, flipped, doubled or overwritten. */
export function damaged(bytes: Uint8Array, chance: Chance): Buffer {
  let now = Buffer.from(bytes);
  for (let left = 1 + chance.below(4); left > 0 && now.length > 0; left -= 1) {
    const at = chance.below(now.length);
    const length = 1 + chance.below(Math.min(40, now.length - at));
    const part = now.subarray(at, at + length);
    switch (chance.below(5)) {
      case 0:
        now = Buffer.concat([now.subarray(0, at), now.subarray(at + length)]);
        break;
      case 1:
        now = Buffer.concat([now.subarray(0, at), part, now.subarray(at)]);
        break;
      case 2:
        now = Buffer.concat([now.subarray(0, at), Buffer.from(chance.pick(EVIL_TEXTS)), now.subarray(at)]);
        break;
      case 3:
        now = Buffer.from(now.subarray(0, at));
        break;
      default:
        now[at] = chance.below(256);
    }
  }
  return now;
}

// What may stand in text that goes to a terminal outside the program's own sequences: no C0 but line feed, no DEL, no C1.
const STEERING = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/u;
/** The first character of a text that could steer a terminal, as its code; null when there is none. */
export function steering(text: string): string | null {
  const found = STEERING.exec(text);
  return found ? `U+${found[0].charCodeAt(0).toString(16)} in ${JSON.stringify(text.slice(0, 120))}` : null;
}
