/** A clock driven by hand, for tests and for practice: nothing passes until somebody says so. */

import type { Clock } from '../core/ports.ts';
import type { ClockSample } from '../core/time.ts';

type Listener = (now: ClockSample) => void;

export interface HandClock extends Clock {
  /** Lets time pass for everything, then ticks once. */
  advance(ms: number): void;
  /** The same, with a tick at every step on the way. */
  run(ms: number, stepMs?: number): void;
  /** The machine sleeps: wall clock and uptime go on, the steady clock stands still. One tick on waking. */
  sleep(ms: number): void;
  /** Somebody sets the wall clock; nothing passes. */
  setWall(wall: number): void;
  /** The program ends and is started again after so long. */
  restart(ms?: number): void;
  /** The machine is off for so long, then the program is started `upMs` after power-on. */
  reboot(offMs?: number, upMs?: number): void;
  /** Ms that really passed since the clock was made; what no program can know. */
  readonly truth: number;
}

/** A machine switched on an hour before `wall`. */
export function createHandClock(wall = Date.UTC(2026, 0, 10, 18, 0, 0)): HandClock {
  const listeners = new Set<Listener>();
  let now: ClockSample = { wall, uptime: 3_600_000, steady: 1000, boot: 'boot 1', process: 'process 1' };
  let truth = 0;
  let starts = 1;

  const tick = () => {
    for (const listener of [...listeners]) listener(now);
  };
  const pass = (ms: number, change: Partial<ClockSample>) => {
    if (!(ms >= 0)) throw new RangeError(`Time cannot pass by ${ms} ms.`);
    truth += ms;
    now = { ...now, wall: now.wall + ms, uptime: now.uptime + ms, steady: now.steady + ms, ...change };
  };
  const newProcess = () => {
    starts += 1;
    return { steady: 0, process: `process ${starts}` };
  };

  return {
    sample: () => now,
    onTick: listener => {
      const mine: Listener = sample => listener(sample);
      listeners.add(mine);
      return () => listeners.delete(mine);
    },
    advance: ms => {
      pass(ms, {});
      tick();
    },
    run: (ms, stepMs = 1000) => {
      for (let left = ms; left > 0; left -= stepMs) {
        pass(Math.min(left, stepMs), {});
        tick();
      }
    },
    sleep: ms => {
      pass(ms, { steady: now.steady });
      tick();
    },
    setWall: to => {
      now = { ...now, wall: to };
      tick();
    },
    restart: (ms = 0) => pass(ms, newProcess()),
    reboot: (offMs = 60_000, upMs = 30_000) => {
      pass(offMs + upMs, { ...newProcess(), uptime: upMs, boot: `boot ${starts}` });
    },
    get truth() {
      return truth;
    },
  };
}
