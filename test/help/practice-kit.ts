/** Practices of the invented kitchen, with numbers set by hand so that no plan moves a test. */
import type { BatchHeader } from '../../src/core/batch/state.ts';
import { type Debrief, debriefOf } from '../../src/core/practice/debrief.ts';
import type { FaultId } from '../../src/core/practice/faults.ts';
import { type Load, createLoad } from '../../src/core/practice/load.ts';
import type { Mistake } from '../../src/core/practice/mistakes.ts';
import { Practice } from '../../src/core/practice/practice.ts';
import { playThrough } from '../../src/core/practice/trainee.ts';
import { type Filling, type Vessel, type VesselParts, fillVessel } from '../../src/core/practice/vessel.ts';
import { type Sample, sampleHeader, sampleRecipe } from './batch-kit.ts';

const around = (minutes: number) => ({
  lowS: minutes * 42,
  likelyS: minutes * 60,
  highS: minutes * 90,
});

/** The sample batch with likely lengths near those of this kitchen's gas hob. */
export function practiceHeader(sample: Sample = { loads: [6] }): BatchHeader {
  const header = sampleHeader({ ...sample, practice: true });
  const lengths = { simmer: around(80), heat: around(45), climb: around(20) };
  return { ...header, numbers: { ...header.numbers, lengths } };
}

export function practiceOf(seed: number, faults?: readonly FaultId[], sample?: Sample): Practice {
  const { recipe, kitchen, numbers, beganWall } = practiceHeader(sample);
  return new Practice({ recipe, kitchen, numbers, seed, beganWall, ...(faults ? { faults } : {}) });
}

/** Plays a practice through and tells what it was worth. */
export function played(
  seed: number,
  faults?: readonly FaultId[],
  mistakes: readonly Mistake[] = [],
  sample?: Sample,
): Debrief {
  const practice = practiceOf(seed, faults, sample);
  playThrough(practice, mistakes);
  return debriefOf(practice);
}

/** A tight vessel without a load at sea level: what a test does not change does not leak, bleed or lift. */
export function vessel(parts: Partial<VesselParts> = {}, filling: Partial<Filling> = {}): Vessel {
  return fillVessel(
    {
      metalKJK: 5.5 * 0.9,
      roomL: 21,
      lossWK: 3.5,
      ambientC: 22,
      atmosphereKPa: 101.325,
      ventM2: 1.6e-5,
      bleedM2: 0,
      leakM2: 0,
      inM2: 0,
      weightM2: 2e-6,
      liftKPa: 1000,
      ...parts,
    },
    { waterKg: 2.5, bagGasL: 0, celsius: 22, ...filling },
  );
}

export const bags = (count: number, startC = 25): Load =>
  createLoad({ containers: sampleRecipe().containers, count, fillKg: 1, startC });
