/**
 * One recipe file, read with suspicion: only regular files, only so many bytes, never waiting for a pipe.
 * Whatever is wrong, the answer is a list of problems, never a throw.
 */

import { isUtf8 } from 'node:buffer';
import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import { LARGEST_RECIPE, type ParsedRecipe, parseRecipe } from '../core/recipe/parse.ts';
import type { Problem } from '../core/recipe/problem.ts';
import { reason } from './failure.ts';

/** Reads and checks the file at `path`; `shownAs` names it in the problems. */
export function readRecipeFile(path: string, shownAs: string = path): ParsedRecipe {
  const refuse = (says: string, line = 1, column = 1): ParsedRecipe => ({
    ok: false,
    problems: [{ file: shownAs, line, column, text: '', says }],
  });
  let bytes: Buffer | string;
  try {
    bytes = readBounded(path);
  } catch (problem) {
    return refuse(`The recipe cannot be read: ${reason(problem)}.`);
  }
  if (typeof bytes === 'string') return refuse(bytes);
  if (isUtf8(bytes)) return parseRecipe(new TextDecoder().decode(bytes), shownAs);
  if (looksUtf16(bytes)) return refuse('The file is in UTF-16; save it as UTF-8.');
  return withBadBytes(bytes, shownAs);
}

/** The bytes of a regular file that is no larger than a recipe may be, or the reason against it. */
function readBounded(path: string): Buffer | string {
  // Without O_NONBLOCK, opening a named pipe would wait for somebody to write into it.
  const fd = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const stat = fstatSync(fd);
    if (stat.isDirectory()) return 'This is a folder, not a recipe file.';
    if (!stat.isFile()) return 'This is not a regular file; a recipe is a text file.';
    // One byte more than allowed is read, since some files are longer than they claim.
    const bytes = Buffer.alloc(LARGEST_RECIPE + 1);
    let length = 0;
    while (length < bytes.length) {
      const got = readSync(fd, bytes, length, bytes.length - length, length);
      if (got === 0) break;
      length += got;
    }
    if (stat.size <= LARGEST_RECIPE && length <= LARGEST_RECIPE) return bytes.subarray(0, length);
    return `The file is larger than ${LARGEST_RECIPE / 1024} kB, and a recipe is a page of text; is this the right file?`;
  } finally {
    closeSync(fd);
  }
}

const looksUtf16 = (bytes: Buffer): boolean =>
  (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);

const NOT_UTF8 = 'These bytes are not UTF-8 text; save the file as UTF-8, or type the character again.';

/** Everything else that is wrong, together with the first bad byte of each line. */
function withBadBytes(bytes: Buffer, file: string): ParsedRecipe {
  const bad: Problem[] = [];
  let start = 0;
  for (let line = 1; start <= bytes.length && bad.length < 20; line += 1) {
    const end = bytes.indexOf(0x0a, start);
    const row = bytes.subarray(start, end === -1 ? bytes.length : end);
    if (!isUtf8(row)) {
      const column = [...new TextDecoder().decode(row)].indexOf('\ufffd') + 1;
      bad.push({ file, line, column, text: '', says: NOT_UTF8 });
    }
    start = end === -1 ? bytes.length + 1 : end + 1;
  }
  const rest = parseRecipe(new TextDecoder().decode(bytes), file);
  const problems = [...bad, ...(rest.ok ? [] : rest.problems)];
  return { ok: false, problems: problems.sort((a, b) => a.line - b.line || a.column - b.column) };
}
