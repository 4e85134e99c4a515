/**
 * How V8 keeps the heap of a program that runs for a night. It is made for throughput: after some hours of
 * frames it would hold 250 MB, of which 20 are alive. Told to prefer memory it holds 105, for a tenth more time
 * at one frame a second; without its last compiler another five, which its threads never give back.
 */
import { setFlagsFromString } from 'node:v8';

/** Not at the start: code that was kept by the build is of no use once a flag was set. */
const AFTER_MS = 5000;

/** Call once; `schedule` runs the work after so many ms and answers how to call it off. */
export function saveMemory(schedule: (ms: number, work: () => void) => () => void): () => void {
  return schedule(AFTER_MS, () => {
    setFlagsFromString('--optimize-for-size');
    setFlagsFromString('--no-turbofan');
  });
}
