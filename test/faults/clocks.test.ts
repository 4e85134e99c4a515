import { describe, expect, it } from 'vitest';
import { countOf } from '../../src/core/batch/countdown.ts';
import { openAsk } from '../../src/core/batch/lockout.ts';
import type { BatchHeader } from '../../src/core/batch/state.ts';
import { STEPS, type StepId, stepsOf } from '../../src/core/batch/steps.ts';
import { DAY, GRAIN, HOUR, MINUTE, SECOND } from '../../src/core/time.ts';
import { yearWeek } from '../../src/shell/batches.ts';
import { tellingOf, whenText } from '../../src/face/format.ts';
import { BEGAN_WALL, COOL, HOLD, PRESSURE_LOCK, sampleHeader, SOAK, VENT } from '../help/batch-kit.ts';
import { Evening } from './evening.ts';
import { createChance } from './fuzz.ts';
import { memoryFiles } from './memory-files.ts';

const YEAR = 365.25 * DAY;

/** Something that happens to the clocks of a kitchen laptop. */
interface Upset {
  readonly name: string;
  readonly does: (evening: Evening) => void;
}
const sets = (name: string, ms: number): Upset => ({
  name: `the wall clock is set ${name}`,
  does: ({ clock }) => {
    clock.setBy(ms);
    clock.pass(0);
  },
});
const sleeps = (name: string, ms: number): Upset => ({
  name: `the laptop sleeps ${name}`,
  does: ({ clock }) => clock.pass(ms, { steady: 0 }),
});
const UPSETS: readonly Upset[] = [
  ...[1, -1].flatMap(sign => {
    const way = sign > 0 ? 'forward' : 'back';
    return [
      sets(`${way} 1 s`, sign * SECOND),
      sets(`${way} 59 s`, sign * 59 * SECOND),
      sets(`${way} 61 s`, sign * 61 * SECOND),
      sets(`${way} 1 h, as by daylight saving on a clock in local time`, sign * HOUR),
      sets(`${way} 1 day`, sign * DAY),
      sets(`${way} 10 years`, sign * 10 * YEAR),
    ];
  }),
  {
    name: 'a leap second is stepped',
    does: ({ clock }) => {
      clock.pass(SECOND);
      clock.pass(SECOND, { wall: 0 });
      clock.pass(SECOND);
    },
  },
  {
    name: 'a leap second is smeared over a day',
    does: ({ clock }) => {
      for (let minute = 0; minute < 20; minute += 1) clock.pass(20 * SECOND, { wall: 20 * SECOND - 1 });
    },
  },
  sleeps('3 minutes', 3 * MINUTE),
  sleeps('9 hours', 9 * HOUR),
  {
    name: 'the laptop sleeps 9 hours and only the wall clock knows',
    does: ({ clock }) => clock.pass(9 * HOUR, { steady: 0, uptime: 0 }),
  },
  {
    name: 'the laptop sleeps 9 hours and wakes with a wall clock that stood still',
    does: ({ clock }) => clock.pass(9 * HOUR, { steady: 0, wall: 0 }),
  },
  {
    name: 'the wall clock is set forward 12 h during a sleep of 3 minutes',
    does: ({ clock }) => clock.pass(3 * MINUTE, { steady: 0, wall: 12 * HOUR }),
  },
  {
    name: 'the program is killed and opened after 3 minutes',
    does: evening => {
      evening.clock.restart();
      evening.clock.pass(3 * MINUTE);
      evening.reopen();
    },
  },
  ...(
    [
      ['3 minutes', 3 * MINUTE, 0],
      ['9 hours', 9 * HOUR, 0],
      ['3 minutes, and the wall clock comes back at 1970', 3 * MINUTE, -56 * YEAR],
      ['3 minutes, and the wall clock comes back 10 years ahead', 3 * MINUTE, 10 * YEAR],
      ['9 hours, and the wall clock lost them', 9 * HOUR, -9 * HOUR],
    ] as const
  ).map(([name, off, wrong]) => ({
    name: `the machine is off for ${name}`,
    does: (evening: Evening) => {
      evening.clock.reboot(off, 40 * SECOND, wrong);
      evening.reopen();
    },
  })),
];

/** Truth at which each step of the batch was entered, by a stopwatch beside the stove. */
class Stopwatch {
  readonly #evening: Evening;
  readonly entered = new Map<StepId, number>();
  constructor(evening: Evening) {
    this.#evening = evening;
    this.look();
  }
  look(): void {
    const { batch, clock } = this.#evening;
    if (![...this.entered.keys()].includes(batch.step)) this.entered.set(batch.step, clock.truth);
  }
  spent(step: StepId, next: StepId): number {
    return (this.entered.get(next) ?? Number.NaN) - (this.entered.get(step) ?? Number.NaN);
  }
}

/** Answers honestly, with what a person knows who was not there: nothing. */
function goOn(evening: Evening): void {
  const ask = openAsk(evening.batch);
  if (ask === 'clock-claim') evening.answer('clock-wrong');
  else if (ask === 'away-steam' || ask === 'away-gauge') evening.answer('unknown');
  else evening.plannedMove();
}

/** Runs a whole batch with one upset in the middle of one step; what a stopwatch says of every countdown. */
function upsetIn(header: BatchHeader, step: StepId, { name, does }: Upset): Evening {
  const evening = new Evening({ header, folder: '/h', files: memoryFiles(), tickMs: 25 * SECOND });
  const watch = new Stopwatch(evening);
  const said = `${name} in ${step}`;
  let done = false;
  for (let moves = 0; evening.batch.finishedAt === null; moves += 1) {
    if (moves > 700) throw new Error(`${said}: lost, stuck in ${evening.batch.step}/${evening.batch.ask}`);
    if (evening.batch.step === step && !done) {
      if (step === 'hold') evening.answer('at');
      evening.wait(50 * SECOND);
      const before = { now: evening.batch.now, truth: evening.clock.truth, count: countOf(evening.batch) };
      does(evening);
      const passed = evening.batch.now - before.now;
      expect(passed, `${said}: more time than passed`).toBeLessThanOrEqual(
        evening.clock.truth - before.truth + GRAIN,
      );
      const after = countOf(evening.batch);
      if (evening.batch.step === step && before.count?.direction === 'down') {
        const left = before.count.ms - (evening.clock.truth - before.truth) - GRAIN;
        const counted = after?.direction === 'down' ? after.ms : 0;
        expect(counted, `${said}: a countdown is shorter`).toBeGreaterThanOrEqual(left);
      }
      done = true;
    } else goOn(evening);
    watch.look();
  }
  expect(done, said).toBe(true);
  const least = (from: StepId, next: StepId, ms: number) => {
    if (watch.entered.has(from))
      expect(watch.spent(from, next), `${said}: ${from}`).toBeGreaterThanOrEqual(ms - GRAIN);
  };
  least('soak', 'simmer', SOAK);
  least('vent', 'climb', VENT);
  least('hold', 'heat-off', HOLD);
  least('cool', 'unload', COOL);
  evening.session.close();
  return evening;
}

describe('S6: whatever the clocks do in whatever step, no countdown is shortened and none is lost', () => {
  const header = sampleHeader({ loads: [1] });
  const unsoaked = sampleHeader({ loads: [1], soak: false });
  it.each(stepsOf(header.recipe).filter(step => step !== 'done'))('%s', step => {
    const planned = (step === 'soak' ? 12 * HOUR : 0) + 12 * HOUR;
    for (const upset of UPSETS) {
      const { clock } = upsetIn(step === 'soak' ? header : unsoaked, step, upset);
      // At most what was planned, the upset itself, and one hold and vent again.
      expect(clock.truth, `${upset.name} in ${step}`).toBeLessThan(planned + 10 * HOUR + 3 * HOUR + 2 * HOUR);
    }
  });

  it('seals after too, and every step there is has been upset', () => {
    const after = sampleHeader({ soak: false, seal: 'after', loads: [1] });
    for (const upset of UPSETS) upsetIn(after, 'seal-after', upset);
    const upset = new Set([...stepsOf(header.recipe), ...stepsOf(after.recipe)]);
    expect(upset.size).toBe(STEPS.length);
    console.log(`${UPSETS.length} upsets in each of ${STEPS.length - 1} steps`);
  });
});

describe('S1 S6: a night of many upsets', () => {
  it('never opens the lid before its time by the stopwatch', () => {
    const chance = createChance(42);
    let opened = 0;
    for (let night = 0; night < 60; night += 1) {
      const header = sampleHeader({ soak: false, loads: [1] });
      const evening = new Evening({ header, folder: '/h', files: memoryFiles(), tickMs: 25 * SECOND });
      evening.to('cool');
      const heatOff = evening.clock.truth;
      let restarts = 0;
      for (let moves = 0; evening.batch.step === 'cool' && moves < 400; moves += 1) {
        if (chance.next() < 0.4 && restarts < 40) {
          chance.pick(UPSETS).does(evening);
          restarts += 1;
        } else if (chance.next() < 0.5) evening.wait(chance.below(30) * MINUTE);
        else goOn(evening);
      }
      if (evening.batch.step === 'cool') continue;
      opened += 1;
      const shut = evening.clock.truth - heatOff;
      expect(shut).toBeGreaterThanOrEqual(PRESSURE_LOCK - restarts * GRAIN);
      expect(shut).toBeGreaterThanOrEqual(COOL - restarts * GRAIN);
      evening.session.close();
    }
    console.log(`60 nights of many upsets, ${opened} lids opened, none too soon`);
    expect(opened).toBeGreaterThan(40);
  });
});

describe('daylight saving', () => {
  const inZone = <T>(zone: string, work: () => T): T => {
    const before = process.env.TZ;
    process.env.TZ = zone;
    try {
      return work();
    } finally {
      process.env.TZ = before;
    }
  };
  // Expected texts by Intl.DateTimeFormat (ICU), which is another implementation than Date's local getters.
  const expected = (zone: string, wall: number): string =>
    new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
    }).format(wall);

  it.each([
    ['Europe/Rome', Date.UTC(2026, 2, 28, 22), 'spring'],
    ['Europe/Rome', Date.UTC(2026, 9, 24, 22), 'autumn'],
    ['America/New_York', Date.UTC(2026, 2, 8, 4), 'spring'],
    ['Australia/Lord_Howe', Date.UTC(2026, 3, 4, 12), 'autumn, half an hour'],
  ])('in %s moves the clock times and no countdown (%s %s)', (zone, wall) => {
    inZone(zone, () => {
      const header = sampleHeader({ soak: false, loads: [1] });
      const evening = new Evening({ header, folder: '/h', files: memoryFiles(), tickMs: 25 * SECOND });
      evening.clock.setBy(wall - BEGAN_WALL);
      evening.clock.pass(0);
      evening.to('cool');
      const { batch } = evening;
      const until = batch.lock?.coolUntil ?? 0;
      const telling = tellingOf(batch, header.kitchen.units);
      expect(telling.clock(until).slice(-5)).toBe(
        expected(zone, evening.clock.sample().wall + until - batch.now),
      );
      const truth = evening.clock.truth;
      evening.until(({ step }) => step === 'unload');
      expect(evening.clock.truth - truth).toBeGreaterThanOrEqual(COOL);
      expect(evening.clock.truth - truth).toBeLessThan(COOL + MINUTE);
      evening.session.close();
    });
  });

  it('gives every instant of two years a week and a clock text', () => {
    inZone('America/Santiago', () => {
      for (let hour = 0; hour < 2 * 366 * 24; hour += 7) {
        const wall = Date.UTC(2026, 0, 1) + hour * HOUR;
        expect(yearWeek(wall)).toMatch(/^2[5-8](0[1-9]|[1-4]\d|5[0-3])$/);
        expect(whenText(wall, wall)).toBe(expected('America/Santiago', wall));
      }
    });
  });
});
