/** Past and present batches: what became of each, and a way to take its recipe along. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import type { Batch } from '../../core/batch/state.ts';
import type { Bag } from '../../core/record/bags.ts';
import type { BatchChoice, Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { batchesText } from '../../core/words/count.ts';
import { briefOutcomes, endText, endWithDeviations } from '../../core/words/done.ts';
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
import { fitted, wrapAtMost } from '../wrap.ts';
import type { RecordPlace } from './record-places.tsx';

export interface BatchesScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly onOpen: (id: string) => void;
  readonly onAfter: (place: RecordPlace) => void;
  readonly onBack: () => void;
}

/** In few words, so that a row of a narrow list holds it. */
function briefOf({ batch, says }: BatchChoice, bags: readonly Bag[] | null): string {
  if (!batch) return says[0] ?? 'cannot be read';
  if (batch.finishedAt === null) return `in step ${STEP_NAMES[batch.step].toLowerCase()}`;
  if (batch.endedEarly) return 'ended early';
  return bags === null || bags.length === 0 ? endText(batch, null) : briefOutcomes(bags);
}

/** The picked batch in full: whatever its row had no room for stands here. */
function fullOf(choice: BatchChoice | undefined, bags: readonly Bag[] | null): string {
  const batch = choice?.batch;
  if (!choice || !batch) return choice?.says.join(' ') ?? '';
  const state = batch.finishedAt === null ? briefOf(choice, bags) : endWithDeviations(batch, bags);
  return `${batch.header.recipe.name}: ${state}`;
}

const ID = 7;
/** A day with its year, and without it where the row is short. */
const DATE = { wide: 11, narrow: 6 } as const;
const NARROW = 66;
/** A name of fewer letters tells nothing: it stands in full below. */
const LEAST_NAME = 6;
/** Rows of the picked batch in full. */
const FULL_ROWS = 4;

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
    if (marked === id)
      return setNotice({
        text: 'A batch is not compared with itself: choose another, then c.',
        ink: 'watch',
      });
    if (marked !== null) return onAfter({ at: 'compare', left: marked, right: id });
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
  const bagsOf = (choice: BatchChoice | undefined) => bags.get(choice?.id ?? '') ?? null;
  const { width, height } = regions.body;
  const widest = Math.max(
    0,
    ...batches.flatMap(choice => (choice.batch ? [briefOf(choice, bagsOf(choice)).length] : [])),
  );
  const longest = Math.max(0, ...batches.map(({ batch }) => batch?.header.recipe.name.length ?? 0));
  const day = width < NARROW ? DATE.narrow : DATE.wide;
  const left = width - 2 - ID - day - 4 - widest;
  const name = left < LEAST_NAME ? 0 : Math.min(longest, left);
  const lines = batches.map(choice => {
    const says = visible(briefOf(choice, bagsOf(choice)));
    const { batch } = choice;
    return {
      id: choice.id,
      spans: batch
        ? [
            span(choice.id.padEnd(ID), 'strong'),
            span(`${dateText(batch.header.beganWall).padStart(DATE.wide).slice(0, day)}  `),
            span(name === 0 ? '' : fitted(visible(batch.header.recipe.name), name, look.symbols.ellipsis)),
            span(`  ${says}`, 'faint'),
          ]
        : [span(choice.id.padEnd(ID), 'strong'), span(says, 'watch')],
    };
  });
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
      <PickList look={look} lines={lines} picked={picked} height={height - 2 - FULL_ROWS} />
      <Box flexGrow={1} />
      {wrapAtMost(visible(fullOf(chosen, bagsOf(chosen))), width, FULL_ROWS - 1).map((line, index) => (
        <InkText key={`${index}full`} look={look}>
          {line}
        </InkText>
      ))}
    </Frame>
  );
};
