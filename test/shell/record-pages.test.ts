import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { GrowerError } from '../../src/shell/failure.ts';
import { findOpener, openPage, writePage } from '../../src/shell/record-pages.ts';
import { tempFolder } from '../help/temp-folder.ts';

describe('pages on disk', () => {
  it('never replace anything: a free name by itself, a refusal for a name that was asked for', () => {
    // The folder of pages is made with the first page; one that was named has to be there.
    const folder = join(tempFolder(), 'pages');
    expect(writePage('one', null, 'labels-2613a', '.html', folder)).toBe(join(folder, 'labels-2613a.html'));
    expect(writePage('two', null, 'labels-2613a', '.html', folder)).toBe(join(folder, 'labels-2613a-2.html'));
    writeFileSync(join(folder, 'mine.html'), 'mine');
    expect(() => writePage('x', join(folder, 'mine.html'), '', '', folder)).toThrow(GrowerError);
    expect(readFileSync(join(folder, 'mine.html'), 'utf8')).toBe('mine');
    expect(() => writePage('x', join(folder, 'no', 'such.html'), '', '', folder)).toThrow(
      /^There is no folder .*no to write into\.$/,
    );
  });
});

describe('opening a page', () => {
  it('uses the fixed program of each system by its full path, or none', () => {
    expect(findOpener('darwin', {}, () => true)).toEqual({ program: '/usr/bin/open', args: [] });
    expect(findOpener('win32', { SystemRoot: 'C:\\Windows' }, () => true)).toEqual({
      program: 'C:\\Windows\\explorer.exe',
      args: [],
    });
    expect(findOpener('win32', { SystemRoot: 'Windows' }, () => true)).toBeNull();
    expect(findOpener('linux', { PATH: '.:bin:/usr/bin' }, path => path === '/usr/bin/xdg-open')).toEqual({
      program: '/usr/bin/xdg-open',
      args: [],
    });
    expect(findOpener('linux', { PATH: '.:bin' }, () => true)).toBeNull();
    expect(findOpener('linux', {}, () => true)).toBeNull();
  });
  it('says so in a sentence when there is no such program, or no full path', async () => {
    expect(await openPage('/tmp/x.html', 'linux', { PATH: '' })).toMatch(/open it yourself/);
    expect(await openPage('-x.html', 'linux', { PATH: '/usr/bin' })).toMatch(/open it yourself/);
  });
});
