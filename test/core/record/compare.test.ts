import { describe, expect, it } from 'vitest';
import { METRIC } from '../../../src/core/quantity-format.ts';
import { bagsOf, indexDiary } from '../../../src/core/record/bags.ts';
import { compareBatches } from '../../../src/core/record/compare.ts';
import { nextTime } from '../../../src/core/record/next-time.ts';
import { MINUTE } from '../../../src/core/time.ts';
import { changeEvidence, changeReason, changeWords } from '../../../src/core/words/next-time.ts';
import type { Drive } from '../../help/batch-drive.ts';
import { dipped, lost, recordedWith, wet } from '../../help/recorded.ts';

describe('jars', () => {
  it('crack and are never called bags, in evidence, change and reason', () => {
    const troubles: readonly ((drive: Drive) => void)[] = [
      drive => drive.toAsk('lifted').answer('torn'),
      drive => drive.to('hold').trouble('valve-opened'),
      drive => drive.toAsk('fill').answer('as-planned').answer('used-up'),
      dipped,
      wet,
    ];
    const said = troubles.flatMap(trouble => {
      const recorded = recordedWith(trouble, lost('sour', 1), { jars: true });
      return nextTime(recorded).map(
        change => `${changeWords(change, METRIC)} ${changeReason(change)} ${changeEvidence(change, METRIC)}`,
      );
    });
    expect(said.join(' ')).toContain('One jar was cracked.');
    expect(said.join(' ')).not.toMatch(/\bbags?\b|container|film/i);
  });
});

describe('two batches side by side', () => {
  it('mark what differs', () => {
    const rows = compareBatches(
      recordedWith(() => undefined),
      recordedWith(dipped, lost('sour', 1)),
      METRIC,
    );
    const differing = rows.filter(({ differs }) => differs).map(({ name }) => name);
    expect(differing).toEqual(expect.arrayContaining(['dips', 'at the hold', 'deviations', 'became spawn']));
    expect(differing).not.toContain('grain');
    expect(rows.find(({ name }) => name === 'dips')).toMatchObject({ left: '0', right: '1' });
    // A dip whose hold starts over leaves the middle hotter in the end, not colder; both have a band.
    const f0 = rows.find(({ name }) => name === 'F0, estimated');
    expect(f0?.left).toMatch(/^\d+(?:\.\d)? \([\d.]+ to [\d.]+\)$/);
    expect(Number.parseFloat(f0?.right ?? '')).toBeGreaterThan(Number.parseFloat(f0?.left ?? ''));
  });

  it('a few seconds are no difference, a quarter of an hour is', () => {
    const waits = (ms: number) => (drive: Drive) => drive.to('climb').wait(ms);
    const climbed = (a: number, b: number) =>
      compareBatches(recordedWith(waits(a)), recordedWith(waits(b)), METRIC).find(
        ({ name }) => name === 'climbed',
      );
    expect(climbed(10 * MINUTE, 10.2 * MINUTE)).toMatchObject({ left: '10 min', differs: false });
    expect(climbed(10 * MINUTE, 25 * MINUTE)).toMatchObject({
      left: '10 min',
      right: '25 min',
      differs: true,
    });
  });

  it('sets what each load took beside what the one load took, not their sum', () => {
    const [row] = compareBatches(
      recordedWith(() => undefined, [], { loads: [3] }),
      recordedWith(() => undefined, [], { loads: [2, 1] }),
      METRIC,
    ).filter(({ name }) => name === 'at the hold');
    expect(row).toEqual({ name: 'at the hold', left: '90 min', right: '90 min, 90 min', differs: false });
  });

  it('counts every bag of both', () => {
    expect(bagsOf(recordedWith(dipped).batch, indexDiary([]))).toHaveLength(3);
  });
});
