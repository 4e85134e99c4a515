/** A list with one line picked; scrolls with the pick, never wider or higher than its room. */
import { Box } from 'ink';
import type { Look } from '../look.ts';
import { type Span, span } from '../spans.ts';
import { SpanLine } from './ink-text.tsx';

export interface PickLine {
  readonly id: string;
  readonly spans: readonly Span[];
}
export interface PickListProps {
  readonly look: Look;
  readonly lines: readonly PickLine[];
  readonly picked: number;
  readonly height: number;
}

/** Where a picked line goes after a key; stays within the list. */
export function movePick(picked: number, key: string, count: number, page = 8): number {
  const by = { up: -1, down: 1, pageup: -page, pagedown: page, home: -count, end: count }[key] ?? 0;
  return Math.min(Math.max(0, count - 1), Math.max(0, picked + by));
}

/** First line that is shown of so many, in so many rows. */
export const listFrom = (picked: number, height: number, count: number): number =>
  Math.min(Math.max(0, picked - Math.floor(height / 2)), Math.max(0, count - height));

export const PickList = ({ look, lines, picked, height }: PickListProps) => {
  const from = listFrom(picked, height, lines.length);
  return (
    <Box flexDirection="column">
      {lines.slice(from, from + height).map((line, index) => {
        const here = from + index === picked;
        return (
          <SpanLine
            key={line.id}
            look={look}
            spans={[span(here ? `${look.symbols.now} ` : '  ', 'accent'), ...line.spans]}
          />
        );
      })}
    </Box>
  );
};
