/** An amount to weigh, pour or draw up, as large as the room allows, with its unit and what it is of. */
import { Box } from 'ink';
import { bigDigits, fitDigitRows } from '../digits.ts';
import type { Look } from '../look.ts';
import type { Figure } from '../run-figure.ts';
import { DrawingView } from './drawing-view.tsx';
import { InkText } from './ink-text.tsx';

export interface FigureViewProps {
  readonly look: Look;
  readonly figure: Figure;
  readonly width: number;
  readonly height: number;
}

/** Room beside the digits for the unit, and at their left edge. */
const AROUND = 24;

/** Nothing where not even the smallest digits fit: the instruction says the amount too. */
export const FigureView = ({ look, figure, width, height }: FigureViewProps) => {
  const { number, unit, of } = figure;
  const rows = fitDigitRows(number, { width: width - AROUND, height, ascii: look.ascii });
  if (rows === null) return null;
  return (
    <Box height={rows} flexShrink={0}>
      <Box paddingLeft={2} flexShrink={0}>
        <DrawingView look={look} drawing={bigDigits(number, { rows, ascii: look.ascii })} label={number} />
      </Box>
      <Box flexDirection="column" justifyContent="flex-end" paddingLeft={3} flexGrow={1}>
        <InkText look={look} ink="strong">
          {unit}
        </InkText>
        <InkText look={look}>{of}</InkText>
      </Box>
    </Box>
  );
};
