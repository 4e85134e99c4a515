/** What to change next time, in words: the change, why it helps, and what in the record speaks for it. */
import { STEP_IDS, type StepId } from '../batch/steps.ts';
import type { Units } from '../kitchen.ts';
import { formatDuration, formatMass, formatVolume } from '../quantity-format.ts';
import { type Bag, outcomeOf } from '../record/bags.ts';
import type { Change } from '../record/next-time.ts';
import type { ChangeId } from '../record/next-time-draft.ts';
import { causeEvidence, NO_CAUSE } from './causes.ts';
import { inItsWord } from './count.ts';

const length = (seconds: number): string => formatDuration(seconds);

/** A reminder of an earlier batch, and the steps it is about; none for one without. */
export interface Carried {
  readonly text: string;
  readonly steps: readonly StepId[];
}

/** How it stands in a recipe's note: `Next time (hold): ...`, the steps by their names in the code. */
const CARRIED = /^Next time(?: \(([a-z, -]*)\))?:(.*)$/;

/** A reminder as a line of the note. */
export const carriedNote = ({ text, steps }: Carried): string =>
  `Next time${steps.length === 0 ? '' : ` (${steps.join(', ')})`}: ${text}`;

/** The reminder in a line of a note, or null. A step that this program does not know is left out. */
export function readCarried(line: string): Carried | null {
  const [, named = '', said = ''] = CARRIED.exec(line.trim()) ?? [];
  const words = named.split(',').map(word => word.trim());
  const text = said.trim();
  return text === '' ? null : { text, steps: STEP_IDS.filter(id => words.includes(id)) };
}

/** What earlier batches left in the note of this recipe. */
const carriedIn = (note: string): readonly Carried[] =>
  note
    .split('\n')
    .map(readCarried)
    .filter(carried => carried !== null);

/** The same as sentences. */
export const carriedLines = (note: string): readonly string[] => carriedIn(note).map(({ text }) => text);
/** Those that are about this step. */
export const carriedAt = (note: string, step: StepId): readonly string[] =>
  carriedIn(note)
    .filter(({ steps }) => steps.includes(step))
    .map(({ text }) => text);

type Asked = Pick<Change, 'id' | 'before' | 'after' | 'kind'>;

/** What to change, in an imperative. */
export function changeWords({ id, before, after, kind }: Asked, units: Units): string {
  switch (id) {
    case 'vent-longer':
      return `Vent for ${length(after)} instead of ${length(before)}.`;
    case 'dips-restart':
      return 'Start the hold over after a dip, instead of making up the minutes.';
    case 'hold-longer':
      // The plan adds to the recipe's time what a place above the sea takes: the step is what counts.
      return `Hold ${length(after - before)} longer: ${length(after)} in the recipe instead of ${length(before)}.`;
    case 'hold-whole':
      return `Hold the whole ${length(after)}; leave so much time before you begin.`;
    case 'dry-longer':
      return `Plan ${length(after)} for surface-drying instead of ${length(before)}.`;
    case 'dry-shorter':
      return `Plan ${length(after)} for surface-drying instead of ${length(before)}, and lay the towel sooner.`;
    case 'dry-whole':
      return `Stir, and dry for about ${length(after)} before you believe the towel; it had ${length(before)}.`;
    case 'stir-oftener':
      return `Stir and lay the towel every ${length(after)} instead of ${length(before)}.`;
    case 'look-sooner':
    case 'look-later':
      return `Cut the first kernels after ${length(after)} of simmer instead of ${length(before)}.`;
    case 'look-oftener':
      return `Cut kernels every ${length(after)} instead of ${length(before)}.`;
    case 'soak-longer':
      return `Soak for ${length(after)} at least, instead of ${length(before)}.`;
    case 'simmer-gently':
      return 'Simmer lower, so that it barely moves, and cut kernels at every look.';
    case 'cool-longer':
      return `Leave the lid shut for ${length(after)} instead of ${length(before)}.`;
    case 'stay-shut':
      return `Leave the lid shut for the whole ${length(after)}; it was open after ${length(before)}.`;
    case 'fill-less':
      return `Fill ${formatMass(after, units)} instead of ${formatMass(before, units)}, so that the seam stays dry.`;
    case 'fewer':
      return `Plan ${after} instead of ${before}: that is what the grain came to.`;
    case 'watch-gauge':
      return 'Keep the gauge a little above target, and look every five minutes until it stands still.';
    case 'more-water':
      return after > before
        ? `Pour ${formatVolume(after, units)} of water into the cooker instead of ${formatVolume(before, units)}.`
        : 'Lower the flame as soon as the target is reached: the cooker takes no more water.';
    case 'leave-valve':
      return 'Leave the valve alone from the end of the vent until the lid is allowed to come off.';
    case 'spare-heat':
      return 'See that gas or power lasts for the whole evening before the flame is lit.';
    case 'flame-off':
      return `Be there when the hold ends after ${length(after)}, and turn the heat off.`;
    case 'flame-needle':
      return `Flame the needle before every ${kind}, and change it when it touched anything.`;
  }
}

const WHY: Readonly<Record<ChangeId, string>> = {
  'vent-longer': 'Air left in the vessel makes it cooler than the gauge says.',
  'dips-restart': 'The middle of the container falls behind faster than the gauge tells.',
  'hold-longer': 'The middle of the fullest container may have stayed too cool.',
  'hold-whole': 'The middle of the fullest container needs the last minutes most.',
  'dry-longer': 'Water on the kernels pools in the container and goes sour.',
  'dry-shorter': 'Kernels that dry from inside grow slowly.',
  'dry-whole': 'Unstirred, the top is dry long before the grain below it.',
  'stir-oftener': 'It was wet at first and too dry at last: looked at more often, the moment is met.',
  'look-sooner': 'Burst kernels set starch free, which clumps and feeds bacteria.',
  'look-later': 'A dry middle keeps the culture short of water.',
  'look-oftener': 'Between two looks kernels can go from white inside to burst.',
  'soak-longer': 'Soaked through, the middle is soft before the outside bursts.',
  'simmer-gently': 'A hard boil bursts the outside before the middle is soft.',
  'cool-longer': 'Warm film is soft and tears.',
  'stay-shut': 'Warm containers draw in room air when the lid comes off.',
  'fill-less': 'Grain and steam near the seam keep it from closing.',
  fewer: 'Half-filled containers heat and grow unlike the others.',
  'watch-gauge': 'Small dips come from a flame that was turned down and left.',
  'more-water': 'A cooker that runs dry loses its steam, and then itself.',
  'leave-valve': 'A valve opened under pressure lets air in and tears containers.',
  'spare-heat': 'A vessel that cools in the hold draws in air and has to be vented again.',
  'flame-off': 'Every minute beyond the hold boils water away.',
  'flame-needle': 'What the needle carries goes into every container after it.',
};

/** When there is nothing to change: because all went well, because nobody knows yet, or in spite of a loss. */
export function unchangedWords(bags: readonly Bag[]): string {
  const outcomes = bags.map(outcomeOf);
  if (outcomes.includes('lost')) return `No change is proposed. ${NO_CAUSE}`;
  if (outcomes.includes('open'))
    return `Nothing in this record asks for a change so far; its ${bags[0]?.kind ?? 'bag'}s are still growing.`;
  return 'Nothing in this record asks for a change: do it again the same way.';
}

/** The change as it is proposed: marked where no number of the recipe would carry it. */
export const proposalWords = (change: Change, units: Units): string =>
  `${changeWords(change, units)}${change.apply === null ? ' [a reminder]' : ''}`;

/** Said after saving: which changes no number of a recipe carries, and where they come back; empty when all are numbers. */
export function remindersWords(changes: readonly Pick<Change, 'apply'>[]): string {
  const only = changes.flatMap(({ apply }, index) => (apply === null ? [String(index + 1)] : []));
  if (only.length === 0) return '';
  return only.length === 1
    ? ` No. ${only[0]} is a reminder: it comes back at the first step, and at the one it is about.`
    : ` No. ${only.join(' and ')} are reminders: they come back at the first step, and at those they are about.`;
}

/** What is torn in a bag cracks in a jar. */
const WHY_GLASS: Readonly<Partial<Record<ChangeId, string>>> = {
  'cool-longer': 'Hot glass that meets cold air cracks.',
  'leave-valve': 'A valve opened under pressure lets air in, and jars boil over.',
};

/** Why the change helps, as a sentence. */
export const changeReason = ({ id, kind }: Pick<Change, 'id' | 'kind'>): string =>
  (kind === 'jar' ? WHY_GLASS[id] : undefined) ?? inItsWord(WHY[id], kind);

/** What in the record speaks for it, and against it when the recipe was just changed the other way. */
export function changeEvidence(change: Change, units: Units): string {
  const { turnsBack } = change;
  const turn =
    turnsBack === null
      ? ''
      : ` After ${turnsBack} this was changed the other way: the right value lies between the two.`;
  return `${seenWords(change, units)}${turn}`;
}

function seenWords({ id, cause, lost, known }: Change, units: Units): string {
  if (cause) {
    const seen = causeEvidence(cause, units);
    return `${seen.charAt(0).toUpperCase()}${seen.slice(1)}.`;
  }
  if (id === 'fewer') return 'The grain was used up before all of them were filled.';
  if (id === 'dry-shorter') return 'The towel came up dry: the grain was dried too far.';
  return `${lost} of ${known} were lost, and nothing else in the record explains it.`;
}
