/**
 * The estimate in words: short rows for the screen's side, whole sentences for screen readers and plain mode.
 * Every figure comes with its band, and none is called sterile.
 */
import type { Batch } from '../batch/state.ts';
import type { Assumption, Estimate } from '../estimate/estimate.ts';
import { type WaterLeft, waterLeft } from '../estimate/water.ts';
import {
  formatDuration,
  formatMass,
  formatPressure,
  formatTemperature,
  trimmed,
} from '../quantity-format.ts';
import { numbersOf, recipeOf } from '../batch/moves.ts';
import { fullestKg } from '../estimate/body.ts';
import { TARGET_F0_MIN } from '../science/lethality.ts';
import type { Band } from '../science/limits.ts';
import { lToQt } from '../science/units.ts';
import { type CoachTime, MINUTE } from '../time.ts';
import type { Telling } from './telling.ts';

export interface NumberRow {
  readonly name: string;
  readonly value: string;
  /** `104 to 117`, or another addition; empty when there is none. */
  readonly band: string;
}

/** Lethality to what it is worth: a tenth below ten, whole minutes above. */
export const f0Text = (value: number): string => trimmed(value, value < 9.95 ? 1 : 0);

export const bandText = ({ low, high }: Band, show: (value: number) => string): string => {
  const [from, to] = [show(low), show(high)];
  return from === to ? '' : `${from} to ${to}`;
};

function degrees(band: Band, telling: Telling): { readonly value: string; readonly band: string } {
  const bare = (value: number) => formatTemperature(value, telling.units).split(' ')[0] ?? '';
  return { value: formatTemperature(band.likely, telling.units), band: bandText(band, bare) };
}

const minutes = (seconds: number): string => formatDuration(Math.max(60, Math.round(seconds / 60) * 60));
/** In minutes for so long as a column beside the plot has room for them: never cut. */
function ago(batch: Batch, t: CoachTime): string {
  const passed = Math.floor((batch.now - t) / MINUTE);
  if (passed < 1) return 'just now';
  return passed < 1000 ? `${passed} min ago` : `${Math.floor(passed / 60)} h ago`;
}

const SEEN = {
  at: 'at target',
  above: 'above',
  below: 'below',
  zero: 'zero',
  unknown: '',
} as const;

function readingRow(batch: Batch, estimate: Estimate, telling: Telling): NumberRow {
  const { lastReading: last } = estimate;
  if (!last) return { name: 'reading', value: 'none yet', band: '' };
  const value = last.kPa === null ? SEEN[last.seen] : formatPressure(last.kPa, telling.units);
  return { name: 'reading', value, band: ago(batch, last.t) };
}

function targetRow({ holdForTargetS }: Estimate): NumberRow | null {
  if (!holdForTargetS) return null;
  const { likely, cautious } = holdForTargetS;
  // In minutes throughout: this is compared with the hold, and stands in a narrow column.
  const short = (seconds: number) => Math.ceil(seconds / 60);
  return {
    name: `for F0 ${TARGET_F0_MIN}`,
    value: likely === null ? 'no hold' : `hold ${short(likely)} min`,
    band: cautious === null ? 'or never' : `to ${short(cautious)}`,
  };
}

/** Water is only guessed: a tenth of a litre or quart is fine enough. */
export function waterText(
  { litres }: WaterLeft,
  telling: Telling,
): { readonly value: string; readonly band: string } {
  const { volume } = telling.units;
  const show = (value: number) => trimmed(volume === 'L' ? value : lToQt(value), 1);
  return { value: `${show(litres.likely)} ${volume}`, band: bandText(litres, show) };
}

/** What was seen counts before what is estimated. */
function waterRow(batch: Batch, telling: Telling): NumberRow | null {
  const water = waterLeft(batch);
  if (!water) return null;
  const seenLow = batch.deviations.some(
    ({ trouble, load, takenBack }) => trouble === 'water-low' && load === batch.load && !takenBack,
  );
  return seenLow
    ? { name: 'water', value: 'low', band: 'you saw it' }
    : { name: 'water', ...waterText(water, telling) };
}

/** The centre is only worth showing while steam carries the heat: a cooling bag follows other laws. */
const isCentreKnown = (batch: Batch, { chamberC }: Estimate): boolean =>
  batch.step !== 'cool' || chamberC.likely >= numbersOf(batch).boilC;

/** The numbers beside the plot, the most wanted first. */
export function numberRows(batch: Batch, estimate: Estimate, telling: Telling): readonly NumberRow[] {
  const { chamberC, centreC, f0Min, end } = estimate;
  const rows: (NumberRow | null)[] = [
    { name: 'chamber', ...degrees(chamberC, telling) },
    isCentreKnown(batch, estimate) ? { name: 'centre', ...degrees(centreC, telling) } : null,
    // Where few rows have room it must not be the one of safety that is left out.
    waterRow(batch, telling),
    { name: 'F0 now', value: f0Text(f0Min.likely), band: bandText(f0Min, f0Text) },
    // With the flame still on, the end is now.
    end && batch.step !== 'heat-off'
      ? {
          name: end.planned ? 'F0 at end' : 'F0 at off',
          value: f0Text(end.f0Min.likely),
          band: bandText(end.f0Min, f0Text),
        }
      : null,
    targetRow(estimate),
    batch.step === 'cool' ? null : readingRow(batch, estimate, telling),
  ];
  return rows.filter(row => row !== null);
}

/** One row as text: `centre 112 °C (104 to 117)`. */
export const rowWords = ({ name, value, band }: NumberRow): string =>
  `${name} ${value}${band === '' ? '' : ` (${band})`}`;

/** From here on the number says nothing to anybody, and must not look like a proof. */
const MANY_LOGS = 6;

/** What a log reduction leaves, in words. */
function leftText(logs: number): string {
  if (logs < 0.3) return 'most';
  if (logs > MANY_LOGS) return 'fewer than one in a million';
  return `one in ${Number((10 ** logs).toPrecision(logs < 1 ? 1 : 2))}`;
}

/** What is left of spores that die more slowly below 121 C than F0 claims, with the worst of its band. */
export function toughText({ low, likely }: Band): string {
  const [some, worst] = [leftText(likely), leftText(low)];
  return `tough spores, which die slowly: ${some} left${some === worst ? '' : `, at worst ${worst}`}`;
}

/** The same in sentences, each complete when heard alone. */
export function estimateSentences(batch: Batch, estimate: Estimate, telling: Telling): readonly string[] {
  const { chamberC, centreC, f0Min, end, logs } = estimate;
  const from = (band: Band) => {
    const { value, band: text } = degrees(band, telling);
    return text === '' ? value : `${value}, somewhere from ${text}`;
  };
  const f0 = (band: Band) =>
    `${f0Text(band.likely)}, somewhere from ${f0Text(band.low)} to ${f0Text(band.high)}`;
  const said = [`Chamber about ${from(chamberC)}.`];
  if (isCentreKnown(batch, estimate))
    said.push(
      `Middle of the fullest ${recipeOf(batch).containers.kind} (${formatMass(fullestKg(batch), telling.units)}) about ${from(centreC)}.`,
    );
  said.push(`Lethality F0 there so far ${f0(f0Min)}.`);
  if (end?.planned) said.push(`At the planned end, ${telling.clock(end.at)}: ${f0(end.f0Min)}.`);
  else if (end) said.push(`At heat-off it was ${f0(end.f0Min)}.`);
  const { holdForTargetS: needs } = estimate;
  if (needs) {
    const likely = needs.likely === null ? 'no hold within hours' : `a hold of ${minutes(needs.likely)}`;
    const cautious = needs.cautious === null ? 'none within hours' : minutes(needs.cautious);
    said.push(`F0 ${TARGET_F0_MIN} would take ${likely}; on the cautious side ${cautious}.`);
  }
  said.push(
    `Of tough spores, which die more slowly below 121 °C, ${leftText(logs.likely)} may be left so far; at worst ${leftText(logs.low)}, at best ${leftText(logs.high)}.`,
  );
  return said;
}

/** What the estimate takes for granted, a sentence each. */
export function assumptionWords(assumption: Assumption, telling: Telling): string {
  switch (assumption.of) {
    case 'pure-steam':
      return 'Pure steam after the unbroken vent; air left in bags would make it cooler than the gauge says.';
    case 'air-left':
      return `A short vent: ${Math.round(assumption.share.likely * 100)} % air left in the chamber, perhaps ${Math.round(assumption.share.high * 100)} % (a guess).`;
    case 'start':
      return `The grain went in at room temperature, ${formatTemperature(assumption.celsius, telling.units)}.`;
    case 'diffusivity': {
      const e7 = (value: number) => trimmed(value * 1e7, 1);
      const { low, likely, high } = assumption.band;
      const range = `${e7(likely)} (${e7(low)} to ${e7(high)}) × 10⁻⁷ m²/s`;
      if (assumption.source === 'probe')
        return `Heat goes in as your thermometer showed in this load: ${range}.`;
      if (assumption.source === 'yours')
        return `Heat goes in as your thermometer showed earlier: ${range}, yours.`;
      return `Heat goes in as common practice suggests, nobody measured it: ${range}. A thermometer in one bag would settle it.`;
    }
    case 'touching':
      return 'Containers touch and count as one block.';
    case 'unwatched':
      return `${formatDuration(Math.max(60, Math.round(assumption.ms / MINUTE) * 60))} nobody watched: counted as a flame gone out on the low side, as steady on the high side.`;
  }
}

/** The caution that goes with every estimate. */
export const ESTIMATE_CAUTION =
  'An estimate with its band, no proof of anything. Gauge, clock and cooling decide.';
