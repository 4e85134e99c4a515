/** A new culture for the person's own list: species, form, source and day, one question after the other. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import type { AfterServices } from '../../core/record/after.ts';
import { CULTURE_FORMS } from '../../core/record/diary.ts';
import { doseFor } from '../../core/record/inoculation.ts';
import type { CultureForm } from '../../core/recipe/recipe.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { countOf } from '../../core/words/count.ts';
import { speciesNote } from '../../core/words/record.ts';
import {
  CULTURE_ASKS,
  type CultureAsk,
  type CultureDraft,
  cultureEvent,
  cultureLists,
  cultureStep,
  FRESH_CULTURE,
  linesOf,
} from '../culture-steps.ts';
import { dateText, daysBefore } from '../format.ts';
import { HELP_KEY } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame, type KeyLabel, type Notice } from '../widgets/frame.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { PickList } from '../widgets/pick-list.tsx';

export interface CultureScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly after: AfterServices;
  /** Whose species stands first; null for none in particular. */
  readonly batch: string | null;
  /** The key of the new culture with a sentence, or null when none was added. */
  readonly onDone: (added: { readonly key: string; readonly says: string } | null) => void;
}

const QUESTIONS: Readonly<Record<CultureAsk, string>> = {
  species: 'Which species is it?',
  form: 'What is it given as?',
  source: 'Where is it from?',
  made: 'When was it made, or bought?',
};
/** How much of it goes with a kilogram. */
const perKg = (form: CultureForm): string => {
  const { low, high, unit } = doseFor(form, 1);
  return `${low} to ${high} ${unit} for each kg of grain`;
};
const EMPTY: Notice = {
  text: 'Your list is empty so far: everything was given what its recipe says.',
  ink: 'faint',
};
const NAMES: Readonly<Record<CultureAsk, string>> = {
  species: 'species',
  form: 'form',
  source: 'from',
  made: 'day',
};

function answersOf({ ask, typed }: CultureDraft): readonly KeyLabel[] {
  if (typed !== null) return [{ shown: 'Enter', says: 'when it stands there' }];
  if (ask === 'form') return CULTURE_FORMS.map((form, index) => ({ shown: String(index + 1), says: form }));
  if (ask === 'made')
    return [
      { shown: '↑↓', says: 'a day' },
      { shown: '←→', says: 'a week' },
      { shown: 'Space', says: 'that day' },
      { shown: '0', says: 'not known' },
    ];
  return [
    { shown: '↑↓', says: 'choose' },
    { shown: 'Space', says: 'that one' },
  ];
}

export const CultureScreen = ({ look, regions, services, after, batch, onDone }: CultureScreenProps) => {
  const [draft, setDraft] = useState(FRESH_CULTURE);
  const known = useMemo(() => after.cultures(), [after]);
  const [notice, setNotice] = useState<Notice | null>(known.length === 0 ? EMPTY : null);
  const lists = useMemo(() => {
    const recorded = batch === null ? null : after.batch(batch);
    return cultureLists(known, recorded ? [recorded.batch.header.recipe.culture.species] : []);
  }, [after, batch, known]);
  const keep = (whole: CultureDraft) => {
    const event = cultureEvent(whole, known, services.now());
    const kept = after.keep(event);
    if (typeof kept === 'string') return setNotice({ text: visible(kept), ink: 'danger' });
    const says = [`${event.key} is in your list.`, speciesNote(event.species) ?? ''].join(' ').trim();
    onDone({ key: event.key, says: visible(says) });
  };
  const press = (key: KeyName) => {
    setNotice(null);
    const step = cultureStep(draft, lists, key);
    if (step.does === 'leave') onDone(null);
    else if (step.does === 'keep') keep(step.draft);
    else if (step.does === 'ask') setDraft(step.draft);
    else setNotice({ text: 'That key has no meaning here.', ink: 'watch' });
  };
  useKeys(press, draft.typed !== null, services.steady, undefined, ['culture', 'everywhere']);

  const { ask, typed, picked } = draft;
  const daysAgo = draft.daysAgo ?? 0;
  const answered = CULTURE_ASKS.slice(0, CULTURE_ASKS.indexOf(ask)).map(each => ({
    id: each,
    says: each === 'made' ? '' : draft[each],
  }));
  const lines = [...linesOf(draft, lists), 'something else: type it'].map(text => ({
    id: text,
    spans: [span(visible(text))],
  }));
  const room = regions.body.height - answered.length - 3;
  return (
    <Frame
      look={look}
      regions={regions}
      left="A culture for your list"
      right={`question ${CULTURE_ASKS.indexOf(ask) + 1} of ${CULTURE_ASKS.length}`}
      marks={services.marks}
      notice={notice}
      answers={answersOf(draft)}
      tools={[{ shown: 'Esc', says: ask === 'species' && typed === null ? 'back' : 'one back' }, HELP_KEY]}
    >
      {answered.map(({ id, says }) => (
        <SpanLine
          key={id}
          look={look}
          spans={[span(NAMES[id].padEnd(9), 'faint'), span(visible(says), 'strong')]}
        />
      ))}
      {answered.length > 0 ? <Box height={1} flexShrink={0} /> : null}
      <InkText look={look} ink="accent">
        {QUESTIONS[ask]}
      </InkText>
      <Box height={1} flexShrink={0} />
      {typed !== null ? (
        <SpanLine look={look} spans={[span(visible(typed), 'strong'), span('_', 'accent')]} />
      ) : ask === 'made' ? (
        <SpanLine
          look={look}
          spans={[
            span(dateText(daysBefore(services.now(), daysAgo)), 'strong'),
            span(daysAgo === 0 ? '  today' : `  ${countOf(daysAgo, 'day')} ago`, 'faint'),
          ]}
        />
      ) : ask === 'form' ? (
        CULTURE_FORMS.map((form, index) => (
          <InkText key={form} look={look}>
            {`${index + 1} ${form.padEnd(16)}${perKg(form)}`}
          </InkText>
        ))
      ) : (
        <PickList look={look} lines={lines} picked={picked} height={room} />
      )}
    </Frame>
  );
};
