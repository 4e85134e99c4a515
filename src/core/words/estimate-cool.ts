/** The cool-down in words: when the gauge should be at zero, when the bags are cool, why it stays shut meanwhile. */
import { numbersOf, recipeOf } from '../batch/moves.ts';
import type { Batch } from '../batch/state.ts';
import type { CoolDown } from '../estimate/cool-down.ts';
import { estimateAt } from '../estimate/estimate.ts';
import { formatTemperature } from '../quantity-format.ts';
import type { Band } from '../science/limits.ts';
import type { Telling } from './telling.ts';

const around = (band: Band, telling: Telling): string =>
  `about ${telling.clock(band.likely)} (${telling.clock(band.low)} to ${telling.clock(band.high)})`;

const RESTS_ON = ['by an estimate', 'by one reading', 'by your readings'] as const;

/** A gauge can stick or be misread: one look at it does not overrule what is known of the vessel. */
const DOUBTED = 'by an estimate that your one reading is far from: read it again';

/** Zero gauge, predicted. */
export const zeroWords = (cool: CoolDown, telling: Telling): string =>
  `Zero gauge ${around(cool.zeroAt, telling)}, ${cool.doubted ? DOUBTED : RESTS_ON[cool.readings]}.`;

/** Bags at inoculation temperature, predicted. */
export function bagsCoolWords(batch: Batch, cool: CoolDown, telling: Telling): string | null {
  if (!cool.bagAt) return null;
  const things = `${recipeOf(batch).containers.kind}s`;
  return `Middle of the ${things} at ${formatTemperature(cool.bagC, telling.units)} ${around(cool.bagAt, telling)}.`;
}

/** Whether the person has said that this load's lid came off in the lock. */
export const isLidOff = (batch: Batch): boolean =>
  batch.deviations.some(
    ({ trouble, load, takenBack }) => trouble === 'lid-opened-early' && load === batch.load && !takenBack,
  );

export const VACUUM_WORDS =
  'Below boiling a shut vessel is under vacuum: a lid that sticks now is not one under pressure, and neither is ever forced.';

/**
 * Whether the vessel has cooled below the boiling point here, so that it draws in air. While there may be
 * pressure nobody is told that there is none: an estimate is no reason to.
 */
export function isUnderVacuum(batch: Batch): boolean {
  const { lock, now } = batch;
  if (isLidOff(batch) || !lock || lock.zeroAt === null || now < lock.pressureUntil) return false;
  const estimate = estimateAt(batch);
  return batch.step === 'cool' && estimate !== null && estimate.chamberC.likely < numbersOf(batch).boilC - 1;
}

/** What a reading in the lock would improve. */
export function coolHint({ readings, weak }: CoolDown): string | null {
  if (readings === 2 && !weak) return null;
  if (weak) return 'Two readings further apart would sharpen these times: 3, or m for a thermometer.';
  return 'A number at the gauge now and one ten minutes later sharpen these times: 3.';
}

/** Every sentence of the cool-down. */
export function coolSentences(batch: Batch, telling: Telling): readonly string[] {
  const cool = estimateAt(batch)?.cool;
  if (!cool) return [];
  const said = [zeroWords(cool, telling), bagsCoolWords(batch, cool, telling)];
  const hint = batch.ask === 'gauge-zero' ? coolHint(cool) : null;
  return [...said, isUnderVacuum(batch) ? VACUUM_WORDS : null, hint].filter(line => line !== null);
}

/** The lock goes on all the same; only what can still be looked at has changed. */
function lidOffWords(batch: Batch, telling: Telling): string {
  const until = telling.clock(batch.lock?.coolUntil ?? batch.now);
  if (batch.ask === 'shut')
    return `Leave the lid loosely on the load until ${until}: warm ${recipeOf(batch).containers.kind}s draw air in.`;
  if (batch.ask === 'pin')
    return 'The lid is off: keep away from the steam, lay the lid on loosely. Answer 2 once nothing hisses or steams.';
  return 'The lid is off: keep away from the steam, lay the lid on loosely. Answer when the gauge shows zero and nothing hisses.';
}

/** The instruction of the lock's questions, with the times that explain it. */
export function lockWords(batch: Batch, telling: Telling): string {
  if (isLidOff(batch)) return lidOffWords(batch, telling);
  const cool = estimateAt(batch)?.cool ?? null;
  if (batch.ask === 'gauge-zero') {
    const when = cool ? `${zeroWords(cool, telling)} ` : '';
    return `Touch nothing. ${when}Answer when the gauge stands at zero.`;
  }
  if (batch.endedEarly) return 'The pressure is gone. Open the lid away from your face when you want.';
  const when = cool ? bagsCoolWords(batch, cool, telling) : null;
  return `Leave it shut until it is cool; sleep and close the laptop. ${when ?? 'Best overnight.'}`;
}
