/** How the commands after the batch speak: lines on stdout, JSON when asked, never a control character. */
import { visible, visibleJson } from '../core/text.ts';
import { EXIT, GrowerError } from '../shell/failure.ts';

export const say = (...lines: readonly string[]): void => {
  process.stdout.write(lines.map(line => `${visible(line)}\n`).join(''));
};
export const sayJson = (value: unknown): void => {
  process.stdout.write(`${visibleJson(value)}\n`);
};
export const sayNotices = (notices: readonly string[]): void => {
  process.stderr.write(notices.map(line => `${visible(line)}\n`).join(''));
};
export const usage = (message: string, ...tryThis: readonly string[]): GrowerError =>
  new GrowerError(message, { tryThis, exitCode: EXIT.usage });

/** Columns as wide as their widest cell, two blanks between. */
export function aligned(rows: readonly (readonly string[])[]): readonly string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, index) => {
      widths[index] = Math.max(widths[index] ?? 0, [...cell].length);
    });
  }
  return rows.map(row =>
    row
      .map((cell, index) => cell + ' '.repeat(Math.max(0, (widths[index] ?? 0) - [...cell].length)))
      .join('  ')
      .trimEnd(),
  );
}
