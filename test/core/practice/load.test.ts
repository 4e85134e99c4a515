import { describe, expect, it } from 'vitest';
import {
  createLoad,
  followCentre,
  likelyCentreC,
  meanC,
  moveCentres,
  warmLoad,
} from '../../../src/core/practice/load.ts';
import { sampleRecipe } from '../../help/batch-kit.ts';

const HALF = [0.09, 0.055, 0.04] as const;
const ALPHA = 3e-7;

/** P90 of the science notes (e9): minutes and C, straight between. */
const P90: readonly (readonly [number, number])[] = [
  [0, 25],
  [25, 100],
  [35, 100],
  [43, 121],
  [133, 121],
  [163, 100],
];
function chamberAt(minute: number): number {
  for (let n = 1; n < P90.length; n += 1) {
    const [from, low] = P90[n - 1] ?? [0, 0];
    const [to, high] = P90[n] ?? [0, 0];
    if (minute <= to) return low + ((high - low) * (minute - from)) / (to - from);
  }
  return 100;
}

/**
 * Mean temperature of an octant by explicit finite volumes, cells in the middle: an independent check that
 * shares neither method nor code with the modes.
 */
function meanByVolumes(minutes: number, cells: readonly [number, number, number]): number {
  const d = HALF.map((half, axis) => half / (cells[axis] ?? 1));
  const [nx, ny, nz] = cells;
  let now = new Float64Array(nx * ny * nz).fill(25);
  const k = d.map(size => ALPHA / size ** 2);
  const stepS = 0.2 / Math.max(...k);
  const at = (x: number, y: number, z: number) => (x * ny + y) * nz + z;
  const steps = Math.ceil((minutes * 60) / stepS);
  const dt = (minutes * 60) / steps;
  for (let step = 0; step < steps; step += 1) {
    const air = chamberAt(((step + 0.5) * dt) / 60);
    const next = now.slice();
    for (let x = 0; x < nx; x += 1)
      for (let y = 0; y < ny; y += 1)
        for (let z = 0; z < nz; z += 1) {
          const here = now[at(x, y, z)] ?? 0;
          const flow = (axis: number, low: number | null, high: number | null) => {
            const up = high === null ? 2 * (air - here) : high - here;
            const down = low === null ? 0 : low - here;
            return (k[axis] ?? 0) * (up + down);
          };
          const get = (i: number, j: number, l: number) => now[at(i, j, l)] ?? 0;
          const change =
            flow(0, x > 0 ? get(x - 1, y, z) : null, x < nx - 1 ? get(x + 1, y, z) : null) +
            flow(1, y > 0 ? get(x, y - 1, z) : null, y < ny - 1 ? get(x, y + 1, z) : null) +
            flow(2, z > 0 ? get(x, y, z - 1) : null, z < nz - 1 ? get(x, y, z + 1) : null);
          next[at(x, y, z)] = here + dt * change;
        }
    now = next;
  }
  return now.reduce((sum, value) => sum + value, 0) / now.length;
}

function bag() {
  return createLoad({
    containers: {
      ...sampleRecipe().containers,
      size: { shape: 'brick', lengthM: 0.18, widthM: 0.11, thicknessM: 0.08 },
    },
    count: 2,
    fillKg: 1,
    startC: 25,
  });
}

describe('a load in the chamber', () => {
  // heat_penetration_reference.csv, case B (brick .09/.055/.04 m, 3.0e-7), COMPUTED by series and finite volumes.
  it('has the centre of the reference within 0.1 K, and its F0 within 1 %', () => {
    const load = bag();
    const at = new Map<number, number>();
    const f0 = new Map<number, number>();
    for (let second = 1; second <= 163 * 60; second += 1) {
      followCentre(load, chamberAt(second / 60));
      if (second % 60 === 0) {
        moveCentres(load, chamberAt(second / 60));
        at.set(second / 60, likelyCentreC(load));
        f0.set(second / 60, load.centres[1].f0Min);
      }
    }
    expect(Math.abs((at.get(60) ?? 0) - 91.449)).toBeLessThan(0.1);
    expect(Math.abs((at.get(130) ?? 0) - 119.859)).toBeLessThan(0.1);
    expect(Math.abs((at.get(133) ?? 0) - 120.012)).toBeLessThan(0.1);
    expect(Math.abs((f0.get(133) ?? 0) / 23.031 - 1)).toBeLessThan(0.01);
    expect(Math.abs((f0.get(163) ?? 0) / 43.324 - 1)).toBeLessThan(0.01);
  });

  it('takes up heat as an independent finite-volume bag does, within 1 K of the mean', () => {
    const load = bag();
    for (let second = 1; second <= 100 * 60; second += 1) {
      warmLoad(load, chamberAt(second / 60));
      if (second % 1200 !== 0) continue;
      const mean = meanByVolumes(second / 60, [12, 8, 8]);
      expect(Math.abs(meanC(load) - mean), `${second / 60} min`).toBeLessThan(1);
    }
  });

  it('gains what its mean temperature says', () => {
    const load = bag();
    let gained = 0;
    for (let second = 1; second <= 3600; second += 1) gained += warmLoad(load, 110);
    expect(gained).toBeCloseTo(load.capacityKJK * (meanC(load) - 25), 8);
  });

  it('credits nothing in a vessel that is dry', () => {
    const load = bag();
    for (let second = 1; second <= 7200; second += 1) followCentre(load, 180, false);
    expect(load.centres[1].f0Min).toBe(0);
    expect(likelyCentreC(load)).toBeGreaterThan(100);
  });

  it('refuses an empty load', () => {
    expect(() =>
      createLoad({ containers: sampleRecipe().containers, count: 0, fillKg: 1, startC: 20 }),
    ).toThrow(RangeError);
  });
});
