/** What a practice was worth, on one page: decisions against the truth, numbers, faults, progress. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import type { PracticeNote, PracticeSession, PracticeWish } from '../../core/practice/session.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { tellingOf } from '../format.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import { debriefPages } from '../practice-pages.ts';
import type { Regions } from '../regions.ts';
import { useKeys } from '../use-keys.ts';
import { answerRows, Frame, type KeyLabel } from '../widgets/frame.tsx';
import { SpanLine } from '../widgets/ink-text.tsx';

export interface PracticeDebriefProps {
  readonly look: Look;
  readonly regions: Regions;
  readonly services: Services;
  readonly session: PracticeSession;
  readonly notes: readonly PracticeNote[];
  readonly trouble: string | null;
  readonly onAgain: (wish: PracticeWish) => void;
  readonly onLeave: () => void;
}

export const PracticeDebrief = (props: PracticeDebriefProps) => {
  const { look, regions, services, session, notes, trouble, onAgain, onLeave } = props;
  const [at, setAt] = useState(0);
  const debrief = useMemo(() => session.debrief(), [session]);
  const { units } = services.kitchen().kitchen;
  const telling = tellingOf(session.run.batch, units);
  const width = regions.columns - 2;
  // The keys may take a line of the body.
  const height = regions.body.height + 1 - answerRows(keysOf('each in full (10 of 12)'), width);
  const { pages, summaries } = debriefPages({ debrief, telling, look, notes, width }, height);
  const shown = ((at % pages.length) + pages.length) % pages.length;
  const page = pages[shown] ?? [];
  useKeys(
    (key: KeyName) => {
      if (key === 'tab' || key === 'space' || key === 'enter' || key === 'down') setAt(shown + 1);
      else if (key === 'up') setAt(shown - 1);
      else if (key === 'r') onAgain({ ...session.wish, seed: session.seed });
      else if (key === 'n') onAgain(newWish(session.wish));
      else if (key === 'q' || key === 'esc' || key === 'ctrl-c') onLeave();
    },
    false,
    services.steady,
  );
  const seed = String(session.seed).padStart(4, '0');
  return (
    <Frame
      look={look}
      regions={regions}
      left={`${visible(debrief.recipe)} · debrief`}
      right={session.wish.lesson ? 'lesson' : `seed ${seed}`}
      marks={[...services.marks, 'PRACTICE']}
      notice={trouble ? { text: visible(trouble), ink: 'watch' } : null}
      answers={keysOf(pages.length > 1 ? nextSays(shown + 1, pages.length, summaries) : null)}
      tools={[{ shown: 'q', says: 'leave practice' }]}
    >
      <Box flexDirection="column">
        {page
          .slice(0, height)
          .map((row, index) =>
            row.length === 0 ? (
              <Box key={index} height={1} flexShrink={0} />
            ) : (
              <SpanLine key={index} look={look} spans={row} />
            ),
          )}
      </Box>
    </Frame>
  );
};

const keysOf = (turns: string | null): readonly KeyLabel[] => [
  ...(turns === null ? [] : [{ shown: 'Space', says: turns }]),
  { shown: 'r', says: 'the same again' },
  { shown: 'n', says: 'a new one' },
];

/** What Space turns to, after the page of this number. */
function nextSays(number: number, pages: number, summaries: number): string {
  if (number === pages) return 'back to page 1';
  return `${number < summaries ? 'the rest' : 'each in full'} (${number + 1} of ${pages})`;
}

/** A new practice: no lesson any more, another seed, and what was chosen otherwise. */
function newWish({ lesson: _lesson, seed: _seed, ...rest }: PracticeWish): PracticeWish {
  return rest;
}
