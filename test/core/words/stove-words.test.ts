import { describe, expect, it } from 'vitest';
import { askWords } from '../../../src/core/words/asks.ts';
import { stoveAdvice } from '../../../src/core/words/estimate-advice.ts';
import type { Telling } from '../../../src/core/words/telling.ts';
import { estimateAt } from '../../../src/core/estimate/estimate.ts';
import { HOUR, MINUTE } from '../../../src/core/time.ts';
import { Drive } from '../../help/batch-drive.ts';
import { sampleHeader } from '../../help/batch-kit.ts';

const telling: Telling = {
  units: { mass: 'kg', volume: 'L', pressure: 'psi', temperature: 'C', length: 'cm' },
  clock: () => '23:42',
};
const holding = () => new Drive(sampleHeader({ soak: false })).toAsk('climbing').wait(8 * MINUTE);

describe('what goes before every other advice', () => {
  it('a cooker that is dry by the estimate: heat off', () => {
    const drive = holding();
    expect(stoveAdvice(drive.batch, telling) ?? '').not.toContain('dry');
    drive.wait(12 * HOUR);
    expect(stoveAdvice(drive.batch, telling)).toContain('heat off now');
  });

  it('a thermometer far under the estimate is believed, not the estimate', () => {
    const drive = holding()
      .answer('at')
      .wait(40 * MINUTE);
    const measured = (celsius: number) => drive.tries({ type: 'measured', of: 'centre', celsius }, 0);
    expect(measured(20)).toBeNull();
    expect(stoveAdvice(drive.batch, telling)).toContain('Your thermometer says 20');
    drive.wait(31 * MINUTE);
    expect(stoveAdvice(drive.batch, telling) ?? '').not.toContain('thermometer');
  });

  it('a thermometer that agreed is not contradicted by the heat that came after it', () => {
    const drive = holding()
      .answer('at')
      .wait(5 * MINUTE);
    const celsius = Math.round(estimateAt(drive.batch)?.centreC.likely ?? Number.NaN);
    expect(drive.tries({ type: 'measured', of: 'centre', celsius }, 0)).toBeNull();
    for (let minutes = 0; minutes < 29; minutes += 1) {
      drive.wait(MINUTE);
      expect(stoveAdvice(drive.batch, telling) ?? '').not.toContain('thermometer');
    }
  });
});

describe('a real weight', () => {
  const header = sampleHeader({ soak: false });
  const { numbers } = header;
  const words = (share: number) => {
    const drive = new Drive({ ...header, numbers: { ...numbers, potTakesKg: numbers.dryKg } }).toAsk(
      'dry-weight',
    );
    drive.answer('weighed', drive.batch.dryKg * share);
    return askWords(drive.batch, drive.batch.ask, telling);
  };
  it('changes water and portions in proportion (dry-matter balance)', () => {
    expect(words(1)).not.toContain('take');
    expect(words(0.5)).toContain(`take ${Number((numbers.simmerWaterL / 2).toFixed(2))} L`);
    expect(words(1.5)).toContain('fill 3 bags, not 2. The pot takes them in 2 parts.');
  });
});
