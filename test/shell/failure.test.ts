import { describe, expect, it } from 'vitest';
import { EXIT, exitCodeFor, explain, GrowerError } from '../../src/shell/failure.ts';

const system = (code: string, path?: string) =>
  Object.assign(new Error(`${code}: no`), { code, ...(path === undefined ? {} : { path }) });

describe('the last words', () => {
  it('say what happened and what to try, without a stack, for what the grower can mend', () => {
    const problem = new GrowerError('rye.yaml line 3: no hold time.', {
      tryThis: ['Add "hold: 90 min".'],
      exitCode: EXIT.badFile,
    });
    expect(explain(problem)).toBe('rye.yaml line 3: no hold time.\n  Add "hold: 90 min".\n');
    expect(exitCodeFor(problem)).toBe(3);
  });

  it('turn a system error into a sentence', () => {
    // Meanings: POSIX.1-2017 <errno.h> [READ].
    const words = explain(system('ENOSPC', '/home/ada/a.batch'), { journal: '/home/ada/a.batch' });
    expect(words).toContain('/home/ada/a.batch: the disk is full.');
    expect(words).toContain('The batch is kept in /home/ada/a.batch');
    expect(words).not.toContain('    at ');
    expect(exitCodeFor(system('ENOSPC'))).toBe(EXIT.cannotWrite);
  });

  it('show the stack of a mistake of ours, and where the batch is', () => {
    const words = explain(new TypeError('x is not a function'), { journal: '/b/1.batch' });
    expect(words).toContain('Nothing that was recorded is lost.');
    expect(words).toContain('TypeError: x is not a function\n    at ');
    expect(words).toContain('/b/1.batch');
    expect(exitCodeFor(new TypeError('x'))).toBe(EXIT.bug);
    expect(exitCodeFor(system('toString'))).toBe(EXIT.bug);
  });

  it('S8: let no control character through, whoever wrote the message', () => {
    const bad = 'a\u001b[2J\u009b\u202e\u0007';
    const problems = [
      new GrowerError(bad, { tryThis: [bad] }),
      new Error(bad),
      system('EIO', bad),
      bad,
      Object.create(null),
      undefined,
    ];
    for (const problem of problems) {
      const words = explain(problem, { journal: bad });
      expect(words.replaceAll('\n', '')).not.toMatch(/\p{Cc}|\p{Bidi_Control}/u);
      expect(words.endsWith('\n')).toBe(true);
    }
  });
});
