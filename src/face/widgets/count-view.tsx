/** The one number that matters, as large as the room allows, with what it counts and a bar. */
import { Box } from 'ink';
import type { Count } from '../../core/batch/countdown.ts';
import { bigDigits, digitsWidth, fitDigitRows } from '../digits.ts';
import { countText } from '../format.ts';
import type { Look } from '../look.ts';
import type { Ink } from '../spans.ts';
import { wrapLines } from '../wrap.ts';
import { DrawingView } from './drawing-view.tsx';
import { InkText } from './ink-text.tsx';

export interface CountViewProps {
  readonly look: Look;
  readonly count: Count;
  /** Beside the digits, at most three short lines. */
  readonly captions: readonly string[];
  readonly width: number;
  readonly height: number;
  readonly ink: Ink;
}

/** Captions begin so far from the digits, and the digits from the edge. */
const AROUND = 5;
const LEAST_CAPTION = 14;

/** Widest text this count will show, so that its size never changes while it runs. */
function widest({ ms, totalMs, direction }: Count): string {
  return countText(Math.max(totalMs ?? ms, ms), direction).replace(/\d/g, '8');
}

export const CountView = ({ look, count, captions, width, height, ink }: CountViewProps) => {
  const text = countText(count.ms, count.direction);
  // Captions change little while a count runs; their least width keeps the digits from changing with them.
  const caption = Math.max(LEAST_CAPTION, ...captions.map(line => [...line].length));
  const space = { width: Math.max(10, width - caption - AROUND), height, ascii: look.ascii };
  const rows = fitDigitRows(widest(count), space) ?? fitDigitRows(text, space);
  if (rows === null) {
    return wrapLines([text, ...captions].join('  '), width).map(line => (
      <InkText key={line} look={look} ink={ink}>
        {line}
      </InkText>
    ));
  }
  // Digits whose widest text does not fit may not push the captions out of the room.
  const full = Math.min(space.width, digitsWidth(widest(count), rows, look.ascii));
  const indent = Math.max(0, full - digitsWidth(text, rows, look.ascii));
  return (
    <Box height={rows} flexShrink={0}>
      <Box paddingLeft={2 + indent} flexShrink={0}>
        <DrawingView look={look} drawing={bigDigits(text, { rows, ascii: look.ascii, ink })} label={text} />
      </Box>
      <Box flexDirection="column" justifyContent="flex-end" paddingLeft={3} flexGrow={1}>
        {captions.map(caption => (
          <InkText key={caption} look={look}>
            {caption}
          </InkText>
        ))}
      </Box>
    </Box>
  );
};
