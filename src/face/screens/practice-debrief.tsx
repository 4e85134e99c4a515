/** What a practice was worth, on one page: decisions against the truth, numbers, faults, progress. */
import { Box } from 'ink';
import { useMemo, useState } from 'react';
import type { PracticeNote, PracticeSession, PracticeWish } from '../../core/practice/session.ts';
import type { Services } from '../../core/services.ts';
import { visible } from '../../core/text.ts';
import { tellingOf } from '../format.ts';
import type { KeyName } from '../keys.ts';
import type { Look } from '../look.ts';
import {
  type Block,
  decisionBlocks,
  faultBlocks,
  numberBlocks,
  progressBlocks,
  verdictBlocks,
} from '../practice-lines.ts';
import type { Regions } from '../regions.ts';
import type { Row } from '../spans.ts';
import { useKeys } from '../use-keys.ts';
import { Frame } from '../widgets/frame.tsx';
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

const BLANK: Row = [];

/** The pages that fit: parts one after the other, never broken inside a decision or behind a title. */
function pagesOf(parts: readonly (readonly Block[])[], height: number): readonly (readonly Row[])[] {
  const pages: (readonly Row[])[] = [];
  let page: readonly Row[] = [];
  for (const part of parts) {
    const lines = part.reduce((sum, block) => sum + block.length, 0);
    // A part that fits on a page of its own is not begun at the foot of one that is mostly full.
    if (page.length > height / 2 && page.length + 1 + lines > height && lines <= height) {
      pages.push(page);
      page = [];
    }
    part.forEach((block, index) => {
      const apart = index === 0 && page.length > 0 ? [BLANK] : [];
      if (page.length > 0 && page.length + apart.length + block.length > height) {
        pages.push(page);
        page = block;
      } else page = [...page, ...apart, ...block];
    });
  }
  return page.length > 0 ? [...pages, page] : pages;
}

export const PracticeDebrief = (props: PracticeDebriefProps) => {
  const { look, regions, services, session, notes, trouble, onAgain, onLeave } = props;
  const [at, setAt] = useState(0);
  const debrief = useMemo(() => session.debrief(), [session]);
  const { units } = services.kitchen().kitchen;
  const telling = tellingOf(session.run.batch, units);
  const width = regions.columns - 2;
  const pages = pagesOf(
    [
      verdictBlocks(debrief, width),
      decisionBlocks(debrief, telling, width),
      numberBlocks(debrief, telling, width),
      faultBlocks(debrief, look, width),
      progressBlocks(notes, width),
    ],
    regions.body.height,
  );
  const page = pages[at % pages.length] ?? [];
  useKeys(
    (key: KeyName) => {
      if (key === 'tab' || key === 'space' || key === 'enter' || key === 'down' || key === 'up') {
        setAt(at + 1);
      } else if (key === 'r') onAgain({ ...session.wish, seed: session.seed });
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
      answers={[
        ...(pages.length > 1
          ? [{ shown: 'Space', says: `page ${(at % pages.length) + 1} of ${pages.length}` }]
          : []),
        { shown: 'r', says: 'the same again' },
        { shown: 'n', says: 'a new one' },
      ]}
      tools={[{ shown: 'q', says: 'leave practice' }]}
    >
      <Box flexDirection="column">
        {page
          .slice(0, regions.body.height)
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

/** A new practice: no lesson any more, another seed, and what was chosen otherwise. */
function newWish({ lesson: _lesson, seed: _seed, ...rest }: PracticeWish): PracticeWish {
  return rest;
}
