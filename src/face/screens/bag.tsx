/** One bag after the other: look, press a number, the next one comes. */
import { Box } from 'ink';
import { useRef, useState } from 'react';
import { formatMass } from '../../core/quantity-format.ts';
import type { AfterServices } from '../../core/record/after.ts';
import { type Bag, byBagId } from '../../core/record/bags.ts';
import { causesOf } from '../../core/record/causes.ts';
import { type BagId, readBagId } from '../../core/record/diary.ts';
import { dueNow, followUpsOf } from '../../core/record/follow-ups.ts';
import type { RecordedBatch } from '../../core/record/record.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { DAY } from '../../core/time.ts';
import { CAUSE_NAMES, causeEvidence, NO_CAUSE } from '../../core/words/causes.ts';
import { CONTAMINATED_CAUTION, doseText, followUpAct, standingText } from '../../core/words/record.ts';
import { bagChoices, type BagPanel } from '../bag-keys.ts';
import { actOf, HELP_KEY, ownBarOf } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
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
  readonly onBack: (says: string | null) => void;
}

const dayOf = (bag: Bag, now: number): string =>
  bag.inoculatedWall === null
    ? 'not inoculated'
    : `day ${Math.max(0, Math.floor((now - bag.inoculatedWall) / DAY))}`;

/** More hints than these are for the command line, which has the room. */
const MOST_HINTS = 2;

/** What the bag wants now, or what its record suggests, in at most so many lines. */
function adviceOf(recorded: RecordedBatch, bag: Bag, after: AfterServices): string {
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

export const BagScreen = ({ look, regions, services, after, bags, asks, onBack }: BagScreenProps) => {
  const [ids] = useState(() => [...bags].sort(byBagId));
  const [index, setIndex] = useState(0);
  const [panel, setPanel] = useState<BagPanel>(asks);
  const [page, setPage] = useState(0);
  const [last, setLast] = useState<string | null>(null);
  const [kept, setKept] = useState<readonly string[]>([]);
  const [notice, setNotice] = useState<Notice | null>(null);
  const [cultures] = useState(() => after.cultures());
  const batches = useRef(new Map<string, RecordedBatch | null>());
  const id = ids[index] ?? '';
  const batchId = readBagId(id)?.batch ?? '';
  if (!batches.current.has(batchId)) batches.current.set(batchId, after.batch(batchId));
  const recorded = batches.current.get(batchId) ?? null;
  const bag = recorded?.bags.find(each => each.id === id) ?? null;

  const goOn = () => {
    setPanel(asks);
    if (index + 1 < ids.length) setIndex(index + 1);
    else onBack(kept.length === 0 ? null : 'All of them are kept.');
  };
  const choices = bag ? bagChoices({ bag, panel, cultures, page, last }) : [];
  const press = (key: KeyName) => {
    const act = actOf('bag', key);
    if (act === 'back' || act === 'leave') {
      if (panel === 'looks') setPanel(asks);
      else onBack(null);
      return;
    }
    if (act === 'undo' && kept.length > 0) {
      const entry = kept.at(-1) ?? '';
      const undone = after.keep({ type: 'taken-back', entry });
      if (typeof undone === 'string') return setNotice({ text: visible(undone), ink: 'danger' });
      setKept(kept.slice(0, -1));
      batches.current.clear();
      setPanel(asks);
      setIndex(Math.max(0, index - 1));
      return setNotice({ text: 'The last answer is taken back.', ink: 'watch' });
    }
    const choice = choices.find(each => each.key === (act === 'plain' ? 'space' : key));
    if (!choice) return setNotice({ text: 'That key has no meaning here.', ink: 'watch' });
    if (choice.does === 'looks') return setPanel('looks');
    if (choice.does === 'more') return setPage(page + 1);
    if (choice.does !== null) {
      const entries = after.keep(choice.does);
      if (typeof entries === 'string') return setNotice({ text: visible(entries), ink: 'danger' });
      setKept([...kept, ...entries.map(entry => entry.id)]);
      batches.current.delete(batchId);
      if (choice.does.type === 'inoculated') setLast(choice.does.culture);
      setNotice({ text: `${id}: ${choice.says}`, ink: 'good' });
    } else setNotice(null);
    goOn();
  };
  useKeys(
    press,
    false,
    services.steady,
    dropped =>
      setNotice({
        text:
          dropped === 'held'
            ? 'A held or doubled key was taken once.'
            : 'Several keys at once: none was taken.',
        ink: 'faint',
      }),
    ['bag', 'everywhere'],
  );

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
    bag && recorded && panel === 'state'
      ? wrapAtMost(adviceOf(recorded, bag, after), width, height >= 14 ? 6 : 2)
      : [
          panel === 'looks'
            ? 'What does it look like through the film? Leave it closed.'
            : 'Which culture was it given?',
        ];
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
      tools={[...(kept.length > 0 ? ownBarOf('bag') : []), { shown: 'Esc', says: 'back' }, HELP_KEY]}
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
                    `  ${grain}${bag.kg === null ? '' : `, ${formatMass(bag.kg, units)}`}, ${bag.species || 'no species'}, ${doseText(bag)}`,
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
      {scale && pictured.length > 0 ? (
        <ChoiceRow look={look} choices={pictured} scale={scale} width={width} />
      ) : null}
    </Frame>
  );
};
