/**
 * An independent check on heat penetration: an explicit finite-volume solver for a brick (one octant) or a
 * finite cylinder (one quarter of the section), with nodes on the centre and on the surface. It shares
 * neither method nor code with the series. Two grids are extrapolated (Richardson), since the error of
 * space and time both fall with the square of the spacing.
 */
export interface Case {
  /** Half sides of a brick, or radius and half height of a cylinder, m. */
  readonly half: readonly number[];
  readonly round: boolean;
  readonly diffusivityM2S: number;
  /** 1/m; infinity fixes the surface at the chamber's temperature. */
  readonly hOverK: number;
  readonly startC: number;
  /** Corners of the chamber's temperature, [seconds, C]. */
  readonly chamber: readonly (readonly [number, number])[];
}

interface Axis {
  readonly nodes: number;
  readonly fixed: boolean;
  /** Exchange with the next and the previous node, 1/s. */
  readonly up: Float64Array;
  readonly down: Float64Array;
  /** Exchange of the last node with the chamber, 1/s. */
  readonly film: number;
}

function axis(lengthM: number, cells: number, radial: boolean, { diffusivityM2S, hOverK }: Case): Axis {
  const d = lengthM / cells;
  const nodes = cells + 1;
  const up = new Float64Array(nodes);
  const down = new Float64Array(nodes);
  const area = (x: number) => (radial ? x : 1);
  const volume = (from: number, to: number) => (radial ? (to * to - from * from) / 2 : to - from);
  let film = 0;
  for (let i = 0; i < nodes; i += 1) {
    const from = Math.max(0, (i - 0.5) * d);
    const to = Math.min(lengthM, (i + 0.5) * d);
    const size = volume(from, to);
    if (i < cells) up[i] = (diffusivityM2S * area(to)) / (d * size);
    if (i > 0) down[i] = (diffusivityM2S * area(from)) / (d * size);
    if (i === cells && hOverK !== Number.POSITIVE_INFINITY) {
      film = (diffusivityM2S * hOverK * area(lengthM)) / size;
    }
  }
  return { nodes, fixed: hOverK === Number.POSITIVE_INFINITY, up, down, film };
}

function chamberAt(corners: Case['chamber'], seconds: number): number {
  let value = corners[0]?.[1] ?? Number.NaN;
  for (let i = 1; i < corners.length; i += 1) {
    const [from, fromC] = corners[i - 1] as readonly [number, number];
    const [to, toC] = corners[i] as readonly [number, number];
    if (seconds >= to) value = toC;
    else if (seconds >= from) return fromC + ((toC - fromC) * (seconds - from)) / (to - from);
  }
  return value;
}

function onGrid(problem: Case, cells: readonly number[], times: readonly number[]): number[] {
  const axes = problem.half.map((half, i) =>
    axis(half, cells[i] as number, problem.round && i === 0, problem),
  );
  const shape = [0, 1, 2].map(i => axes[i]?.nodes ?? 1);
  const [nx, ny, nz] = shape as [number, number, number];
  const stride = [ny * nz, nz, 1];
  const fastest = axes.reduce((sum, { up, down, film }) => {
    let most = 0;
    up.forEach((value, i) => {
      most = Math.max(most, value + (down[i] as number) + (i === up.length - 1 ? film : 0));
    });
    return sum + most;
  }, 0);
  const longest = 0.7 / fastest;
  let now = new Float64Array(nx * ny * nz).fill(problem.startC);
  let next = new Float64Array(now.length);
  const free = axes.map(({ nodes, fixed }) => (fixed ? nodes - 1 : nodes));
  const [fx, fy, fz] = [free[0] ?? 1, free[1] ?? 1, free[2] ?? 1];
  const seen: number[] = [];
  let clock = 0;
  for (const until of times) {
    const steps = Math.max(1, Math.ceil((until - clock) / longest));
    const dt = (until - clock) / steps;
    for (let step = 0; step < steps; step += 1) {
      const outside = chamberAt(problem.chamber, clock + dt * step);
      const after = chamberAt(problem.chamber, clock + dt * (step + 1));
      if (axes[0]?.fixed) next.fill(after);
      for (let i = 0; i < fx; i += 1) {
        for (let j = 0; j < fy; j += 1) {
          for (let k = 0; k < fz; k += 1) {
            const here = i * (stride[0] as number) + j * (stride[1] as number) + k;
            const celsius = now[here] as number;
            let rate = 0;
            for (let a = 0; a < axes.length; a += 1) {
              const { nodes, up, down, film } = axes[a] as Axis;
              const n = a === 0 ? i : a === 1 ? j : k;
              const jump = stride[a] as number;
              if (n < nodes - 1) rate += (up[n] as number) * ((now[here + jump] as number) - celsius);
              else rate += film * (outside - celsius);
              if (n > 0) rate += (down[n] as number) * ((now[here - jump] as number) - celsius);
            }
            next[here] = celsius + dt * rate;
          }
        }
      }
      [now, next] = [next, now];
    }
    clock = until;
    seen.push(now[0] as number);
  }
  return seen;
}

/** Centre temperatures in C at rising times in s. `cells` along the shortest half side, coarse grid. */
export function finiteVolume(problem: Case, times: readonly number[], cells = 7): number[] {
  const shortest = Math.min(...problem.half);
  const counts = problem.half.map(half => Math.min(2 * cells, Math.round((cells * half) / shortest)));
  const coarse = onGrid(problem, counts, times);
  const fine = onGrid(
    problem,
    counts.map(count => 2 * count),
    times,
  );
  return fine.map((value, i) => (4 * value - (coarse[i] as number)) / 3);
}
