/** What is said of one bag while the person walks along them: what it wants now, or what its record suggests. */
import type { AfterServices } from '../core/record/after.ts';
import type { Bag } from '../core/record/bags.ts';
import { causesOf } from '../core/record/causes.ts';
import { dueNow, followUpsOf } from '../core/record/follow-ups.ts';
import type { RecordedBatch } from '../core/record/record.ts';
import { CAUSE_NAMES, causeEvidence, NO_CAUSE } from '../core/words/causes.ts';
import { CONTAMINATED_CAUTION, followUpAct } from '../core/words/record.ts';

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
