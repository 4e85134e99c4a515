import fc from 'fast-check';
import { inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { exportArchive } from '../../src/shell/archive.ts';
import { mergeArchive } from '../../src/shell/archive-merge.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { faultyFiles } from '../help/faulty-files.ts';
import { memoryFiles } from '../help/memory-files.ts';
import { someBatch, someDiary } from '../help/record-history.ts';
import { drivenBatch, homeHeader } from '../help/record-home.ts';

import { bytesOf, fill, home, lost, NOW, recordIn, settingsOf, some } from '../help/archive-home.ts';
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
    expect(first.notices).toEqual([]);
    expect(first.notes).toEqual([
      expect.stringMatching(/Your 2613a keeps its number.*2613b here, and only its bags/),
    ]);
    const [mine, theirs] = recordIn(here);
    expect(theirs?.batch.header).toMatchObject({ id: '2613b', formerId: '2613a' });
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

  it('identical recipes come once under the plain name, are counted, and the last recipe is found by its copy', async () => {
    const there = home(memoryFiles(), settingsOf());
    for (const name of ['rye-after', 'rye-after-2', 'rye-after-3'])
      there.disk.put(`/h/recipes/${name}.yaml`, Buffer.from('the same'));
    const said = {
      kitchen: { altitudeM: 900 },
      lastRecipe: '/h/recipes/rye-after-3.yaml',
      kitchenAsked: true,
    };
    there.disk.put('/h/settings.json', Buffer.from(JSON.stringify(said)));
    const here = home(memoryFiles(), settingsOf());
    const imported = await mergeArchive(await bytesOf(there), here);
    expect(imported).toMatchObject({
      recipes: ['rye-after.yaml'],
      sameRecipes: 2,
      settings: ['the kitchen', 'the last recipe'],
    });
    expect(here.settingsStore.values).toMatchObject({
      kitchen: { altitudeM: 900 },
      lastRecipe: '/h/recipes/rye-after.yaml',
      kitchenAsked: true,
    });
    expect(await mergeArchive(await bytesOf(there), here)).toMatchObject({ sameRecipes: 3, settings: [] });
  });

  it('a last recipe that lay outside the other home is named, and none of its name here stands in for it', async () => {
    const there = home(memoryFiles(), settingsOf());
    there.disk.put('/h/settings.json', Buffer.from(JSON.stringify({ lastRecipe: '/desk/rye.yaml' })));
    const here = home(memoryFiles(), settingsOf());
    here.disk.put('/h/recipes/rye.yaml', Buffer.from('mine'));
    const { notes, settings } = await mergeArchive(await bytesOf(there), here);
    expect(notes.join(' ')).toContain('The last recipe was /desk/rye.yaml, which is not in the archive');
    expect(settings).toEqual([]);
    expect(here.settingsStore.values.lastRecipe).toBe('');
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
    expect(imported.notices).toEqual([]);
    expect(imported.notes.join(' ')).toMatch(/rye-2\.yaml.*altitudeM/);
    expect((await mergeArchive(await bytesOf(there), here)).recipes).toEqual([]);
  });
});
