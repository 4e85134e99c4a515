import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GrowerError } from '../../src/shell/failure.ts';
import { openSettings } from '../../src/shell/settings.ts';
import { faultyFiles } from '../help/faulty-files.ts';
import { tempFolder } from '../help/temp-folder.ts';

const NONE = { kitchen: {}, lastRecipe: '', kitchenAsked: false, lessonOffered: false };
const at = (text?: string): string => {
  const path = join(tempFolder(), 'home', 'settings.json');
  mkdirSync(join(path, '..'));
  if (text !== undefined) writeFileSync(path, text);
  return path;
};

describe('settings', () => {
  it('are the defaults, without a word, before anything was kept', () => {
    const settings = openSettings(join(tempFolder(), 'none', 'settings.json'));
    expect(settings).toMatchObject({ values: NONE, notices: [] });
  });

  it('are found again by the next start, readable by their owner only', async () => {
    const path = join(tempFolder(), 'new', 'settings.json');
    const settings = openSettings(path);
    await settings.save({ kitchen: { altitudeM: 700 }, lastRecipe: 'rye.v2.yaml' });
    await settings.save({ kitchenAsked: false, lessonOffered: true });
    const expected = {
      kitchen: { altitudeM: 700 },
      lastRecipe: 'rye.v2.yaml',
      kitchenAsked: false,
      lessonOffered: true,
    };
    expect(settings.values).toEqual(expected);
    expect(openSettings(path)).toMatchObject({ values: expected, notices: [] });
    expect(statSync(path).mode & 0o777).toBe(0o600);
    expect(statSync(join(path, '..')).mode & 0o777).toBe(0o700);
    expect(readdirSync(join(path, '..'))).toEqual(['settings.json']);
  });

  it('of two saves at once both are kept', async () => {
    const path = join(tempFolder(), 'home', 'settings.json');
    const settings = openSettings(path);
    await Promise.all([
      settings.save({ kitchenAsked: true }),
      settings.save({ lessonOffered: true }),
      settings.save({ lastRecipe: 'rye-bags' }),
    ]);
    const kept = { kitchenAsked: true, lessonOffered: true, lastRecipe: 'rye-bags' };
    expect(openSettings(path).values).toMatchObject(kept);
    expect(settings.values).toMatchObject(kept);
  });

  it('after a save that failed the next one is tried all the same', async () => {
    const path = join(tempFolder(), 'home', 'settings.json');
    mkdirSync(join(path, '..', '..'), { recursive: true });
    writeFileSync(join(path, '..'), 'a file where the folder should be');
    const settings = openSettings(path);
    const first = settings.save({ kitchenAsked: true });
    await expect(first).rejects.toBeInstanceOf(GrowerError);
    await expect(settings.save({ lastRecipe: 'rye' })).rejects.toBeInstanceOf(GrowerError);
    expect(settings.values).toEqual(NONE);
  });

  it('keep what a later version wrote beside them', async () => {
    const path = at('{"lastRecipe":"a","futureKey":[1]}');
    await openSettings(path).save({ lastRecipe: 'b' });
    expect(JSON.parse(readFileSync(path, 'utf8'))).toMatchObject({ lastRecipe: 'b', futureKey: [1] });
  });

  it('lose one bad value, not the others, and name it', () => {
    const path = at('{"kitchen":{"potL":0,"cookerL":9},"lastRecipe":7,"lessonOffered":true}');
    const { values, notices } = openSettings(path);
    expect(values).toEqual({
      kitchen: { cookerL: 9 },
      lastRecipe: '',
      kitchenAsked: false,
      lessonOffered: true,
    });
    expect(notices).toEqual([
      'In the settings, "kitchen.potL" is 0, but must be a number from 0.5 to 200 L. The usual value stands in.',
      'In the settings, "lastRecipe" is 7, but must be the name of a recipe. The usual value stands in.',
    ]);
    expect(existsSync(path)).toBe(true);
  });

  it.each([
    ['torn', '{"kitchen":{"altitudeM":12'],
    ['empty', ''],
    ['a list', '[1]'],
    ['zeros', '\u0000'.repeat(200)],
    ['two megabytes', `"${'x'.repeat(2 << 20)}"`],
  ])('that are %s are kept under another name and reported; saving begins anew', async (_, text) => {
    const path = at(text);
    const settings = openSettings(path);
    expect(settings.values).toEqual(NONE);
    expect(settings.notices).toEqual([expect.stringContaining(`It is kept as ${path}.damaged.`)]);
    expect(readFileSync(`${path}.damaged`, 'utf8')).toBe(text);
    await settings.save({ kitchenAsked: false, lessonOffered: true });
    expect(openSettings(path)).toMatchObject({
      values: { kitchenAsked: false, lessonOffered: true },
      notices: [],
    });
    expect(readFileSync(`${path}.damaged`, 'utf8')).toBe(text);
  });

  it('never overwrite an earlier damaged file', () => {
    const path = at('{');
    writeFileSync(`${path}.damaged`, 'earlier');
    openSettings(path);
    expect(readFileSync(`${path}.damaged`, 'utf8')).toBe('earlier');
    expect(readFileSync(`${path}.damaged-2`, 'utf8')).toBe('{');
  });

  it('say in words when they cannot be read, moved or kept', async () => {
    const disk = faultyFiles();
    disk.break({ on: 'open', code: 'EACCES' });
    expect(openSettings(at('{}'), disk.files).notices[0]).toContain(
      'could not be read: permission is refused',
    );
    disk.break({ on: 'rename', code: 'EROFS' });
    const path = at('{');
    const settings = openSettings(path, disk.files);
    expect(settings.notices[0]).toContain('could not be moved aside: the disk can only be read');
    await expect(settings.save({ lastRecipe: 'a' })).rejects.toThrow(
      'could not be kept: the file there is damaged',
    );
    disk.break({ on: 'folder', code: 'ENOSPC' });
    const full = openSettings(at('{"lastRecipe":"a"}'), disk.files);
    await expect(full.save({ lastRecipe: 'b' })).rejects.toThrow(GrowerError);
    expect(full.values.lastRecipe).toBe('a');
  });

  it('take any bytes without throwing', () => {
    const path = at();
    fc.assert(
      fc.property(
        fc.oneof(
          fc.json(),
          fc.string(),
          fc.uint8Array().map(bytes => Buffer.from(bytes)),
        ),
        bytes => {
          writeFileSync(path, bytes);
          const { values, notices } = openSettings(path);
          expect(typeof values.lastRecipe).toBe('string');
          for (const notice of notices) expect(notice).not.toMatch(/\p{Cc}/u);
        },
      ),
      { numRuns: 300, seed: 5 },
    );
  });

  it('do not touch a read-only file for looking at it', () => {
    const path = at('{"lastRecipe":"a"}');
    chmodSync(path, 0o400);
    expect(openSettings(path).values.lastRecipe).toBe('a');
    expect(readdirSync(join(path, '..'))).toEqual(['settings.json']);
  });
});
