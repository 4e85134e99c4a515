import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planAt } from '../../src/cli/plan.ts';
import { planJson } from '../../src/cli/plan-json.ts';
import { planText } from '../../src/cli/plan-text.ts';
import { nextClock, readTime } from '../../src/cli/plan-time.ts';
import { readArguments } from '../../src/cli/arguments.ts';
import { GrowerError } from '../../src/shell/failure.ts';
import { type KitchenAnswers, withDefaults } from '../../src/core/kitchen.ts';
import { whatIfOf } from '../../src/core/plan/what-if.ts';
import { HOUR, MINUTE } from '../../src/core/time.ts';
import { anyRecipe, shipped } from '../help/plan-kit.ts';

/** Tests run in Europe/Rome (see vitest.config.ts): UTC+1 in November. */
const NOW = Date.UTC(2026, 10, 25, 17, 30);
const inputFor = (name: string, kitchen: KitchenAnswers = {}) => {
  const base = shipped(name);
  return { base, known: withDefaults(kitchen), past: [], whatIf: whatIfOf(base), now: NOW };
};

describe('times as they are typed', () => {
  it('may be a clock time, or a date with one', () => {
    expect(readTime('at', '18:30')).toEqual({ kind: 'clock', hours: 18, minutes: 30 });
    expect(readTime('at', ' 7:05 ')).toEqual({ kind: 'clock', hours: 7, minutes: 5 });
    expect(readTime('at', '2026-11-26T18:30')).toEqual({
      kind: 'instant',
      at: Date.UTC(2026, 10, 26, 17, 30),
    });
    expect(readTime('at', '2026-07-01 09:00')).toEqual({ kind: 'instant', at: Date.UTC(2026, 6, 1, 7) });
    expect(readTime('at', '2026-11-26T18:30Z')).toEqual({
      kind: 'instant',
      at: Date.UTC(2026, 10, 26, 18, 30),
    });
    expect(readTime('at', '2026-11-26T18:30:10-0500')).toEqual({
      kind: 'instant',
      at: Date.UTC(2026, 10, 26, 23, 30, 10),
    });
  });

  it.each([
    '',
    '6pm',
    '24:00',
    '18.30',
    '18:60',
    'noon',
    '2026-13-01T10:00',
    '2026-02-30T10:00',
    '2026-11-26',
    '9',
  ])('"%s" gets one sentence that names the option and shows a way', text => {
    expect(() => readTime('ready', text)).toThrow(/^--ready: ".*" .*\.$/);
  });

  // Europe/Rome: 02:30 is skipped on 2027-03-28 and comes twice on 2027-10-31.
  it('that do not exist or come twice are said, unless the offset settles it', () => {
    expect(() => readTime('at', '2027-03-28T02:30')).toThrow('does not exist here');
    expect(() => readTime('at', '2027-10-31T02:30')).toThrow('comes twice here');
    expect(readTime('at', '2027-10-31T02:30+02:00')).toEqual({
      kind: 'instant',
      at: Date.UTC(2027, 9, 31, 0, 30),
    });
    expect(() => readTime('at', '2027-03-28T03:30')).not.toThrow();
  });

  it('of the clock are the next such time, a day of 23 or 25 hours included (property)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 23 }),
        fc.integer({ min: 0, max: 59 }),
        fc.integer({ min: 0, max: 400 * 24 * 60 }),
        (hours, minutes, after) => {
          const from = NOW + after * MINUTE;
          const found = nextClock(hours, minutes, from);
          expect(found).toBeGreaterThanOrEqual(from);
          expect(found - from).toBeLessThan(25 * HOUR + MINUTE);
          const date = new Date(found);
          if (hours !== 2) expect([date.getHours(), date.getMinutes()]).toEqual([hours, minutes]);
        },
      ),
    );
  });
});

describe('a plan for a time', () => {
  it('begins then', () => {
    const { view, says } = planAt(inputFor('Wheat'), readTime('at', '20:00'), 'start');
    expect(says).toBeNull();
    expect(view.timeline.startsAt).toBe(Date.UTC(2026, 10, 25, 19));
  });

  it('is ready then: the first such clock time that can be reached', () => {
    const wheat = planAt(inputFor('Wheat'), readTime('ready', '09:00'), 'ready');
    expect(wheat.says).toBeNull();
    expect(wheat.view.timeline.readyAt).toBe(Date.UTC(2026, 10, 26, 8));
    const rye = planAt(inputFor('Rye'), readTime('ready', '09:00'), 'ready');
    expect(rye.view.timeline.readyAt).toBe(Date.UTC(2026, 10, 27, 8));
    expect(rye.says).toBe('Thu 09:00 cannot be reached any more; this is Fri 09:00.');
    expect(rye.view.timeline.startsAt).toBeGreaterThanOrEqual(NOW - MINUTE);
  });

  it('says no to a time that is over or too near, with the earliest that can be', () => {
    const past = planAt(inputFor('Rye'), readTime('ready', '2026-11-26T10:00'), 'ready');
    expect(past.says).toMatch(
      /^No: to be ready Thu 10:00 it would have had to begin [^.]*; begun now it is ready Fri 07:\d\d\.$/,
    );
    const over = planAt(inputFor('Rye'), readTime('at', '2026-11-20T10:00'), 'start');
    expect(over.says).toContain('No: 20 Nov 2026');
    expect(over.view.timeline.startsAt).toBe(NOW);
  });
});

describe('the printed sheet', () => {
  it('fits 80 columns, tells everything, and no control sequence', async () => {
    const text = planText({ ...planAt(inputFor('Rye'), readTime('ready', '09:00'), 'ready'), says: null });
    for (const line of text.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
    for (const part of [
      'read what to look out for first.',
      'weigh',
      '3.55 kg',
      'Fri 09:00  Inoculate',
      'To have in the house',
    ]) {
      expect(text).toContain(part);
    }
    await expect(text).toMatchFileSnapshot('rye-plan.txt');
  });

  it('says a clear no where the vessel cannot do it', () => {
    const weight = { gauge: 'weight', workingKPa: 69, altitudeM: 3400 } as const;
    const planned = planAt(inputFor('Rye', weight), null, 'start');
    expect(planText(planned)).toContain('No: not like this. See what to change.');
    expect(planJson(planned).verdict).toBe('no');
  });

  it.each([
    ['ready', '2026-11-25T10:00', /^No: 25 Nov 2026 10:00 is over; begun now it is ready Fri 07:\d\d\.$/],
    ['ready', '2026-11-26T10:00', /^No: to be ready Thu 10:00 it would have had to begin .*; begun now/],
    ['at', '2026-11-20T10:00', /^No: 20 Nov 2026 10:00 is over; the times below begin now\.$/],
  ] as const)('--%s %s cannot be kept: one "No" in one sentence, and no "Go"', (option, time, sentence) => {
    const planned = planAt(inputFor('Rye'), readTime(option, time), option === 'at' ? 'start' : 'ready');
    const [, head = '', next = ''] = planText(planned).split('\n');
    const said = next === '' ? head : `${head} ${next}`;
    expect(said).toMatch(sentence);
    expect(said.match(/\.( |$)/g)).toHaveLength(1);
    expect(planText(planned)).not.toMatch(/^Go|It can be done/m);
    expect(planJson(planned).verdict).toBe('no');
    // What cannot be made at all is said once: its hour does not matter.
    const weak = { gauge: 'weight', workingKPa: 69, altitudeM: 3400 } as const;
    const never = planAt(inputFor('Rye', weak), readTime(option, time), option === 'at' ? 'start' : 'ready');
    expect(planText(never).match(/^No: /gm)).toHaveLength(1);
  });

  it('as JSON is plain data with every instant and nothing that is no number (property)', () => {
    fc.assert(
      fc.property(anyRecipe, fc.integer({ min: -200, max: 4500 }), (base, altitudeM) => {
        const input = {
          base,
          known: withDefaults({ altitudeM }),
          past: [],
          whatIf: whatIfOf(base),
          now: NOW,
        };
        const json = planJson(planAt(input, null, 'start'));
        expect(JSON.parse(JSON.stringify(json))).toEqual(json);
        expect(json.steps.length).toBeGreaterThan(10);
        expect(json.steps.at(-1)?.step).toBe('inoculate');
        expect(Date.parse(json.readyAt)).toBeGreaterThan(NOW);
      }),
      { numRuns: 20 },
    );
  });

  it('is asked for with one recipe, and with one of the two times', () => {
    expect(readArguments(['plan', 'rye', '--ready', '09:00']).options).toEqual({ ready: '09:00' });
    expect(() => readArguments(['plan'])).toThrow('Write it as: stovehand plan RECIPE');
    expect(() => readArguments(['run', 'rye', '--at', '18:30'])).toThrow('--at belongs to: plan');
  });
});

it('a value of the kitchen with too many words is shown in quotes, with where the names are', () => {
  const hints = (argv: readonly string[]): string => {
    try {
      readArguments(argv);
    } catch (problem) {
      return problem instanceof GrowerError ? problem.tryThis.join('\n') : '';
    }
    return '';
  };
  expect(hints(['kitchen', 'altitude', '3000', 'ft'])).toContain('stovehand kitchen altitude "3000 ft"');
  expect(hints(['kitchen', 'altitude'])).toContain('A value is missing after "altitude"');
  expect(hints(['kitchen', 'altitude'])).toContain('All names and what they hold: stovehand kitchen');
});
