/** The first start: a few questions about the kitchen, each with a usual answer as an example: only a typed one, or y, is the person's. */
import { Box } from 'ink';
import { useState } from 'react';
import { confirmed, type FieldRead } from '../../core/kitchen-field.ts';
import { FIRST_QUESTIONS, fieldNamed, isAssumed } from '../../core/kitchen-fields.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { actOf, HELP_KEY, ownBarOf } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame, type Notice } from '../widgets/frame.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { wrapLines } from '../wrap.ts';

export interface WelcomeScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly onDone: () => void;
}

const LONGEST = 24;
const INTRO =
  'Stovehand walks you through one batch of grain spawn at the stove, a key at a time. ' +
  'First a few questions about your kitchen. What stands there is only an example: type yours, or press y where it is so. ' +
  'Enter leaves it assumed; all of it can be changed later.';

export const WelcomeScreen = ({ look, regions, services, onDone }: WelcomeScreenProps) => {
  const [known, setKnown] = useState(() => services.kitchen());
  const [at, setAt] = useState(0);
  const [typed, setTyped] = useState('');
  const [notice, setNotice] = useState<Notice | null>(null);
  const [wrong, setWrong] = useState('');
  const fields = FIRST_QUESTIONS.map(fieldNamed).filter(field => field !== null);
  const field = fields[at];

  const finish = () => {
    services.kitchenWasAsked();
    onDone();
  };
  const next = (says: Notice | null = null) => {
    setTyped('');
    setNotice(says);
    if (at + 1 < fields.length) setAt(at + 1);
    else finish();
  };
  const take = async () => {
    if (!field || typed.trim() === '') return next();
    await keep(field.read(typed, known.kitchen));
  };
  const keep = async (read: FieldRead) => {
    if (!read.ok) return setWrong(`Expected ${read.expected}.`);
    const failed = await services.saveKitchen(read.value);
    setKnown(services.kitchen());
    if (failed) setNotice({ text: visible(failed), ink: 'danger' });
    else next(read.says === undefined ? null : { text: read.says, ink: 'watch' });
  };
  useKeys(
    (key: KeyName) => {
      setWrong('');
      const act = actOf('welcome', key);
      if (act === 'skip') finish();
      else if (act === 'take') void take();
      else if (act === 'yes' && typed === '' && field)
        void keep({ ok: true, value: confirmed(field, known.kitchen) });
      else if (act === 'before') setAt(Math.max(0, at - 1));
      else if (act === 'pass') next();
      else if (key === 'backspace') setTyped(text => text.slice(0, -1));
      else {
        const character = key === 'space' ? ' ' : key;
        if ([...character].length === 1) setTyped(text => (text.length < LONGEST ? text + character : text));
      }
    },
    true,
    services.steady,
    undefined,
    ['welcome'],
  );
  const before = fields
    .slice(0, at)
    .map(entry => [entry.asks, entry.show(known.kitchen), isAssumed(entry, known.assumed)] as const);
  const open = field !== undefined && isAssumed(field, known.assumed);
  const room = regions.body.height - 8;
  return (
    <Frame
      look={look}
      regions={regions}
      left="Stovehand"
      right={`question ${at + 1} of ${fields.length}`}
      marks={services.marks}
      notice={notice}
      answers={[
        { shown: 'Enter', says: typed !== '' ? 'take it' : open ? 'leave it assumed' : 'keep it' },
        ...(typed === '' && open ? [{ shown: 'y', says: 'yes, so it is' }] : []),
      ]}
      tools={[...ownBarOf('welcome'), HELP_KEY]}
    >
      {wrapLines(INTRO, regions.body.width).map(line => (
        <InkText key={line} look={look}>
          {line}
        </InkText>
      ))}
      <Box height={1} flexShrink={0} />
      {before.slice(-Math.max(0, room)).map(([asks, shown, assumed]) => (
        <SpanLine
          key={asks}
          look={look}
          spans={[
            span(`${asks}  `, 'faint'),
            span(visible(shown), assumed ? 'faint' : 'plain'),
            span(assumed ? '  assumed' : '', 'watch'),
          ]}
        />
      ))}
      {before.length > 0 ? <Box height={1} flexShrink={0} /> : null}
      {field ? (
        <>
          <InkText look={look} ink="strong">
            {field.asks}
          </InkText>
          <SpanLine
            look={look}
            spans={[
              span('  '),
              typed === '' ? span(visible(field.show(known.kitchen)), 'faint') : span(typed, 'strong'),
              typed === '' ? span(open ? '  only an example' : '', 'faint') : span('_', 'accent'),
            ]}
          />
          {wrong === '' ? null : <Box height={1} flexShrink={0} />}
          {wrong === ''
            ? null
            : wrapLines(wrong, regions.body.width).map(line => (
                <InkText key={line} look={look} ink="watch">
                  {line}
                </InkText>
              ))}
        </>
      ) : null}
    </Frame>
  );
};
