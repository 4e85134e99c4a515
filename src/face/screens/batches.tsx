/** Past and present batches: what became of each, and a way to take its recipe along. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import type { Batch } from '../../core/batch/state.ts';
import type { Bag } from '../../core/record/bags.ts';
import type { BatchChoice, Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { batchesText, countOf } from '../../core/words/count.ts';
import { endText } from '../../core/words/done.ts';
import { STEP_NAMES } from '../../core/words/steps.ts';
import { dateText } from '../format.ts';
import { actOf, HELP_KEY } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame, type Notice } from '../widgets/frame.tsx';
import { InkText } from '../widgets/ink-text.tsx';
import { movePick, PickList } from '../widgets/pick-list.tsx';
import type { RecordPlace } from './record-places.tsx';

export interface BatchesScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly onOpen: (id: string) => void;
  readonly onAfter: (place: RecordPlace) => void;
  readonly onBack: () => void;
}

function stateOf({ batch, says }: BatchChoice, bags: readonly Bag[] | null): string {
  if (!batch) return says[0] ?? 'cannot be read';
  if (batch.finishedAt === null) return `in step ${STEP_NAMES[batch.step].toLowerCase()}`;
  const troubles = batch.deviations.filter(({ takenBack }) => !takenBack).length;
  const noted = troubles === 0 ? '' : `, ${countOf(troubles, 'deviation')}`;
  return `${endText(batch, bags)}${noted}`;
}

export const BatchesScreen = ({ look, regions, services, onOpen, onAfter, onBack }: BatchesScreenProps) => {
  const [picked, setPicked] = useState(0);
  const [marked, setMarked] = useState<string | null>(null);
  const [notice, setNotice] = useState<Notice | null>(null);
  const batches = useMemo(() => [...services.batches()].reverse(), [services]);
  const bags = useMemo(
    () => new Map(services.after?.record().batches.map(recorded => [recorded.id, recorded.bags])),
    [services],
  );
  const chosen = batches[picked];
  const save = async (batch: Batch) => {
    setNotice({ text: visible(await services.saveRecipe(batch)), ink: 'good' });
  };
  const compare = (id: string) => {
    if (marked !== null && marked !== id) return onAfter({ at: 'compare', left: marked, right: id });
    setMarked(id);
    setNotice({ text: `${id} is marked: choose another and press c to compare.`, ink: 'faint' });
  };
  const press = (key: KeyName) => {
    setNotice(null);
    const act = actOf('list', key) === 'open' ? 'open' : actOf('batches', key);
    if (act === 'back' || act === 'leave') onBack();
    else if (act === 'open' && chosen?.batch) onOpen(chosen.id);
    else if (act === 'save' && chosen?.batch) void save(chosen.batch);
    else if (act === 'bags' && chosen?.batch) onAfter({ at: 'bags', batch: chosen.id });
    else if (act === 'next' && chosen?.batch) onAfter({ at: 'next', batch: chosen.id });
    else if (act === 'compare' && chosen?.batch) compare(chosen.id);
    else setPicked(movePick(picked, key, batches.length));
  };
  useKeys(press, false, services.steady, undefined, ['batches', 'list', 'everywhere']);
  const lines = batches.map(choice => ({
    id: choice.id,
    spans: [
      span(choice.id.padEnd(8), 'strong'),
      span(choice.batch ? `${dateText(choice.batch.header.beganWall)}  ` : ''),
      span(choice.batch ? visible(choice.batch.header.recipe.name) : '', 'plain'),
      span(`  ${visible(stateOf(choice, bags.get(choice.id) ?? null))}`, choice.batch ? 'faint' : 'watch'),
    ],
  }));
  return (
    <Frame
      look={look}
      regions={regions}
      left="Batches"
      right={batchesText(batches.length)}
      marks={services.marks}
      notice={notice}
      answers={[
        { shown: '↑↓', says: 'choose' },
        { shown: 'Enter', says: 'open' },
        { shown: 's', says: 'save its recipe' },
        { shown: 'g', says: 'bags' },
        { shown: 'n', says: 'next time' },
        { shown: 'c', says: 'compare' },
      ]}
      tools={[{ shown: 'Esc', says: 'back' }, HELP_KEY]}
    >
      <InkText look={look} ink="accent">
        {batches.length === 0 ? 'No batch yet' : 'Newest first'}
      </InkText>
      <Box height={1} flexShrink={0} />
      <PickList look={look} lines={lines} picked={picked} height={regions.body.height - 2} />
    </Frame>
  );
};
