/**
 * The clocks of the machine, and the one ticker of the program. What the samples are worth is decided by
 * `core/time.ts`; here they are only taken.
 */

import { readFileSync } from 'node:fs';
import { hostname, uptime } from 'node:os';
import type { Clock } from '../core/ports.ts';
import type { ClockSample } from '../core/time.ts';

type Listener = (now: ClockSample) => void;

/** The next tick is aimed a little past the second, since a timer may fire a millisecond early. */
const PAST_THE_SECOND = 2;
/** Nobody sees more than this many ticks a second, however fast a test clock runs. */
const SHORTEST_TICK = 20;

function firstLine(path: string): string {
  try {
    return readFileSync(path, 'latin1').split('\n', 1)[0]?.trim() ?? '';
  } catch {
    return '';
  }
}

/** Loaded when a batch first asks for the time: it takes longer to load than the first frame ought to wait. */
const cryptography = () => process.getBuiltinModule('node:crypto');

/** A short name for this machine that does not give away its identifier. */
function nameMachine(): string {
  return cryptography()
    .createHash('sha256')
    .update(firstLine('/etc/machine-id') || hostname())
    .digest('hex')
    .slice(0, 8);
}

/** A boot instant by the wall clock is only good to a few seconds and moves when the clock is set. */
const BOOT_GRAIN = 120_000;

/**
 * Name of this start of the machine, `id@machine`. Where the system numbers its starts, the id is exact;
 * elsewhere it begins with "~" and is the boot instant by the wall clock, so that a clock that was set looks
 * like another start and is not trusted.
 */
export function nameBoot(wall: number, uptimeMs: number, kernelId: string, machine: string): string {
  const id = kernelId === '' ? `~${Math.round((wall - uptimeMs) / BOOT_GRAIN)}` : kernelId;
  return `${id}@${machine}`;
}

interface ThisStart {
  readonly boot: string;
  readonly process: string;
}

let thisStart: ThisStart | null = null;

/** Names of this machine start and of this process; read once. */
export function identifyStart(): ThisStart {
  thisStart ??= {
    boot: nameBoot(Date.now(), uptime() * 1000, firstLine('/proc/sys/kernel/random/boot_id'), nameMachine()),
    process: cryptography().randomUUID(),
  };
  return thisStart;
}

function sampleMachine(): ClockSample {
  return {
    wall: Date.now(),
    uptime: uptime() * 1000,
    steady: Math.round(performance.now()),
    ...identifyStart(),
  };
}

/** One timer for all listeners, armed anew after each tick; none when nobody listens. */
function createTicker(sample: () => ClockSample, untilNext: () => number, keepAlive: boolean) {
  const listeners = new Set<Listener>();
  let timer: NodeJS.Timeout | null = null;
  const arm = () => {
    timer = setTimeout(tick, untilNext());
    if (!keepAlive) timer.unref();
  };
  const tick = () => {
    // Armed before anybody is called, so that a listener that throws cannot stop the clock.
    arm();
    const now = sample();
    for (const listener of [...listeners]) listener(now);
  };
  return (listener: Listener) => {
    // A wrapper of its own, so that the same function may listen twice.
    const mine: Listener = now => listener(now);
    listeners.add(mine);
    if (timer === null) arm();
    return () => {
      listeners.delete(mine);
      if (listeners.size > 0 || timer === null) return;
      clearTimeout(timer);
      timer = null;
    };
  };
}

export interface ClockOptions {
  /** Whether a listener alone keeps the program running; true unless said otherwise. */
  readonly keepAlive?: boolean;
}

/** The machine's clocks, ticking just after each second of the wall clock. */
export function createClock({ keepAlive = true }: ClockOptions = {}): Clock {
  const untilNext = () => 1000 - (Date.now() % 1000) + PAST_THE_SECOND;
  return { sample: sampleMachine, onTick: createTicker(sampleMachine, untilNext, keepAlive) };
}

/**
 * For terminal tests only: all clocks run `factor` times as fast, from the wall time `since` on. Processes
 * that are given the same `since` agree with one another, as after a crash. Throws RangeError for a factor
 * outside 1 to 100 000.
 */
export function createSpedClock(factor: number, since: number = Date.now()): Clock {
  if (!(factor >= 1 && factor <= 100_000))
    throw new RangeError(`A clock cannot run ${factor} times as fast.`);
  const sample = (): ClockSample => {
    const now = sampleMachine();
    const passed = now.wall - since;
    const gained = passed * factor - passed;
    return {
      ...now,
      wall: now.wall + gained,
      uptime: now.uptime + gained,
      steady: Math.round(now.steady * factor),
    };
  };
  const untilNext = () => Math.max(SHORTEST_TICK, 1000 / factor);
  return { sample, onTick: createTicker(sample, untilNext, true) };
}
