import { renderToString } from 'ink';
import { expect, it } from 'vitest';
import { lookFor } from '../../src/face/look.ts';
import { choicePictures, picturedChoices } from '../../src/face/pictures/choices.ts';
import { rowText, span } from '../../src/face/spans.ts';
import { DrawingView } from '../../src/face/widgets/drawing-view.tsx';

it('puts every picture on the screen cell for cell', () => {
  const look = lookFor({ colour: 'none', ascii: false });
  for (const [ask, choices] of picturedChoices()) {
    for (const choice of choices) {
      const drawing = choicePictures(ask, choice, 'compact', false) ?? [];
      const wanted = drawing.map(row => rowText(row).trimEnd()).join('\n');
      const shown = renderToString(<DrawingView drawing={drawing} look={look} />, { columns: 60 });
      expect(shown.replace(/ +$/gm, '')).toBe(wanted);
    }
  }
});

it('never wraps a row that is too wide', () => {
  const drawing = [[span('#'.repeat(50))], [span('-'.repeat(50), 'faint')]];
  const shown = renderToString(
    <DrawingView drawing={drawing} look={lookFor({ colour: 'none', ascii: true })} />,
    {
      columns: 20,
    },
  );
  expect(shown.split('\n')).toHaveLength(2);
});
