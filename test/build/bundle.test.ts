import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keptCaches, remembering } from '../../src/build/kept.ts';
import { LATE, lateModule } from '../../src/build/late.ts';
import { PATCHES } from '../../src/build/patches.ts';
import { keptName, PARAMETERS } from '../../src/bundle.ts';
import { tempFolder } from '../help/temp-folder.ts';

const BUNDLE = join(import.meta.dirname, '../../src/bundle.ts');

/** What a fresh Node prints when it loads this file; in the same one V8 would remember the text. */
function load(file: string, then = ''): { readonly says: string; readonly wasKept: boolean } {
  const text = `
    import { keptName, loadBuilt } from ${JSON.stringify(BUNDLE)};
    import { writeFileSync } from 'node:fs';
    const loaded = loadBuilt(${JSON.stringify(file)}, id => process.getBuiltinModule(id));
    const says = loaded.exports.greet('you');
    ${then}
    console.log(JSON.stringify({ says, wasKept: loaded.wasKept }));
  `;
  const words = ['--disable-warning=ExperimentalWarning', '--input-type=module', '-e', text];
  return JSON.parse(execFileSync(process.execPath, words, { encoding: 'utf8' })) as ReturnType<typeof load>;
}

const SOURCE = `(function (${PARAMETERS}) {
  const { basename } = require("node:path");
  exports.greet = name => "hello " + name + " from " + basename(new URL(moduleUrl).pathname);
})`;

function built(): { readonly file: string; readonly kept: Buffer } {
  const file = join(tempFolder(), 'built.js');
  writeFileSync(file, SOURCE);
  const first = load(file, `writeFileSync(keptName(${JSON.stringify(file)}), loaded.keep());`);
  expect(first).toEqual({ says: 'hello you from built.js', wasKept: false });
  return { file, kept: readFileSync(keptName(file)) };
}

describe('a built file and the code that is kept beside it', () => {
  it('is used the next time, and gives the same', () => {
    const { file } = built();
    expect(load(file)).toEqual({ says: 'hello you from built.js', wasKept: true });
  });

  it('code that was cut or damaged anywhere is left alone', () => {
    const { file, kept } = built();
    const damaged = [0, 1, 4, 5, kept.length - 1].map(length => kept.subarray(0, length));
    for (const at of [0, 5, 30, kept.length >> 1, kept.length - 1]) {
      const flipped = Buffer.from(kept);
      flipped[at] = (flipped[at] ?? 0) ^ 4;
      damaged.push(flipped);
    }
    for (const bytes of damaged) {
      writeFileSync(keptName(file), bytes);
      expect(load(file)).toEqual({ says: 'hello you from built.js', wasKept: false });
    }
  });

  it('code of another text of the same length is left alone', () => {
    const { file } = built();
    writeFileSync(file, SOURCE.replace('hello', 'howdy'));
    expect(load(file)).toEqual({ says: 'howdy you from built.js', wasKept: false });
  });
});

describe('modules of Node that are loaded late', () => {
  it.each(LATE)('%s: everything is there and the same', id => {
    const exports: Record<string, unknown> = {};
    new Function('exports', lateModule(id))(exports);
    const real = process.getBuiltinModule(id) as Record<string, unknown>;
    expect(Object.keys(exports)).toEqual(Object.keys(real));
    for (const name of Object.keys(real)) expect(exports[name]).toBe(real[name]);
  });
});

it('every patch of a dependency says why, and there are few', () => {
  expect(PATCHES.length).toBeLessThanOrEqual(12);
  for (const { why, swaps } of PATCHES) {
    expect(why.length).toBeGreaterThan(20);
    expect(swaps.length).toBeGreaterThan(0);
  }
});

describe('what is kept from frame to frame', () => {
  it('a function that remembers answers the same, works once for each text, and holds so many at most', () => {
    const worked: string[] = [];
    const shout = remembering((text: string) => {
      worked.push(text);
      return text.toUpperCase();
    }, 2);
    expect(['a', 'b', 'a', 'c', 'a'].map(shout)).toEqual(['A', 'B', 'A', 'C', 'A']);
    // The third text found two that were kept, and both went.
    expect(worked).toEqual(['a', 'b', 'c', 'a']);
  });

  it('caches are the same ones until they hold more than they may', () => {
    const make = () => ({ styledChars: new Map<string, string>(), widths: new Map<string, number>() });
    const caches = keptCaches(make, 2, 1);
    const first = caches();
    first.styledChars.set('a', '').set('b', '');
    expect(caches()).toBe(first);
    first.styledChars.set('c', '');
    const second = caches();
    expect(second).not.toBe(first);
    second.widths.set('a', 1).set('b', 1);
    expect(caches()).not.toBe(second);
  });
});
