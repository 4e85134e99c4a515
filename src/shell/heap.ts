/**
 * How V8 runs a program that draws one frame a second for a night. It is made for throughput: its compilers for
 * hot code work beside the program, and what they gain here is less than what they cost, a third of the processor
 * time of a countdown, stalls of tens of milliseconds between a key and its frame, and some 8 MB that their
 * threads never give back. After some hours of frames the heap would hold 250 MB, of which 20 are alive; told to
 * prefer memory the whole program holds about 100.
 */
import { setFlagsFromString } from 'node:v8';
import type { Schedule } from './lost-paste.ts';

/** After the first frame and what it loads: code that was kept by the build is of no use once a flag was set. */
export const CODE_AFTER_MS = 300;
const CODE = ['--no-turbofan', '--no-maglev', '--no-wasm-dynamic-tiering'];

/** Later, since each frame takes a tenth longer with it, and the first keys need not. */
export const HEAP_AFTER_MS = 5000;
/** A young heap that does not grow is cleared too often and too quickly for several threads to be of use. */
const HEAP = ['--optimize-for-size', '--semi-space-growth-factor=1', '--no-parallel-scavenge'];

/**
 * Call once, at the start; what it answers calls off what has not been done yet. `set` is a parameter so that a
 * test need not change its own V8.
 */
export function runSparingly(
  schedule: Schedule,
  set: (flag: string) => void = setFlagsFromString,
): () => void {
  const later = (ms: number, flags: readonly string[]) =>
    schedule(ms, () => {
      for (const flag of flags) set(flag);
    });
  const ends = [later(CODE_AFTER_MS, CODE), later(HEAP_AFTER_MS, HEAP)];
  return () => {
    for (const end of ends) end();
  };
}
