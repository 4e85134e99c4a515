/** Text in an ink of the look, and rows of such parts. */
import { Text } from 'ink';
import { memo } from 'react';
import type { Look } from '../look.ts';
import type { Ink, Span } from '../spans.ts';

export interface InkTextProps {
  readonly look: Look;
  readonly ink?: Ink;
  readonly children: string;
}
/**
 * One line in one ink, cut at the edge. A line that says the same is left alone: Ink would measure it again for
 * every frame.
 */
export const InkText = memo(({ look, ink = 'plain', children }: InkTextProps) => (
  <Text wrap="truncate" {...look.inks[ink]}>
    {children}
  </Text>
));

export interface SpanLineProps {
  readonly look: Look;
  readonly spans: readonly Span[];
}
const isSameLine = (a: SpanLineProps, b: SpanLineProps): boolean =>
  a.look === b.look &&
  a.spans.length === b.spans.length &&
  a.spans.every(({ text, ink }, index) => text === b.spans[index]?.text && ink === b.spans[index]?.ink);

/** One line of several inks. */
export const SpanLine = memo(
  ({ look, spans }: SpanLineProps) => (
    <Text wrap="truncate">
      {spans.map((part, index) => (
        <Text key={`${index}${part.ink}`} {...look.inks[part.ink]}>
          {part.text}
        </Text>
      ))}
    </Text>
  ),
  isSameLine,
);
