import { describe, expect, it } from 'vitest';
import type { RefusalCode } from '../../../src/core/batch/events.ts';
import type { AskId } from '../../../src/core/batch/steps.ts';
import { Drive } from '../../help/batch-drive.ts';
import { sampleHeader } from '../../help/batch-kit.ts';

const at = (ask: AskId) => new Drive(sampleHeader()).toAsk(ask);

// Limits of the sample batch: 10 L pot, bags of 1 kg that hold 1.1 kg, cooker water 2 to 5 L, 1.2 kg dry grain.
const AMOUNTS: readonly (readonly [AskId, string, number, RefusalCode | null])[] = [
  ['dry-weight', 'weighed', 0.04, 'too-little'],
  ['dry-weight', 'weighed', 1.3, null],
  ['dry-weight', 'weighed', 10.1, 'too-much'],
  ['draining', 'weighed', 1, 'too-little'],
  ['draining', 'weighed', 2, null],
  ['draining', 'weighed', 3.7, 'too-much'],
  ['fill', 'weighed', 0.01, 'too-little'],
  ['fill', 'weighed', 1.1, null],
  ['fill', 'weighed', 1.11, 'above-filter'],
  ['cooker-water', 'poured', 1.99, 'water-below-minimum'],
  ['cooker-water', 'poured', 2, null],
  ['cooker-water', 'poured', 5, null],
  ['cooker-water', 'poured', 5.01, 'water-above-rack'],
  ['climbing', 'reading', -1, 'too-little'],
  ['climbing', 'reading', 103, null],
  ['climbing', 'reading', 351, 'above-marked'],
  ['inject', 'dosed', 0.05, 'too-little'],
  ['inject', 'dosed', 4, null],
];

describe('amounts', () => {
  it.each(AMOUNTS)('%s %s %f: %s', (ask, choice, amount, code) => {
    expect(at(ask).refusal(choice, amount)?.code ?? null).toBe(code);
  });

  it.each(['dry-weight', 'draining', 'fill', 'cooker-water', 'climbing', 'inject'] as const)(
    '%s takes no amount that is none',
    ask => {
      const drive = at(ask);
      const choice =
        { 'cooker-water': 'poured', climbing: 'reading', inject: 'dosed' }[String(ask)] ?? 'weighed';
      for (const amount of [undefined, Number.NaN, Infinity, -Infinity]) {
        expect(drive.refusal(choice, amount)).not.toBeNull();
      }
    },
  );

  it('are kept as they were given', () => {
    const drive = at('dry-weight').answer('weighed', 1.3).toAsk('draining').answer('weighed', 2);
    drive.toAsk('fill').answer('weighed', 0.98).toAsk('cooker-water').answer('poured', 3.1);
    drive.toAsk('inject').answer('dosed', 4);
    const { batch } = drive;
    expect(batch).toMatchObject({ dryKg: 1.3, drainedKg: 2, cookerWaterL: 3.1 });
    expect(batch.containers[0]).toMatchObject({ kg: 0.98, dose: 4 });
  });

  it("of the plan are refused too when they are below the maker's minimum", () => {
    const header = sampleHeader();
    const dry = { ...header, numbers: { ...header.numbers, cookerWaterL: 1.5 } };
    const drive = new Drive(dry).toAsk('cooker-water');
    expect(drive.refusal('as-planned')).toEqual({ code: 'water-below-minimum', limit: 2 });
    expect(drive.answer('poured', 2.5).ask).toBe('lid');
  });
});

describe('thermometer', () => {
  const measures = (drive: Drive, of: 'centre' | 'vessel', celsius: number) =>
    drive.tries({ type: 'measured', of, celsius })?.code ?? null;

  it('is read in a container while it is shut in, and on the vessel while that cools', () => {
    expect(measures(at('simmering'), 'centre', 90)).toBe('not-here');
    expect(measures(at('holding'), 'centre', 90)).toBeNull();
    expect(measures(at('holding'), 'vessel', 90)).toBe('not-here');
    expect(measures(at('gauge-zero'), 'vessel', 60)).toBeNull();
    expect(measures(at('lifted'), 'vessel', 30)).toBe('not-here');
    expect(measures(at('finished'), 'centre', 30)).toBe('finished');
  });

  it.each([-1, 141, Number.NaN, Infinity])('does not show %f C', celsius => {
    expect(measures(at('holding'), 'centre', celsius)).not.toBeNull();
  });

  it('is kept, and moves nothing', () => {
    const drive = at('gauge-zero');
    const { lock, step, ask } = drive.batch;
    expect(measures(drive, 'vessel', 25)).toBeNull();
    expect(drive.batch).toMatchObject({
      lock,
      step,
      ask,
      measured: [{ of: 'vessel', celsius: 25, load: 1 }],
    });
  });
});

describe('refusals', () => {
  it('nothing was filled yet, so nothing can be used up', () => {
    expect(at('fill').refusal('used-up')?.code).toBe('nothing-filled');
  });

  it('a finished batch takes nothing but undo', () => {
    const drive = new Drive(sampleHeader()).to('done');
    expect(drive.tries({ type: 'answer', ask: 'finished', choice: 'x' })?.code).toBe('finished');
    expect(drive.tries({ type: 'trouble', trouble: 'torn' })?.code).toBe('finished');
    expect(drive.tries({ type: 'typed', purpose: 'end-batch', word: 'end' })?.code).toBe('finished');
    expect(drive.tries({ type: 'tick' }, 1000)).toBeNull();
    expect(drive.undo().batch.step).toBe('inoculate');
  });

  it('a typed word may be in capitals and with blanks around it', () => {
    const drive = new Drive(sampleHeader()).to('portion');
    expect(drive.type('end-batch', ' END ').batch.step).toBe('done');
  });

  it('leave the batch as it was', () => {
    const drive = at('shut');
    const { run } = drive;
    drive.tries({ type: 'answer', ask: 'shut', choice: 'lid-open' }, 1000);
    expect(drive.run).toBe(run);
  });
});

describe('what an answer leads to', () => {
  it('kernels: again at the interval while white, sooner when near, on when translucent', () => {
    const drive = at('kernel-centre').answers('white-core', 'none');
    expect(drive.batch).toMatchObject({ ask: 'simmering', lookAt: drive.batch.now + 300_000 });
    drive.answers('kernels-cut', 'thin-line', 'few');
    expect(drive.batch.lookAt).toBe(drive.batch.now + 120_000);
    drive.answers('kernels-cut', 'translucent', 'few');
    expect(drive.batch.step).toBe('drain');
    expect(drive.batch.kernels.map(({ centre, burst }) => [centre, burst])).toEqual([
      ['white-core', 'none'],
      ['thin-line', 'few'],
      ['translucent', 'few'],
    ]);
  });

  it('towel: more drying while soaked or with several spots, on when faint', () => {
    const drive = at('towel').wait(20_000).answer('soaked');
    expect(drive.batch).toMatchObject({ ask: 'drying', stirAt: drive.batch.now + 1_500_000 });
    drive
      .answer('towel-laid')
      .wait(20_000)
      .answer('several')
      .answer('towel-laid')
      .wait(20_000)
      .answer('faint');
    expect(drive.batch.step).toBe('portion');
    expect(drive.batch.towels.map(({ seen }) => seen)).toEqual(['soaked', 'several', 'faint']);
  });

  it('"rest as planned" does all that are left, and only those', () => {
    const filled = new Drive(sampleHeader({ loads: [3] }))
      .to('portion')
      .answer('weighed', 0.9)
      .answer('rest-as-planned');
    expect(filled.batch.step).toBe('seal');
    expect(filled.batch.containers.map(({ kg }) => kg)).toEqual([0.9, 1, 1]);
    const sealed = filled.answer('rest-sealed');
    expect(sealed.batch.step).toBe('load');
    const lifted = sealed.to('unload').answers('torn', 'rest-intact');
    expect(lifted.batch.containers.map(({ state }) => state)).toEqual(['torn', 'whole', 'whole']);
    const done = lifted.toAsk('inject').answer('rest-as-planned');
    expect(done.batch.containers.map(({ dose }) => dose)).toEqual([null, 5, 5]);
  });

  it('a container left out gets no culture and does not hold the batch up', () => {
    const drive = at('inject').answers('left-out', 'as-planned');
    expect(drive.batch.step).toBe('done');
    expect(drive.batch.containers.map(({ dose, leftOut }) => [dose, leftOut])).toEqual([
      [null, true],
      [5, false],
    ]);
  });

  it('a reading above the marked maximum begins no hold and moves nothing', () => {
    const climb = at('climbing');
    const marked = climb.batch.header.kitchen.markedMaxKPa;
    expect(climb.refusal('reading', marked + 5)).toEqual({ code: 'above-marked', limit: marked });
    expect(climb.batch.step).toBe('climb');
    expect(climb.refusal('reading', marked)).toBeNull();
    expect(at('holding').refusal('reading', 276)).toEqual({ code: 'above-marked', limit: marked });
  });
});
