import { setTimeout as pause } from 'node:timers/promises';
import { expect, it } from 'vitest';
import { readEntry } from '../../src/core/batch/entry.ts';
import { GAP } from '../../src/shell/session.ts';
import { readJournal } from '../../src/shell/journal.ts';
import { leaveAt, momentsOf } from '../faults/crash-driver.ts';
import { openSlow } from '../faults/slow-reader.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { tempFolder } from '../help/temp-folder.ts';

/**
 * Node writes to a terminal and waits until it has taken the bytes. A terminal that takes nothing at all stops
 * the program once the buffer between them is full; this says what that means for a batch.
 */
it('a terminal that takes nothing for longer than a pause: the hold is not credited, and is asked about', async () => {
  const home = tempFolder();
  const moment = momentsOf(sampleHeader({ loads: [1] })).find(({ step }) => step === 'hold');
  if (!moment) throw new Error('No moment of holding.');
  leaveAt(moment, home);
  const slow = openSlow(home, 100_000, 200, 60);
  try {
    await slow.until('stayed at target', 30);
    await pause(1000);
    slow.write('2');
    await slow.until('left of', 30);
    // Nobody reads; the program goes on until the buffer is full, and stands still after that.
    await pause(4 * GAP);
    await slow.until('Nobody watched', 60);
    const { entries } = readJournal(`${home}/batches/2613a.batch`, readEntry);
    const gaps = entries.filter(({ event }) => event.type === 'gap' && event.why === 'asleep');
    console.log(`${gaps.length} pauses kept`);
    expect(gaps.length).toBeGreaterThan(0);
  } finally {
    slow.close();
  }
});
