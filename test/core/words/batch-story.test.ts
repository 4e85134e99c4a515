import { describe, expect, it } from 'vitest';
import { indexDiary } from '../../../src/core/record/bags.ts';
import { recordedBatch } from '../../../src/core/record/record.ts';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { batchStory, endEstimates } from '../../../src/core/words/batch-story.ts';
import { diaryOf, drivenBatch, homeHeader } from '../../help/record-home.ts';

// Everything expected here was put in by hand on the way.
const { batch } = drivenBatch(homeHeader('2613a', { soak: false, loads: [2, 1] }), drive => {
  drive.toAsk('dry-weight').answer('weighed', 1.9).toAsk('draining').answer('weighed', 3.1);
  drive.toAsk('fill').answer('weighed', 0.95).toAsk('cooker-water').answer('poured', 2.75);
  drive
    .to('climb')
    .wait(6 * MINUTE)
    .answer('reading', 55)
    .wait(4 * MINUTE)
    .answer('reading', 104);
  drive.wait(30 * MINUTE).tries({ type: 'measured', of: 'centre', celsius: 97 });
  drive
    .answer('at')
    .wait(10 * MINUTE)
    .answer('below')
    .wait(6 * MINUTE)
    .answer('at');
});
const recorded = recordedBatch(
  batch,
  indexDiary(diaryOf([{ type: 'state', bag: '2613a-2', state: 'contaminated', looks: 'black' }])),
);
const clock = (t: number): string => `${Math.round(t / MINUTE)}`;
const told = batchStory(recorded, { units: METRIC, clock })
  .map(({ title, rows }) => `${title}\n${rows.map(row => row.join(' | ')).join('\n')}`)
  .join('\n');

describe('everything kept of one batch', () => {
  it('tells weights and water, each reading of gauge and thermometer, and the bags', () => {
    expect(told).toMatch(/dry grain \| 1\.9 kg/);
    // 1.9 kg at 12 % are 1.672 kg without water, and 1 - 1.672 / 3.1 = 46 %.
    expect(told).toMatch(/drained \| 3\.1 kg, 46 % water/);
    expect(told).toMatch(/filled in all \| 2\.95 kg/);
    expect(told).toMatch(/cooker water, last load \| 2\.5 L/);
    for (const reading of [
      '55 kPa | climb | load 1',
      '104 kPa | climb | load 1',
      'below target | hold | load 1',
    ])
      expect(told).toContain(reading);
    expect(told).toContain('97 °C | thermometer in a bag | load 1');
    expect(told).toContain('Dip at');
    expect(told).toContain('6 min below target, 40 min already held start over');
    expect(told).toContain('2613a-1 | 0.95 kg | seal good | 5 ml | 1354 | colonising');
    expect(told).toContain('2613a-2 | 1 kg | seal good | 5 ml | 1354 | contaminated, black');
  });

  it('gives F0 of every load with its band, and says what an estimate is', () => {
    const ends = endEstimates(batch);
    expect(ends.map(({ load }) => load)).toEqual([1, 2]);
    for (const { f0Min, centreC } of ends) {
      expect(f0Min.low).toBeLessThan(f0Min.likely);
      expect(f0Min.likely).toBeLessThan(f0Min.high);
      expect(centreC.low).toBeLessThan(centreC.high);
    }
    expect(told.match(/load [12] \| F0 [\d.]+ \([\d.]+ to [\d.]+\)/g)).toHaveLength(2);
    expect(told).toMatch(/tough spores, which die slowly: \S.* left/);
    expect(told).not.toMatch(/\blogs?\b/);
    expect(told).toContain('no proof of anything');
    expect(told).not.toMatch(/sterile|NaN|undefined/);
  });
});
