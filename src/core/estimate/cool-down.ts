/** When the gauge should be at zero, when vessel and bags are cool, from what was read. Zero on a gauge does not prove zero. */
import { numbersOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import { MINUTE, SECOND } from '../time.ts';
import type { Body } from '../science/conduction.ts';
import { bagInPotS } from '../science/bag-cooldown.ts';
import { type Cooling, coolingS } from '../science/cooldown.ts';
import { type Band, isNoAnswer } from '../science/limits.ts';
import { slowestBody } from './body.ts';
import { type CoolFit, coolFit, type CoolTracks, type Shut } from './cooling.ts';

/** A bag counts as cool for inoculation here, C; warmer where the room itself is. */
export const COOL_BAG_C = 30;
const ABOVE_ROOM_C = 3;
/** A dial is read to a quarter psi, which a cooling vessel falls in about a minute (estimate). */
const LEAST_SPREAD = MINUTE;
/** A gauge that is still up when it should be at zero: as unsure as the loss to the room, share of its time. */
const OVERDUE_SHARE = 0.4;

export interface CoolDown {
  /** Gauge at zero, by these instants; the present instant or earlier when it should be there. */
  readonly zeroAt: Band;
  /** Vessel near room temperature. */
  readonly vesselAt: Band | null;
  /** Middle of the fullest container cool enough to inoculate, left in the shut vessel. */
  readonly bagAt: Band | null;
  readonly bagC: number;
  readonly readings: CoolFit['readings'];
  readonly weak: boolean;
  readonly doubted: boolean;
}

function whenC({ from, low, likely, high }: CoolTracks, celsius: number): Band | null {
  const at = (cooling: Cooling): number | null => {
    const seconds = coolingS(cooling, celsius);
    return isNoAnswer(seconds) ? null : from + seconds * SECOND;
  };
  const [a, b, c] = [at(low), at(likely), at(high)];
  if (a === null || b === null || c === null) return null;
  return { low: Math.min(a, b), likely: b, high: Math.max(b, c) };
}

let lastBag: { readonly key: string; readonly value: Band | null } | null = null;

/** When the middle of a bag that is left in the pot is cool; remembered, since the prediction moves only with a reading. */
function bagAt(
  body: Body,
  { from, low, likely, high }: CoolTracks,
  roomC: number,
  bagC: number,
): Band | null {
  const key = JSON.stringify([body, from, low, likely, high, roomC, bagC]);
  if (lastBag?.key === key) return lastBag.value;
  // The bags follow the pot from the instant the laws start at; before that they were as hot as it.
  const seconds = bagInPotS(
    { body, startC: likely.startC, ambientC: roomC, targetC: bagC },
    { low, likely, high },
  );
  const at = (value: number) => from + value * SECOND;
  const value = isNoAnswer(seconds)
    ? null
    : {
        low: at(Math.min(seconds.low, seconds.likely)),
        likely: at(seconds.likely),
        high: at(Math.max(seconds.likely, seconds.high)),
      };
  lastBag = { key, value };
  return value;
}

/** When the gauge is at zero: not before it was last seen above it, and never to the very minute. */
function zeroOf(batch: Batch, { load, heatOffAt }: Shut, { low, likely, high }: Band): Band {
  const up = batch.readings.findLast(
    ({ t, seen, ...read }) => read.load === load && t > heatOffAt && seen !== 'zero',
  );
  const from = up?.t ?? heatOffAt;
  const most = high < from ? from + OVERDUE_SHARE * (from - heatOffAt) : high;
  const middle = Math.max(likely, likely < from ? (from + most) / 2 : from);
  return {
    low: Math.max(from, Math.min(low, middle - LEAST_SPREAD)),
    likely: middle,
    high: Math.max(most, middle + LEAST_SPREAD),
  };
}

/** Predicted instants of the cool-down; null before the lock. */
export function coolDown(batch: Batch, startC: Band): CoolDown | null {
  const { lock, load } = batch;
  if (!lock) return null;
  const shut = { load, heatOffAt: lock.heatOffAt };
  const fit = coolFit(batch, shut, startC);
  const zeroAt = whenC(fit.tracks, numbersOf(batch).boilC);
  if (!zeroAt) return null;
  const { roomC } = batch.header.kitchen;
  const bagC = Math.max(COOL_BAG_C, roomC + ABOVE_ROOM_C);
  return {
    zeroAt: zeroOf(batch, shut, zeroAt),
    vesselAt: whenC(fit.tracks, roomC + ABOVE_ROOM_C),
    bagAt: bagAt(slowestBody(batch), fit.tracks, roomC, bagC),
    bagC,
    readings: fit.readings,
    weak: fit.weak,
    doubted: fit.doubted,
  };
}
