import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/core/batch/entry.ts';
import { lidRefusal, openAsk } from '../../src/core/batch/lockout.ts';
import type { BatchHeader } from '../../src/core/batch/state.ts';
import { HOUR } from '../../src/core/time.ts';
import { listBatches, openBatch } from '../../src/shell/batches.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { createJournal } from '../../src/shell/journal.ts';
import { straightThrough } from '../help/batch-drive.ts';
import { COOL, sampleHeader } from '../help/batch-kit.ts';
import { isShut } from '../help/batch-model.ts';
import { memoryFiles } from './memory-files.ts';
import { createTrickClock, type TrickClock } from './trick-clock.ts';

const FOLDER = '/home/batches';
const SHUT_ASKS = ['steam', 'venting', 'climbing', 'holding', 'flame', 'gauge-zero', 'pin', 'shut'];

interface Written {
  readonly id: string;
  readonly path: string;
  readonly bytes: Buffer;
  readonly clock: TrickClock;
}

/** A whole batch as planned, one line for each answer and each wait, as its journal stands at the end. */
function written(header: BatchHeader): Written {
  const files = memoryFiles();
  const clock = createTrickClock(header.beganWall);
  const { uptime, boot } = clock.sample();
  const id = '2613a';
  const path = `${FOLDER}/${id}.batch`;
  const journal = createJournal<Entry>(path, { ...header, id, uptime, boot }, files);
  for (const event of straightThrough(header).events) {
    journal.append({ event, uptime: uptime + event.t, boot });
    clock.pass(event.t - clock.truth);
  }
  journal.close();
  return { id, path, bytes: files.get(path), clock };
}

/** Opens the file with these bytes; null when it was refused in a sentence. */
function opened({ id, path, clock }: Written, bytes: Buffer) {
  const files = memoryFiles();
  files.put(path, bytes);
  clock.restart();
  clock.pass(HOUR);
  const listed = listBatches({ folder: FOLDER, clock, files });
  expect(listed).toHaveLength(1);
  try {
    const session = openBatch({ folder: FOLDER, clock, files }, id);
    const { batch } = session.run;
    const { notices } = session;
    // Whatever was lost, a vessel that may be under pressure is not opened without its lock.
    if (isShut(batch.step) && lidRefusal(batch) === null) {
      const said = bytes.toString();
      expect(said).toMatch(/"ask":"gauge-zero","choice":"zero".*"ask":"pin","choice":"down"/s);
      expect(batch.now - (batch.lock?.heatOffAt ?? batch.now)).toBeGreaterThanOrEqual(COOL);
    }
    // And the batch goes on: the open question is one that can be answered or refused, never a crash.
    session.send({ type: 'answer', ask: openAsk(batch), choice: 'zero' });
    session.close();
    expect(files.openCount).toBe(0);
    expect(files.names().filter(name => name.endsWith('.lock'))).toEqual([]);
    return { batch, notices, file: files.get(path) };
  } catch (problem) {
    expect(problem).toBeInstanceOf(GrowerError);
    expect(String(problem)).toMatch(/first line|empty/);
    // What cannot be gone on with is left as it is.
    expect(files.get(path)).toEqual(bytes);
    expect(files.openCount).toBe(0);
    return null;
  }
}

const lineAt = (bytes: Buffer, place: number) =>
  bytes.subarray(0, place).filter(byte => byte === 0x0a).length + 1;

describe('S1 S4: a whole batch, its journal damaged, opened to go on with', () => {
  it('cut at every byte: a state the batch had, or one sentence; the cut line is named', () => {
    const story = written(sampleHeader({ loads: [1] }));
    const { bytes } = story;
    const headerEnd = bytes.indexOf(0x0a);
    let refused = 0;
    for (let length = 0; length <= bytes.length; length += 1) {
      const cut = bytes.subarray(0, length);
      const found = opened(story, cut);
      if (found === null) {
        refused += 1;
        continue;
      }
      const atLineEnd = cut.at(-1) === 0x0a || bytes[length] === 0x0a;
      if (atLineEnd) expect(found.notices).toEqual([]);
      else {
        expect(found.notices).toHaveLength(1);
        expect(found.notices[0]).toContain(`line ${lineAt(bytes, length)}`);
      }
    }
    expect(refused).toBe(headerEnd);
    console.log(`cut at ${bytes.length + 1} places: ${refused} refused for the header, none unsafe`);
  });

  it('with a bit flipped at 2,000 places: names the line and how many are left out', () => {
    const story = written(sampleHeader());
    const { bytes } = story;
    const lines = lineAt(bytes, bytes.length) - 1;
    let refused = 0;
    let warned = 0;
    let over = 0;
    fc.assert(
      fc.property(fc.nat(bytes.length - 1), fc.nat(7), (at, bit) => {
        const flipped = Buffer.from(bytes);
        flipped[at] = (bytes[at] ?? 0) ^ (1 << bit);
        const line = lineAt(bytes, at);
        const found = opened(story, flipped);
        expect(found === null).toBe(line === 1);
        if (found === null) {
          refused += 1;
          return;
        }
        expect(found.notices.join(' ')).toMatch(new RegExp(`line ${line}\\b`, 'i'));
        if (found.batch.finishedAt !== null && line < lines) {
          // A batch that is over without that line: nothing is gone on with, so nothing is cut off.
          expect(found.notices).toEqual([
            `Line ${line} of the batch file is damaged and left out; the rest is kept.`,
          ]);
          expect(found.file).toEqual(flipped);
          over += 1;
          return;
        }
        if (line < lines) expect(found.notices.join(' ')).toContain('kept as');
        const lost = bytes
          .toString()
          .split('\n')
          .slice(line)
          .some(text => SHUT_ASKS.some(ask => text.includes(`"ask":"${ask}"`)));
        const warns = found.notices.some(notice => notice.includes('keep the lid shut'));
        if (lost && !isShut(found.batch.step)) expect(warns, `line ${line} of ${lines}`).toBe(true);
        if (warns) warned += 1;
      }),
      { numRuns: 2000, seed: 7 },
    );
    console.log(`2,000 flips: ${refused} in the header refused, ${warned} warned of a closed cooker`);
    expect(warned).toBeGreaterThan(100);
    expect(over).toBeGreaterThan(100);
  });
});
