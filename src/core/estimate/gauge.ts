/** From what was seen at the gauge to a temperature in the chamber, each with the band that it is worth. */
import { numbersOf } from '../batch/moves.ts';
import type { Batch, Reading } from '../batch/state.ts';
import { assumedAirLeft, chamberHeatedAirC } from '../science/residual-air.ts';
import type { Band } from '../science/limits.ts';
import { chamberC } from '../science/steam.ts';

/** A dial read by a kitchen eye: half a psi either way (common practice, no source). */
export const READ_KPA = 3.4;
/** How far from target an answer without a number may be, kPa (estimates). */
const ABOVE: Band = { low: 0, likely: 10, high: 20.7 };
const BELOW: Band = { low: -34.5, likely: -13.8, high: -1.7 };
const AT: Band = { low: -READ_KPA, likely: 0, high: 6.9 };

/** Share of air in the chamber, most for the cautious side. Guesses, and shown as such. */
export function airLeft(batch: Batch): Band {
  const { ventS } = numbersOf(batch);
  return { low: 0, likely: assumedAirLeft(ventS), high: assumedAirLeft(ventS / 2) };
}
/** After ten minutes of unbroken steam the chamber counts as pure steam. */
export const FULL_VENT_S = 600;
const NO_AIR: Band = { low: 0, likely: 0, high: 0 };
export const airFor = (batch: Batch): Band =>
  numbersOf(batch).ventS >= FULL_VENT_S ? NO_AIR : airLeft(batch);

const about = (targetKPa: number, offset: Band): Band => ({
  low: Math.max(0, targetKPa + offset.low),
  likely: Math.max(0, targetKPa + offset.likely),
  high: Math.max(0, targetKPa + offset.high),
});

/** What "below target" stands for in a hold, kPa. */
export const belowKPa = (batch: Batch): Band => about(numbersOf(batch).targetKPa, BELOW);

/** Gauge pressure that a reading stands for, kPa; null when it says nothing. */
export function readingKPa(batch: Batch, reading: Reading): Band | null {
  const { targetKPa } = numbersOf(batch);
  if (reading.kPa !== null) {
    const { kPa } = reading;
    return { low: Math.max(0, kPa - READ_KPA), likely: kPa, high: kPa + READ_KPA };
  }
  switch (reading.seen) {
    case 'at':
      return about(targetKPa, AT);
    case 'above':
      return about(targetKPa, ABOVE);
    case 'below':
      return belowKPa(batch);
    case 'zero':
      return { low: 0, likely: 0, high: 0 };
    case 'unknown':
      return null;
  }
}

/** Temperature of the chamber at a gauge pressure, C: pure steam, or with the air that a short vent leaves. */
export function temperatureC(batch: Batch, kPa: Band): Band {
  const { atmosphereKPa, boilC } = numbersOf(batch);
  const air = airFor(batch);
  const at = (gaugeKPa: number, share: number): number => {
    if (share === 0) return chamberC({ gaugeKPa, atmosphereKPa });
    return chamberHeatedAirC({ gaugeKPa, atmosphereKPa, airLeft: share, closedAtC: boilC });
  };
  return { low: at(kPa.low, air.high), likely: at(kPa.likely, air.likely), high: at(kPa.high, air.low) };
}

/** The band of a gauge that is kept at target. */
export const targetBandC = (batch: Batch): Band => {
  const { targetKPa } = numbersOf(batch);
  return temperatureC(batch, {
    low: Math.max(0, targetKPa + AT.low),
    likely: targetKPa,
    high: targetKPa + AT.high,
  });
};

/** The hottest the chamber can be: the weight, or the mark on the vessel, lets go. */
export function hottestC(batch: Batch): number {
  const { kitchen } = batch.header;
  const { targetKPa, atmosphereKPa } = numbersOf(batch);
  const most = kitchen.gauge === 'weight' ? kitchen.workingKPa + READ_KPA : kitchen.markedMaxKPa;
  return chamberC({ gaugeKPa: Math.max(most, targetKPa), atmosphereKPa });
}
