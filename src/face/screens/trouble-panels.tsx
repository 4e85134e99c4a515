/** Panels of the trouble list: what happened, the likely causes below it, and the word that ends a batch. */
import { Box } from 'ink';
import type { TroubleId } from '../../core/batch/troubles.ts';
import { troubleWords } from '../../core/words/troubles.ts';
import { span } from '../spans.ts';
import { causesOn, SURE_WORD, type TroublePage, troublesOn } from '../trouble-list.ts';
import { InkText, SpanLine } from '../widgets/ink-text.tsx';
import { wrapLines } from '../wrap.ts';
import { type PanelProps, Sheet } from './panel-sheet.tsx';

const INDENT = 3;

interface ListProps extends PanelProps {
  readonly ids: readonly TroubleId[];
  readonly more: string | null;
}

/** Troubles on their keys: with what to do about each where all of it has room, or their names alone. */
const TroubleList = ({ look, regions, batch, ids, more }: ListProps) => {
  const width = regions.body.width - INDENT;
  const acts = ids.map(id => wrapLines(troubleWords(id, batch).act, width));
  // The title, the way on, and the names.
  const room = regions.body.height - 1 - (more === null ? 0 : 1) - ids.length;
  const needed = acts.reduce((sum, lines) => sum + lines.length, 0);
  const told = needed <= room;
  const gap = room - (told ? needed : 0) >= ids.length ? 1 : 0;
  return (
    <>
      {ids.map((id, index) => (
        <Box key={id} flexDirection="column" flexShrink={0} marginTop={gap}>
          <SpanLine
            look={look}
            spans={[span(`${index + 1}  `, 'accent'), span(troubleWords(id, batch).name, 'strong')]}
          />
          {told
            ? acts[index]?.map(line => (
                <InkText key={line} look={look} ink="faint">{`${' '.repeat(INDENT)}${line}`}</InkText>
              ))
            : null}
        </Box>
      ))}
      {more === null ? null : (
        <Box marginTop={gap && room - (told ? needed : 0) > ids.length ? 1 : 0}>
          <SpanLine look={look} spans={[span('4  ', 'accent'), span(more, 'strong')]} />
        </Box>
      )}
    </>
  );
};

const titled = (title: string, { at, of }: TroublePage<unknown>): string =>
  of > 1 ? `${title} (${at} of ${of})` : title;

const onward = ({ more, at, of }: TroublePage<unknown>): string | null => {
  if (!more) return null;
  return at < of ? 'none of these: go on looking' : 'none of these: from the beginning';
};

export const TroublePanel = (props: PanelProps) => {
  const { look, batch, panel } = props;
  if (panel.kind !== 'trouble') return null;
  const page = troublesOn(batch, panel.page);
  return (
    <Sheet look={look} title={titled('Trouble: what has happened?', page)}>
      {page.entries.length === 0 ? <InkText look={look}>Nothing is listed for this step.</InkText> : null}
      <TroubleList {...props} ids={page.entries.map(({ id }) => id)} more={onward(page)} />
    </Sheet>
  );
};

export const CausesPanel = (props: PanelProps) => {
  const { look, panel } = props;
  if (panel.kind !== 'causes') return null;
  const page = causesOn(panel.of, panel.page);
  return (
    <Sheet look={look} title={titled('Likely causes, in this order', page)}>
      <TroubleList {...props} ids={page.entries} more={onward(page)} />
    </Sheet>
  );
};

/** What ends a batch: what to do at once, and a word that no slip types. */
export const EndsPanel = ({ look, regions, batch, panel }: PanelProps) => {
  if (panel.kind !== 'ends') return null;
  const { name, means, act } = troubleWords(panel.trouble, batch);
  const { width } = regions.body;
  return (
    <Sheet look={look} title={name}>
      {wrapLines(act, width).map(line => (
        <InkText key={line} look={look} ink="danger">
          {line}
        </InkText>
      ))}
      {wrapLines(means, width).map(line => (
        <InkText key={line} look={look}>
          {line}
        </InkText>
      ))}
      <Box marginTop={1}>
        <SpanLine
          look={look}
          spans={[
            span('Then type '),
            span(SURE_WORD, 'watch'),
            span(' and Enter, or Esc if it was a slip   '),
            span(`${panel.text}_`, 'strong'),
          ]}
        />
      </Box>
    </Sheet>
  );
};
