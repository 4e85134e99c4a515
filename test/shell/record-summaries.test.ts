import { readFileSync, writeFileSync, utimesSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { listBatches, readBatch } from '../../src/shell/batches.ts';
import { nodeFiles } from '../../src/shell/files.ts';
import { createHandClock } from '../../src/shell/hand-clock.ts';
import { drivenBatch, fillHome, homeHeader, journalBytes } from '../help/record-home.ts';
import { tempFolder } from '../help/temp-folder.ts';

const whole = drivenBatch(homeHeader('2613a', { soak: false }));
const other = drivenBatch(homeHeader('2613b', { jars: true }));
const running = { ...whole, header: { ...whole.header, id: '2613c' }, events: whole.events.slice(0, 5) };

function home() {
  const folder = tempFolder();
  fillHome(folder, [whole, other, running]);
  const opened: string[] = [];
  const files = {
    ...nodeFiles,
    open: (path: string, purpose: 'reading' | 'updating' | 'creating') => {
      if (path.endsWith('.batch')) opened.push(path.slice(-11, -6));
      return nodeFiles.open(path, purpose);
    },
  };
  const options = { folder: join(folder, 'batches'), clock: createHandClock(), files };
  return { options, opened, cache: join(folder, 'batches', 'summaries.cache') };
}

describe('summaries of finished batches', () => {
  it('say what the journals say, and spare reading them again', () => {
    const { options, opened } = home();
    const first = listBatches(options);
    expect(opened).toEqual(['2613a', '2613b', '2613c']);
    opened.length = 0;
    const second = listBatches(options);
    // Only the batch that still runs has to be read.
    expect(opened).toEqual(['2613c']);
    expect(second).toEqual(first);
    expect(second.map(({ batch }) => batch?.finishedAt === null)).toEqual([false, false, true]);
    for (const { id, batch } of second) expect(readBatch(options, id).batch).toEqual(batch);
  });

  it('a journal that has changed is believed over its summary', () => {
    const { options } = home();
    listBatches(options);
    writeFileSync(join(options.folder, '2613a.batch'), journalBytes(whole.header, whole.events.slice(0, 8)));
    expect(listBatches(options)[0]?.batch?.finishedAt).toBeNull();
  });

  it('so is one of the same length with another time', () => {
    const { options, opened } = home();
    listBatches(options);
    opened.length = 0;
    utimesSync(join(options.folder, '2613b.batch'), new Date(2001, 1, 1), new Date(2001, 1, 1));
    listBatches(options);
    expect(opened).toContain('2613b');
  });

  it('a damaged, foreign or missing cache is no cache', () => {
    const { options, cache } = home();
    const first = listBatches(options);
    const good = readFileSync(cache);
    for (let at = 0; at < good.length; at += 997) {
      const bad = Buffer.from(good);
      bad[at] = (bad[at] ?? 0) ^ 1;
      writeFileSync(cache, bad);
      expect(listBatches(options)).toEqual(first);
    }
    for (const bytes of ['', '{}', 'stovehand summaries 1 0-0\t0\n[]']) {
      writeFileSync(cache, bytes);
      expect(listBatches(options)).toEqual(first);
    }
    rmSync(cache);
    expect(listBatches(options)).toEqual(first);
    expect(statSync(cache).size).toBe(good.length);
  });

  it('a folder that cannot be written to is listed all the same', () => {
    const { options } = home();
    const files = {
      ...nodeFiles,
      open: (path: string, purpose: 'reading' | 'updating' | 'creating') => {
        if (purpose === 'creating') throw Object.assign(new Error('no'), { code: 'EROFS' });
        return nodeFiles.open(path, purpose);
      },
    };
    expect(listBatches({ ...options, files })).toHaveLength(3);
  });
});
