import { execFileSync, spawnSync } from 'node:child_process';
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
import { describe, expect, it } from 'vitest';
import { leaveAt, momentsOf } from '../faults/crash-driver.ts';
import { sampleHeader } from '../help/batch-kit.ts';
import { openPty, PROGRAM } from '../help/pty.ts';
import { tempFolder } from '../help/temp-folder.ts';

const PRELOAD = join(import.meta.dirname, '../faults/watch-preload.mjs');

/** A home with a batch that wants the flame off, speech wished for, and a speech program that only listens. */
function noisyHome() {
  const home = tempFolder();
  const tools = join(home, 'tools');
  mkdirSync(tools);
  const spoken = join(home, 'spoken.txt');
  writeFileSync(join(tools, 'espeak-ng'), `#!/bin/sh\n{ echo "args: $*"; cat; } >> ${spoken}\n`);
  chmodSync(join(tools, 'espeak-ng'), 0o755);
  const alerts = { bell: true, terminal: true, speech: true, quietFromMin: 0, quietToMin: 0 };
  writeFileSync(join(home, 'settings.json'), JSON.stringify({ kitchen: { alerts }, kitchenAsked: true }));
  const moment = momentsOf(sampleHeader({ loads: [1] })).find(({ step }) => step === 'heat-off');
  if (moment) leaveAt(moment, home);
  return { home, tools, spoken };
}

/** Opens the batch, hears the alert, turns the flame off, looks at help and leaves. */
async function visit(home: string, path: string, command: readonly [string, ...string[]], log: string) {
  const program = openPty([], { home, command, env: { PATH: path, STOVEHAND_WATCH_LOG: log } });
  try {
    await program.until(/step \d+ of \d+/);
    await program.ready();
    await program.press('?');
    await program.press('esc');
    await program.press('space');
    await program.until(/Locked|locked/);
    await program.press('q');
    await program.press('q');
    expect((await program.exit).code).toBe(0);
  } finally {
    await program.close();
  }
}

describe('what the program touches', () => {
  it('no network, no thread, and no process but the speech program with its fixed argument', async () => {
    const { home, tools, spoken } = noisyHome();
    const log = join(home, 'watch.log');
    await visit(home, tools, [process.execPath, '--import', PRELOAD, PROGRAM], log);
    const seen = readFileSync(log, 'utf8')
      .trimEnd()
      .split('\n')
      .map(line => JSON.parse(line) as { what: string; values: readonly unknown[] });
    expect(seen[0]?.what).toBe('watching');
    const processes = seen.slice(1);
    expect(processes.map(({ what }) => what).filter(what => what !== 'process spawn')).toEqual([]);
    expect(processes.length).toBeGreaterThan(0);
    for (const { values } of processes) {
      expect(values[0]).toBe(join(tools, 'espeak-ng'));
      expect(values[1]).toEqual(['--stdin']);
      expect(values[2]).toMatchObject({ shell: false });
    }
    expect(readFileSync(spoken, 'utf8')).toMatch(/^args: --stdin\n/);
  });

  it('the browser only when asked, with the page that was written and nothing else', async () => {
    const home = tempFolder();
    const tools = join(home, 'tools');
    mkdirSync(tools);
    writeFileSync(join(tools, 'xdg-open'), '#!/bin/sh\n');
    chmodSync(join(tools, 'xdg-open'), 0o755);
    writeFileSync(join(home, 'settings.json'), JSON.stringify({ kitchenAsked: true }));
    const moment = momentsOf(sampleHeader({ loads: [1] })).at(-1);
    if (moment) leaveAt(moment, home);
    const log = join(home, 'watch.log');
    const started = (): readonly unknown[] =>
      readFileSync(log, 'utf8')
        .trimEnd()
        .split('\n')
        .map(line => JSON.parse(line) as { what: string; values: readonly unknown[] })
        .filter(({ what }) => what !== 'watching')
        .map(({ what, values }) => [what, values[0], values[1], Reflect.get(Object(values[2]), 'shell')]);
    const opens = (page: string) => [
      'process spawn',
      join(tools, 'xdg-open'),
      [join(home, 'pages', page)],
      false,
    ];
    const watched = ['--import', PRELOAD, PROGRAM];
    const program = openPty([], {
      home,
      command: [process.execPath, ...watched],
      env: { PATH: tools, STOVEHAND_WATCH_LOG: log },
    });
    try {
      await program.until(/step \d+ of \d+/);
      await program.ready();
      await program.press('space');
      await program.until(/labels to print/);
      await program.press('p');
      await program.until(/Written to/);
      await program.press('l');
      await program.until(/labels-2613a\.html/);
      expect(started()).toEqual([]);
      await program.press('o');
      await program.until(/Opened in your browser/);
      expect(started()).toEqual([opens('labels-2613a.html')]);
    } finally {
      await program.close();
    }
    const env = { PATH: tools, HOME: home, STOVEHAND_HOME: home, STOVEHAND_WATCH_LOG: log };
    const command = (...words: readonly string[]) =>
      execFileSync(process.execPath, [...watched, ...words], { cwd: home, env });
    command('card', '2613a');
    expect(started()).toHaveLength(1);
    command('card', '2613a', '--open');
    expect(started().slice(1)).toEqual([opens('card-2613a-3.html')]);
  });

  it('keeps all its files private', async () => {
    const { home, tools } = noisyHome();
    const fresh = join(home, 'fresh');
    await visit(home, tools, [process.execPath, PROGRAM], '');
    execFileSync(process.execPath, [PROGRAM, '--home', fresh, 'kitchen', 'altitude', '700 m']);
    spawnSync(process.execPath, [PROGRAM, '--home', fresh, '--plain', 'run', 'rye'], { input: '\n\nq\n' });
    const all = readdirSync(fresh, { recursive: true, encoding: 'utf8' });
    expect(all.some(name => name.endsWith('.batch'))).toBe(true);
    for (const name of ['', ...all]) {
      const stat = statSync(join(fresh, name));
      expect((stat.mode & 0o777).toString(8), name).toBe(stat.isDirectory() ? '700' : '600');
    }
    expect(all.filter(name => name.includes('.lock'))).toEqual([]);
  });

  it('opens no path outside its home for writing, by the kernel’s own count', async context => {
    const strace = ['/usr/bin/strace', '/bin/strace'].find(existsSync);
    const { home, tools } = noisyHome();
    const log = join(home, 'strace.log');
    const works = strace && spawnSync(strace, ['-f', '-o', '/dev/null', 'true']).status === 0;
    if (!strace || !works) {
      console.log('Skipped: strace is not here, or may not trace.');
      context.skip();
      return;
    }
    const calls =
      '%network,%process,openat,open,creat,mkdir,mkdirat,rename,renameat,renameat2,unlink,unlinkat,link,linkat,symlink,symlinkat,truncate,chmod,fchmodat';
    await visit(
      home,
      tools,
      [strace, '-f', '-s', '300', '-o', log, '-e', `trace=${calls}`, process.execPath, PROGRAM],
      '',
    );
    const lines = readFileSync(log, 'utf8').split('\n');
    const program = (line: string) =>
      !line.includes('resumed>') && !line.includes('+++') && !line.includes('--- SIG');
    const spawned = lines.filter(line => /execve\(/.test(line) && !line.includes('ENOENT'));
    expect(
      spawned.every(line => /strace|execve\("[^"]*node|espeak-ng|\/(?:cat|sh|dash|bash)"/.test(line)),
      spawned.join('\n'),
    ).toBe(true);
    const network = lines.filter(
      line => /\b(?:connect|bind|listen|sendto|accept4?)\(/.test(line) || /socket\(AF_INET/.test(line),
    );
    expect(network).toEqual([]);
    const writes = lines
      .filter(program)
      .filter(line =>
        /O_WRONLY|O_RDWR|O_CREAT|\b(?:mkdir|rename|unlink|link|symlink|truncate|chmod)/.test(line),
      )
      .flatMap(line => [...line.matchAll(/"([^"]+)"/g)].map(match => match[1] ?? ''))
      .filter(
        path =>
          !path.startsWith(`${home}/`) &&
          path !== home &&
          !path.startsWith('/dev/') &&
          !path.startsWith('/proc/self'),
      );
    expect([...new Set(writes)]).toEqual([]);
    console.log(
      `${lines.length} calls traced: ${spawned.length} programs started, no network, no write outside the home`,
    );
  });
});

describe('what comes with it', () => {
  it('is counted, and nothing of it runs at installation but Node itself and the bundler of the build', () => {
    interface Locked {
      readonly dev?: boolean;
      readonly optional?: boolean;
      readonly hasInstallScript?: boolean;
      readonly license?: string;
    }
    const lock = JSON.parse(readFileSync(join(import.meta.dirname, '../../package-lock.json'), 'utf8')) as {
      packages: Readonly<Record<string, Locked>>;
    };
    const packages = Object.entries(lock.packages).filter(([path]) => path !== '');
    const running = packages.filter(([, { dev }]) => dev !== true);
    const scripts = packages
      .filter(([, { hasInstallScript, optional }]) => hasInstallScript === true && optional !== true)
      .map(([path]) => path.replace(/^.*node_modules\//, ''));
    console.log(
      `${running.length} packages run, ${packages.length} in all; install scripts: ${scripts.join(', ')}`,
    );
    expect(scripts.sort()).toEqual(['esbuild', 'node']);
    expect(running.every(([, { hasInstallScript }]) => hasInstallScript !== true)).toBe(true);
    // All of them may be passed on with the program, if their notices are.
    const licences = [...new Set(running.map(([path, { license }]) => license ?? `none: ${path}`))].sort();
    console.log(`licences of what runs: ${licences.join(', ')}`);
    expect(licences).toEqual(['(MIT OR CC0-1.0)', 'BSD-2-Clause', 'BSD-3-Clause', 'ISC', 'MIT']);
  });
});
