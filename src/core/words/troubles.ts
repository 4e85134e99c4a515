/** For every deviation: its name, what it means for the batch, what to do now. */
import type { Batch } from '../batch/state.ts';
import type { TroubleId } from '../batch/troubles.ts';
import { inItsWord } from './count.ts';

export interface TroubleWords {
  readonly name: string;
  readonly means: string;
  readonly act: string;
}
const words = (name: string, means: string, act: string): TroubleWords => ({ name, means, act });

export const TROUBLE_WORDS: Readonly<Record<TroubleId, TroubleWords>> = {
  'over-pressure': words(
    'over the mark, or safety valve lifts',
    'The pressure is more than the cooker is made for, its vent may be blocked, so the batch ends here, safely.',
    'Heat off now and keep away, leave lid, valve and weight alone, and have the cooker checked before it is used again.',
  ),
  'vent-blocked': words(
    'no steam, but the gauge rises',
    'Pressure behind an open valve means that the vent is blocked and lets nothing out, so the batch ends here, safely.',
    'Heat off now and keep away, leave lid, valve and weight alone until it is cold, and clear the vent before it is used again.',
  ),
  'gear-missing': words(
    'something is missing',
    'A missing gasket, gauge or safety part means no pressure tonight; towels and ports can be replaced.',
    'Kitchen paper does for towels and foil over a loose lid for ports; without a sound gasket and gauge, stop here.',
  ),
  'boiled-over': words(
    'the pot boiled over',
    'Starch is lost and the hob is slippery; the grain itself is fine.',
    'Flame down, lid off, and top up with hot water until the grain is covered; wipe when it is cool.',
  ),
  overcooked: words(
    'overcooked, many burst',
    'Burst kernels set starch free, which clumps, holds water and feeds bacteria: expect slower growth and more losses.',
    'Stop the heat now, rinse the grain well and dry it longer; with more than half burst, start again.',
  ),
  'heat-failed-in-simmer': words(
    'power or gas failed',
    'Off the boil the kernels soak on slowly, and in a warm pot bacteria grow within hours.',
    'When heat is back soon, bring it to a simmer again and go by the cut kernels; if not, drain and cool the grain.',
  ),
  'still-wet': words(
    'still wet after hours',
    'Water on the kernels pools in the bag, and wet corners go sour.',
    'Spread it thinner on fresh towels in moving air; never leave it warm overnight: spread in the fridge it waits until morning.',
  ),
  'too-dry': words(
    'dried too far',
    'The towel stays dry when the kernels begin to dry from inside; growth will be slower.',
    'Bag it now, and next time lay the towel sooner.',
  ),
  'too-few': words(
    'the grain is used up',
    'Fewer containers than planned; the cooker needs the same water and the same hold.',
    'Carry on with those you have, evened out if one is much emptier.',
  ),
  'seam-failed': words(
    'a seam failed',
    'An open seam lets water in and contamination after it.',
    'Wipe the film dry, lay the seam a finger lower, press longer, and let it cool before you pull.',
  ),
  'steam-stopped': words(
    'the steam stopped',
    'Air is back in the vessel, and air under steam hides behind a right-looking gauge.',
    'If the gauge rises now, heat off and t; if not, full flame: the vent countdown starts over at steady steam.',
  ),
  'heat-failed': words(
    'power or gas failed',
    'Without steam the vessel draws air in.',
    'When heat is back, steady steam and the whole vent come first; if it stays off, end the batch: e.',
  ),
  'heat-failed-in-hold': words(
    'power or gas failed',
    'The pressure falls, and no time counts until it is back at target.',
    'Leave the lid shut, and answer 2 when the gauge is back at target; the dip policy decides what is left.',
  ),
  'will-not-climb': words(
    'the pressure will not climb',
    'Heat or steam goes somewhere else.',
    'Look in this order: valve, gasket, water, flame, gauge. t names each of them; if none is it, end: e.',
  ),
  'gasket-leaks': words(
    'the lid or gasket hisses',
    'Steam leaves at the rim, so the pressure cannot build and the water goes.',
    'Never press on the lid: flame off, wait for no pressure, seat the gasket clean, vent again; if it still leaks, end: e.',
  ),
  'flame-weak': words(
    'the flame is too weak',
    'The heat that goes in only covers what the vessel loses, and the water boils away meanwhile.',
    'Full flame, no draught, pan centred, a larger burner if there is one; if it still will not climb, end: e.',
  ),
  'gauge-doubtful': words(
    'the gauge sticks or lies',
    'Without a gauge nobody can say how hot it is inside, and a stuck one may hide too much pressure.',
    'Tap it lightly; if it stays stuck while the weight rocks or the valve hisses, heat off, end with e, and have it tested.',
  ),
  'valve-opened': words(
    'the valve was opened',
    'Pressure and steam are lost; a fast drop can tear bags.',
    'Leave the valve open, full flame, and vent again from steady steam; the hold starts over.',
  ),
  dip: words(
    'the pressure dipped',
    'Below target the middle of the bag falls behind faster than the gauge tells.',
    'More flame, and answer 2 when the gauge is back at target.',
  ),
  'above-target': words(
    'pressure above target',
    'Hotter than needed: no harm to the batch, but water is used faster.',
    'Lower the flame a little, and never go above the marked pressure.',
  ),
  'was-away': words(
    'nobody watched the gauge',
    'Minutes nobody can vouch for do not count.',
    'Look at gauge and valve now, and answer what they did.',
  ),
  'water-low': words(
    'water low or a burnt smell',
    'A dry cooker ruins itself and can break open, so the batch ends here, safely.',
    'Heat off now, add no water, do not open: the lock runs as always.',
  ),
  'valve-opened-cooling': words(
    'the valve was opened in the lock',
    'Pressure that leaves fast makes bags swell and tear, and later draws room air in past the filters.',
    'Leave it as it is while the lock goes on, and later look at every bag for tears and mark the doubtful ones.',
  ),
  'lid-opened-early': words(
    'the lid was opened early',
    'Bags tear when pressure leaves them quickly, and room air was drawn in: every bag is doubtful.',
    'Stand back, lay the lid on loosely, let the load cool while the lock goes on, and mark every bag.',
  ),
  'opened-warm': words(
    'opened before it was cool',
    'Warm bags are soft, and draw room air in while they cool on the table.',
    'Lift them little and slowly, lay them seam up, and let them cool covered.',
  ),
  torn: words(
    'a container is damaged',
    'Its grain is no longer closed: it will not stay clean.',
    'Mark it and keep it apart; just opened and still hot, it may be bagged and run again.',
  ),
  'touched-dirty': words(
    'something touched the needle',
    'What the needle carries goes into every bag after this one.',
    'Wipe port and hands and let the alcohol dry; only then flame the needle, or take a new one.',
  ),
  away: words(
    'nobody was watching',
    'The coach was closed or asleep while the flame was on.',
    'Answer what the gauge did; what nobody knows does not count.',
  ),
  'computer-restarted': words(
    'the coach was restarted',
    'Time went on; what the gauge did meanwhile is not known here.',
    'Answer the questions below; nothing that was answered is lost.',
  ),
  'soak-cut-short': words(
    'soak cut short',
    'The middle of the kernel is drier than planned.',
    'Expect a longer simmer: trust the cut kernels.',
  ),
  'hold-cut-short': words(
    'hold cut short',
    'The middle of the fullest container got less heat than planned: a higher risk for every one of them.',
    'Inoculate fewer than all, or run the batch again tomorrow.',
  ),
  'ended-early': words(
    'ended before its time',
    'This batch is not finished and its containers are not ready.',
    'If there may be pressure, the lock runs first.',
  ),
};

/** The same for a batch of bags, or of jars. */
export function troubleWords(id: TroubleId, { header }: Pick<Batch, 'header'>): TroubleWords {
  const { kind } = header.recipe.containers;
  const { name, means, act } = TROUBLE_WORDS[id];
  return words(inItsWord(name, kind), inItsWord(means, kind), inItsWord(act, kind));
}
