/** What is said of one bag while the person walks along them: what it wants now, or what its record suggests. */
import type { AfterServices } from '../core/record/after.ts';
import type { Bag } from '../core/record/bags.ts';
import { causesOf } from '../core/record/causes.ts';
import type { CultureRecord } from '../core/record/diary.ts';
import { dueNow, followUpsOf } from '../core/record/follow-ups.ts';
import { doseUnitOf } from '../core/record/inoculation.ts';
import type { RecordedBatch } from '../core/record/record.ts';
import { CAUSE_NAMES, causeEvidence, NO_CAUSE } from '../core/words/causes.ts';
import { otherUnit } from '../core/words/giving.ts';
import { CONTAMINATED_CAUTION, followUpAct } from '../core/words/record.ts';

import type { BagPanel } from './bag-keys.ts';

/** More hints than these are for the command line, which has the room. */
const MOST_HINTS = 2;

/** What the bag wants now, or what its record suggests, in at most so many lines. */
export function adviceOf(recorded: RecordedBatch, bag: Bag, after: AfterServices): string {
  if (bag.standing === 'contaminated') {
    const { units } = recorded.batch.header.kitchen;
    const hints = causesOf(recorded.batch, bag, bag.looks)
      .slice(0, MOST_HINTS)
      .map(cause => `${CAUSE_NAMES[cause.id]}: ${causeEvidence(cause, units)}.`);
    const seen = hints.length === 0 ? NO_CAUSE : `In its record, ${hints.join(' Also ')}`;
    return `${CONTAMINATED_CAUTION} ${seen}`;
  }
  const [due] = dueNow(
    followUpsOf([bag], recorded.warmthC ?? recorded.batch.header.kitchen.roomC),
    after.today(),
  );
  return due ? followUpAct(due) : 'Nothing is due for it today.';
}

/** What is asked of a bag, where nothing is advised. */
export function questionOf(panel: BagPanel, bag: Bag | null, giving: CultureRecord | null): string {
  if (panel === 'looks') return 'What does it look like through the film? Leave it closed.';
  if (bag?.inoculatedWall == null) return 'It was given none.';
  if (panel !== 'dose' || !giving) return 'Which culture was it given?';
  return `${otherUnit(bag, giving) ?? ''} About how much of it did it get? To the ${doseUnitOf(giving.form)}: stovehand bag ${bag.id} culture ${giving.key} ${giving.form === 'grain spawn' ? '80 g' : '4 ml'}`;
}
