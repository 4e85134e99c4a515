/** After the last bag of a walk: what was noted, until it is left or undone. */
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { countOf } from '../../core/words/count.ts';
import { HELP_KEY, ownBarOf } from '../keymap.ts';
import type { Look } from '../look.ts';
import type { Regions } from '../regions.ts';
import { Frame } from '../widgets/frame.tsx';
import { InkText } from '../widgets/ink-text.tsx';
import { wrapAtMost } from '../wrap.ts';

export interface BagsNotedProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  /** `2648a-1 done`, in the order it was said. */
  readonly said: readonly string[];
}

export const BagsNoted = ({ look, regions, services, said }: BagsNotedProps) => {
  const { width, height } = regions.body;
  return (
    <Frame
      look={look}
      regions={regions}
      left="That was the last one"
      right={`${countOf(said.length, 'answer')} kept`}
      marks={services.marks}
      notice={null}
      answers={[{ shown: 'Space', says: 'back to the list' }]}
      tools={[
        ...ownBarOf('bag').filter(({ act }) => act === 'undo'),
        { shown: 'Esc', says: 'back' },
        HELP_KEY,
      ]}
    >
      <InkText look={look} ink="accent">
        Noted, and kept:
      </InkText>
      {wrapAtMost(visible(said.join(' · ')), width, Math.max(1, height - 2)).map(line => (
        <InkText key={line} look={look} ink="strong">
          {line}
        </InkText>
      ))}
    </Frame>
  );
};
