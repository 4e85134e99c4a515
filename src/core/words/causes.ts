/** What in a batch's record could be behind a loss, in words: the name of each cause and its evidence. */
import type { Units } from '../kitchen.ts';
import { formatDuration, formatVolume } from '../quantity-format.ts';
import type { Cause, CauseId } from '../record/cause.ts';

export const CAUSE_NAMES: Readonly<Record<CauseId, string>> = {
  'short-vent': 'vent',
  dips: 'dips in the hold',
  'short-hold': 'short hold',
  unwatched: 'nobody watching',
  'low-water': 'low water',
  'valve-opened': 'valve opened',
  'power-failed': 'flame failed',
  overrun: 'flame left on',
  'quick-release': 'valve opened in the lock',
  'wet-grain': 'wet grain',
  'short-drying': 'short drying',
  overcooked: 'overcooked grain',
  'dry-core': 'dry kernels',
  torn: 'torn',
  seam: 'seam',
  overfull: 'overfull',
  'opened-warm': 'opened warm',
  'dirty-needle': 'dirty needle',
};

/** Rests beside every hint: a record can suggest, not convict. */
export const HINT_CAUTION = 'Hints, not proof: one batch cannot tell causes apart.';

export const NO_CAUSE =
  'Nothing in this record stands out: think of the culture, the room air, and the middle of the fullest bag.';

const times = (count: number): string => (count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`);
const minutes = (count: number): string => formatDuration(Math.round(count * 60));
const also = (count: number, says: (length: string) => string): string =>
  count > 0 ? says(minutes(count)) : '';

/** What was seen, as evidence for one hint. */
export function causeEvidence(cause: Cause, units: Units): string {
  const { id, kind, count, minutes: min, lastedMin, usualMin, learned, leftL, ownToBag } = cause;
  const torn = kind === 'jar' ? 'cracked' : 'torn';
  switch (id) {
    case 'short-vent':
      return count > 0
        ? `the steam broke off ${times(count)} while venting; the last unbroken vent took ${minutes(min)}`
        : `the vent took ${minutes(min)}, less than ten minutes`;
    case 'dips':
      return `the pressure fell below target ${times(count)}${also(lastedMin, long => `, for ${long} in all`)}${also(min, lost => `; ${lost} of hold were given up`)}`;
    case 'short-hold':
      return `the hold was cut short at ${minutes(min)}`;
    case 'unwatched':
      return `nobody watched ${times(count)} while the flame was on`;
    case 'low-water':
      return leftL === null
        ? 'water was low or it smelled burnt, and the batch was ended'
        : `by the estimate only ${formatVolume(leftL, units)} of water was left when the flame went off`;
    case 'valve-opened':
      return `the valve was opened ${times(count)} under pressure, which lets air back in`;
    case 'power-failed':
      return `power or gas failed ${times(count)}${also(min, lost => `; ${lost} of hold were given up`)}`;
    case 'overrun':
      return `the flame burned ${minutes(min)} beyond the hold, which uses water and browns the grain`;
    case 'quick-release':
      return `the valve was opened ${times(count)} while it cooled, so that ${kind === 'jar' ? 'jars boil' : 'bags swell'} and draw in room air`;
    case 'wet-grain':
      return count > 0
        ? `the towel came up wet ${times(count)} before the grain was portioned`
        : 'the drained grain weighed more than it should';
    case 'short-drying':
      return `the grain was surface-dried for ${minutes(min)}, and ${learned ? 'your earlier batches took' : 'the recipe plans'} about ${minutes(usualMin)}: a towel can show the top alone`;
    case 'overcooked':
      return 'many kernels had burst in the simmer';
    case 'dry-core':
      return 'the kernels were white or dry inside when they were drained';
    case 'torn':
      if (ownToBag) return `this one was ${torn}`;
      return count === 1 ? `one ${kind} was ${torn}` : `${count} ${kind}s were ${torn}`;
    case 'seam':
      return ownToBag ? 'its seam was doubtful or failed' : `a seam failed ${times(count)}`;
    case 'overfull':
      return `it was filled ${count} % above the plan, nearer to the seam and the filter`;
    case 'opened-warm':
      return `the cooker was opened before it was cool, so that ${kind}s drew in room air`;
    case 'dirty-needle':
      return count === 1 ? 'something touched the needle' : `something touched the needle ${times(count)}`;
  }
}
