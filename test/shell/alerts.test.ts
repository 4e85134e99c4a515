import { describe, expect, it } from 'vitest';
import { DEFAULT_KITCHEN } from '../../src/core/kitchen.ts';
import type { AlertKind } from '../../src/core/ports.ts';
import { type AlertSurroundings, createAlerter } from '../../src/shell/alerts.ts';
import { BELLS, isQuiet, nextRing } from '../../src/shell/bell.ts';
import type { Speech } from '../../src/shell/speech.ts';
import { recogniseTerminal } from '../../src/shell/terminal-signals.ts';

const KINDS: readonly AlertKind[] = ['soon', 'well', 'wanted', 'danger'];

/** A terminal, a voice and a clock that only remember; `pass` lets time go by. */
function surroundings(change: Partial<AlertSurroundings> = {}) {
  let now = 0;
  let jobs: { at: number; work: () => void }[] = [];
  const written: { at: number; text: string }[] = [];
  const spoken: string[] = [];
  const minute = { now: 12 * 60 };
  const speech: Speech = { speak: text => spoken.push(text), stop: () => spoken.push('(stop)') };
  const around: AlertSurroundings = {
    terminal: recogniseTerminal({ TERM: 'xterm', TERM_PROGRAM: 'ghostty' }, true),
    wishes: { ...DEFAULT_KITCHEN.alerts, speech: true, quietFromMin: 22 * 60, quietToMin: 7 * 60 },
    write: text => written.push({ at: now, text }),
    minuteOfDay: () => minute.now,
    steady: () => now,
    schedule: (ms, work) => {
      const job = { at: now + ms, work };
      jobs.push(job);
      return () => {
        jobs = jobs.filter(other => other !== job);
      };
    },
    speech,
    canRing: true,
    ...change,
  };
  const pass = (ms: number) => {
    const end = now + ms;
    for (;;) {
      const next = jobs.filter(({ at }) => at <= end).sort((a, b) => a.at - b.at)[0];
      if (next === undefined) break;
      jobs = jobs.filter(job => job !== next);
      now = next.at;
      next.work();
    }
    now = end;
  };
  const bells = () => written.filter(({ text }) => text === '\u0007').map(({ at }) => at);
  return { around, written, spoken, minute, pass, bells, waiting: () => jobs.length };
}

describe('bells', () => {
  it('tell the kinds apart by their number', () => {
    const counts = KINDS.map(kind => BELLS[kind].beats.length);
    expect(new Set(counts).size).toBe(KINDS.length);
    for (const kind of KINDS) {
      const { beats } = BELLS[kind];
      for (const [index, beat] of beats.entries()) {
        if (index > 0) expect(beat - (beats[index - 1] ?? 0)).toBeGreaterThanOrEqual(250);
      }
    }
  });

  it('ring again at growing intervals and never give up, except when all is well', () => {
    for (const kind of ['soon', 'wanted', 'danger'] as const) {
      const pauses = Array.from({ length: 20 }, (_, index) => nextRing(kind, index + 1) ?? 0);
      for (const [index, pause] of pauses.entries()) {
        expect(pause).toBeGreaterThanOrEqual(index === 0 ? 1000 : (pauses[index - 1] ?? 0));
      }
    }
    expect(nextRing('well', 1)).toBeNull();
  });

  it('know quiet hours, over midnight too', () => {
    expect([21 * 60 + 59, 22 * 60, 0, 419, 420].map(at => isQuiet(at, 1320, 420))).toEqual([
      false,
      true,
      true,
      true,
      false,
    ]);
    expect([59, 60, 119, 120].map(at => isQuiet(at, 60, 120))).toEqual([false, true, true, false]);
    expect(isQuiet(0, 0, 0)).toBe(false);
  });
});

describe('an alert', () => {
  it('rings, notifies and speaks at once, again until answered, and then no more', () => {
    const { around, bells, spoken, written, pass, waiting } = surroundings();
    const alerter = createAlerter(around);
    alerter.raise({ kind: 'wanted', says: 'Look at the kernels' });
    pass(1000);
    expect(bells()).toEqual([0, 300, 600]);
    expect(written.some(({ text }) => text.includes('777;notify;Stovehand;Look at the kernels'))).toBe(true);
    expect(spoken.at(-1)).toBe('Look at the kernels');
    pass(60_000);
    // Pauses of 15 s and 30 s, each after the 0.6 s of the bells themselves.
    expect(bells()).toEqual([0, 300, 600, 15_600, 15_900, 16_200, 46_200, 46_500, 46_800]);
    alerter.answered();
    expect(waiting()).toBe(0);
    pass(3_600_000);
    expect(bells()).toHaveLength(9);
  });

  it('is replaced by the next', () => {
    const { around, bells, pass } = surroundings();
    const alerter = createAlerter(around);
    alerter.raise({ kind: 'danger', says: 'Heat off' });
    alerter.raise({ kind: 'well', says: 'At target' });
    pass(3_600_000);
    expect(bells()).toEqual([0, 0, 900]);
  });

  it('is mute in quiet hours and rings when they end unanswered; danger rings through', () => {
    const { around, bells, spoken, minute, pass } = surroundings();
    minute.now = 23 * 60;
    const alerter = createAlerter(around);
    alerter.raise({ kind: 'wanted', says: 'Room temperature?' });
    pass(3_600_000);
    expect(bells()).toEqual([]);
    expect(spoken).not.toContain('Room temperature?');
    minute.now = 7 * 60;
    pass(300_600);
    expect(bells().length).toBeGreaterThanOrEqual(3);
    minute.now = 23 * 60;
    const before = bells().length;
    alerter.raise({ kind: 'danger', says: 'Pressure above target' });
    pass(2000);
    expect(bells().length).toBe(before + 6);
  });

  it('obeys each wish, also one that changes', () => {
    const off = { ...DEFAULT_KITCHEN.alerts, bell: false, terminal: false, speech: false };
    const { around, written, spoken, pass, bells } = surroundings({ wishes: off });
    const alerter = createAlerter(around);
    alerter.show({ title: 'Hold', progress: 0.5 });
    alerter.raise({ kind: 'danger', says: 'Heat off' });
    pass(1000);
    expect(written).toEqual([]);
    expect(spoken).not.toContain('Heat off');
    alerter.wish({ ...off, bell: true });
    pass(10_000);
    expect(bells().length).toBeGreaterThan(0);
  });

  it('never writes a bell to what is no terminal', () => {
    const terminal = recogniseTerminal({}, false);
    const { around, written, pass } = surroundings({ canRing: false, terminal });
    const alerter = createAlerter(around);
    alerter.show({ title: 'Hold', progress: 0.5 });
    alerter.raise({ kind: 'danger', says: 'Heat off' });
    pass(60_000);
    alerter.close();
    expect(written).toEqual([]);
  });
});

describe('title and progress', () => {
  it('are written when they change, progress also every ten seconds, and given back at the end', () => {
    const { around, written, pass } = surroundings();
    const alerter = createAlerter(around);
    for (let second = 0; second < 25; second += 1) {
      alerter.show({ title: 'Hold', progress: 0.5 });
      pass(1000);
    }
    const texts = written.map(({ text }) => text);
    expect(texts.filter(text => text.includes(']0;Hold'))).toHaveLength(1);
    expect(texts.filter(text => text.includes(']9;4;1;50'))).toHaveLength(3);
    alerter.close();
    expect(written.slice(-2).map(({ text }) => text)).toEqual(['\u001b[23;0t', '\u001b]9;4;0;0\u001b\\']);
    const count = written.length;
    alerter.close();
    expect(written).toHaveLength(count);
  });

  it('are taken away when they are no longer wished', () => {
    const { around, written } = surroundings();
    const alerter = createAlerter(around);
    alerter.show({ title: 'Hold', progress: 0.5 });
    alerter.wish({ ...around.wishes, terminal: false });
    expect(written.at(-1)?.text).toContain(']9;4;0');
    const count = written.length;
    alerter.show({ title: 'Hold', progress: 0.6 });
    expect(written).toHaveLength(count);
  });
});
