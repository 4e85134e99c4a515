/** The bags of a batch, or all that still grow. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import { formatMass } from '../../core/quantity-format.ts';
import type { AfterServices } from '../../core/record/after.ts';
import { type Bag, outcomeOf } from '../../core/record/bags.ts';
import type { BagId } from '../../core/record/diary.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { countOf } from '../../core/words/count.ts';
import { cultureText, givenText, standingText } from '../../core/words/record.ts';
import { dateText } from '../format.ts';
import { actOf, HELP_KEY, ownBarOf } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame, type Notice } from '../widgets/frame.tsx';
import { InkText } from '../widgets/ink-text.tsx';
import { movePick, PickList } from '../widgets/pick-list.tsx';

/** Below this many columns a row holds no more than the day and the culture; the bag's own screen has the rest. */
const NARROW = 66;
const shortFacts = (bag: Bag): readonly string[] => [
  dateText(bag.since).padStart(11).slice(0, 6),
  cultureText(bag),
];

export interface BagsScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly after: AfterServices;
  /** Null for all bags whose outcome is open. */
  readonly batch: string | null;
  readonly says: string | null;
  readonly onBags: (bags: readonly BagId[], asks: 'state' | 'culture') => void;
  /** A new culture for the list; afterwards these bags are asked which they were given, if there are any. */
  readonly onNewCulture: (bags: readonly BagId[]) => void;
  readonly onBack: () => void;
}

export const BagsScreen = ({
  look,
  regions,
  services,
  after,
  batch,
  says,
  onBags,
  onNewCulture,
  onBack,
}: BagsScreenProps) => {
  const bags = useMemo(
    () =>
      batch === null
        ? after.record().batches.flatMap(recorded => recorded.bags.filter(bag => outcomeOf(bag) === 'open'))
        : (after.batch(batch)?.bags ?? []),
    [after, batch],
  );
  const [picked, setPicked] = useState(0);
  const [notice, setNotice] = useState<Notice | null>(says ? { text: says, ink: 'good' } : null);
  const { units } = services.kitchen().kitchen;
  const fromHere = bags.slice(picked).map(({ id }) => id);
  const press = (key: KeyName) => {
    setNotice(null);
    const act = actOf('bags', key);
    if (act === 'through' && fromHere.length > 0) onBags(fromHere, 'state');
    else if (act === 'culture' && fromHere.length > 0) {
      // Without a list every bag was given what the recipe says: what differs from that is asked for first.
      if (after.cultures().length > 0) onBags(fromHere, 'culture');
      else onNewCulture(fromHere);
    } else if (act === 'new') onNewCulture([]);
    else if (act === 'back' || act === 'leave') onBack();
    else setPicked(movePick(picked, key, bags.length));
  };
  useKeys(press, false, services.steady, undefined, ['bags', 'list', 'everywhere']);
  const idWide = Math.max(0, ...bags.map(({ id }) => id.length)) + 2;
  const wide = Math.max(0, ...bags.map(bag => standingText(bag).length));
  const isNarrow = regions.body.width < NARROW;
  const facts = (bag: Bag): readonly string[] => [
    dateText(bag.since).padStart(11),
    bag.kg === null ? '' : formatMass(bag.kg, units),
    givenText(bag),
  ];
  const lines = bags.map(bag => ({
    id: bag.id,
    spans: [
      span(bag.id.padEnd(idWide), 'strong'),
      span(
        standingText(bag).padEnd(wide),
        outcomeOf(bag) === 'lost' ? 'watch' : outcomeOf(bag) === 'good' ? 'good' : 'plain',
      ),
      span(visible(`  ${(isNarrow ? shortFacts : facts)(bag).join('  ')}`.trimEnd()), 'faint'),
    ],
  }));
  return (
    <Frame
      look={look}
      regions={regions}
      left={batch === null ? 'Bags that grow' : `Bags of ${batch}`}
      right={countOf(bags.length, bags[0]?.kind ?? 'bag')}
      marks={services.marks}
      notice={notice}
      answers={[{ shown: '↑↓', says: 'choose' }, ...ownBarOf('bags')]}
      tools={[{ shown: 'Esc', says: 'back' }, HELP_KEY]}
    >
      <InkText look={look} ink="accent">
        {bags.length === 0 ? 'No bags here' : 'Gloves on: Space, then number keys'}
      </InkText>
      <Box height={1} flexShrink={0} />
      <PickList look={look} lines={lines} picked={picked} height={regions.body.height - 2} />
    </Frame>
  );
};
