import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../../src/core/batch/entry.ts';
import { begin, step } from '../../../src/core/batch/machine.ts';
import { replay } from '../../../src/core/batch/replay.ts';
import type { BatchEvent } from '../../../src/core/batch/events.ts';
import type { BatchHeader, Run } from '../../../src/core/batch/state.ts';
import { readTickLine } from '../../../src/core/batch/tick-line.ts';
import { commands, start } from '../../help/batch-commands.ts';
import { VARIANTS } from '../../help/batch-kit.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const line = (t: unknown, wall: unknown = 1790000000000, boot: unknown = 'b@m', uptime: unknown = 1000) =>
  JSON.stringify({ event: { type: 'tick', t, wall }, uptime, boot });

/** What the usual reading makes of the text: JSON first, then its shape. */
function usual(text: string): BatchEvent | null {
  try {
    return readEntry(JSON.parse(text))?.event ?? null;
  } catch {
    return null;
  }
}

describe('a tick read out of the bytes of its line', () => {
  it('is read as it was written, whole and broken milliseconds', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.nat(), fc.double({ min: 0, max: 1e14, noNaN: true })),
        fc.oneof(fc.nat(), fc.double({ min: 1, max: 1e14, noNaN: true })),
        fc.constantFrom('b@m', '~14916666@9f2a11cc', ''),
        (t, wall, boot) => {
          const text = line(t, wall, boot);
          const seen = readTickLine(bytes(text));
          // Numbers of the size of 1e-7 are written with an exponent, and left to the usual reading.
          if (seen !== null || !text.includes('e-')) expect(seen).toEqual(usual(text));
        },
      ),
    );
    expect(readTickLine(bytes(line(1500.25)))).toEqual({ type: 'tick', t: 1500.25, wall: 1790000000000 });
  });

  it('whatever byte of it is changed, cut or added, is no tick that the usual reading would not find', () => {
    const whole = line(1234.5);
    let found = 0;
    for (let at = 0; at <= whole.length; at += 1) {
      for (const letter of ['', '0', '7', '.', '-', 'e', '"', '\\', '}', ' ', 'x', '\t', 'é']) {
        for (const rest of [whole.slice(at), whole.slice(at + 1)]) {
          const text = whole.slice(0, at) + letter + rest;
          const seen = readTickLine(bytes(text));
          if (seen === null) continue;
          found += 1;
          expect(seen).toEqual(usual(text));
        }
      }
    }
    expect(found).toBeGreaterThan(100);
  });

  it.each([
    ['another event', JSON.stringify({ event: { type: 'undo', t: 1, wall: 2 }, uptime: 1, boot: 'b' })],
    ['a negative time', line(-1)],
    ['a time beyond all clocks', line(1e15)],
    ['a time in words', line('1')],
    ['an uptime of none', line(1, 2, 'b', null)],
    ['a boot name of 200 letters', line(1, 2, 'b'.repeat(200))],
    ['a boot name with an escape', line(1, 2, 'b\n')],
    ['nothing', ''],
  ])('with %s it is left to the usual reading', (_, text) => {
    expect(readTickLine(bytes(text))).toBeNull();
  });
});

/** Event by event, none passed over. */
function oneByOne(header: BatchHeader, events: readonly BatchEvent[]): { run: Run; refused: number[] } {
  let run = begin(header);
  const refused: number[] = [];
  for (const [index, event] of events.entries()) {
    const outcome = step(run, event);
    if (outcome.ok) run = outcome.run;
    else refused.push(index);
  }
  return { run, refused };
}

describe('a replay, which passes over ticks that the next tick says again', () => {
  it('leads where every event one by one leads, with ticks that ran back or are no time among them', () => {
    const strays = fc.array(
      fc.tuple(fc.nat(60), fc.constantFrom(-3600_000, -1, 0, 1, 5000, Number.NaN, Infinity)),
      { maxLength: 8 },
    );
    let refusals = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.values(VARIANTS)),
        commands(40),
        strays,
        (header, acts, inserted) => {
          const { model, real } = start(header);
          fc.modelRun(() => ({ model, real }), acts);
          const events: BatchEvent[] = [...real.events];
          for (const [place, ms] of inserted) {
            const at = Math.min(place, events.length);
            const before = events[at - 1];
            events.splice(at, 0, { type: 'tick', t: (before?.t ?? 0) + ms, wall: before?.wall ?? 0 });
          }
          const { run, refused } = oneByOne(header, events);
          const again = replay(header, events);
          expect(again.misfits.map(({ index }) => index)).toEqual(refused);
          expect(again.run).toEqual(run);
          refusals += refused.length;
        },
      ),
      { numRuns: 400 },
    );
    expect(refusals).toBeGreaterThan(100);
  });
});
