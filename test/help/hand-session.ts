/** A session in memory on a clock driven by hand: the machine as it is, no disk. */
import { begin, step } from '../../src/core/batch/machine.ts';
import type { BatchEvent, Refusal } from '../../src/core/batch/events.ts';
import type { BatchHeader, Run } from '../../src/core/batch/state.ts';
import type { Deed, Session } from '../../src/core/session.ts';

export interface HandSession extends Session {
  run: Run;
  trouble: string | null;
  /** Deeds that were sent, taken or not. */
  readonly sent: readonly Deed[];
  closed: boolean;
  /** Lets time pass and ticks once. */
  passes(ms: number): void;
  /** The program was away so long. */
  sleeps(ms: number): void;
  /** Puts another run on the screen. */
  shows(run: Run): void;
}

export function handSession(from: BatchHeader | Run, role: Session['role'] = 'running'): HandSession {
  const listeners = new Set<() => void>();
  const sent: Deed[] = [];
  const tell = () => {
    for (const listener of [...listeners]) listener();
  };
  const happen = (event: Omit<BatchEvent, 't' | 'wall'>, ms: number): Refusal | null => {
    const { now, wall } = session.run.batch;
    const outcome = step(session.run, { ...event, t: now + ms, wall: wall + ms } as BatchEvent);
    if (!outcome.ok) return outcome.refusal;
    session.run = outcome.run;
    tell();
    return null;
  };
  const session: HandSession = {
    run: 'recipe' in from ? begin(from) : from,
    role,
    notices: [],
    trouble: null,
    path: '/invented/2648a.batch',
    sent,
    closed: false,
    subscribe: listener => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    send: deed => {
      sent.push(deed);
      return role === 'watching' ? { code: 'not-here' } : happen(deed, 0);
    },
    close: () => {
      session.closed = true;
    },
    passes: ms => void happen({ type: 'tick' }, ms),
    sleeps: ms => void happen({ type: 'gap', why: 'asleep' } as Omit<BatchEvent, 't' | 'wall'>, ms),
    shows: run => {
      session.run = run;
      tell();
    },
  };
  return session;
}
