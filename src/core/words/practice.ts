/** What practice says: faults and their signs, decisions and their numbers, what was lost, what to practise. */
import type { Numbers } from '../practice/debrief.ts';
import type { Decision, DecisionId } from '../practice/decisions.ts';
import type { FaultId } from '../practice/faults.ts';
import { BARELY_F0_MIN, LIMITS } from '../practice/limits.ts';
import type { LossId } from '../practice/losses.ts';
import type { Mistake } from '../practice/mistakes.ts';
import type { SenseCode } from '../practice/world.ts';
import { formatPressure, formatTemperature, formatVolume, trimmed } from '../quantity-format.ts';
import type { Telling } from './telling.ts';

export interface FaultWords {
  readonly name: string;
  readonly sign: string;
}
const fault = (name: string, sign: string): FaultWords => ({ name, sign });

export const FAULT_WORDS: Readonly<Record<FaultId, FaultWords>> = {
  'soft-grain': fault('soft grain', 'the first cut, well before its time, is nearly clear'),
  'stubborn-grain': fault('stubborn grain', 'a white core at every look'),
  'starch-foam': fault('starch foam', 'foam climbs in the pot: lower the flame'),
  'forgotten-water': fault('water forgotten', 'a look under the rack before the lid goes on'),
  'blocked-vent': fault(
    'blocked vent pipe',
    'no light through the pipe; a gauge that rises over an open valve',
  ),
  'leaking-gasket': fault('leaking gasket', 'cracks in the gasket; a hiss at the rim and no climb'),
  'gauge-high': fault('gauge reads 2 psi high', 'a needle that does not rest at zero when cold'),
  'weak-burner': fault('weak burner', 'all takes longer: wait for the jet and for the gauge'),
  'gas-out': fault('gas bottle runs out', 'the flame is gone and the needle sinks'),
  'phone-call': fault('phone call', 'nobody watched: say so (t), do not guess'),
  'open-early': fault('tempted to open early', 'it stood for hours and still looks done'),
  'torn-bag': fault('torn bag', 'a slit in one bag as it is lifted'),
};

export const MISTAKE_WORDS: Readonly<Record<Mistake, string>> = {
  'no-look': 'calls the gear ready without looking at it',
  undercook: 'drains as soon as it simmers',
  overcook: 'lets it simmer half an hour too long',
  'grain-by-clock': 'drains by the clock and cuts no kernel',
  'full-flame': 'leaves the pot on full flame',
  'wet-grain': 'bags a quarter of an hour after draining',
  'no-water': 'closes the lid without a look at the water',
  'no-vent': 'calls it steady before any steam comes',
  'steam-by-clock': 'calls steam and pressure at the shortest time planned',
  'early-hold': 'starts the hold a minute and a half after closing the valve',
  unwatched: 'sets the flame and goes away',
  'low-flame': 'sets the flame too low and goes away',
  'open-early': 'opens as soon as the pressure is gone',
  'torn-kept': 'puts every bag among the good ones',
  'warm-inoculation': 'opens at half the cooling time and inoculates warm',
};

export const DECISION_NAMES: Readonly<Record<DecisionId, string>> = {
  gear: 'gear looked over',
  pot: 'pot watched',
  kernels: 'kernels drained',
  towel: 'surface dry',
  water: 'water in the cooker',
  steady: 'steam called steady',
  valve: 'valve shut',
  hold: 'hold begun',
  upkeep: 'pressure kept',
  away: 'absence told',
  end: 'batch ended',
  'heat-off': 'heat off',
  opening: 'lid opened',
  unload: 'damage seen',
  inoculation: 'inoculated',
};

const percent = (share: number, decimals = 0): string => `${trimmed(share * 100, decimals)} %`;
const minutes = (value: number): string => `${trimmed(value, 0)} min`;

/** What a decision came to, in numbers. */
export function decisionWords(decision: Decision, { units }: Telling): string {
  const { id, verdict, value, wanted, also } = decision;
  const right = verdict === 'right';
  switch (id) {
    case 'gear':
      return wanted === 0 ? 'all of it was sound' : `${value} of ${wanted} faults found`;
    case 'pot':
      return value === 0
        ? 'nothing went over the rim'
        : `over the rim ${value === 1 ? 'once' : `${value} times`}`;
    case 'kernels':
      return `${percent(value, 1)} water, ${percent(also)} of ${verdict === 'too late' ? 'them burst' : 'the cut white'}`;
    case 'towel':
      return verdict === 'too late'
        ? `dried from inside by ${trimmed(also, 1)} points`
        : `${trimmed(Math.max(0, value), 0)} g of water on each kg`;
    case 'water':
      return value >= wanted
        ? `${formatVolume(value, units)}, as planned`
        : `${formatVolume(value, units)} of ${formatVolume(wanted, units)}`;
    case 'steady':
      return value === 0
        ? 'no unbroken jet yet'
        : `a jet of ${trimmed(value, 0)} g/min, ${minutes(also)} old`;
    case 'valve':
      return `${minutes(value)} of jet, ${percent(also)} of the air still inside`;
    case 'hold':
      return `${formatTemperature(value, units, 1)} inside at ${formatPressure(also, units)}`;
    case 'upkeep':
      return also > 0
        ? `up to ${formatPressure(also, units)}, too high`
        : `${minutes(value)} truly at target of ${minutes(wanted)}`;
    case 'away':
      return `${minutes(value)} unwatched, ${right ? 'and told so' : 'and not told'}`;
    case 'heat-off':
      if (verdict === 'too early') return `middle only at F0 ${trimmed(also, 1)} min`;
      return right ? 'when the hold was done' : `${minutes(value)} after the hold was done`;
    case 'end':
      return right ? 'it could not be saved' : 'before it was done';
    case 'opening':
      return `tear risk of each container ${percent(value)}`;
    case 'unload':
      return value === 0
        ? `${wanted} damaged, ${wanted === 1 ? 'seen' : 'all seen'}`
        : `${value} of ${wanted} damaged went among the good`;
    case 'inoculation':
      return `middle at ${formatTemperature(value, units)}, room ${formatTemperature(wanted, units)}`;
  }
}

/** How far a decision may be off and is still right. */
export function toleranceWords({ id, wanted }: Decision, { units }: Telling): string {
  switch (id) {
    case 'gear':
      return 'every fault that an eye can find';
    case 'pot':
      return 'no foam over the rim';
    case 'kernels':
      return `up to ${percent(LIMITS.core)} of the cut white, up to ${percent(LIMITS.burst)} burst`;
    case 'towel':
      return `up to ${LIMITS.filmG} g on each kg, not dried from inside by over ${LIMITS.driedPoints} points`;
    case 'water':
      return `at least ${percent(LIMITS.poured)} of the plan, and never dry`;
    case 'steady':
      return `${LIMITS.jetGMin} g/min or more without a break, called within ${minutes(LIMITS.jetLateS / 60)}`;
    case 'valve':
      return `${minutes(wanted)} of jet, ${LIMITS.ventGrainS} s less at most; under ${percent(LIMITS.airLost)} of the air left`;
    case 'hold':
      return `from ${formatTemperature(wanted - LIMITS.targetK, units, 1)} to ${formatPressure(LIMITS.startOverKPa, units)} over the target`;
    case 'upkeep':
      return `${percent(LIMITS.held)} of the minutes at target; ${minutes(LIMITS.mayOverS / 60)} at most over it by ${formatPressure(LIMITS.overKPa, units)}; never over the mark`;
    case 'away':
      return 'nobody watched: say so, do not guess';
    case 'heat-off':
      return `within ${minutes(wanted)}, the middle at F0 ${BARELY_F0_MIN} min or more; else plan a longer hold`;
    case 'end':
      return 'only a batch that cannot be saved';
    case 'opening':
      return `tear risk up to ${percent(LIMITS.tear)}`;
    case 'unload':
      return 'every damaged one put aside';
    case 'inoculation':
      return `at most ${units.temperature === 'F' ? `${trimmed(LIMITS.warmK * 1.8, 0)} °F` : `${LIMITS.warmK} °C`} over the room`;
  }
}

export const LOSS_WORDS: Readonly<Record<LossId, string>> = {
  'boiled-over': 'boiled over again and again: starch on everything',
  chalky: 'chalky centres: too dry to grow through',
  overcooked: 'burst kernels: clumps and bacteria',
  wet: 'wet kernels: water pools in the bags and goes sour',
  'dried-out': 'dried out: slow growth',
  air: 'air was shut in: colder than the gauge says',
  blocked: 'pressure behind a blocked vent pipe: dangerous',
  'cold-hold': 'the hold was mostly below target',
  'under-heated': 'the centre got too little heat: spores live on',
  'boiled-dry': 'the cooker boiled dry: heat off, batch lost',
  'opened-hot': 'opened hot: bags torn, room air drawn in',
  'torn-kept': 'a damaged container among the good ones',
  'warm-inoculated': 'inoculated warm: a weak culture, and water in the bags',
  unfinished: 'ended before it was done',
};

/** The one thing to practise next. */
export const NEXT_WORDS: Readonly<Record<DecisionId, string>> = {
  gear: 'Look at gasket, vent pipe and needle before anything else (l looks).',
  pot: 'Lower the flame when foam climbs; it needs no more than a gentle simmer.',
  kernels:
    'Cut kernels early and often: first look before its time, then every two minutes once it is a line.',
  towel: 'Stir, then lay the towel: a towel on an unstirred heap shows only its top.',
  water: 'Look under the rack before the lid goes on.',
  steady: 'Spurts are not steady: wait until the jet stands unbroken for a minute.',
  valve: 'Let the jet blow its whole time before you shut the valve.',
  hold: 'Begin the hold only when the needle stands at the target.',
  upkeep: 'Look at the needle every few minutes and turn the flame before it leaves the target.',
  away: 'When nobody watched, say so (t, then "nobody watched"): unseen minutes count only if vouched for.',
  'heat-off': 'Turn the heat off when the coach calls, and not before the middle is done.',
  end: 'Do not give a batch up that can still be saved: t says what to do.',
  opening: 'Leave it shut until the coach says it is cool.',
  unload: 'Look at every container as you lift it.',
  inoculation: 'Wait until the middle of the fullest one is like the room.',
};

export const SENSE_WORDS: Readonly<Record<SenseCode, string>> = {
  'boils-over': 'It hisses: foam runs over the rim of the pot.',
  'phone-rings': 'The phone rings in the other room. You go.',
  'phone-over': 'You are back at the stove. Nobody watched meanwhile.',
  'burnt-smell': 'You smell something burnt.',
  tempted: 'Somebody wants the table: "Open it now, it stood for hours."',
  'safety-valve': 'The safety valve lifts with a roar.',
};

/** The numbers of a practice, as name and value; what never came to be is left out. */
export function numberRows(numbers: Numbers, { units }: Telling): readonly (readonly [string, string])[] {
  const rows: [string, string][] = [];
  const add = (name: string, value: string | null) => {
    if (value !== null) rows.push([name, value]);
  };
  const { moisture, filmGPerKg, airLeft, minutesAbove, minutesCounted, mostKPa } = numbers;
  const { f0Min, risk, tearRisk, waterLeftL, whole } = numbers;
  add('water in the grain', moisture === null ? null : percent(moisture, 1));
  add('water on its surface', filmGPerKg === null ? null : `${trimmed(filmGPerKg, 0)} g/kg`);
  add('air left at closing', airLeft === null ? null : percent(airLeft));
  add(
    'truly at target',
    minutesAbove === null || minutesCounted === null
      ? null
      : `${minutes(minutesAbove)} of ${minutes(minutesCounted)}`,
  );
  add('highest pressure', mostKPa === null ? null : formatPressure(mostKPa, units));
  add(
    'centre F0, estimate',
    f0Min === null
      ? null
      : `${trimmed(f0Min[1], 0)} min (${trimmed(f0Min[0], 0)} to ${trimmed(f0Min[2], 0)})`,
  );
  add('risk of a live spore', risk === null ? null : riskRange(risk));
  add('tear risk at opening', tearRisk === null ? null : percent(tearRisk));
  add('water left', waterLeftL === null ? null : formatVolume(waterLeftL, units));
  add('containers whole', whole === null ? null : `${whole[0]} of ${whole[1]}`);
  return rows;
}

function riskRange([low, likely, high]: readonly [number, number, number]): string {
  const [best, worst] = [riskText(high), riskText(low)];
  return best === worst ? `${best} each` : `${riskText(likely)} each (${best} to ${worst})`;
}

function riskText(risk: number): string {
  if (risk < 1e-4) return 'under 1 in 10 000';
  return risk < 0.01 ? `1 in ${Math.round(1 / risk)}` : percent(risk);
}

/** Pressure as the dial is read by the person. */
export const dialText = (kPa: number, { units }: Telling): string => formatPressure(kPa, units);
