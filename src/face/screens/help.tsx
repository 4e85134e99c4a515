/** The keys of a screen, over it; the screen itself stays as it was. */
import { useState } from 'react';
import { helpLines, helpPage, KEY_COLUMN } from '../help-lines.ts';
import { actOf, type Place } from '../keymap.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { span } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame } from '../widgets/frame.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';

export interface HelpScreenProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly marks: readonly string[];
  readonly places: readonly Place[];
  readonly steady: () => number;
  readonly onBack: () => void;
}

export const HelpScreen = ({ look, regions, marks, places, steady, onBack }: HelpScreenProps) => {
  const [page, setPage] = useState(0);
  const { width, height } = regions.body;
  const shown = helpPage(helpLines(places, width), page, height - 2);
  useKeys(
    key => (actOf('everywhere', key) === 'help' && shown.of > 1 ? setPage(page + 1) : onBack()),
    false,
    steady,
  );
  return (
    <Frame
      look={look}
      regions={regions}
      left="Keys"
      right={shown.of > 1 ? `page ${shown.at + 1} of ${shown.of}` : ''}
      marks={marks}
      notice={null}
      answers={[]}
      tools={[
        ...(shown.of > 1 ? [{ shown: '?', says: 'more' }] : []),
        { shown: shown.of > 1 ? 'any other key' : 'any key', says: 'back' },
      ]}
    >
      <InkText look={look} ink="accent">
        Keys of this screen
      </InkText>
      {shown.lines.map(({ id, shown: key, says }) => (
        <SpanLine key={id} look={look} spans={[span(key.padEnd(KEY_COLUMN), 'accent'), span(says)]} />
      ))}
    </Frame>
  );
};
