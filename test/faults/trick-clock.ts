/** Clocks that can lie apart from one another, and the truth beside them. */
import type { Clock } from '../../src/core/ports.ts';
import type { ClockSample } from '../../src/core/time.ts';

/** How much each clock shows of the time that passes, ms; the whole of it where nothing is said. */
export interface Shown {
  readonly wall?: number;
  readonly uptime?: number;
  readonly steady?: number;
}

export interface TrickClock extends Clock {
  /** Ms that really passed. */
  readonly truth: number;
  /** Time passes for everybody, in ticks. */
  run(ms: number, stepMs?: number): void;
  /** Time passes in one piece, and each clock shows what it is told to; one tick at its end. */
  pass(ms: number, shown?: Shown): void;
  /** The wall clock is set by so much; nothing passes; the next tick will tell. */
  setBy(ms: number): void;
  /** Another process from here on. */
  restart(): void;
  /** The machine was off for `offMs` and up for `upMs`; the wall clock may come back wrong. */
  reboot(offMs: number, upMs: number, wallErrorMs?: number): void;
}

type Listener = (now: ClockSample) => void;

export function createTrickClock(wall: number): TrickClock {
  const listeners = new Set<Listener>();
  let now: ClockSample = { wall, uptime: 7_200_000, steady: 5000, boot: 'b1@m', process: 'p1' };
  let truth = 0;
  let starts = 1;
  const tick = () => {
    for (const listener of [...listeners]) listener(now);
  };
  const pass = (ms: number, { wall: w = ms, uptime: u = ms, steady: s = ms }: Shown = {}) => {
    truth += ms;
    now = { ...now, wall: now.wall + w, uptime: now.uptime + u, steady: now.steady + s };
  };
  return {
    get truth() {
      return truth;
    },
    sample: () => now,
    onTick: listener => {
      const mine: Listener = sample => listener(sample);
      listeners.add(mine);
      return () => listeners.delete(mine);
    },
    run: (ms, stepMs = 1000) => {
      for (let left = ms; left > 0; left -= stepMs) {
        pass(Math.min(left, stepMs));
        tick();
      }
    },
    pass: (ms, shown) => {
      pass(ms, shown);
      tick();
    },
    setBy: ms => {
      now = { ...now, wall: now.wall + ms };
    },
    restart: () => {
      starts += 1;
      now = { ...now, steady: 0, process: `p${starts}` };
    },
    reboot: (offMs, upMs, wallErrorMs = 0) => {
      starts += 1;
      truth += offMs + upMs;
      now = {
        wall: now.wall + offMs + upMs + wallErrorMs,
        uptime: upMs,
        steady: 0,
        boot: `b${starts}@m`,
        process: `p${starts}`,
      };
    },
  };
}
