import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { createSpeech, findSpeech, speakable } from '../../src/shell/speech.ts';
import { tempFolder } from '../help/temp-folder.ts';

const only =
  (...paths: string[]) =>
  (path: string) =>
    paths.includes(path);

describe('the speech program', () => {
  it('is found on each system by its full path, with fixed arguments', () => {
    const path = { PATH: '/usr/local/bin:/usr/bin' };
    expect(findSpeech('linux', path, only('/usr/bin/espeak', '/usr/bin/spd-say'))).toEqual({
      program: '/usr/bin/spd-say',
      args: ['--wait', '--'],
      by: 'argument',
    });
    expect(findSpeech('linux', path, only('/usr/bin/espeak-ng'))?.args).toEqual(['--stdin']);
    expect(findSpeech('darwin', path, only('/usr/bin/say'))).toMatchObject({
      args: ['-f', '-'],
      by: 'input',
    });
    const shell = 'C:\\Windows\\System32\\WindowsPowerShell\\v1.0\\powershell.exe';
    expect(findSpeech('win32', { SystemRoot: 'C:\\Windows' }, only(shell))).toMatchObject({ program: shell });
    expect(findSpeech('linux', path, only())).toBeNull();
    expect(findSpeech('win32', {}, () => true)).toBeNull();
  });

  it('is never taken from the current folder', () => {
    expect(findSpeech('linux', { PATH: '.:bin::' }, () => true)).toBeNull();
    expect(findSpeech('linux', {}, () => true)).toBeNull();
  });

  it('gets nothing but words', () => {
    expect(speakable('--version; rm -rf / `x` $(y) [[volm 0]] <speak>')).toBe(
      'version rm -rf x y volm 0 speak',
    );
    expect(speakable('Hold: 12 min left, 121 °C.')).toBe('Hold: 12 min left, 121 °C.');
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), text => {
        const says = speakable(text);
        expect(says).not.toMatch(/^-|[\p{Cc};&|<>`$\\[\]"(){}]/u);
        expect(says.length).toBeLessThanOrEqual(200);
      }),
      { numRuns: 1000, seed: 9 },
    );
  });
});

describe('speaking', () => {
  const program = (script: string) => {
    const folder = tempFolder();
    const path = join(folder, 'voice');
    const heard = join(folder, 'heard');
    writeFileSync(path, `#!/bin/sh\n${script.replaceAll('HEARD', heard)}\n`);
    chmodSync(path, 0o700);
    return { path, heard };
  };
  const hears = (file: string) =>
    vi.waitFor(() => {
      expect(existsSync(file)).toBe(true);
      return readFileSync(file, 'utf8');
    });

  it('hands the sentence over as one argument behind --', async () => {
    const { path, heard } = program('printf "%s|" "$@" > HEARD.new; mv HEARD.new HEARD');
    createSpeech({ program: path, args: ['--wait', '--'], by: 'argument' }).speak('Look at the kernels; now');
    expect(await hears(heard)).toBe('--wait|--|Look at the kernels now|');
  });

  it('or on its input', async () => {
    const { path, heard } = program('cat > HEARD.new; mv HEARD.new HEARD');
    createSpeech({ program: path, args: ['--stdin'], by: 'input' }).speak('Heat off');
    expect(await hears(heard)).toBe('Heat off\n');
  });

  it('stays silent when the program is missing, fails, or closes its input', async () => {
    const { path } = program('exec <&-; exit 3');
    const failing = createSpeech({ program: path, args: [], by: 'input' });
    const missing = createSpeech({ program: `${path}.none`, args: [], by: 'input' });
    for (let turn = 0; turn < 5; turn += 1) {
      failing.speak('Heat off');
      missing.speak('Heat off');
    }
    missing.stop();
    failing.stop();
    const { path: good, heard } = program('cat > HEARD.new; mv HEARD.new HEARD');
    createSpeech({ program: good, args: [], by: 'input' }).speak('Still here');
    expect(await hears(heard)).toBe('Still here\n');
  });
});
