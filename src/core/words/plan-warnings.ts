/** Every warning of a plan as three short sentences: what, why, what to change. */
import type { Units } from '../kitchen.ts';
import type { Warning, WarningCode } from '../plan/warning.ts';
import {
  formatAltitude,
  formatDuration,
  formatLength,
  formatMass,
  formatPercent,
  formatPower,
  formatPressure,
  formatTemperature,
  formatVolume,
} from '../quantity-format.ts';
import type { ContainerKind } from '../recipe/recipe.ts';
import { inItsWord } from './count.ts';
import { formatF0, roughly } from './plan-rows.ts';

export interface WarningWords {
  readonly what: string;
  readonly why: string;
  readonly change: string;
}

interface Told {
  readonly units: Units;
  readonly number: (name: string) => number;
  readonly said: (name: string) => boolean;
  readonly duration: (name: string) => string;
  readonly mass: (name: string) => string;
  readonly volume: (name: string) => string;
  readonly pressure: (name: string) => string;
  readonly temperature: (name: string) => string;
}

const words = (what: string, why: string, change: string): WarningWords => ({ what, why, change });

/** What keeps the steam cooler than the recipe means. */
const coolerBecause = ({ said, pressure, temperature }: Told): string => {
  if (said('byAltitude')) {
    return `Thinner air outside: ${pressure('targetKPa')} is ${temperature('targetC')} here, ${temperature('wantedC')} at sea level.`;
  }
  if (!said('byVessel')) return `The recipe asks for no more than ${temperature('wantedC')}.`;
  const holder = said('byWeight') ? 'weight lets stand' : 'cooker is marked for';
  return `${temperature('wantedC')} needs ${pressure('neededKPa')} here; your ${holder} ${pressure('limitKPa')}, which is ${temperature('targetC')}.`;
};

/** How to get hotter steam; null where nothing but another cooker helps. */
function hotter({ said, number, pressure, temperature }: Told): string | null {
  if (said('byWeight') && number('markedMaxKPa') > number('limitKPa') + 0.1) {
    return `If its maker has a heavier weight for it (it is marked ${pressure('markedMaxKPa')}), use that`;
  }
  if (!said('byAltitude')) return said('byVessel') ? null : 'Ask for more in the recipe';
  if (number('neededKPa') > number('limitKPa')) return null;
  const wanted = temperature('wantedC').replace('°', '');
  return `If its maker allows ${pressure('neededKPa')} (it is marked ${pressure('limitKPa')}), write "temperature: ${wanted}" in the recipe`;
}
const ANOTHER = 'Use a cooker that is made for more pressure';

const WORDS: Readonly<Record<WarningCode, (told: Told) => WarningWords>> = {
  'too-cool': told =>
    words(
      `No: the steam only reaches ${told.temperature('targetC')}.`,
      `${coolerBecause(told)} Below ${told.temperature('leastC')} spores outlast any sensible hold.`,
      `${hotter(told) ?? ANOTHER}.`,
    ),
  'too-long': told =>
    words(
      `No: the hold would be more than ${told.number('times')} times the recipe's.`,
      coolerBecause(told),
      `${hotter(told) ?? ANOTHER}, or take smaller containers.`,
    ),
  'burner-weak': ({ temperature, number }) =>
    words(
      `No: this burner cannot bring the cooker to ${temperature('targetC')}.`,
      `${formatPower(number('powerW'))} barely cover what a hot vessel loses.`,
      'Use a stronger burner, or correct its power and kind in the kitchen.',
    ),
  'no-fit': ({ units, number, said }) =>
    words(
      'No: not even one container fits the cooker.',
      said('byWidth')
        ? `It is wider than the ${formatLength(number('diameterM'), units)} inside.`
        : said('byVolume')
          ? `One takes up more than the ${formatVolume(number('cookerL'), units)} hold beside the water.`
          : `It is higher than the ${formatLength(number('freeHeightM'), units)} between rack and lid.`,
      'Fill less into each, take smaller containers, or correct the inner size of the cooker in the kitchen.',
    ),
  'hob-limit': ({ mass }) =>
    words(
      `No: ${mass('hobKg')} would stand on the hob.`,
      `Its maker allows ${mass('limitKg')}.`,
      'Fewer containers in each load, or another hob.',
    ),
  'water-too-high': ({ volume }) =>
    words(
      `No: ${volume('waterL')} of water in a ${volume('cookerL')} cooker.`,
      'So long a hold boils away more than can stand under the rack.',
      'A shorter hold with smaller containers, or a larger cooker.',
    ),
  'water-asked': ({ volume }) =>
    words(
      `The recipe asks for ${volume('askedL')} of cooker water; ${volume('pourL')} is poured.`,
      'More than a quarter of the cooker would reach the rack.',
      'Lower "cooker water" in the recipe, or keep the flame low.',
    ),
  'hold-short': ({ number, said, duration }) =>
    words(
      `The hold is short: F0 ${formatF0(number('f0Min'))} at the centre, not ${number('targetF0Min')}.`,
      'Heat needs longer to the middle of so large a container.',
      said('moreS')
        ? `Add ${duration('moreS')} to the hold${said('cautiousMoreS') ? `, ${duration('cautiousMoreS')} to be cautious` : ''}, or make the containers thinner.`
        : 'Make the containers much smaller: no hold within 12 hours is enough.',
    ),
  'hold-cautious': told => {
    const { number, said, duration } = told;
    const longer = said('lengthened');
    const way = longer ? hotter(told) : null;
    const held = `Held ${duration('holdS')}${longer ? `, not ${duration('recipeS')}, which makes up for cooler steam` : ''}`;
    const asks = longer ? `${duration('cautiousMoreS')} more` : duration('wantedS');
    const slower = said('yours') ? 'slower than you measured' : 'slowly, in wet or tightly packed grain';
    const add = said('cautiousMoreS') ? `Add ${duration('cautiousMoreS')} to the hold, or make` : 'Make';
    return words(
      `${held}; ${said('wantedS') ? `the cautious estimate asks for ${asks}` : 'by the cautious estimate no hold within 12 hours is enough'}.`,
      `${longer ? `${coolerBecause(told)} ` : ''}Where heat goes ${slower}, the centre gets F0 ${formatF0(number('f0Min'))}, not ${number('targetF0Min')}.`,
      `${add} the containers thinner.${way === null ? '' : ` ${way}.`}`,
    );
  },
  'hold-lengthened': told => {
    const way = hotter(told);
    const enough = told.said('short') ? 'The' : 'No need to change anything: the';
    return words(
      `Held ${told.duration('holdS')} instead of ${told.duration('recipeS')}.`,
      coolerBecause(told),
      `${enough} longer hold makes up for ${told.said('short') ? 'the cooler steam only' : 'it'}.${way === null ? '' : ` ${way}.`}`,
    );
  },
  'high-altitude': ({ units, number, temperature }) =>
    words(
      `At ${formatAltitude(number('altitudeM'), units)} the steam is only ${temperature('targetC')}.`,
      'Everything rests on the long hold, and tough spores die slower than F0 says.',
      'Take small containers, keep the full hold, and check the gauge against a good one.',
    ),
  touching: () =>
    words(
      'Containers pressed together heat as one block.',
      'Steam cannot get between them: the hold grows with the block.',
      'Leave a finger of room around each, and say "touching: no" in the recipe.',
    ),
  'over-filter': ({ mass }) =>
    words(
      `No: ${mass('fillKg')} would reach the filter.`,
      `Up to the filter there is room for ${mass('mostKg')}; a wet filter lets germs in.`,
      'Fill less into each, or take more containers.',
    ),
  'fill-odd': ({ mass, volume }) =>
    words(
      `${mass('fillKg')} in ${volume('volumeL')} does not look like wet grain.`,
      `A container of that size usually holds about ${mass('likelyKg')}.`,
      'Measure a filled one and correct the size or the fill; the hold depends on it.',
    ),
  'short-vent': ({ duration }) =>
    words(
      `Vented only ${duration('ventS')}.`,
      'Air left inside makes the gauge promise more heat than there is.',
      'Vent 10 minutes of steady steam.',
    ),
  'pot-fillings': ({ number, mass, volume }) =>
    words(
      `The grain is simmered in ${number('fillings')} pots, one after the other.`,
      `All of it would stand at ${volume('wholeL')} in a ${volume('potL')} pot.`,
      `Take ${mass('dryKg')} and ${volume('waterL')} each time, or use a larger pot.`,
    ),
  'more-loads': ({ number, duration }) =>
    words(
      `${number('loads')} loads: the cooker takes ${number('perLoad')} at once.`,
      `Each load is heated, locked and cooled by itself: ${duration('eachS')} more.`,
      'Fewer or smaller containers make one load; keep the waiting ones in the cold.',
    ),
  'moisture-odd': ({ number }) =>
    words(
      `${formatPercent(number('wantedMoisture'))} water is unusual for this grain.`,
      `Usual is ${formatPercent(number('low'))} to ${formatPercent(number('high'))}: wetter goes sour, drier grows slowly.`,
      'Change "wanted" in the recipe.',
    ),
  'culture-wet': ({ number }) =>
    words(
      `The culture makes the grain ${formatPercent(number('after'))} wet.`,
      `It was meant to have ${formatPercent(number('before'))}; the rest pools at the bottom.`,
      'Inject less, or hydrate the grain a little less.',
    ),
  'boils-dry': ({ number }) =>
    words(
      `At full heat the water is gone ${roughly(number('fullS'))} into the hold.`,
      `Kept low it lasts ${roughly(number('gentleS'))}. A cooker that boils dry warps, and its pressure falls.`,
      'Turn it down as soon as the gauge is there, and stay with it.',
    ),
  heavy: ({ mass, said }) =>
    words(
      `The full cooker weighs about ${mass('hobKg')}.`,
      said('askHob') ? 'Hobs, glass ones above all, have limits.' : 'That is a load for two.',
      `Lift it cold, with two.${said('askHob') ? ' Look up the limit of your hob and say it in the kitchen.' : ''}`,
    ),
  'lock-longer': ({ duration }) =>
    words(
      `It stays shut for ${duration('lockS')}, not ${duration('coolS')}.`,
      'So full a vessel may hold pressure that long.',
      'No need to change anything: the lock goes by the longer of the two.',
    ),
  'cooker-odd': ({ volume }) =>
    words(
      `The cooker's inner sides make ${volume('sidesL')}, its volume is ${volume('cookerL')}.`,
      'One of them is wrong, and how many fit rests on both.',
      'Measure inside, and correct width, height or volume in the kitchen.',
    ),
  'vessel-assumed': ({ units, said, number, pressure, volume }) => {
    const parts = [
      said('altitude') && `${formatAltitude(number('altitudeM'), units)} above the sea`,
      said('markedMax') && `a cooker marked ${pressure('markedMaxKPa')}`,
      said('minimumWater') && `at least ${volume('minimumWaterL')} of water`,
    ].filter(part => part !== false);
    return words(
      `Assumed: ${parts.join(', ')}.`,
      said('altitude') || said('markedMax')
        ? `Gauge and hold${said('minimumWater') ? ', and the water,' : ''} rest on ${parts.length > 1 ? 'them' : 'it'}.`
        : 'The water to pour rests on it.',
      said('markedMax') || said('minimumWater')
        ? `Say what is so with you in the kitchen; the cooker and its manual tell.`
        : 'Say how high you live in the kitchen.',
    );
  },
};

/** The words of one warning in the person's units, and for bags or for jars. */
export function warningWords({ code, values }: Warning, units: Units, kind: ContainerKind): WarningWords {
  const number = (name: string) => values[name] ?? 0;
  const { what, why, change } = WORDS[code]({
    units,
    number,
    said: name => number(name) > 0,
    duration: name => formatDuration(number(name)),
    mass: name => formatMass(number(name), units),
    volume: name => formatVolume(number(name), units),
    pressure: name => formatPressure(number(name), units),
    temperature: name => formatTemperature(number(name), units, 1),
  });
  return words(inItsWord(what, kind), inItsWord(why, kind), inItsWord(change, kind));
}
