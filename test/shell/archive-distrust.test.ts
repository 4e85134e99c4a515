import { strToU8, unzipSync, zipSync } from 'fflate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mergeArchive } from '../../src/shell/archive-merge.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { faultyFiles } from '../help/faulty-files.ts';
import { journalBytes } from '../help/record-home.ts';

import { bytesOf, fill, home, lost, recordIn, some } from '../help/archive-home.ts';
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
