/** Text in an ink of the look, and rows of such parts. */
import { Text } from 'ink';
import type { Look } from '../look.ts';
import type { Ink, Span } from '../spans.ts';

export interface InkTextProps {
  readonly look: Look;
  readonly ink?: Ink;
  readonly children: string;
}
/** One line in one ink, cut at the edge. */
export const InkText = ({ look, ink = 'plain', children }: InkTextProps) => (
  <Text wrap="truncate" {...look.inks[ink]}>
    {children}
  </Text>
);

/** One line of several inks. */
export const SpanLine = ({ look, spans }: { readonly look: Look; readonly spans: readonly Span[] }) => (
  <Text wrap="truncate">
    {spans.map((part, index) => (
      <Text key={`${index}${part.ink}`} {...look.inks[part.ink]}>
        {part.text}
      </Text>
    ))}
  </Text>
);
