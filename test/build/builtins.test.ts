import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { BANNER, withoutBuiltinImports } from '../../src/build/builtins.ts';
import { PATCHES } from '../../src/build/patches.ts';

/** Runs a module as the bundle has it, in a Node of its own; the answer is what it printed. */
function run(text: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'stovehand-build-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, 'module.mjs');
  writeFileSync(file, `${BANNER}\n${text}`);
  return execFileSync(process.execPath, [file], { encoding: 'utf8' });
}

describe('imports of Node’s own modules', () => {
  const SOURCE = [
    'import { basename, join as put } from "node:path";',
    'import * as os from "node:os";',
    'import process2 from "node:process";',
    'import { crc32 } from "node:zlib";',
    'import EventEmitter from "events";',
    'console.log(basename(put("a", "b")), os.EOL.length, process2.pid > 0, crc32("123456789").toString(16), typeof EventEmitter, typeof require("fs").readFileSync);',
  ].join('\n');

  it('become calls that give the same things', () => {
    const changed = withoutBuiltinImports(SOURCE, 'a.js');
    expect(changed).not.toMatch(/^import/m);
    // Check value of CRC-32 for "123456789": cbf43926 (ITU-T V.42, published test value; MEMORY).
    expect(run(changed)).toBe('b 1 true cbf43926 function function\n');
  });

  it('other imports stay', () => {
    const own = 'import { a } from "./chunk-A.js";\nimport { b } from "conf";';
    expect(withoutBuiltinImports(own, 'a.js')).toBe(own);
  });

  it('one that is written in a way nobody expected stops the build', () => {
    expect(() => withoutBuiltinImports('import fs, { readFileSync } from "node:fs";', 'a.js')).toThrow(
      /a\.js still imports node:fs/,
    );
  });
});

it('every patch of a dependency says why, and there are few', () => {
  expect(PATCHES.length).toBeLessThanOrEqual(8);
  for (const { why, swaps } of PATCHES) {
    expect(why.length).toBeGreaterThan(20);
    expect(swaps.length).toBeGreaterThan(0);
  }
});
