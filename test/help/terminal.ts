/** A terminal for one test, closed and its home removed whatever the test does. */
import { onTestFinished } from 'vitest';
import { openPty, type Pty, type PtyOptions } from './pty.ts';

export function terminal(args: readonly string[] = [], options: PtyOptions = {}): Pty {
  const pty = openPty(args, options);
  onTestFinished(() => pty.close());
  return pty;
}
