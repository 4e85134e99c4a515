/** A finished batch whose file is damaged: what stands behind the damage is kept for the record. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeArchive } from '../../src/shell/archive.ts';
import { mergeArchive } from '../../src/shell/archive-merge.ts';
import { listBatches, openBatch, readBatch } from '../../src/shell/batches.ts';
import { openDiary } from '../../src/shell/diary.ts';
import { createHandClock } from '../../src/shell/hand-clock.ts';
import { openSettings } from '../../src/shell/settings.ts';
import { drivenBatch, fillHome, homeHeader } from '../help/record-home.ts';
import { tempFolder } from '../help/temp-folder.ts';

const whole = drivenBatch(homeHeader('2613a', { soak: false, loads: [3] }), drive => {
  drive.to('hold').answer('at');
  for (let beat = 0; beat < 50; beat += 1) drive.wait(5000);
});

/** The file's first line holds the clocks of the machine as well. */
const asItWas: unknown = { ...whole.batch, header: expect.objectContaining(whole.header) };

/** The home with one byte of a line flipped; lines count from 1. */
function damaged(wanted: (line: string) => boolean, ending = '') {
  const home = tempFolder();
  fillHome(home, [whole]);
  const path = join(home, 'batches', '2613a.batch');
  const lines = readFileSync(path, 'latin1').split('\n');
  const at = lines.findLastIndex(wanted);
  lines[at] = (lines[at] ?? '').replace('"wall"', '"wa1l"');
  writeFileSync(path, lines.join('\n') + ending, 'latin1');
  return { options: { folder: join(home, 'batches'), clock: createHandClock() }, path, line: at + 1 };
}

describe('a finished batch with a damaged line', () => {
  it('is in the record as it was when only a beat is lost, and the line is named every time', () => {
    const { options, path, line } = damaged(text => text.includes('"tick"'));
    const says = [`Line ${line} of the batch file is damaged and left out; the rest is kept.`];
    for (let round = 0; round < 2; round += 1) {
      const [listed] = listBatches(options);
      expect(listed?.says).toEqual(says);
      expect(listed?.batch).toEqual(asItWas);
    }
    const before = readFileSync(path);
    const session = openBatch(options, '2613a');
    expect(session.notices).toEqual(says);
    expect(session.run.batch).toEqual(asItWas);
    expect(session.send({ type: 'undo' })).toEqual({ code: 'finished' });
    session.close();
    // It is only looked at: nothing is cut off, and nothing is kept aside for it.
    expect(readFileSync(path)).toEqual(before);
  });

  it('is known up to there when an answer is lost that the rest cannot do without', () => {
    const { options, line } = damaged(text => text.includes('"lid-on"'));
    const { batch, says } = readBatch(options, '2613a');
    expect(batch?.step).toBe('load');
    expect(says.join(' ')).toMatch(new RegExp(`^Line ${line} of the batch file is damaged: it and the`));
  });

  it('a torn end of a batch that is over costs nothing', () => {
    const { options } = damaged(() => false, '{"event":{"ty');
    const { batch, says } = readBatch(options, '2613a');
    expect(batch).toEqual(asItWas);
    expect(says.join(' ')).toContain('was cut off while it was written');
  });

  it('comes through an archive as it is, and once only', async () => {
    const { options, line } = damaged(text => text.includes('"tick"'));
    const placeOf = (batches: string) => ({
      batches,
      recipes: join(batches, '..', 'recipes'),
      settings: join(batches, '..', 'settings.json'),
      diary: join(batches, '..', 'diary.journal'),
    });
    const { bytes } = await makeArchive(placeOf(options.folder), 0);
    const there = placeOf(join(tempFolder(), 'batches'));
    const target = {
      ...there,
      diaryStore: openDiary({ path: there.diary, now: () => 0 }),
      settingsStore: openSettings(there.settings),
    };
    expect(await mergeArchive(bytes, target)).toMatchObject({
      added: ['2613a'],
      notices: [
        `Batch 2613a in the archive: Line ${line} of the batch file is damaged and left out; the rest is kept.`,
      ],
    });
    const [listed] = listBatches({ ...options, folder: there.batches });
    expect(listed?.batch).toEqual(asItWas);
    expect(await mergeArchive(bytes, target)).toMatchObject({ added: [], same: 1 });
  });
});
