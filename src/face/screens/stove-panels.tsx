/** Panels at the stove: troubles and their causes, the thermometer, the estimate in words, the pictures large. */
import { Box } from 'ink';
import { choicesOf } from '../../core/batch/steps.ts';
import { openAsk } from '../../core/batch/lockout.ts';
import type { TroubleId } from '../../core/batch/troubles.ts';
import { choiceWords } from '../../core/words/asks.ts';
import { TROUBLE_WORDS } from '../../core/words/troubles.ts';
import { measureFor } from '../amounts.ts';
import { fitDigits } from '../digits.ts';
import { estimateParagraphs, pagesOf } from '../estimate-pages.ts';
import { picturesOf } from '../run-view.ts';
import { span } from '../spans.ts';
import { answeredTroubles, causesOn, troubleEntries } from '../trouble-list.ts';
import { ChoiceRow, choiceRowHeight, choiceRowWidth } from '../widgets/choice-row.tsx';
import { DrawingView } from '../widgets/drawing-view.tsx';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { wrapAtMost } from '../wrap.ts';
import { type PanelProps, Sheet } from './panel-sheet.tsx';

/** Troubles on their keys, as much of each as has room. */
const TroubleList = ({ look, regions, ids }: PanelProps & { readonly ids: readonly TroubleId[] }) => {
  const width = regions.body.width - 4;
  const each = ids.length > 0 ? Math.floor((regions.body.height - 3) / ids.length) : 0;
  return ids.map((id, index) => (
    <Box key={id} flexDirection="column" flexShrink={0} marginTop={each >= 4 ? 1 : 0}>
      <SpanLine
        look={look}
        spans={[span(`${index + 1}  `, 'accent'), span(TROUBLE_WORDS[id].name, 'strong')]}
      />
      {each >= 2
        ? wrapAtMost(TROUBLE_WORDS[id].act, width, each >= 4 ? 2 : 1).map(line => (
            <InkText key={line} look={look} ink="faint">{`   ${line}`}</InkText>
          ))
        : null}
    </Box>
  ));
};

export const TroublePanel = (props: PanelProps) => {
  const { look, batch, telling } = props;
  const entries = troubleEntries(batch);
  const answered = answeredTroubles(batch)
    .map(({ key }) => {
      const choice = choicesOf(openAsk(batch)).find(entry => entry.key === key);
      return choice ? `${key} ${choiceWords(batch, openAsk(batch), choice.id, telling)}` : '';
    })
    .join(', ');
  return (
    <Sheet look={look} title="Trouble: what has happened?">
      {entries.length === 0 && answered === '' ? (
        <InkText look={look}>Nothing is listed for this step.</InkText>
      ) : null}
      <TroubleList {...props} ids={entries.map(({ id }) => id)} />
      {answered === '' ? null : (
        <InkText look={look} ink="faint">{`On the question itself (Esc): ${answered}`}</InkText>
      )}
    </Sheet>
  );
};

export const CausesPanel = (props: PanelProps) => {
  const { look, panel } = props;
  if (panel.kind !== 'causes') return null;
  const { causes, more } = causesOn(panel.of, panel.page);
  return (
    <Sheet look={look} title={`${TROUBLE_WORDS[panel.of].name}: likely causes, in this order`}>
      <TroubleList {...props} ids={causes} />
      {more ? (
        <SpanLine
          look={look}
          spans={[span('4  ', 'accent'), span('none of these: go on looking', 'strong')]}
        />
      ) : null}
    </Sheet>
  );
};

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
        <InkText look={look}>This question needs no picture.</InkText>
      ) : (
        <Box marginTop={1}>
          <ChoiceRow look={look} choices={pictures} scale={large ? 'large' : 'compact'} width={width} />
        </Box>
      )}
    </Sheet>
  );
};
