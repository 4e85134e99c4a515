/** The kitchen: every value with its unit, assumed ones marked, one line edited at a time. */
import { Box } from 'ink';
import { useState } from 'react';
import { confirmed, type FieldRead, type KitchenField } from '../../core/kitchen-field.ts';
import { isAssumed, KITCHEN_FIELDS } from '../../core/kitchen-fields.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { HELP_KEY } from '../keymap.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame, type Notice } from '../widgets/frame.tsx';
import { InkText } from '../widgets/ink-text.tsx';
import { fitWords, wrapLines } from '../wrap.ts';
import { listFrom, movePick, PickList } from '../widgets/pick-list.tsx';

export interface KitchenScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly onBack: () => void;
}

const LONGEST = 24;

export const KitchenScreen = ({ look, regions, services, onBack }: KitchenScreenProps) => {
  const [known, setKnown] = useState(() => services.kitchen());
  const [picked, setPicked] = useState(0);
  const [typed, setTyped] = useState<string | null>(null);
  const [notice, setNotice] = useState<Notice | null>(null);
  const [wrong, setWrong] = useState('');
  const field = KITCHEN_FIELDS[picked];

  const take = async (text: string) => {
    if (!field) return;
    const read: FieldRead =
      text.trim() === ''
        ? { ok: true, value: confirmed(field, known.kitchen) }
        : field.read(text, known.kitchen);
    if (!read.ok) {
      setWrong(`Expected ${read.expected}.`);
      return;
    }
    setTyped(null);
    const failed = await services.saveKitchen(read.value);
    setKnown(services.kitchen());
    setNotice(
      failed
        ? { text: visible(failed), ink: 'danger' }
        : { text: read.says ?? 'Kept.', ink: read.says === undefined ? 'good' : 'watch' },
    );
  };
  const press = (key: KeyName) => {
    setWrong('');
    if (typed === null) {
      setNotice(null);
      if (key === 'enter' || key === 'space') setTyped('');
      else if (key === 'esc' || key === 'q' || key === 'ctrl-c') onBack();
      else setPicked(movePick(picked, key, KITCHEN_FIELDS.length));
      return;
    }
    if (key === 'esc' || key === 'ctrl-c') setTyped(null);
    else if (key === 'enter') void take(typed);
    else if (key === 'backspace') setTyped(typed.slice(0, -1));
    else {
      const character = key === 'space' ? ' ' : key;
      if ([...character].length === 1 && typed.length < LONGEST) setTyped(text => (text ?? '') + character);
    }
  };
  useKeys(press, true, services.steady, undefined, ['list', 'everywhere']);
  const name = Math.max(...KITCHEN_FIELDS.map(({ asks }) => asks.length));
  const room = Math.min(name, regions.body.width - 26);
  const short = ({ asks }: KitchenField): string => fitWords(asks, room, look.symbols.ellipsis);
  const lines = KITCHEN_FIELDS.map((entry, index) => {
    const editing = index === picked && typed !== null;
    const assumed = isAssumed(entry, known.assumed);
    return {
      id: entry.name,
      spans: [
        span(short(entry).padEnd(room + 2), index === picked ? 'strong' : 'plain'),
        editing
          ? span(`${typed}_`, 'accent')
          : span(visible(entry.show(known.kitchen)), index === picked ? 'strong' : 'plain'),
        span(!editing && assumed ? '  assumed' : '', 'faint'),
      ],
    };
  });
  const height =
    regions.body.height - 1 - Math.max(1, wrong === '' ? 0 : wrapLines(wrong, regions.body.width).length);
  const seen = Math.min(lines.length, lines.length > height ? height - 1 : height);
  const above = listFrom(picked, seen, lines.length);
  const below = lines.length - seen - above;
  const complaint = wrong === '' ? [] : wrapLines(wrong, regions.body.width);
  return (
    <Frame
      look={look}
      regions={regions}
      left="Kitchen"
      right="every answer may be skipped"
      marks={services.marks}
      notice={notice}
      answers={
        typed === null
          ? [
              { shown: '↑↓', says: 'choose' },
              { shown: 'Enter', says: 'change' },
            ]
          : [{ shown: 'Enter', says: typed === '' ? 'yes, so it is' : 'keep' }]
      }
      tools={[{ shown: 'Esc', says: typed === null ? 'back' : 'leave as it was' }, HELP_KEY]}
    >
      <InkText look={look} ink="accent">
        {typed !== null && field
          ? `${field.asks}  (now ${field.show(known.kitchen)})`
          : field && short(field) !== field.asks
            ? field.asks
            : 'What you cook with, and where'}
      </InkText>
      {wrong === '' ? <Box height={1} flexShrink={0} /> : null}
      {complaint.map(line => (
        <InkText key={line} look={look} ink="watch">
          {line}
        </InkText>
      ))}
      <PickList look={look} lines={lines} picked={picked} height={seen} />
      {above + below > 0 ? (
        <InkText look={look} ink="accent">
          {`  ${[above > 0 && `${above} more above`, below > 0 && `${below} more below`].filter(part => part !== false).join(', ')}`}
        </InkText>
      ) : null}
    </Frame>
  );
};
