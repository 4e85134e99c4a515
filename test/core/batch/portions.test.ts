import { describe, expect, it } from 'vitest';
import { emptyContainers, hydratedKgOf, simmerWaterOf } from '../../../src/core/batch/portions.ts';
import { fillingsOf } from '../../../src/core/batch/moves.ts';
import { Drive } from '../../help/batch-drive.ts';
import { PRESSURE_LOCK, sampleHeader } from '../../help/batch-kit.ts';

/** Four 1 kg bags in two loads, in a pot that takes 2 kg of dry grain at once. */
const header = () => {
  const sample = sampleHeader({ soak: false, loads: [2, 2] });
  const { potFillings: _, ...numbers } = sample.numbers;
  const hydrated = { dryKg: 2.4, hydratedKg: 4, simmerWaterL: 6, potTakesKg: 2.5 };
  return { ...sample, numbers: { ...numbers, ...hydrated } };
};
const weighing = (kg: number) => new Drive(header()).toAsk('dry-weight').answer('weighed', kg).batch;
const loadsOf = ({ containers }: { containers: readonly { load: number }[] }) =>
  containers.map(({ load }) => load);

// Expected by the dry-matter balance of the science notes, h: at the same moistures every weight stays in proportion.
describe('grain that was really weighed', () => {
  it('half of it: half the water and yield, two bags in one load', () => {
    const batch = weighing(1.2);
    expect(simmerWaterOf(batch)).toBeCloseTo(3, 12);
    expect(hydratedKgOf(batch)).toBeCloseTo(2, 12);
    expect(loadsOf(batch)).toEqual([1, 1]);
  });

  it('one and a half: six bags in three loads, none fuller than planned, and the pot takes it in two parts', () => {
    const batch = weighing(3.6);
    expect(loadsOf(batch)).toEqual([1, 1, 2, 2, 3, 3]);
    expect(fillingsOf(batch)).toBe(2);
  });

  it('no bag gets fuller than planned, but for the little that would be no bag of its own', () => {
    expect(weighing(2.4 * 0.9).containers).toHaveLength(4);
    expect(weighing(2.4 * 0.77).containers).toHaveLength(3);
    expect(weighing(2.4 * 0.74).containers).toHaveLength(3);
  });

  it('a cooker that takes more than the plan filled it with is filled, and its lock grows with it', () => {
    const sample = header();
    const numbers = { ...sample.numbers, loads: [2], perLoad: 4 };
    const recipe = { ...sample.recipe, containers: { ...sample.recipe.containers, count: 2 } };
    const drive = new Drive({ ...sample, recipe, numbers: { ...numbers, dryKg: 1.2, hydratedKg: 2 } });
    drive.toAsk('dry-weight').answer('weighed', 2.4);
    expect(loadsOf(drive.batch)).toEqual([1, 1, 1, 1]);
    const { lock } = drive.to('cool').batch;
    expect((lock?.pressureUntil ?? 0) - (lock?.heatOffAt ?? 0)).toBe(2 * PRESSURE_LOCK);
  });

  it('a spoonful more or less changes nothing', () => {
    const batch = weighing(2.4 * 1.015);
    expect(batch.containers).toEqual(emptyContainers([2, 2]));
    expect(simmerWaterOf(batch)).toBe(6);
  });

  it('never leaves a batch without a bag', () => {
    expect(weighing(0.05).containers).toHaveLength(1);
  });

  it('of a batch begun before the coach counted again: the containers stay', () => {
    const { potTakesKg: _, ...numbers } = header().numbers;
    const drive = new Drive({ ...header(), numbers }).toAsk('dry-weight').answer('weighed', 1.2);
    expect(drive.batch.containers).toHaveLength(4);
  });

  it('is taken back by an undo with all that came of it', () => {
    const drive = new Drive(header()).toAsk('dry-weight').answer('weighed', 1.2);
    drive.undo();
    expect([drive.batch.dryKg, drive.batch.containers.length]).toEqual([2.4, 4]);
  });

  it('can be walked to done', () => {
    const drive = new Drive(header()).toAsk('dry-weight').answer('weighed', 3.6).to('done', 3);
    expect(drive.batch.containers.map(({ dose, lifted }) => lifted && dose !== null)).toEqual(
      Array.from({ length: 6 }, () => true),
    );
  });
});
