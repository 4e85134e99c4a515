/** The last step: what the batch came to, and every way on from here with its key. */
import { Box } from 'ink';
import type { Batch } from '../../core/batch/state.ts';
import { type Bag, outcomeOf } from '../../core/record/bags.ts';
import type { AfterServices } from '../../core/record/after.ts';
import { FOLLOW_UP_KINDS, followUpsOf } from '../../core/record/follow-ups.ts';
import { visible } from '../../core/text.ts';
import { doneTitle, doneWords } from '../../core/words/done.ts';
import { nextWords } from '../../core/words/record.ts';
import type { Telling } from '../../core/words/telling.ts';
import { dateText } from '../format.ts';
import { type KeyRow, rowsOf } from '../keymap.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { warningOf } from '../run-view.ts';
import { span } from '../spans.ts';
import { SpanLine } from '../widgets/ink-text.tsx';
import { StepText } from '../widgets/step-text.tsx';
import { wrapAtMost } from '../wrap.ts';

export interface DoneScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly batch: Batch;
  readonly telling: Telling;
  /** Absent where no record is kept. */
  readonly after: AfterServices | undefined;
}

/** The first follow-up that is still wanted, as `look from 2026-04-01`; empty when there is none. */
function nextLine(batch: Batch, after: AfterServices): string {
  const recorded = after.batch(batch.header.id);
  if (!recorded) return '';
  const [first] = [...followUpsOf(recorded.bags, recorded.warmthC ?? batch.header.kitchen.roomC)].sort(
    (a, b) => a.from - b.from || FOLLOW_UP_KINDS.indexOf(a.kind) - FOLLOW_UP_KINDS.indexOf(b.kind),
  );
  return first ? `Next: ${nextWords(first, after.today().start, dateText)}.` : '';
}

/** What can be done from here: labels and dates only for what grows, a page to open only once there may be one. */
function waysOn(bags: readonly Bag[] | null): readonly KeyRow[] {
  const grows = (bags ?? []).some(bag => outcomeOf(bag) !== 'none');
  return rowsOf('done').filter(({ act }) => grows || (act !== 'labels' && act !== 'calendar'));
}

export const DoneScreen = ({ look, regions, batch, telling, after }: DoneScreenProps) => {
  const { width, height } = regions.body;
  const bags = after?.batch(batch.header.id)?.bags ?? null;
  const says = [doneWords(batch, bags), after ? nextLine(batch, after) : '']
    .filter(text => text !== '')
    .flatMap(text => wrapAtMost(visible(text), width, 3));
  const warning = warningOf(batch, null, telling, { width: width - 2, most: 2 });
  const ways = after ? waysOn(bags) : [];

  const used = 1 + says.length + warning.lines.length;
  const isRoomy = height >= used + ways.length;
  const gap = height > used + (isRoomy ? ways.length : Math.ceil(ways.length / 2)) ? 1 : 0;
  const pairs = ways
    .filter((_, index) => index % 2 === 0)
    .map((way, row) => [way, ...ways.slice(2 * row + 1, 2 * row + 2)]);
  return (
    <Box flexDirection="column" width={width}>
      <StepText
        look={look}
        title={doneTitle(batch)}
        titleInk={batch.endedEarly ? 'watch' : 'accent'}
        does={says}
        warning={warning}
      />
      <Box height={gap} flexShrink={0} />
      {isRoomy
        ? ways.map(({ act, shown, says: what }) => (
            <SpanLine key={act} look={look} spans={[span(`${shown}  `, 'accent'), span(what)]} />
          ))
        : pairs.map(row => (
            <SpanLine
              key={row[0]?.act ?? ''}
              look={look}
              spans={row.flatMap(({ shown, bar = '' }) => [
                span(`${shown}  `, 'accent'),
                span(bar.padEnd(Math.floor(width / 2) - 3)),
              ])}
            />
          ))}
    </Box>
  );
};
