import { execFileSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { CODE_AFTER_MS, HEAP_AFTER_MS, runSparingly } from '../../src/shell/heap.ts';

/** Work that waits for its time on a clock that is moved by hand. */
function handTimers() {
  const waiting = new Map<symbol, { readonly at: number; readonly work: () => void }>();
  return {
    waiting,
    schedule: (ms: number, work: () => void) => {
      const id = Symbol('timer');
      waiting.set(id, { at: ms, work });
      return () => void waiting.delete(id);
    },
    passTo: (ms: number) => {
      for (const [id, { at, work }] of [...waiting]) {
        if (at > ms) continue;
        waiting.delete(id);
        work();
      }
    },
  };
}

function flagsTo(ms: number): readonly string[] {
  const timers = handTimers();
  const flags: string[] = [];
  const end = runSparingly(timers.schedule, flag => flags.push(flag));
  timers.passTo(ms);
  end();
  expect(timers.waiting.size).toBe(0);
  return flags;
}

it('leaves V8 alone until the code that the build kept is loaded, and leaves no timer when it is called off', () => {
  expect(flagsTo(CODE_AFTER_MS - 1)).toEqual([]);
  expect(flagsTo(CODE_AFTER_MS)).toContain('--no-maglev');
  expect(flagsTo(HEAP_AFTER_MS - 1)).not.toContain('--optimize-for-size');
  expect(flagsTo(HEAP_AFTER_MS)).toContain('--optimize-for-size');
});

it('names only flags that this V8 has: it would be silent about others', () => {
  const known = execFileSync(process.execPath, ['--v8-options'], { encoding: 'utf8' });
  const flags = flagsTo(HEAP_AFTER_MS);
  expect(flags.length).toBeGreaterThan(2);
  for (const flag of flags)
    expect(known).toContain(` --${flag.replace(/^--(no-)?/, '').replace(/=.*/, '')} `);
});
