/** Panels at the stove: the thermometer, the estimate in words, the pictures large. */
import { Box } from 'ink';
import { measureFor } from '../amounts.ts';
import { fitDigits } from '../digits.ts';
import { estimateParagraphs, pagesOf } from '../estimate-pages.ts';
import { picturesOf } from '../run-view.ts';
import { span } from '../spans.ts';
import { ChoiceRow, choiceRowHeight, choiceRowWidth } from '../widgets/choice-row.tsx';
import { DrawingView } from '../widgets/drawing-view.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { type PanelProps, Sheet } from './panel-sheet.tsx';

export const WherePanel = ({ look }: PanelProps) => (
  <Sheet look={look} title="Where is the thermometer?">
    <Box marginTop={1}>
      <SpanLine look={look} spans={[span('1  ', 'accent'), span('in the middle of a container', 'strong')]} />
    </Box>
    <Box marginTop={1}>
      <SpanLine
        look={look}
        spans={[span('2  ', 'accent'), span('against the outside of the shut vessel', 'strong')]}
      />
    </Box>
  </Sheet>
);

export const MeasurePanel = ({ look, regions, units, panel }: PanelProps) => {
  if (panel.kind !== 'measure') return null;
  const scale = measureFor('temperature', units);
  const digits = fitDigits(panel.text === '' ? '0' : panel.text, {
    width: regions.body.width - 14,
    height: Math.min(9, regions.body.height - 5),
    ascii: look.ascii,
    ink: panel.text === '' ? 'faint' : 'strong',
  });
  const title =
    panel.of === 'centre'
      ? 'Thermometer in the middle of a container: how warm?'
      : 'Thermometer against the vessel: how warm?';
  return (
    <Sheet look={look} title={title}>
      <Box marginTop={1} paddingLeft={2}>
        <DrawingView look={look} drawing={digits} label={`${panel.text} ${scale.unit}`} />
        <Box paddingLeft={2} alignItems="flex-end">
          <InkText look={look}>{`${look.symbols.degree}${scale.unit}`}</InkText>
        </Box>
      </Box>
    </Sheet>
  );
};

export const NumbersPanel = ({ look, regions, batch, telling, panel }: PanelProps) => {
  if (panel.kind !== 'numbers') return null;
  const pages = pagesOf(estimateParagraphs(batch, telling), regions.body.width, regions.body.height - 2);
  const at = panel.page % pages.length;
  return (
    <Sheet look={look} title={`Numbers ${pages.length > 1 ? `(${at + 1} of ${pages.length})` : ''}`}>
      {(pages[at] ?? []).map((line, index) => (
        <InkText key={`${index}${line}`} look={look}>
          {line}
        </InkText>
      ))}
    </Sheet>
  );
};

export const PicturesPanel = ({ look, regions, batch, telling }: PanelProps) => {
  const pictures = picturesOf(batch, telling);
  const { width, height } = regions.body;
  const large = choiceRowWidth('large', pictures.length) <= width && choiceRowHeight('large') + 2 <= height;
  return (
    <Sheet look={look} title="What does it look like?">
      {pictures.length === 0 ? (
        <InkText look={look}>This question has no pictures.</InkText>
      ) : (
        <Box marginTop={1}>
          <ChoiceRow look={look} choices={pictures} scale={large ? 'large' : 'compact'} width={width} />
        </Box>
      )}
    </Sheet>
  );
};
