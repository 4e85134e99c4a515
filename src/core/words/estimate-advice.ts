/** One sentence of advice at the stove: flame, dips, water, time over, unseen time. */
import { holdMs } from '../batch/advance.ts';
import type { Batch } from '../batch/state.ts';
import type { AwayOutcome } from '../estimate/away.ts';
import { type DipShown, dipsOf } from '../estimate/dips.ts';
import { estimateAt } from '../estimate/estimate.ts';
import { type FlameAdvice, flameAdvice } from '../estimate/flame.ts';
import type { CentrePoint } from '../estimate/march.ts';
import { BROWNING_F0_MIN, goneBeforeEnd, overrunMs, steamDueAt, waterLeft } from '../estimate/water.ts';
import { formatDuration, formatPressure, formatTemperature } from '../quantity-format.ts';
import { type CoachTime, MINUTE } from '../time.ts';
import { f0Text, waterText } from './estimate.ts';
import type { Telling } from './telling.ts';

const span = (ms: number): string => formatDuration(Math.max(60, Math.round(ms / MINUTE) * 60));

export function flameWords(batch: Batch, advice: FlameAdvice, telling: Telling): string | null {
  switch (advice.do) {
    case 'lower-at':
      return `Lower the flame at ${formatPressure(advice.kPa, telling.units)}, about ${telling.clock(advice.at)}: it climbs on for a while.`;
    case 'lower-now':
      if (advice.why === 'near') return 'Lower the flame now: the pressure climbs on by itself for a while.';
      if (advice.why === 'above') return 'Well above target: lower the flame now.';
      return 'Still rising between your two readings: lower the flame a little.';
    case 'raise-now':
      if (advice.belowAt === null) return 'Below target: more flame now.';
      return advice.belowAt <= batch.now
        ? 'Falling between your two readings: a little more flame, and read it again now.'
        : `Falling between your two readings: below target about ${telling.clock(advice.belowAt)}. A little more flame.`;
    case 'too-slow':
      return 'It climbs too slowly, or not at all: t lists what to look for.';
    case 'leave':
      return null;
  }
}

/** What a dip cost, for screen and record. */
export function dipWords(dip: DipShown, telling: Telling): string {
  const began = `Dip at ${telling.clock(dip.from)}`;
  const long = `${dip.unseen ? 'up to ' : ''}${span(dip.ms)} below target`;
  if (dip.to === null) return `${began}: ${long} so far.`;
  const parts = [long];
  if (dip.lostMs >= MINUTE) parts.push(`${span(dip.lostMs)} already held start over`);
  if (dip.f0Min !== null) {
    parts.push(
      dip.f0Min < 0.05
        ? 'next to no F0 less at the planned end'
        : `about F0 ${f0Text(dip.f0Min)} less at the planned end`,
    );
  }
  if (dip.addedMs > 0) parts.push(`${span(dip.addedMs)} added to the hold`);
  else if (dip.policy === 'make up') parts.push('nothing to add beyond the missing minutes');
  return `${began}: ${parts.join(', ')}.`;
}

/** The hold as it stands, when dips have made it longer. */
export function longerHoldWords(batch: Batch): string | null {
  const { extraMs } = batch.hold;
  return extraMs > 0 ? `Dips made the hold ${span(extraMs)} longer: ${span(holdMs(batch))} in all.` : null;
}

/** The flame burns on after the hold: what that does. */
export function overrunWords(batch: Batch, telling: Telling): string | null {
  const over = overrunMs(batch);
  const water = waterLeft(batch);
  if (over < MINUTE || !water) return null;
  const f0 = estimateAt(batch)?.f0Min.likely ?? 0;
  const browns = f0 >= BROWNING_F0_MIN ? ' The grain is browning, with nothing gained.' : '';
  const { value, band } = waterText(water, telling);
  return `${span(over)} over. About ${value} of water left${band === '' ? '' : ` (${band})`}; dry about ${telling.clock(water.dryAt.likely)}, at worst ${water.dryAt.low <= batch.now ? 'since ' : ''}${telling.clock(water.dryAt.low)}.${browns}`;
}

/** Beside an answer about time nobody watched: what it would mean. */
export function awayWords({ leftMs, endAt, f0Now }: AwayOutcome, telling: Telling): string {
  const f0 = f0Now
    ? `; F0 so far ${f0Text(f0Now.likely)} (${f0Text(f0Now.low)} to ${f0Text(f0Now.high)})`
    : '';
  if (leftMs <= 0) return `the hold is over${f0}`;
  return `${span(leftMs)} left, to ${endAt === null ? 'an end not known' : telling.clock(endAt)}${f0}`;
}

/** So long the cost of a dip is news. */
const DIP_NEWS_MS = 20 * MINUTE;
/** Less than this, in litres, is no water. */
const DRY_L = 0.1;
/** A thermometer further than this under the estimate's low end contradicts it, C; for so long after it was read. */
const CONTRADICTS_K = 3;
const CONTRADICTS_MS = 30 * MINUTE;

/** By the estimate there is no water left: that goes before everything else. */
export function dryWords(batch: Batch): string | null {
  const water = waterLeft(batch);
  return water && water.litres.likely < DRY_L
    ? 'By the estimate the cooker is dry: heat off now. Leave lid and valve alone, add no water; t, then water low.'
    : null;
}

/** Longer under heat than planned: what a high flame may have done to the water. */
function scarceWords(batch: Batch, telling: Telling): string | null {
  const goneAt = goneBeforeEnd(batch);
  if (goneAt === null) return null;
  const when = goneAt <= batch.now ? 'already' : `by ${telling.clock(goneAt)}`;
  return `Longer under heat than planned: on a high flame the water may be gone ${when}, before the end; a burnt smell or no steam means heat off.`;
}

/** The low end of the estimate at an instant, from the kept points around it; null outside them. */
function centreLowAt(points: readonly CentrePoint[], t: CoachTime): number | null {
  const before = points.findLast(point => point.t <= t);
  const after = points.find(point => point.t >= t) ?? points.at(-1);
  if (!before || !after) return null;
  const share = after.t > before.t ? Math.min(1, (t - before.t) / (after.t - before.t)) : 0;
  return before.centreC + share * (after.centreC - before.centreC);
}

/** A thermometer in a bag that reads far below what the estimate claims: the thermometer is right. */
export function contradictionWords(batch: Batch, telling: Telling): string | null {
  const read = batch.measured.findLast(({ of, load }) => of === 'centre' && load === batch.load);
  if (!read || batch.now - read.t > CONTRADICTS_MS) return null;
  // What the estimate says for the instant of the reading: the centre has gone on since.
  const low = centreLowAt(estimateAt(batch)?.behindPoints.low ?? [], read.t);
  return low !== null && read.celsius < low - CONTRADICTS_K
    ? `Your thermometer says ${formatTemperature(read.celsius, telling.units)}, colder than any estimate here: believe it. Air may be left inside; check gauge and vent, and do not count on F0.`
    : null;
}

/** No steady steam long after it was due: the gauge tells whether there is none, or none gets out. */
export function lateSteamWords(batch: Batch): string | null {
  if (batch.step !== 'heat') return null;
  const late = batch.now - steamDueAt(batch);
  return late > 0
    ? `Steady steam is ${span(late)} late. Look at the gauge: if it rises over the open valve, the vent is blocked: heat off, then t. If not: more flame, and is there water?`
    : null;
}

/** The one advice that matters most just now, or null. */
export function stoveAdvice(batch: Batch, telling: Telling): string | null {
  const dry = dryWords(batch);
  if (dry) return dry;
  if (batch.away || batch.claim) return null;
  if (batch.step === 'heat-off') return overrunWords(batch, telling);
  const water = waterLeft(batch);
  if (water?.low)
    return `Only about ${waterText(water, telling).value} of water may be left: a burnt smell or no steam means heat off.`;
  if (batch.step === 'heat') return lateSteamWords(batch);
  if (batch.step !== 'climb' && batch.step !== 'hold') return null;
  const scarce = scarceWords(batch, telling);
  if (scarce) return scarce;
  const contradicted = contradictionWords(batch, telling);
  if (contradicted) return contradicted;
  const flame = flameAdvice(batch);
  const said = flame && flame.do !== 'leave' ? flameWords(batch, flame, telling) : null;
  if (said) return said;
  const dip = dipsOf(batch).at(-1);
  // The cost of a dip is news for a while, and in the numbers for ever.
  return dip && dip.from >= batch.since && batch.now - (dip.to ?? batch.now) < DIP_NEWS_MS
    ? dipWords(dip, telling)
    : null;
}
