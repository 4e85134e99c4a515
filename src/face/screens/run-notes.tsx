/** What is read rather than looked at during a run: reminders of earlier batches, and the order of clean work. */
import { Box } from 'ink';
import { recipeOf } from '../../core/batch/moves.ts';
import type { Batch } from '../../core/batch/state.ts';
import { inoculationSteps } from '../../core/record/inoculation.ts';
import { visibleLines } from '../../core/text.ts';
import { carriedAt, carriedLines } from '../../core/words/next-time.ts';
import type { Look } from '../look.ts';
import { InkText } from '../widgets/ink-text.tsx';
import { wrapAtMost, wrapLines } from '../wrap.ts';

interface NotesProps {
  readonly look: Look;
  readonly batch: Batch;
  readonly width: number;
  readonly height: number;
}

/** What earlier batches left for this step: in full where there is room, else its beginning. */
export function carriedHere(batch: Batch, width: number, roomy: boolean): readonly string[] {
  const carried = carriedAt(visibleLines(recipeOf(batch).note), batch.step);
  const [rows, most] = roomy ? [2, 4] : [1, 1];
  return carried.flatMap(text => wrapAtMost(`From last time: ${text}`, width, rows)).slice(0, most);
}

/** At the first step: what earlier batches left in the note of the recipe. */
export const CarriedBody = ({ look, batch, width, height }: NotesProps) => {
  const carried = carriedLines(visibleLines(recipeOf(batch).note));
  const lines = carried.flatMap(text => wrapAtMost(`From last time: ${text}`, width, 3));
  return (
    <Box flexDirection="column" flexShrink={0}>
      {lines.slice(0, Math.max(0, height)).map(line => (
        <InkText key={line} look={look}>
          {line}
        </InkText>
      ))}
    </Box>
  );
};

/** Before the first bag is given its culture: how clean work goes, as many of the steps as have room whole. */
export const OrderBody = ({ look, batch, width, height }: NotesProps) => {
  const { culture, containers } = recipeOf(batch);
  let room = height;
  const shown = inoculationSteps(culture.form, containers.kind).flatMap(step => {
    const lines = wrapLines(step, width - 2);
    room -= lines.length;
    return room < 0 ? [] : lines.map((line, index) => `${index === 0 ? '- ' : '  '}${line}`);
  });
  return (
    <Box flexDirection="column" flexShrink={0}>
      {shown.map(line => (
        <InkText key={line} look={look}>
          {line}
        </InkText>
      ))}
    </Box>
  );
};
