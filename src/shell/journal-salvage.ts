/**
 * Every line of a journal that is whole by itself. Batches are gone on with strictly, up to the first damaged line;
 * what is only looked at, as the diary and a batch that is over, keeps what stands behind it as well.
 */
import { claimedSum, decodeLine } from './journal-read.ts';

/**
 * Hands over the value of each whole line with its number from 1; `take` says whether it means anything. The chain
 * of checksums is taken up again after a bad line. Returns the numbers of the bad ones.
 */
export function salvageLines(
  bytes: Buffer,
  take: (value: unknown, number: number) => boolean,
): readonly number[] {
  const bad: number[] = [];
  let sum = 0;
  let from = 0;
  for (let number = 1; from < bytes.length; number += 1) {
    const feed = bytes.indexOf(0x0a, from);
    const line = bytes.subarray(from, feed < 0 ? bytes.length : feed);
    from = feed < 0 ? bytes.length : feed + 1;
    const decoded = decodeLine(line, sum);
    if (!decoded || !take(decoded.value, number)) bad.push(number);
    sum = decoded?.sum ?? claimedSum(line) ?? sum;
  }
  return bad;
}

/** What is said of them: `file` is what the journal is called on screen. */
export const sayBadLines = (file: string, lines: readonly number[]): string =>
  lines.length === 1
    ? `Line ${lines[0]} of the ${file} is damaged and left out; the rest is kept.`
    : `${lines.length} lines of the ${file} are damaged and left out (the first is line ${lines[0]}); the rest is kept.`;
