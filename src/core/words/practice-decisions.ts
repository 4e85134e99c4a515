/** The decisions of a practice in words: what each came to, how far it may be off, what to practise next. */
import type { Decision, DecisionId } from '../practice/decisions.ts';
import { BARELY_F0_MIN, LIMITS } from '../practice/limits.ts';
import { formatPressure, formatTemperature, formatVolume, trimmed } from '../quantity-format.ts';
import type { Telling } from './telling.ts';

export const DECISION_NAMES: Readonly<Record<DecisionId, string>> = {
  gear: 'gear checked',
  pot: 'pot watched',
  kernels: 'grain done',
  towel: 'surface dry',
  water: 'water poured',
  steady: 'steam called',
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

/** Why more minutes were held than were counted in the end. */
const againWords = ({ givenUpMin = 0 }: Decision): string =>
  Math.round(givenUpMin) < 1 ? '' : `; the hold began again, ${minutes(givenUpMin)} before that do not count`;

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
        : `${minutes(value)} truly at target, ${minutes(wanted)} counted${againWords(decision)}`;
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

/** Longest `decisionCell`, letters. */
export const CELL = 25;
/** The same in the fewest words, for a cell of a table. */
export function decisionCell(decision: Decision, { units }: Telling): string {
  const { id, verdict, value, wanted, also } = decision;
  switch (id) {
    case 'gear':
      return wanted === 0 ? 'all sound' : `${value} of ${wanted} faults found`;
    case 'pot':
      return value === 0 ? 'nothing over the rim' : `${value} times over the rim`;
    case 'kernels':
      return `${percent(value, 1)} water, ${percent(also)} ${verdict === 'too late' ? 'burst' : 'white'}`;
    case 'towel':
      return verdict === 'too late'
        ? `${trimmed(also, 1)} points dried out`
        : `${trimmed(Math.max(0, value), 0)} g/kg surface water`;
    case 'water':
      return value >= wanted
        ? `${formatVolume(value, units)}, as planned`
        : `${formatVolume(value, units)} of ${formatVolume(wanted, units)}`;
    case 'steady':
      return value === 0 ? 'no unbroken jet yet' : `${trimmed(value, 0)} g/min, ${minutes(also)} old`;
    case 'valve':
      return `${minutes(value)}, air left ${percent(also)}`;
    case 'hold':
      return `${formatTemperature(value, units, 1)} at ${formatPressure(also, units)}`;
    case 'upkeep':
      if (also > 0) return `up to ${formatPressure(also, units)}`;
      return value < wanted
        ? `held ${trimmed(value, 0)} of ${minutes(wanted)}`
        : `${minutes(value)}, ${trimmed(wanted, 0)} counted`;
    case 'away':
      return `${minutes(value)}, ${verdict === 'right' ? 'told' : 'not told'}`;
    case 'heat-off':
      if (verdict === 'too early') return `centre F0 ${trimmed(also, 1)} min`;
      return verdict === 'right' ? 'when it was done' : `${minutes(value)} too long`;
    case 'end':
      return verdict === 'right' ? 'could not be saved' : 'before it was done';
    case 'opening':
      return `tear risk ${percent(value)}`;
    case 'unload':
      return value === 0 ? `${wanted} damaged, seen` : `${value} of ${wanted} damaged kept`;
    case 'inoculation':
      return `${formatTemperature(value, units)}, room ${formatTemperature(wanted, units)}`;
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

/** The one thing to practise next. */
export const NEXT_WORDS: Readonly<Record<DecisionId, string>> = {
  gear: 'Look at gasket, vent pipe and needle first of all (l looks).',
  pot: 'Lower the flame when foam climbs: a gentle simmer is enough.',
  kernels: 'Cut kernels early, and every 2 min once the core is a line.',
  towel: 'Stir, then lay the towel: unstirred it shows only the top.',
  water: 'Look under the rack before the lid goes on.',
  steady: 'Spurts are not steady: wait for a minute of unbroken jet.',
  valve: 'Let the jet blow its whole time before you shut the valve.',
  hold: 'Begin the hold only when the needle stands at the target.',
  upkeep: 'Look at the needle every few minutes and turn the flame.',
  away: 'When nobody watched, say so: t, then "nobody watched".',
  'heat-off': 'Turn the heat off when called, not before the middle is done.',
  end: 'Do not give up what can still be saved: t says what to do.',
  opening: 'Leave it shut until the coach says it is cool.',
  unload: 'Look at every container as you lift it.',
  inoculation: 'Wait until the middle of the fullest one is like the room.',
};
