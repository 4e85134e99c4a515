import { Box, Text } from 'ink';
import { Fragment, memo } from 'react';
import type { Look } from '../look.ts';
import type { Drawing, Row, Span } from '../spans.ts';

export interface DrawingViewProps {
  readonly drawing: Drawing;
  readonly look: Look;
  /** What a screen reader says instead of the drawing; without it the drawing is left out. */
  readonly label?: string;
}

// Neighbours of one ink become one node: Ink lays out and styles every nested Text on its own.
function joined(row: Row): Span[] {
  const parts: Span[] = [];
  for (const part of row) {
    const last = parts.at(-1);
    if (last?.ink === part.ink) parts[parts.length - 1] = { text: last.text + part.text, ink: last.ink };
    else parts.push(part);
  }
  return parts;
}

const RowView = ({ row, look }: { readonly row: Row; readonly look: Look }) => (
  <Text wrap="truncate">
    {joined(row).map((part, index) => {
      // Inverse marks words; in a picture it would turn solid blocks into holes.
      const { inverse: _, ...style } = look.inks[part.ink];
      const key = `${index}${part.ink}`;
      return Object.keys(style).length === 0 ? (
        <Fragment key={key}>{part.text}</Fragment>
      ) : (
        <Text key={key} {...style}>
          {part.text}
        </Text>
      );
    })}
  </Text>
);

/** A drawing on the screen: one line of text for each row, never wrapped. */
export const DrawingView = memo(({ drawing, look, label }: DrawingViewProps) => (
  <Box
    flexDirection="column"
    flexShrink={0}
    {...(label === undefined ? { 'aria-hidden': true } : { 'aria-label': label })}
  >
    {drawing.map((row, index) => (
      <RowView key={index} row={row} look={look} />
    ))}
  </Box>
));
DrawingView.displayName = 'DrawingView';
