/** What the bags want today, and the way to go through them. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import type { AfterServices } from '../../core/record/after.ts';
import type { BagId } from '../../core/record/diary.ts';
import { dueNow, followUpsOf } from '../../core/record/follow-ups.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { dueLine, followUpAct, growthWords } from '../../core/words/record.ts';
import { actOf, HELP_KEY, ownBarOf } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame } from '../widgets/frame.tsx';
import { InkText } from '../widgets/ink-text.tsx';
import { movePick, PickList } from '../widgets/pick-list.tsx';
import { wrapAtMost } from '../wrap.ts';

export interface DueScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly after: AfterServices;
  readonly onBags: (bags: readonly BagId[]) => void;
  readonly onBack: () => void;
}

/** Everything that is due, with its urgency, late ones first. */
export function dueOf(after: AfterServices) {
  const all = after
    .record()
    .batches.flatMap(({ bags, warmthC, batch }) => followUpsOf(bags, warmthC ?? batch.header.kitchen.roomC));
  return [...dueNow(all, after.today())].sort((a, b) => a.to - b.to);
}

export const DueScreen = ({ look, regions, services, after, onBags, onBack }: DueScreenProps) => {
  const due = useMemo(() => dueOf(after), [after]);
  const [picked, setPicked] = useState(0);
  const chosen = due[picked];
  const press = (key: KeyName) => {
    const act = actOf('due', key);
    if (act === 'through' && chosen) onBags(chosen.bags.map(({ id }) => id));
    else if (act === 'back' || act === 'leave') onBack();
    else setPicked(movePick(picked, key, due.length));
  };
  useKeys(press, false, services.steady, undefined, ['due', 'list', 'everywhere']);
  const { width, height } = regions.body;
  const most = height >= 12 ? 4 : 2;
  const sure =
    chosen && chosen.kind !== 'bin' ? wrapAtMost(`Dates: ${growthWords(chosen.growth)}.`, width, 2) : [];
  const says = chosen ? [...wrapAtMost(followUpAct(chosen), width, most), ...sure] : [];
  return (
    <Frame
      look={look}
      regions={regions}
      left="Due"
      right={due.length === 0 ? 'nothing today' : `${due.length} today`}
      marks={services.marks}
      notice={null}
      answers={chosen ? [{ shown: '↑↓', says: 'choose' }, ...ownBarOf('due')] : []}
      tools={[{ shown: 'Esc', says: 'back' }, HELP_KEY]}
    >
      <InkText look={look} ink="accent">
        {due.length === 0 ? 'Nothing is due today.' : 'Late ones first'}
      </InkText>
      <Box height={1} flexShrink={0} />
      <PickList
        look={look}
        lines={due.map((each, index) => ({
          id: `${index}`,
          spans: [
            span(
              visible(dueLine(each)),
              each.urgency === 'overdue' || each.unlooked.length > 0 ? 'watch' : 'plain',
            ),
          ],
        }))}
        picked={picked}
        height={Math.max(1, height - 3 - says.length)}
      />
      <Box flexGrow={1} />
      {says.map(line => (
        <InkText key={line} look={look} ink="faint">
          {visible(line)}
        </InkText>
      ))}
    </Frame>
  );
};
