import { describe, expect, it } from 'vitest';
import { findPlaces, type Surroundings } from '../../src/shell/paths.ts';

const linux: Surroundings = { platform: 'linux', env: {}, userHome: '/home/ada', cwd: '/tmp/here' };

describe('where things live', () => {
  // XDG Base Directory Specification 0.8: default of XDG_DATA_HOME; relative values are to be ignored [READ].
  // macOS: File System Programming Guide, Application Support [MEMORY]. Windows: roaming AppData [MEMORY].
  it.each([
    ['Linux', linux, '/home/ada/.local/share/stovehand'],
    ['XDG', { ...linux, env: { XDG_DATA_HOME: '/data/ada' } }, '/data/ada/stovehand'],
    ['relative XDG', { ...linux, env: { XDG_DATA_HOME: 'data' } }, '/home/ada/.local/share/stovehand'],
    ['empty XDG', { ...linux, env: { XDG_DATA_HOME: '' } }, '/home/ada/.local/share/stovehand'],
    [
      'macOS',
      { ...linux, platform: 'darwin', userHome: '/Users/ada' },
      '/Users/ada/Library/Application Support/Stovehand',
    ],
    [
      'Windows',
      { platform: 'win32', env: { APPDATA: 'D:\\Roam' }, userHome: 'C:\\Users\\ada', cwd: 'C:\\x' },
      'D:\\Roam\\Stovehand',
    ],
    [
      'Windows without APPDATA',
      { platform: 'win32', env: {}, userHome: 'C:\\Users\\ada', cwd: 'C:\\x' },
      'C:\\Users\\ada\\AppData\\Roaming\\Stovehand',
    ],
    ['the variable', { ...linux, env: { STOVEHAND_HOME: '/srv/coach', XDG_DATA_HOME: '/d' } }, '/srv/coach'],
    ['an empty variable', { ...linux, env: { STOVEHAND_HOME: '' } }, '/home/ada/.local/share/stovehand'],
    ['the flag', { ...linux, env: { STOVEHAND_HOME: '/srv' }, homeFlag: 'mine' }, '/tmp/here/mine'],
  ] as const)('by %s', (_, around, home) => {
    expect(findPlaces(around).home).toBe(home);
  });

  it('puts everything inside the home folder', () => {
    expect(findPlaces({ ...linux, homeFlag: '/h' })).toEqual({
      home: '/h',
      settings: '/h/settings.json',
      batches: '/h/batches',
      practice: '/h/practice',
      pages: '/h/pages',
      recipes: '/h/recipes',
    });
    const windows = findPlaces({
      platform: 'win32',
      env: {},
      userHome: 'C:\\u',
      cwd: 'C:\\x',
      homeFlag: 'D:\\h',
    });
    expect(windows.batches).toBe('D:\\h\\batches');
  });

  it('refuses a name that is none', () => {
    for (const homeFlag of ['', '  ', 'a\u0000b']) {
      expect(() => findPlaces({ ...linux, homeFlag })).toThrow(/no usable name/);
    }
  });
});
