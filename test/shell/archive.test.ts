import { strToU8, unzipSync, zipSync } from 'fflate';
import fc from 'fast-check';
import { inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../src/core/batch/entry.ts';
import { replay } from '../../src/core/batch/replay.ts';
import { indexDiary } from '../../src/core/record/bags.ts';
import { recordedBatch } from '../../src/core/record/record.ts';
import type { Settings, SettingsValues } from '../../src/core/ports.ts';
import { exportArchive, makeArchive } from '../../src/shell/archive.ts';
import { mergeArchive } from '../../src/shell/archive-merge.ts';
import { readBatchHeader } from '../../src/core/batch/header.ts';
import { openDiary } from '../../src/shell/diary.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import type { FileLayer } from '../../src/shell/files.ts';
import { readJournal } from '../../src/shell/journal.ts';
import { faultyFiles } from '../help/faulty-files.ts';
import { memoryFiles } from '../help/memory-files.ts';
import { someBatch, someDiary } from '../help/record-history.ts';
import {
  diaryBytes,
  diaryOf,
  type DrivenBatch,
  drivenBatch,
  homeHeader,
  journalBytes,
} from '../help/record-home.ts';

type Disk = ReturnType<typeof memoryFiles>;
const NOW = Date.UTC(2026, 10, 25, 12);
const EMPTY: SettingsValues = { kitchen: {}, lastRecipe: '', lessonOffered: false, kitchenAsked: false };

function settingsOf(start: Partial<SettingsValues> = {}): Settings {
  let values = { ...EMPTY, ...start };
  return {
    get values() {
      return values;
    },
    notices: [],
    save: async change => {
      values = { ...values, ...change };
    },
  };
}

/** A home in memory, with what an archive needs to know of it. */
function home(disk: Disk = memoryFiles(), settings = settingsOf()) {
  const files: FileLayer = disk;
  const place = {
    batches: '/h/batches',
    recipes: '/h/recipes',
    settings: '/h/settings.json',
    diary: '/h/diary.journal',
    files,
  };
  const diaryStore = openDiary({ path: place.diary, now: () => NOW, files });
  return { disk, ...place, diaryStore, settingsStore: settings };
}
type Home = ReturnType<typeof home>;

function fill(at: Home, batches: readonly DrivenBatch[], entries: ReturnType<typeof diaryOf> = []): Home {
  for (const { header, events } of batches)
    at.disk.put(`/h/batches/${header.id}.batch`, journalBytes(header, events));
  if (entries.length > 0) at.disk.put('/h/diary.journal', diaryBytes(entries));
  return at;
}

/** Everything a person would see of the record: batches as replayed, with their bags. */
function recordIn({ disk, diaryStore }: Home) {
  const diary = indexDiary(diaryStore.read().entries);
  return disk
    .list('/h/batches')
    .filter(name => name.endsWith('.batch'))
    .sort()
    .map(name => {
      const { header, entries } = readJournal(`/h/batches/${name}`, readEntry, disk);
      const known = readBatchHeader(header);
      if (!known) throw new Error(`${name} is no batch`);
      return recordedBatch(
        replay(
          known,
          entries.map(({ event }) => event),
        ).run.batch,
        diary,
      );
    });
}

const some = (id: string, ...loads: number[]) =>
  drivenBatch(homeHeader(id, { soak: false, loads: loads.length > 0 ? loads : [2] }));
const lost = diaryOf([{ type: 'state', bag: '2613a-1', state: 'contaminated', looks: 'green' }]);
const bytesOf = async (from: Home) => (await makeArchive(from, NOW)).bytes;

describe('export and import', () => {
  it('1,000 random histories come back as the same record, and a second import changes nothing', async () => {
    let finished = 0;
    await fc.assert(
      fc.asyncProperty(someBatch('2613a'), someDiary('2613a'), async (batch, entries) => {
        const from = fill(home(), [batch], entries);
        const archive = await bytesOf(from);
        const to = home();
        const imported = await mergeArchive(archive, to);
        expect(imported.notices).toEqual([]);
        expect(imported.added).toEqual(['2613a']);
        expect(recordIn(to)).toEqual(recordIn(from));
        const again = await mergeArchive(archive, to);
        expect(again).toMatchObject({
          added: [],
          continued: [],
          same: 1,
          entries: 0,
          recipes: [],
          notices: [],
        });
        expect(recordIn(to)).toEqual(recordIn(from));
        if (batch.batch.finishedAt !== null) finished += 1;
      }),
      { numRuns: 1000 },
    );
    expect(finished).toBeGreaterThan(400);
  });

  it('is an ordinary ZIP file that another reader unpacks, with the journals byte for byte', async () => {
    const from = fill(home(), [some('2613a')], lost);
    const archive = Buffer.from(await bytesOf(from));
    // PKWARE APPNOTE 4.3.7, read by hand: signature, method at 8, sizes at 18 and 22, name at 30.
    const seen = new Map<string, Buffer>();
    for (let at = 0; archive.readUInt32LE(at) === 0x04034b50; ) {
      const [packed, whole, names, extra] = [
        archive.readUInt32LE(at + 18),
        archive.readUInt32LE(at + 22),
        archive.readUInt16LE(at + 26),
        archive.readUInt16LE(at + 28),
      ];
      const start = at + 30 + names + extra;
      const body = archive.subarray(start, start + packed);
      const content = archive.readUInt16LE(at + 8) === 8 ? inflateRawSync(body) : body;
      expect(content.length).toBe(whole);
      seen.set(archive.toString('utf8', at + 30, at + 30 + names), content);
      at = start + packed;
    }
    expect([...seen.keys()]).toEqual(['manifest.json', 'readme.txt', 'batches/2613a.batch', 'diary.journal']);
    expect(seen.get('batches/2613a.batch')?.equals(from.disk.get('/h/batches/2613a.batch'))).toBe(true);
    const manifest = JSON.parse(String(seen.get('manifest.json'))) as {
      version: number;
      parts: { name: string }[];
    };
    expect(manifest.version).toBe(1);
    expect(manifest.parts.map(({ name }) => name)).toEqual(['batches/2613a.batch', 'diary.journal']);
  });

  it('never replaces a file', async () => {
    const from = fill(home(), [some('2613a')]);
    from.disk.put('/x.zip', Buffer.from('mine'));
    await expect(exportArchive(from, '/x.zip', NOW)).rejects.toThrow(GrowerError);
    expect(from.disk.get('/x.zip').toString()).toBe('mine');
  });

  it('a file that cannot be read is named, and the others go in', async () => {
    const from = fill(home(), [some('2613a'), some('2613b')]);
    const faulty = faultyFiles(from.disk);
    faulty.break({ on: 'open', code: 'EIO', times: 1 });
    const exported = await exportArchive({ ...from, files: faulty.files }, '/x.zip', NOW);
    expect(exported.batches).toBe(1);
    expect(exported.notices).toEqual([
      '/h/batches/2613a.batch is not in the archive: the disk reports an error.',
    ]);
  });
});

describe('merging', () => {
  it('a batch that went on since is continued, in either direction', async () => {
    const long = some('2613a');
    const short = { ...long, events: long.events.slice(0, 9) };
    const [older, newer] = [fill(home(), [short]), fill(home(), [long])];
    expect(await mergeArchive(await bytesOf(newer), older)).toMatchObject({
      continued: ['2613a'],
      notices: [],
    });
    expect(recordIn(older)).toEqual(recordIn(newer));
    expect(await mergeArchive(await bytesOf(fill(home(), [short])), newer)).toMatchObject({
      added: [],
      continued: [],
      same: 1,
    });
    expect(recordIn(newer)).toEqual(recordIn(older));
  });

  it('a batch that went two ways is kept as it is here, and that is said', async () => {
    const one = some('2613a');
    const header = one.header;
    const other = drivenBatch(header, drive => drive.to('surface-dry').trouble('still-wet'));
    const here = fill(home(), [one]);
    const before = recordIn(here);
    const { notices } = await mergeArchive(await bytesOf(fill(home(), [other])), here);
    expect(notices).toEqual([expect.stringContaining('went on differently')]);
    expect(recordIn(here)).toEqual(before);
  });

  it('another batch of the same name gets a free one, its diary goes along, and nothing doubles later', async () => {
    const here = fill(home(), [some('2613a', 1)]);
    const there = fill(home(), [drivenBatch(homeHeader('2613a', { jars: true, loads: [3] }, NOW))], lost);
    const archive = await bytesOf(there);
    const first = await mergeArchive(archive, here);
    expect(first.added).toEqual(['2613b']);
    expect(first.notices[0]).toContain('2613b');
    const [mine, theirs] = recordIn(here);
    expect(mine?.bags.map(({ standing }) => standing)).toEqual(['colonising']);
    expect(theirs?.bags.map(({ id, standing }) => `${id} ${standing}`)).toEqual([
      '2613b-1 contaminated',
      '2613b-2 colonising',
      '2613b-3 colonising',
    ]);
    expect(await mergeArchive(archive, here)).toMatchObject({ added: [], same: 1, entries: 0 });
    // And back home again: the renamed copy is known for what it is.
    expect(await mergeArchive(await bytesOf(here), there)).toMatchObject({ same: 1 });
    expect(recordIn(there)).toHaveLength(2);
  });

  it('recipes and settings: what is here is kept, what differs is named', async () => {
    const there = home(memoryFiles(), settingsOf());
    there.disk.put('/h/recipes/rye.yaml', Buffer.from('theirs'));
    there.disk.put('/h/recipes/new.yaml', Buffer.from('new'));
    there.disk.put(
      '/h/settings.json',
      Buffer.from(
        JSON.stringify({
          kitchen: { altitudeM: 1200, roomC: 19 },
          lastRecipe: '/other/home/recipes/new.yaml',
        }),
      ),
    );
    const here = home(memoryFiles(), settingsOf({ kitchen: { altitudeM: 640 } }));
    here.disk.put('/h/recipes/rye.yaml', Buffer.from('mine'));
    const imported = await mergeArchive(await bytesOf(there), here);
    expect(here.disk.get('/h/recipes/rye.yaml').toString()).toBe('mine');
    expect(here.disk.get('/h/recipes/rye-2.yaml').toString()).toBe('theirs');
    expect(imported.recipes).toEqual(['new.yaml', 'rye-2.yaml']);
    expect(here.settingsStore.values.kitchen).toEqual({ altitudeM: 640, roomC: 19 });
    expect(here.settingsStore.values.lastRecipe).toBe('/h/recipes/new.yaml');
    expect(imported.notices.join(' ')).toMatch(/rye-2\.yaml.*altitudeM/);
    expect((await mergeArchive(await bytesOf(there), here)).recipes).toEqual([]);
  });
});

describe('archives that cannot be trusted', () => {
  const zip = (parts: Readonly<Record<string, Uint8Array>>) => zipSync(parts);

  it('a flipped bit anywhere is named or harmless: never a throw of our own, never a batch that is not one', async () => {
    const archive = await bytesOf(fill(home(), [some('2613a'), some('2613b')], lost));
    const whole = recordIn(fill(home(), [some('2613a'), some('2613b')], lost));
    await fc.assert(
      fc.asyncProperty(fc.noBias(fc.nat(archive.length * 8 - 1)), async bit => {
        const bad = Uint8Array.from(archive);
        bad[bit >> 3] = (bad[bit >> 3] ?? 0) ^ (1 << (bit & 7));
        const to = home();
        try {
          const { notices } = await mergeArchive(bad, to);
          const record = recordIn(to);
          if (notices.length === 0) expect(record).toEqual(whole);
          expect(record.length).toBeLessThanOrEqual(2);
        } catch (problem) {
          expect(problem).toBeInstanceOf(GrowerError);
        }
      }),
      { numRuns: 400 },
    );
  });

  it('cut off anywhere, what is whole before the cut is kept', async () => {
    const archive = await bytesOf(fill(home(), [some('2613a'), some('2613b')], lost));
    let kept = 0;
    for (let length = 0; length < archive.length; length += 37) {
      const to = home();
      try {
        await mergeArchive(archive.subarray(0, length), to);
        kept += recordIn(to).length;
      } catch (problem) {
        expect(problem).toBeInstanceOf(GrowerError);
      }
    }
    expect(kept).toBeGreaterThan(20);
  });

  it('names that lead elsewhere are left alone', async () => {
    const journal = journalBytes(some('2613a').header, []);
    const to = home();
    const names = [
      '../2613a.batch',
      'batches/../../x.batch',
      '/etc/passwd',
      'batches\\2613a.batch',
      'recipes/../../x.yaml',
      'recipes/.hidden.yaml',
      '__prot0__',
      'batches/2613a.batch/x',
    ];
    const parts = {
      ...Object.fromEntries(names.map(name => [name, journal])),
      'batches/2613a.batch': journal,
    };
    // No library packs a part of that name: it is written into the bytes.
    const archive = Buffer.from(
      Buffer.from(zip(parts)).toString('latin1').replaceAll('__prot0__', '__proto__'),
      'latin1',
    );
    const { notices, added } = await mergeArchive(archive, to);
    expect(added).toEqual(['2613a']);
    expect(notices.filter(notice => notice.includes('left alone')).length).toBeGreaterThanOrEqual(7);
    expect(to.disk.list('/h/batches')).toEqual(['2613a.batch']);
    expect(to.disk.list('/')).toEqual([]);
    expect(to.disk.list('/h')).toEqual([]);
  });

  it('bombs are not unpacked: parts that are too large, and sizes that lie', async () => {
    const bomb = new Uint8Array(30 << 20);
    const honest = zip({
      'batches/2613a.batch': bomb,
      'batches/2613b.batch': journalBytes(some('2613b').header, []),
    });
    const { notices } = await mergeArchive(honest, home());
    expect(notices.join(' ')).toContain('larger than it can be');
    const lying = Buffer.from(zip({ 'settings.json': bomb }));
    // Local and central header claim 10 bytes (APPNOTE 4.4.9).
    lying.writeUInt32LE(10, 22);
    lying.writeUInt32LE(10, lying.lastIndexOf(Buffer.from([0x50, 0x4b, 1, 2])) + 24);
    await expect(mergeArchive(lying, home())).rejects.toThrow(GrowerError);
    const many = zip(
      Object.fromEntries(Array.from({ length: 12_100 }, (_, index) => [`x${index}`, new Uint8Array(0)])),
    );
    await expect(mergeArchive(many, home())).rejects.toThrow(/too many/);
  });

  it('other files, and archives of the future, are refused in a sentence', async () => {
    for (const bytes of [new Uint8Array(0), strToU8('hello'), zip({ 'a.txt': strToU8('x') })]) {
      await expect(mergeArchive(bytes, home())).rejects.toThrow(/no archive of Stovehand/);
    }
    const future = zip({
      'manifest.json': strToU8(JSON.stringify({ stovehand: 'archive', version: 2, parts: [] })),
    });
    await expect(mergeArchive(future, home())).rejects.toThrow(/newer Stovehand/);
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 300 }), async bytes => {
        await expect(mergeArchive(bytes, home())).rejects.toThrow(GrowerError);
      }),
    );
  });

  it('a part missing from the archive is named', async () => {
    const parts = unzipSync(await bytesOf(fill(home(), [some('2613a'), some('2613b')])));
    const { 'batches/2613a.batch': _, ...rest } = parts;
    const to = home();
    expect((await mergeArchive(zip(rest), to)).notices).toEqual([
      '"batches/2613a.batch" is missing from the archive.',
    ]);
    expect(recordIn(to)).toHaveLength(1);
  });

  it('a full disk stops the import with a sentence and leaves no half batch', async () => {
    const archive = await bytesOf(fill(home(), [some('2613a'), some('2613b')]));
    const to = home();
    const faulty = faultyFiles(to.disk);
    faulty.break({ on: 'write', code: 'ENOSPC', after: 1, bytes: 20 });
    await expect(mergeArchive(archive, { ...to, files: faulty.files })).rejects.toThrow(/disk is full/);
    expect(recordIn(to).map(({ id }) => id)).toEqual(['2613a']);
    expect(await mergeArchive(archive, to)).toMatchObject({ added: ['2613b'], same: 1 });
  });
});
