import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../../src/core/batch/entry.ts';
import { readBatchHeader } from '../../../src/core/batch/header.ts';
import { replay } from '../../../src/core/batch/replay.ts';
import type { BatchEvent } from '../../../src/core/batch/events.ts';
import { commands, start } from '../../help/batch-commands.ts';
import { straightThrough } from '../../help/batch-drive.ts';
import { VARIANTS, sampleHeader } from '../../help/batch-kit.ts';

const SEED = 20260331;
const line = (event: unknown) => ({ event, uptime: 1000, boot: 'a' });
const throughText = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe('a journal line', () => {
  it('comes back as it was written, for every event that can happen', () => {
    const kinds = new Set<string>();
    fc.assert(
      fc.property(fc.constantFrom(...Object.values(VARIANTS)), commands(40), (header, acts) => {
        const { model, real } = start(header);
        fc.modelRun(() => ({ model, real }), acts);
        for (const event of real.events) {
          kinds.add(event.type);
          expect(readEntry(throughText(line(event)))).toEqual(line(event));
        }
      }),
      { seed: SEED, numRuns: 200 },
    );
    for (const kind of ['tick', 'gap', 'answer', 'trouble', 'typed', 'undo']) expect(kinds).toContain(kind);
  });

  const at = { t: 1, wall: 2 };
  it.each([
    ['no event', undefined],
    ['an unknown type', { type: 'explode', ...at }],
    ['no time', { type: 'tick', wall: 2 }],
    ['a time before the beginning', { type: 'tick', t: -1, wall: 2 }],
    ['a time beyond all clocks', { type: 'tick', t: 1e99, wall: 2 }],
    ['a time in words', { type: 'tick', t: '1', wall: 2 }],
    ['an unknown question', { type: 'answer', ask: 'toString', choice: 'ready', ...at }],
    ['a choice that is no text', { type: 'answer', ask: 'gear-check', choice: 1, ...at }],
    ['an amount that is none', { type: 'answer', ask: 'fill', choice: 'weighed', amount: null, ...at }],
    ['an unknown trouble', { type: 'trouble', trouble: '__proto__', ...at }],
    ['an unknown purpose', { type: 'typed', purpose: 'open-now', word: 'open', ...at }],
    ['a word that is none', { type: 'typed', purpose: 'end-batch', word: null, ...at }],
    ['an unknown reason to be away', { type: 'gap', why: 'bored', ...at }],
    ['time that was claimed backwards', { type: 'gap', why: 'restart', claimedMs: -1, ...at }],
  ])('with %s is no entry', (_, event) => {
    expect(readEntry(line(event))).toBeNull();
  });

  it('of any JSON at all is an entry or none, and an entry never breaks the machine', () => {
    const tweak = fc.tuple(
      fc.constantFrom('t', 'wall', 'type', 'ask', 'choice', 'amount', 'why', 'word'),
      fc.jsonValue(),
    );
    const { events } = straightThrough(sampleHeader());
    fc.assert(
      fc.property(
        fc.constantFrom(...events),
        fc.array(tweak, { maxLength: 3 }),
        fc.jsonValue(),
        (event, tweaks, any) => {
          expect(() => readEntry(any)).not.toThrow();
          expect(() => readBatchHeader(any)).not.toThrow();
          const read = readEntry(throughText(line({ ...event, ...Object.fromEntries(tweaks) })));
          const journal: BatchEvent[] = read ? [read.event] : [];
          expect(() => replay(sampleHeader(), journal)).not.toThrow();
        },
      ),
      { seed: SEED, numRuns: 3000 },
    );
  });
});

describe('the first line of a journal', () => {
  it.each(Object.entries(VARIANTS))('comes back as it was written: %s', (_, header) => {
    expect(readBatchHeader(throughText(header))).toEqual(header);
  });

  it.each(['id', 'recipe', 'kitchen', 'numbers', 'beganWall', 'practice'])('without its %s is none', key => {
    expect(readBatchHeader({ ...sampleHeader(), [key]: undefined })).toBeNull();
  });

  it.each(['ventS', 'holdS', 'pressureLockS', 'coolS'])('with a %s that is no time is none', key => {
    const header = sampleHeader();
    for (const value of [-1, null, '60', Number.NaN]) {
      expect(readBatchHeader({ ...header, numbers: { ...header.numbers, [key]: value } })).toBeNull();
    }
  });
});
