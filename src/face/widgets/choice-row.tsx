/** The answers to a judgement as pictures side by side, each over its key and name. */
import { Box } from 'ink';
import { memo } from 'react';
import type { Look } from '../look.ts';
import { choicePictures, type PictureScale } from '../pictures/choices.ts';
import { COMPACT, LARGE } from '../pictures/frame.ts';
import { span } from '../spans.ts';
import { DrawingView } from './drawing-view.tsx';
import { SpanLine } from './ink-text.tsx';

export interface PicturedChoice {
  readonly key: string;
  readonly says: string;
  /** Said instead where `says` has no room. */
  readonly brief?: string;
  /** Names in the picture registry. */
  readonly picture: readonly [ask: string, choice: string];
}

export interface ChoiceRowProps {
  readonly look: Look;
  readonly choices: readonly PicturedChoice[];
  readonly scale: PictureScale;
  readonly width: number;
}

/** Rows of a picture row: the picture and its name below. */
export const choiceRowHeight = (scale: PictureScale): number =>
  (scale === 'compact' ? COMPACT : LARGE).height + 1;
export const choiceRowWidth = (scale: PictureScale, count: number): number =>
  count * ((scale === 'compact' ? COMPACT : LARGE).width + 2);

/** Names stand side by side with a space between them, whatever their length. */
export function captionOf({ key, says, brief }: PicturedChoice, cell: number): string {
  const room = cell - key.length - 2;
  const text = [...says].length <= room ? says : (brief ?? says);
  const letters = [...text];
  return letters.length <= room
    ? text
    : `${letters
        .slice(0, Math.max(0, room - 1))
        .join('')
        .trimEnd()}.`;
}

export const ChoiceRow = memo(({ look, choices, scale, width }: ChoiceRowProps) => {
  const size = scale === 'compact' ? COMPACT : LARGE;
  const cell = Math.min(Math.floor(width / Math.max(1, choices.length)), size.width + 10);
  return (
    <Box flexShrink={0}>
      {choices.map(pictured => {
        const {
          key,
          picture: [ask, choice],
        } = pictured;
        const drawing = choicePictures(ask, choice, scale, look.ascii);
        return (
          <Box key={key} flexDirection="column" width={cell} flexShrink={0}>
            {drawing ? <DrawingView look={look} drawing={drawing} /> : <Box height={size.height} />}
            <SpanLine look={look} spans={[span(`${key} `, 'accent'), span(captionOf(pictured, cell))]} />
          </Box>
        );
      })}
    </Box>
  );
});
ChoiceRow.displayName = 'ChoiceRow';
