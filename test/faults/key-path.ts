/** The way of a key without the drawing: names, guard, panel, machine; an onlooker with a notebook beside it. */
import type { Key } from 'ink';
import { begin, step } from '../../src/core/batch/machine.ts';
import type { BatchEvent } from '../../src/core/batch/events.ts';
import type { Batch, BatchHeader, Run } from '../../src/core/batch/state.ts';
import { FRESH_GUARD, guardAnswers, type Guard, guardTyping } from '../../src/face/key-guard.ts';
import { keyNames } from '../../src/face/keys.ts';
import { ASKING, isTyping, type Panel, pressOnRun } from '../../src/face/run-keys.ts';
import { Drive } from '../help/batch-drive.ts';
import { follow, type Onlooker, onlooker } from '../help/batch-model.ts';
import type { Chance } from './fuzz.ts';

export interface Place {
  readonly run: Run;
  readonly model: Onlooker;
}

/** Every moment of a batch as planned: one for each event, so that fingers can land anywhere. */
export function placesOf(header: BatchHeader): readonly Place[] {
  const drive = new Drive(header);
  drive.to('done', header.numbers.loads.length);
  let run = begin(header);
  let model = onlooker();
  const places: Place[] = [{ run, model }];
  for (const event of drive.events) {
    const outcome = step(run, event);
    if (!outcome.ok) throw new Error(outcome.refusal.code);
    model = follow(model, event, run.batch, outcome.run.batch);
    run = outcome.run;
    places.push({ run, model });
  }
  return places;
}

/** One input event as the terminal hands it over. */
export interface Stroke {
  readonly text: string;
  readonly key: Partial<Key>;
}

export class Fingers {
  run: Run;
  model: Onlooker;
  panel: Panel = ASKING;
  guard: Guard = FRESH_GUARD;
  steady = 0;
  deeds = 0;
  taken = 0;

  constructor({ run, model }: Place) {
    this.run = run;
    this.model = model;
  }

  get batch(): Batch {
    return this.run.batch;
  }

  #event(event: BatchEvent): boolean {
    const before = this.run.batch;
    const outcome = step(this.run, event);
    if (!outcome.ok) return false;
    this.model = follow(this.model, event, before, outcome.run.batch);
    this.run = outcome.run;
    return true;
  }

  /** Time goes by for hand and batch alike. */
  wait(ms: number): void {
    this.steady += ms;
    const { now, wall } = this.batch;
    this.#event({ type: 'tick', t: now + ms, wall: wall + ms });
  }

  /** One input event; how many deeds were sent for it. */
  stroke({ text, key }: Stroke): number {
    const guarded = (isTyping(this.panel) ? guardTyping : guardAnswers)(
      this.guard,
      keyNames(text, key),
      this.steady,
    );
    this.guard = guarded.guard;
    let sent = 0;
    for (const name of guarded.taken) {
      this.taken += 1;
      const pressed = pressOnRun(this.panel, this.run, name, this.batch.header.kitchen.units, false);
      this.panel = pressed.panel;
      if (!pressed.deed) continue;
      sent += 1;
      const { now, wall } = this.batch;
      if (this.#event({ ...pressed.deed, t: now, wall } as BatchEvent)) this.deeds += 1;
    }
    return sent;
  }
}

const KEYS = [
  '1',
  '2',
  '3',
  '4',
  ' ',
  ' ',
  '\r',
  't',
  'u',
  'e',
  'w',
  'q',
  '?',
  'n',
  'p',
  'm',
  'k',
  'x',
  'é',
  '9',
  '.',
  '\u007f',
  '\t',
  '🍄',
];
const NAMED: readonly Partial<Key>[] = [
  { return: true },
  { escape: true },
  { upArrow: true },
  { downArrow: true },
  { leftArrow: true },
  { rightArrow: true },
  { backspace: true },
  { delete: true },
  { tab: true },
  { pageDown: true },
];

export const plain = (text: string): Stroke => ({ text, key: {} });

/** What hands, towels, cats and key repeats do; each is a list of strokes with the time before them. */
export function hand(chance: Chance): readonly (readonly [number, Stroke])[] {
  const key = () => chance.pick(KEYS);
  const count = 1 + chance.below(6);
  switch (chance.below(8)) {
    case 0:
      // Held: the keyboard's own delay, then repeats.
      return repeat(plain(key()), 250 + chance.below(410), 20 + chance.below(80), 2 + chance.below(30));
    case 1:
      return [[chance.below(900), plain(Array.from({ length: count + 1 }, key).join(''))]];
    case 2:
      // Wiped: keys under a towel, milliseconds apart.
      return Array.from({ length: count + 2 }, () => [chance.below(60), plain(key())] as const);
    case 3: {
      const same = key();
      return [[chance.below(900), plain(same.repeat(count + 1))]];
    }
    case 4:
      return [[chance.below(900), { text: '', key: chance.pick(NAMED) }]];
    case 5:
      return [
        [
          chance.below(900),
          {
            text: key(),
            key: chance.pick([
              { ctrl: true },
              { meta: true },
              { eventType: 'repeat' },
              { eventType: 'release' },
            ]),
          },
        ],
      ];
    default:
      return Array.from({ length: count }, () => [130 + chance.below(1500), plain(key())] as const);
  }
}

export const repeat = (
  stroke: Stroke,
  delay: number,
  every: number,
  times: number,
): readonly (readonly [number, Stroke])[] => [
  [800, stroke],
  ...Array.from({ length: times }, (_, turn) => [turn === 0 ? delay : every, stroke] as const),
];
