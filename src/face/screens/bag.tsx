/** One bag after the other: look, press a number, the next one comes. */
import { Box } from 'ink';
import { useRef, useState } from 'react';
import { formatMass } from '../../core/quantity-format.ts';
import type { AfterServices } from '../../core/record/after.ts';
import { type Bag, byBagId } from '../../core/record/bags.ts';
import { type BagId, type CultureRecord, readBagId } from '../../core/record/diary.ts';
import type { RecordedBatch } from '../../core/record/record.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { DAY } from '../../core/time.ts';
import { datedLater, otherUnit } from '../../core/words/giving.ts';
import { cultureInFull, givenText, standingText } from '../../core/words/record.ts';
import { adviceOf, questionOf } from '../bag-advice.ts';
import { type BagChoice, bagChoices, type BagPanel, notedText } from '../bag-keys.ts';
import { dayStamp } from '../format.ts';
import { actOf, type BarKey, HELP_KEY, ownBarOf } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { BagsNoted } from './bags-noted.tsx';
import { DROPPED_WORDS, useKeys } from '../use-keys.ts';
import { ChoiceRow, choiceRowHeight, choiceRowWidth, type PicturedChoice } from '../widgets/choice-row.tsx';
import { answerRows, Frame, type Notice } from '../widgets/frame.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { wrapAtMost } from '../wrap.ts';

export interface BagScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly after: AfterServices;
  readonly bags: readonly BagId[];
  /** What is asked of every bag: how it is, or which culture it was given. */
  readonly asks: 'state' | 'culture';
  /** Said on the first screen of the walk; null for nothing. */
  readonly says: string | null;
  /** Which culture Space gives first; null for none. */
  readonly gives: string | null;
  /** A new culture first, then on with these bags. */
  readonly onNewCulture: (bags: readonly BagId[]) => void;
  readonly onBack: (says: string | null) => void;
}

const dayOf = (bag: Bag, now: number): string =>
  bag.inoculatedWall === null
    ? 'not inoculated'
    : `day ${Math.max(0, Math.floor((now - bag.inoculatedWall) / DAY))}`;

/** The culture that a choice gives; null for another choice. */
const chosenIn = ({ does }: BagChoice, cultures: readonly CultureRecord[]): CultureRecord | null =>
  does !== null && typeof does === 'object' && does.type === 'inoculated'
    ? (cultures.find(({ key }) => key === does.culture) ?? null)
    : null;
/** A culture in full beside its key; nothing for another choice. */
const cultureLine = (choice: BagChoice, cultures: readonly CultureRecord[]): readonly string[] => {
  const found = choice.key === 'space' ? null : chosenIn(choice, cultures);
  return found ? [`${choice.key} ${cultureInFull(found)}`] : [];
};

/** What was kept on this walk: the diary's entry, of which bag of the walk, in words. */
interface Kept {
  readonly entry: string;
  readonly index: number;
  readonly says: string;
}
const KEPT = 'All of them are kept.';

export const BagScreen = ({
  look,
  regions,
  services,
  after,
  bags,
  asks,
  says: saidBefore,
  gives,
  onNewCulture,
  onBack,
}: BagScreenProps) => {
  const [ids] = useState(() => [...bags].sort(byBagId));
  const [index, setIndex] = useState(0);
  const [panel, setPanel] = useState<BagPanel>(asks);
  const [page, setPage] = useState(0);
  const [last, setLast] = useState<string | null>(gives);
  // The culture whose amount is asked for, and the one that was asked about for its day.
  const [giving, setGiving] = useState<CultureRecord | null>(null);
  const [doubted, setDoubted] = useState<string | null>(null);
  const [kept, setKept] = useState<readonly Kept[]>([]);
  // Past the last bag: what was said stands there until it is left, so that the last answer can be undone.
  const [closing, setClosing] = useState(false);
  const [notice, setNotice] = useState<Notice | null>(saidBefore ? { text: saidBefore, ink: 'good' } : null);
  // The newest first: it is the likeliest.
  const [cultures] = useState(() => after.cultures().toReversed());
  const batches = useRef(new Map<string, RecordedBatch | null>());
  const id = ids[index] ?? '';
  const batchId = readBagId(id)?.batch ?? '';
  if (!batches.current.has(batchId)) batches.current.set(batchId, after.batch(batchId));
  const recorded = batches.current.get(batchId) ?? null;
  const bag = recorded?.bags.find(each => each.id === id) ?? null;

  const goOn = (noted: number) => {
    setPanel(asks);
    if (index + 1 < ids.length) setIndex(index + 1);
    else if (noted > 0) setClosing(true);
    else onBack(null);
  };
  const choices = bag && !closing ? bagChoices({ bag, panel, cultures, page, last, giving }) : [];
  const press = (key: KeyName) => {
    const act = actOf('bag', key);
    if (act === 'back' || act === 'leave') {
      if ((panel === 'looks' || panel === 'dose') && !closing) setPanel(asks);
      else onBack(closing ? KEPT : null);
      return;
    }
    if (act === 'undo' && kept.length > 0) {
      const last = kept.at(-1);
      const undone = after.keep({ type: 'taken-back', entry: last?.entry ?? '' });
      if (typeof undone === 'string') return setNotice({ text: visible(undone), ink: 'danger' });
      setKept(kept.slice(0, -1));
      batches.current.clear();
      setPanel(asks);
      setClosing(false);
      setIndex(last?.index ?? index);
      return setNotice({ text: 'The last answer is taken back.', ink: 'watch' });
    }
    if (act === 'new' && panel === 'culture' && !closing) return onNewCulture(ids.slice(index));
    if (closing && act === 'plain') return onBack(KEPT);
    const choice = choices.find(each => each.key === (act === 'plain' ? 'space' : key));
    if (!choice) return setNotice({ text: 'That key has no meaning here.', ink: 'watch' });
    if (choice.does === 'looks') return setPanel('looks');
    if (choice.does === 'more') return setPage(page + 1);
    if (choice.does !== null) {
      const chosen = bag && panel === 'culture' ? chosenIn(choice, cultures) : null;
      if (bag && chosen) {
        const later = datedLater(bag, chosen, dayStamp(bag.inoculatedWall ?? services.now()));
        setDoubted(later === null ? null : chosen.key);
        if (later !== null && doubted !== chosen.key)
          return setNotice({ text: visible(`${later} Press it again if it is so.`), ink: 'watch' });
        if (otherUnit(bag, chosen) !== null) {
          setNotice(null);
          setGiving(chosen);
          return setPanel('dose');
        }
      }
      const entries = after.keep(choice.does);
      if (typeof entries === 'string') return setNotice({ text: visible(entries), ink: 'danger' });
      const says = bag ? notedText(bag, panel, choice) : id;
      setKept([...kept, ...entries.map(entry => ({ entry: entry.id, index, says }))]);
      batches.current.delete(batchId);
      if (choice.does.type === 'inoculated') setLast(choice.does.culture);
      setNotice({ text: visible(says), ink: 'good' });
      if (panel === 'looks') return setPanel('handle');
      return goOn(kept.length + entries.length);
    }
    setNotice(null);
    goOn(kept.length);
  };
  useKeys(
    press,
    false,
    services.steady,
    dropped => setNotice({ text: DROPPED_WORDS[dropped], ink: 'faint' }),
    ['bag', 'everywhere'],
  );

  if (closing)
    return (
      <BagsNoted look={look} regions={regions} services={services} said={kept.map(({ says }) => says)} />
    );
  const isLive = ({ act }: BarKey): boolean => (act === 'new' ? panel === 'culture' : kept.length > 0);
  const answers = choices.map(({ key, says }) => ({
    shown: key === 'space' ? 'Space' : key,
    says: visible(says),
  }));
  const height = regions.body.height - (answerRows(answers, regions.columns - 2) - 1);
  const width = regions.body.width;
  const pictured: readonly PicturedChoice[] = choices.flatMap(({ key, says, picture }) =>
    picture === null ? [] : [{ key, says, picture }],
  );
  const { units } = services.kitchen().kitchen;
  const advice =
    bag && recorded && (panel === 'state' || panel === 'handle')
      ? wrapAtMost(
          adviceOf(recorded, bag, after),
          width,
          panel === 'handle' ? Math.max(2, height - 4) : height >= 14 ? 6 : 2,
        )
      : wrapAtMost(questionOf(panel, bag, giving), width, 4);
  const listed = panel === 'culture' ? choices.flatMap(choice => cultureLine(choice, cultures)) : [];
  const left = height - 3 - advice.length;
  const scale =
    left >= choiceRowHeight('large') + 1 && choiceRowWidth('large', pictured.length) <= width
      ? 'large'
      : left >= choiceRowHeight('compact') && choiceRowWidth('compact', pictured.length) <= width
        ? 'compact'
        : null;
  const grain = recorded?.batch.header.recipe.grain ?? '';
  return (
    <Frame
      look={look}
      regions={regions}
      left={visible(`Bag ${id}`)}
      right={`${index + 1} of ${ids.length}`}
      marks={services.marks}
      notice={notice}
      answers={answers}
      tools={[...ownBarOf('bag').filter(isLive), { shown: 'Esc', says: 'back' }, HELP_KEY]}
    >
      <SpanLine
        look={look}
        spans={
          bag
            ? [
                span(standingText(bag), 'accent'),
                span(`  ${dayOf(bag, services.now())}`, 'strong'),
                span(
                  visible(
                    `  ${[grain, bag.kg === null ? '' : formatMass(bag.kg, units), givenText(bag)].filter(text => text !== '').join(', ')}`,
                  ),
                  'faint',
                ),
              ]
            : [span('This bag cannot be read.', 'watch')]
        }
      />
      {advice.map(line => (
        <InkText key={line} look={look} ink="strong">
          {visible(line)}
        </InkText>
      ))}
      <Box height={1} flexShrink={0} />
      {listed.map(line => (
        <InkText key={line} look={look}>
          {visible(line)}
        </InkText>
      ))}
      {scale && pictured.length > 0 ? (
        <ChoiceRow look={look} choices={pictured} scale={scale} width={width} />
      ) : null}
    </Frame>
  );
};
