import { describe, expect, it } from 'vitest';
import { indexDiary } from '../../../src/core/record/bags.ts';
import { causesOf } from '../../../src/core/record/causes.ts';
import { nextTime } from '../../../src/core/record/next-time.ts';
import { recordedBatch } from '../../../src/core/record/record.ts';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { causeEvidence } from '../../../src/core/words/causes.ts';
import { changeWords } from '../../../src/core/words/next-time.ts';
import type { Drive } from '../../help/batch-drive.ts';
import type { Sample } from '../../help/batch-kit.ts';
import { diaryOf, drivenBatch, homeHeader } from '../../help/record-home.ts';

type Trouble = (drive: Drive) => unknown;
const recorded = (trouble: Trouble, sample: Sample = {}) =>
  recordedBatch(
    drivenBatch(homeHeader('2613a', { soak: false, loads: [3], ...sample }), drive => void trouble(drive))
      .batch,
    indexDiary(diaryOf([])),
  );
/** Hints of the whole batch as `id: evidence`. */
const hints = (trouble: Trouble, sample: Sample = {}) =>
  causesOf(recorded(trouble, sample).batch, null, null).map(
    cause => `${cause.id}: ${causeEvidence(cause, METRIC)}`,
  );
const held = (drive: Drive) => drive.to('hold').wait(20 * MINUTE);

// What was done to each batch is known here, so the evidence is checked against that and not against the code.
const STOVE: readonly (readonly [name: string, trouble: Trouble, hint: string, change: string])[] = [
  [
    'two dips of 5 and 7 minutes after 20 and 10 minutes held',
    drive =>
      held(drive)
        .answer('below')
        .wait(5 * MINUTE)
        .answer('at')
        .wait(10 * MINUTE)
        .answer('reading', 60)
        .wait(7 * MINUTE)
        .answer('at'),
    'dips: the pressure fell below target twice, for 12 min in all; 30 min of hold were given up',
    'watch-gauge',
  ],
  [
    'the gas went out during the hold',
    drive =>
      held(drive)
        .trouble('heat-failed-in-hold')
        .wait(9 * MINUTE)
        .answer('at'),
    'power-failed: power or gas failed once; 20 min of hold were given up',
    'spare-heat',
  ],
  [
    'the power failed before the hold',
    drive => drive.to('climb').trouble('heat-failed'),
    'power-failed: power or gas failed once',
    'spare-heat',
  ],
  [
    'the valve was opened by mistake',
    drive => held(drive).trouble('valve-opened'),
    'valve-opened: the valve was opened once under pressure, which lets air back in',
    'leave-valve',
  ],
  [
    'the valve was opened in the lock',
    drive => drive.to('cool').trouble('valve-opened-cooling'),
    'quick-release: the valve was opened once while it cooled, so that bags swell and draw in room air',
    'leave-valve',
  ],
  [
    'the flame was left on for 40 minutes',
    drive => drive.to('heat-off').wait(40 * MINUTE),
    'overrun: the flame burned 40 min beyond the hold, which uses water and browns the grain',
    'flame-off',
  ],
  [
    'it smelled burnt',
    drive => held(drive).trouble('water-low'),
    'low-water: water was low or it smelled burnt, and the batch was ended',
    'more-water',
  ],
  [
    'the hold was cut short at 20 minutes',
    drive => held(drive).type('end-hold'),
    'short-hold: the hold was cut short at 20 min',
    'hold-whole',
  ],
  [
    'the lid was opened an hour after the lock of the pressure',
    drive => drive.toAsk('shut').type('open-early'),
    'opened-warm: the cooker was opened before it was cool, so that bags drew in room air',
    'stay-shut',
  ],
];

describe('what went wrong at the stove', () => {
  it.each(STOVE)('%s', (_name, trouble, hint, change) => {
    expect(hints(trouble)).toContain(hint);
    expect(nextTime(recorded(trouble)).map(({ id }) => id)).toContain(change);
  });

  it('hours of a flame left on leave little water by the estimate, and it says how much', () => {
    const found = hints(drive => drive.to('heat-off').wait(6 * HOUR));
    expect(found.join()).toMatch(/low-water: by the estimate only (?:0|\d+(?:\.\d+)? m?L) /);
  });

  it('of two loads, a bag is only told of its own', () => {
    const { batch, bags } = recorded(drive => held(drive).answer('below').answer('at'), { loads: [1, 1] });
    const [first, second] = bags;
    expect(causesOf(batch, first ?? null, null).map(({ id }) => id)).toEqual(['dips']);
    expect(causesOf(batch, second ?? null, null)).toEqual([]);
  });

  describe('grain that dried for less than half of the usual time', () => {
    // The sample recipe plans 2 h; what was waited is known here.
    const dried = (wait: number, learnedMin: number | null = null) => {
      const header = homeHeader('2613a', { soak: false, loads: [3] });
      const learned = learnedMin && { simmerS: null, dryingS: learnedMin * 60, batches: 3 };
      const { batch } = drivenBatch({ ...header, ...(learned ? { learned } : {}) }, drive =>
        drive.to('surface-dry').wait(wait),
      );
      const lost = { type: 'state', bag: '2613a-1', state: 'contaminated', looks: 'sour' } as const;
      return recordedBatch(batch, indexDiary(diaryOf([lost])));
    };
    const told = ({ batch, bags }: ReturnType<typeof dried>, looks: 'sour' | 'green') =>
      causesOf(batch, bags[0] ?? null, looks).map(cause => `${cause.id}: ${causeEvidence(cause, METRIC)}`);

    it('is a hint for a sour bag, with its numbers, and the next batch is told to dry it whole', () => {
      const short = dried(24 * MINUTE);
      expect(told(short, 'sour')).toEqual([
        'short-drying: the grain was surface-dried for 24 min, and the recipe plans about 2 h: a towel can show the top alone',
      ]);
      const [change, ...others] = nextTime(short);
      expect(others).toEqual([]);
      expect(change).toMatchObject({ id: 'dry-whole', apply: null, remindAt: ['surface-dry'] });
      expect(change && changeWords(change, METRIC)).toBe(
        'Stir, and dry for about 2 h before you believe the towel; it had 24 min.',
      );
    });

    it('goes by the earlier batches where they took longer', () => {
      expect(told(dried(70 * MINUTE), 'sour')).toEqual([]);
      expect(told(dried(70 * MINUTE, 180), 'sour')).toEqual([
        'short-drying: the grain was surface-dried for 70 min, and your earlier batches took about 3 h: a towel can show the top alone',
      ]);
      // Who always stopped early has no other usual time for that.
      expect(told(dried(24 * MINUTE, 25), 'sour')).toHaveLength(1);
    });

    it('is none for a green one, nor after long drying', () => {
      expect(told(dried(24 * MINUTE), 'green')).toEqual([]);
      expect(told(dried(2 * HOUR), 'sour')).toEqual([]);
    });
  });

  it('a batch as planned tells of nothing', () => {
    expect(hints(() => undefined)).toEqual([]);
  });
});
