/** The temperature of the chamber of one load, from the cold vessel on: a pure function of the batch's history. */
import { numbersOf } from '../batch/moves.ts';
import type { Batch, Reading } from '../batch/state.ts';
import type { StepId } from '../batch/steps.ts';
import type { Band } from '../science/limits.ts';
import { type CoachTime, HOUR, MINUTE } from '../time.ts';
import { alongC, coolFit, coolPoints, freeCooling, READ_K } from './cooling.ts';
import { bandAt, type Corner, instants, same } from './corners.ts';
import type { PressureRun } from './gauge-points.ts';
import { pressureCorners } from './pressure-run.ts';

export interface Chamber {
  readonly corners: readonly Corner[];
  /** When the flame was lit under this load. */
  readonly from: CoachTime;
  /** Present instant, or when the lid came off. */
  readonly to: CoachTime;
  readonly startC: number;
  /** The hold that counts: the last one of the load. */
  readonly holdFrom: CoachTime | null;
  readonly heatOffAt: CoachTime | null;
}

type Piece = {
  readonly step: StepId;
  readonly from: CoachTime;
  readonly to: CoachTime;
  readonly over: boolean;
};

const HOT: readonly StepId[] = ['heat', 'vent', 'climb', 'hold', 'heat-off', 'cool'];
const UNDER_PRESSURE: readonly StepId[] = ['climb', 'hold', 'heat-off'];

/** The hot steps of a load, the last one up to the present. */
function piecesOf(batch: Batch, load: number): readonly Piece[] {
  return batch.times
    .filter(time => time.load === load && HOT.includes(time.step))
    .map(({ step, from, to }) => ({ step, from, to: to ?? batch.now, over: to !== null }));
}

/** Climb, hold and heat-off in one, since the gauge does not know of steps. */
function runFrom(load: number, pieces: readonly Piece[], index: number): { run: PressureRun; used: number } {
  const rest = pieces.slice(index);
  const count = rest.findIndex(({ step }) => !UNDER_PRESSURE.includes(step));
  const mine = count < 0 ? rest : rest.slice(0, count);
  const [first] = mine;
  const last = mine.at(-1);
  const run: PressureRun = {
    load,
    from: first?.from ?? 0,
    to: last?.to ?? 0,
    holdFrom: mine.find(({ step }) => step === 'hold')?.from ?? null,
  };
  return { run, used: mine.length };
}

/** Valve open, full flame: from the room up to the boiling point here, or already hot and back to steady steam. */
function heating(batch: Batch, piece: Piece, before: Band): readonly Corner[] {
  const { boilC, lengths } = numbersOf(batch);
  const boil = same(boilC);
  if (before.likely < boilC - 5) {
    const length = lengths.heat ?? { lowS: 900, likelyS: 1500, highS: 2400 };
    const share = (seconds: number) => Math.min(1, (piece.to - piece.from) / (seconds * 1000));
    const warm = (seconds: number, value: number) => value + (boilC - value) * share(seconds);
    const end = piece.over
      ? boil
      : {
          low: warm(length.highS, before.low),
          likely: warm(length.likelyS, before.likely),
          high: warm(length.lowS, before.high),
        };
    return [
      { t: piece.from, c: before },
      { t: piece.to, c: end },
    ];
  }
  const open: Band = {
    low: Math.min(before.low, boilC),
    likely: Math.min(before.likely, boilC),
    high: Math.min(before.high, boilC),
  };
  const tracks = freeCooling(batch, piece.from, open);
  const fallen = instants(piece.from, piece.to, 5 * MINUTE).map(t => ({
    t,
    c: { low: alongC(tracks, t).low, likely: open.likely, high: boilC },
  }));
  return piece.over ? [...fallen, { t: piece.to, c: boil }] : fallen;
}

/** After heat-off: through what was read, and along the cooling laws behind it. */
function cooling(batch: Batch, load: number, piece: Piece, before: Band): readonly Corner[] {
  const corners: Corner[] = [{ t: piece.from, c: before }];
  const shut = { load, heatOffAt: piece.from };
  const fit = coolFit(batch, shut, before);
  for (const { t, celsius } of coolPoints(batch, shut)) {
    if (t <= piece.from || t > piece.to) continue;
    const read: Band = { low: celsius - READ_K, likely: celsius, high: celsius + READ_K };
    // Until readings agree with one another they stand beside the prediction, not in its place.
    const told = fit.readings === 2 ? read : alongC(fit.tracks, t);
    corners.push({
      t,
      c: {
        low: Math.min(read.low, told.low),
        likely: told.likely,
        high: Math.max(read.high, told.high),
      },
    });
  }
  const from = corners.at(-1)?.t ?? piece.from;
  if (piece.to <= from) return opened(batch, load, piece, corners);
  const near = instants(from, Math.min(piece.to, from + HOUR), 3 * MINUTE).slice(1);
  const far = piece.to > from + HOUR ? instants(from + HOUR, piece.to, 20 * MINUTE).slice(1) : [];
  for (const t of [...near, ...far]) corners.push({ t, c: alongC(fit.tracks, t) });
  return opened(batch, load, piece, corners);
}

/** A lid or valve opened in the lock ends what steam could still do. */
function opened(batch: Batch, load: number, piece: Piece, corners: readonly Corner[]): readonly Corner[] {
  const at = batch.deviations.find(
    ({ trouble, t, takenBack, ...noted }) =>
      (trouble === 'lid-opened-early' || trouble === 'valve-opened-cooling') &&
      noted.load === load &&
      !takenBack &&
      t >= piece.from &&
      t <= piece.to,
  )?.t;
  if (at === undefined) return corners;
  const { roomC } = batch.header.kitchen;
  const boil = Math.min(numbersOf(batch).boilC, bandAt(corners, at).high);
  const c: Band = { low: roomC, likely: roomC, high: Math.max(roomC, boil) };
  return [
    ...corners.filter(({ t }) => t <= at),
    { t: at, c: bandAt(corners, at) },
    { t: at, c },
    { t: Math.max(at, piece.to), c },
  ];
}

/**
 * The chamber of a load so far; null before its flame is lit. `readings` may stand in for the batch's own, to
 * ask what would have been without some of them.
 */
export function chamberOf(
  batch: Batch,
  load = batch.load,
  readings: readonly Reading[] = batch.readings.filter(reading => reading.load === load),
): Chamber | null {
  const pieces = piecesOf(batch, load);
  const [first] = pieces;
  const last = pieces.at(-1);
  if (!first || !last) return null;
  const startC = batch.header.kitchen.roomC;
  const { boilC } = numbersOf(batch);
  const corners: Corner[] = [];
  let holdFrom: CoachTime | null = null;
  let heatOffAt: CoachTime | null = null;
  for (let index = 0; index < pieces.length; index += 1) {
    const piece = pieces[index] ?? first;
    const before = corners.at(-1)?.c ?? same(startC);
    if (piece.step === 'heat') {
      corners.push(...heating(batch, piece, before));
      holdFrom = null;
    } else if (piece.step === 'vent') {
      corners.push({ t: piece.from, c: same(boilC) }, { t: piece.to, c: same(boilC) });
    } else if (piece.step === 'cool') {
      heatOffAt = piece.from;
      corners.push(...cooling(batch, load, piece, before));
    } else {
      const { run, used } = runFrom(load, pieces, index);
      holdFrom = run.holdFrom;
      corners.push(...pressureCorners(batch, run, readings));
      index += used - 1;
    }
  }
  return { corners, from: first.from, to: last.to, startC, holdFrom, heatOffAt };
}
