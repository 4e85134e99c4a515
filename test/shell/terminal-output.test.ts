import { EventEmitter } from 'node:events';
import { expect, it } from 'vitest';
import { backlogOf, neverWait } from '../../src/shell/terminal-output.ts';

/** A terminal with so much queued, and a clock that is moved by hand. */
function stage() {
  const stream = Object.assign(new EventEmitter(), { isTTY: true, writableLength: 0 });
  const waiting: (() => void)[] = [];
  const schedule = (_ms: number, work: () => void) => {
    waiting.push(work);
    return () => void waiting.splice(waiting.indexOf(work), 1);
  };
  const pass = () => {
    for (const work of waiting.splice(0)) work();
  };
  return { stream, waiting, pass, backlog: backlogOf(stream as unknown as NodeJS.WriteStream, schedule) };
}

it('tells of a terminal that takes nothing once, and of its end, and looks again after that', async () => {
  const { stream, pass, waiting, backlog } = stage();
  const told: Promise<void>[] = [];
  backlog.onStuck(free => told.push(free));
  stream.writableLength = 900_000;
  pass();
  expect(told).toHaveLength(0);
  stream.writableLength = 1_100_000;
  pass();
  pass();
  expect(told).toHaveLength(1);
  expect(waiting).toHaveLength(0);
  stream.writableLength = 0;
  stream.emit('drain');
  await told[0];
  await Promise.resolve();
  stream.writableLength = 2_000_000;
  pass();
  expect(told).toHaveLength(2);
});

it('stops looking when nobody listens any more', () => {
  const { pass, waiting, backlog } = stage();
  const stop = backlog.onStuck(() => {});
  pass();
  stop();
  expect(waiting).toHaveLength(0);
});

it('only a terminal is written to without waiting', () => {
  const blocking: boolean[] = [];
  const handle = { setBlocking: (wanted: boolean) => blocking.push(wanted) };
  neverWait({ isTTY: true, _handle: handle } as unknown as NodeJS.WriteStream);
  neverWait({ isTTY: false, _handle: handle } as unknown as NodeJS.WriteStream);
  neverWait({ isTTY: true } as unknown as NodeJS.WriteStream);
  expect(blocking).toEqual([false]);
});
