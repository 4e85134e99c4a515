import { execFileSync } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ParsedRecipe } from '../../src/core/recipe/parse.ts';
import { readRecipeFile } from '../../src/shell/recipe-file.ts';

const good = (name: string) =>
  `name: ${name}\ngrain: rye\ncontainers:\n  count: 2\n  fill: 1 kg\n  size: 18 x 11 x 8 cm\n`;

let home = '';
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'stovehand-recipe-file-'));
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

const put = (name: string, content: string | Uint8Array): string => {
  const path = join(home, name);
  writeFileSync(path, content);
  return path;
};
const saysOf = (parsed: ParsedRecipe) =>
  parsed.ok
    ? 'a recipe'
    : parsed.problems.map(({ file, line, column, says }) => `${file}:${line}:${column} ${says}`).join('\n');
describe('reading with suspicion', () => {
  it.each<[string, () => string, string]>([
    ['a missing file', () => join(home, 'none.yaml'), 'there is no such file or folder'],
    ['a folder', () => home, 'This is a folder, not a recipe file.'],
    ['a large file', () => put('large.yaml', 'x'.repeat(200_000)), 'larger than 32 kB'],
    [
      'a file just too large',
      () => put('large.yaml', `${good('A')}#${'x'.repeat(32 * 1024)}`),
      'larger than 32 kB',
    ],
    ['an endless device', () => '/dev/zero', 'not a regular file'],
    [
      'UTF-16',
      () => put('wide.yaml', Buffer.from(`\ufeff${good('A')}`, 'utf16le')),
      'UTF-16; save it as UTF-8',
    ],
    ['a name with NUL', () => 'a\0b.yaml', 'cannot be read'],
    [
      'a binary',
      () =>
        put(
          'binary.yaml',
          Uint8Array.from({ length: 5000 }, (_, at) => (at * 7919) % 256),
        ),
      'not UTF-8 text',
    ],
  ])('refuses %s', (_, path, words) => {
    const says = saysOf(readRecipeFile(path(), 'a.yaml'));
    expect(says).toContain(words);
    expect(says).toMatch(/^a\.yaml:\d+:\d+ /);
  });

  it('does not wait for somebody to write into a pipe', () => {
    const path = join(home, 'pipe.yaml');
    execFileSync('mkfifo', [path]);
    expect(saysOf(readRecipeFile(path))).toContain('not a regular file');
  });

  it('survives links in a circle and links to nothing', () => {
    const [one, two, three] = ['one.yaml', 'two.yaml', 'three.yaml'].map(name => join(home, name)) as [
      string,
      string,
      string,
    ];
    symlinkSync(two, one);
    symlinkSync(one, two);
    symlinkSync(join(home, 'nothing'), three);
    expect(saysOf(readRecipeFile(one))).toContain('its links lead in a circle');
    expect(saysOf(readRecipeFile(three))).toContain('there is no such file or folder');
  });

  // The superuser may read everything, so that refusal cannot be seen there.
  it.skipIf(process.getuid?.() === 0)('says when permission is refused', () => {
    const path = put('secret.yaml', good('A'));
    chmodSync(path, 0o000);
    expect(saysOf(readRecipeFile(path))).toContain('permission is refused');
  });

  it('places bytes that are not UTF-8, together with everything else', () => {
    // 0xe9 is "e acute" in Latin-1 and opens a sequence of three in UTF-8.
    const bytes = Buffer.concat([
      Buffer.from('name: Caf'),
      Buffer.from([0xe9]),
      Buffer.from(' A\ngrain: rey\ncontainers:\n  count: 2\n  fill: 1 kg\n  size: 18 x 11 x 8 cm\n'),
    ]);
    expect(saysOf(readRecipeFile(put('latin.yaml', bytes), 'latin.yaml'))).toMatch(
      /^latin\.yaml:1:10 These bytes are not UTF-8.*\nlatin\.yaml:2:8 grain: expected/,
    );
  });
});
