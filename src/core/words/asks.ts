/** What to do now, in at most two short sentences, and what each answer is called. */
import {
  fillingKg,
  fillingsOf,
  inLoad,
  isVentSuspect,
  lastLoad,
  numbersOf,
  recipeOf,
} from '../batch/moves.ts';
import { hydratedKgOf, shareOfPlan, simmerWaterOf } from '../batch/portions.ts';
import { ventEnd } from '../batch/advance.ts';
import { MOST_DOSE } from '../batch/lockout.ts';
import { isToStirForTowel } from '../batch/towel.ts';
import type { Batch } from '../batch/state.ts';
import type { AskId } from '../batch/steps.ts';
import { GAUGE_LABELS, LABELS } from './choice-labels.ts';
import { doseFor, judgeDose } from '../record/inoculation.ts';
import { formatDuration, formatMass, formatPressure, formatVolume } from '../quantity-format.ts';
import { holdWords } from './ask-hold.ts';
import { isLidOff, lockWords } from './estimate-cool.ts';
import { doneWords } from './done.ts';
import type { Telling } from './telling.ts';

const things = (batch: Batch): string => recipeOf(batch).containers.kind;
const many = (batch: Batch, count: number): string => `${count} ${things(batch)}${count === 1 ? '' : 's'}`;
const whole = (batch: Batch): number =>
  batch.containers.filter(container => container.state === 'whole').length;
const current = (batch: Batch): string =>
  `${things(batch)} ${batch.cursor + 1} of ${batch.containers.length}`;

/** What the culture of this batch is measured in. */
export const doseUnit = (batch: Batch): 'ml' | 'g' =>
  recipeOf(batch).culture.form === 'grain spawn' ? 'g' : 'ml';

function doseText(batch: Batch): string {
  const { form, perContainer } = recipeOf(batch).culture;
  return `${perContainer} ${doseUnit(batch)} of ${form}`;
}

/** The usual range for the container in hand, by its own weight where it was weighed. */
function usualDose(batch: Batch): string {
  const kg = kgInHand(batch);
  if (kg <= 0) return '';
  const { low, high, unit } = doseFor(recipeOf(batch).culture.form, kg);
  return ` (usual: ${low} to ${high} ${unit})`;
}

const kgInHand = (batch: Batch): number =>
  batch.containers[batch.cursor]?.kg ?? recipeOf(batch).containers.fillKg;

/** Why more culture than usual is asked about once more; null where it is not. */
export function unusualDose(batch: Batch, dose: number): string | null {
  const { form } = recipeOf(batch).culture;
  const kg = kgInHand(batch);
  if (kg <= 0 || dose > MOST_DOSE || judgeDose(form, kg, dose) !== 'much') return null;
  const { low, high, unit } = doseFor(form, kg);
  return `${dose} ${unit} is more than the usual ${low} to ${high} ${unit} for ${things(batch)} ${batch.cursor + 1}. Much liquid pools in the corners and goes sour.`;
}

function lidWords(batch: Batch): string {
  const load = lastLoad(batch) > 1 ? ` (load ${batch.load} of ${lastLoad(batch)})` : '';
  const filter = things(batch) === 'bag' ? ', filter side out and free' : ', lids a quarter turn loose';
  return `${many(batch, inLoad(batch).length)} on the rack, clear of the water${filter}${load}. Lid on, valve open.`;
}

function portionWords(batch: Batch, telling: Telling): string {
  const { fillKg } = recipeOf(batch).containers;
  const filled = batch.containers.reduce((sum, container) => sum + (container.kg ?? 0), 0);
  const yields = fillingsOf(batch) === 1 ? (batch.drainedKg ?? hydratedKgOf(batch)) : hydratedKgOf(batch);
  return `Fill ${current(batch)} with ${formatMass(fillKg, telling.units)}. So far ${formatMass(filled, telling.units)} of about ${formatMass(yields, telling.units)}.`;
}

function measureWords(batch: Batch, telling: Telling): string {
  const { dryKg, simmerWaterL } = numbersOf(batch);
  const fillings = fillingsOf(batch);
  const parts = fillings === 1 ? '' : ` The pot takes it in ${fillings} parts, one after the other.`;
  return `Weigh ${formatMass(dryKg, telling.units)} of dry ${recipeOf(batch).grain}, rinse it, and measure ${formatVolume(simmerWaterL, telling.units)} of water.${parts}`;
}

/** A weight other than the planned one changes water, yield and portions: said where the water is added. */
function otherWeightWords(batch: Batch, telling: Telling): string {
  if (shareOfPlan(batch) === 1) return '';
  const planned = recipeOf(batch).containers.count;
  const count = batch.containers.length;
  const fill = `fill ${many(batch, count)}${count === planned ? '' : `, not ${planned}`}`;
  const water = formatVolume(simmerWaterOf(batch), telling.units);
  const parts = fillingsOf(batch);
  const pot = parts > 1 ? ` The pot takes them in ${parts} parts.` : '';
  const loads = lastLoad(batch) > numbersOf(batch).loads.length ? ` That is ${lastLoad(batch)} loads.` : '';
  return ` Your ${formatMass(batch.dryKg, telling.units)} take ${water} of water in all and ${fill}.${pot}${loads}`;
}

function drainWords(batch: Batch, telling: Telling): string {
  const { storedMoisture, wantedMoisture } = recipeOf(batch);
  const dry = fillingKg(batch) * (1 - storedMoisture);
  const wanted = dry / (1 - wantedMoisture);
  const goal = `Well soaked it weighs about ${formatMass(wanted, telling.units)}`;
  if (batch.drainedKg === null) return `Strain, rinse off the starch, spread on clean towels. ${goal}.`;
  const moisture = 1 - dry / batch.drainedKg;
  return `Yours holds ${Math.round(moisture * 100)} % water: ${moistureWords(moisture, wantedMoisture)} Spread it on clean towels.`;
}

/** Moisture varies by about three points from batch to batch (science notes); less than that is as wanted. */
const MOISTURE_GRAIN = 0.03;

function moistureWords(moisture: number, wanted: number): string {
  const goal = `${Math.round(wanted * 100)} %`;
  if (moisture < wanted - MOISTURE_GRAIN)
    return `under the ${goal} wanted. Growth is slower; simmer longer next time.`;
  if (moisture > wanted + MOISTURE_GRAIN)
    return `over the ${goal} wanted. Dry it longer, and simmer less next time.`;
  return `near the ${goal} wanted.`;
}

/** Behind a blocked vent no hiss says nothing. */
const pinWords = (batch: Batch): string =>
  isVentSuspect(batch)
    ? 'Is the lid pin down? Its vent may be blocked, so no hiss proves nothing: without a pin leave it shut and have it seen to.'
    : 'Is the lid pin down? No pin: nudge the valve with a spoon; a hiss means up.';

/** The instruction of the open question. */
export function askWords(batch: Batch, ask: AskId, telling: Telling): string {
  const target = formatPressure(numbersOf(batch).targetKPa, telling.units);
  switch (ask) {
    case 'gear-check':
      return `Gasket, vent pipe, gauge, rack, ${many(batch, recipeOf(batch).containers.count)}, ports, sealer, towels: all there and clean?`;
    case 'dry-weight':
      return measureWords(batch, telling);
    case 'soaking':
      return `Leave it covered with water at room temperature. You may close the laptop.${otherWeightWords(batch, telling)}`;
    case 'simmer-start':
      return `Bring the pot to a gentle simmer, just under a rolling boil.${otherWeightWords(batch, telling)}`;
    case 'simmering':
      return 'Keep it barely moving and stir now and then. When it is time, cut three kernels across.';
    case 'kernel-centre':
      return 'Look at the cut faces: what is in the middle of most of them?';
    case 'burst':
      return 'Look at a handful: how many have burst open?';
    case 'draining':
      return drainWords(batch, telling);
    case 'drying':
      return isToStirForTowel(batch)
        ? 'Dry this soon, or unstirred, is only its top: the grain below is wet. Stir, spread it again, then lay the towel again.'
        : 'Stir and spread it again when told. When it stops shining, stir it once more and lay a dry towel on it.';
    case 'towel':
      return 'Press the towel down lightly. Lift it: what does it show?';
    case 'fill':
      return portionWords(batch, telling);
    case 'seam':
      return `Press the air out of ${current(batch)} and seal it; fit the port above the grain.`;
    case 'cooker-water':
      return `Pour ${formatVolume(numbersOf(batch).cookerWaterL, telling.units)} of water into the cooker, under the rack.`;
    case 'lid':
      return lidWords(batch);
    case 'steam':
      return 'Full heat, valve open. Spurts are not steady yet: what comes out of the valve?';
    case 'venting':
      return batch.now >= ventEnd(batch)
        ? 'The air is out. Close the valve now, or set the weight on; the flame stays full.'
        : 'Leave the valve open and the flame full. An unbroken jet drives the air out.';
    case 'climbing':
      return `Valve shut. Wait for ${target}; the hold begins when you answer that it is there.`;
    case 'holding':
      return holdWords(batch, telling);
    case 'flame':
      return batch.endedEarly
        ? 'Turn the heat off now. The batch ends here; the lid stays shut.'
        : 'The hold is done. Turn the heat off, and leave the cooker where it stands.';
    case 'gauge-zero':
    case 'shut':
      return batch.now >= (batch.lock?.coolUntil ?? Number.POSITIVE_INFINITY)
        ? 'Open the lid now, away from your face. If it sticks, leave it: never force a lid.'
        : lockWords(batch, telling);
    case 'pin':
      if (isLidOff(batch)) return lockWords(batch, telling);
      // A gauge can stick at zero: nobody is told to touch the valve while there may be pressure.
      return batch.now < (batch.lock?.pressureUntil ?? Number.POSITIVE_INFINITY)
        ? `Touch nothing until ${telling.clock(batch.lock?.pressureUntil ?? batch.now)}: a gauge can stick at zero. Then the pin or the valve is looked at.`
        : pinWords(batch);
    case 'lifted':
      return `Lift ${things(batch)} ${batch.cursor + 1} by its body, not its seam. Is it whole?`;
    case 'warmth':
      if (batch.askSince > batch.since)
        return `Still warm at ${telling.clock(batch.askSince)}: nothing goes in yet. Feel the fullest one again in an hour or so.`;
      return `Let the ${things(batch)}s lie apart. Feel the middle of the fullest one: warm, or like the room?`;
    case 'clean':
      return `Windows shut, hands, table and ports wiped, ${whole(batch)} ${things(batch)}s in a row. Alcohol dry.`;
    case 'inject':
      return `${things(batch) === 'bag' ? 'Bag' : 'Jar'} ${batch.cursor + 1}: wipe the port, give ${doseText(batch)}${usualDose(batch)}. Flame the needle after each.`;
    case 'finished':
      return doneWords(batch, null);
    case 'away-steam':
      return `Nobody watched for ${unseen(batch)}. Did steam blow the whole time?`;
    case 'away-gauge':
      return `Nobody watched for ${unseen(batch)}. What did the gauge do?`;
    case 'clock-claim':
      return `The computer was restarted. Its clock says ${formatDuration(Math.round((batch.claim?.ms ?? 0) / 1000))} more went by: is it right?`;
  }
}

const unseen = (batch: Batch): string =>
  formatDuration(Math.max(1, Math.round((batch.now - (batch.away?.from ?? batch.now)) / 1000)));

/** What an answer is called, short enough for the key line. */
export function choiceWords(batch: Batch, ask: AskId, choice: string, telling: Telling): string {
  if (ask === 'climbing' || ask === 'holding')
    return GAUGE_LABELS[batch.header.kitchen.gauge][choice] ?? choice;
  if (choice === 'as-planned') {
    if (ask === 'dry-weight') return 'weighed, water on';
    if (ask === 'fill') return formatMass(recipeOf(batch).containers.fillKg, telling.units);
    if (ask === 'cooker-water') return formatVolume(numbersOf(batch).cookerWaterL, telling.units);
    return doseText(batch).split(' of ')[0] ?? choice;
  }
  return LABELS[`${ask}/${choice}`] ?? choice;
}
