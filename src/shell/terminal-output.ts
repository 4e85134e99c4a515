/**
 * Writing to a terminal that takes nothing: a line that hangs, a window that was stopped. Node waits in the
 * middle of a write until the terminal has taken it, and with it countdowns, alerts and speech would wait. Here
 * the bytes queue instead, and when the queue is long nothing more is drawn until it is empty.
 */

export interface Backlog {
  /** Tells when too much is queued, with a promise of its end; the answer takes the listener away. */
  onStuck(tell: (free: Promise<void>) => void): () => void;
}

type Schedule = (ms: number, work: () => void) => () => void;

/** What a countdown writes in about an hour, and a screen at once many times over. */
const MOST_BYTES = 1 << 20;
const LOOK_MS = 2000;

/** Does nothing where Node does not wait (a pipe) or cannot do otherwise (Windows). */
export function neverWait(stream: NodeJS.WriteStream): void {
  if (!stream.isTTY) return;
  // No public name for it; without it a write waits, as Node means it to for a terminal.
  const handle: unknown = Reflect.get(stream, '_handle');
  if (typeof handle !== 'object' || handle === null || !('setBlocking' in handle)) return;
  if (typeof handle.setBlocking === 'function') handle.setBlocking(false);
}

/** Looks now and then how much of this stream is queued. */
export function backlogOf(stream: NodeJS.WriteStream, schedule: Schedule): Backlog {
  return {
    onStuck: tell => {
      const look = () => {
        if (stream.writableLength <= MOST_BYTES) {
          stop = schedule(LOOK_MS, look);
          return;
        }
        const free = new Promise<void>(resolve => stream.once('drain', () => resolve()));
        tell(free);
        void free.then(look);
      };
      let stop = schedule(LOOK_MS, look);
      return () => stop();
    },
  };
}
